// @ts-check
/** The units of each kind of quantity and every way to write them, as the check knows them (builder/base/units.py). */

/**
 * @typedef {{symbol: string, words: string[], times: number, per: number, zero: number}} Unit
 * @typedef {{name: string, words: string, example: string, compound?: boolean, grouped?: boolean, units: Unit[],
 *   spellings: Map<string, Unit>}} Kind
 * @typedef {{code: string, message: string, help: string}} Fault
 */

/** @typedef {{said: Record<string, Fault>, kinds: Record<string, Kind>, rate: string, degreesAlone: string[], longest: number}} QuantityWords */

const units = (() => {
  "use strict";

  /** @type {Record<string, string>} */
  const LOOKALIKES = { "º": "°", "˚": "°", "∘": "°", "⁰": "°", "ᵒ": "°", "µ": "μ", "′": "'", "’": "'", "‘": "'", "″": '"', "”": '"', "“": '"' };

  /** A unit's words in one spelling. @param {string} words */
  function plainUnit(words) {
    const alike = [...words].map((sign) => LOOKALIKES[sign] ?? sign).join("");
    const spaced = alike.toLowerCase().replace(/\s+/g, " ").trim();
    return spaced.replace(/ ?\/ ?| (?:per|an|a) /g, "/").replace(/^[ .]+|[ .]+$/g, "").replaceAll("./", "/");
  }

  /** @param {Unit} unit @param {number} value */
  const canonical = (unit, value) => ((value - unit.zero) * unit.times) / unit.per;
  /** @param {Unit} unit @param {number} value */
  const ofCanonical = (unit, value) => (value * unit.per) / unit.times + unit.zero;

  /** Every way to write a unit of a kind. @param {Kind} kind */
  function spellingsOf(kind) {
    /** @type {Map<string, Unit>} */
    const found = new Map();
    for (const unit of kind.units) {
      for (const word of [unit.symbol, ...unit.words]) {
        for (const spelling of [word, plainUnit(word)]) found.set(spelling, unit);
      }
    }
    return found;
  }

  /** @param {Kind} kind @param {string} words @returns {Unit | null} */
  function findUnit(kind, words) {
    return kind.spellings.get(words) ?? kind.spellings.get(plainUnit(words)) ?? null;
  }

  /** What a unit of another kind measures. @param {QuantityWords} words @param {string} plain */
  function otherKind(words, plain) {
    for (const kind of Object.values(words.kinds)) {
      if (kind.name === "time" && isRate(words, plain)) return words.rate;
      if (kind.spellings.has(plain)) return kind.words;
    }
    return "";
  }

  /** @param {QuantityWords} words @param {string} plain */
  function isRate(words, plain) {
    const [step, time, more] = plain.split("/");
    if (time === undefined || more !== undefined) return false;
    const times = words.kinds.time.units.slice(0, 3).flatMap((unit) => [unit.symbol, ...unit.words]);
    return words.kinds.temperature_step.spellings.has(step) && times.includes(time) && /^\p{L}+$/u.test(time);
  }

  /**
   * Make the kinds of quantity ready for reading.
   * @param {{kinds: Record<string, any>, quantity: Record<string, Fault>, rate: string, degreesAlone: string[], limits: {quantity: number}}} rules
   * @returns {QuantityWords}
   */
  function ready(rules) {
    /** @type {Record<string, Kind>} */
    const kinds = {};
    for (const [name, kind] of Object.entries(rules.kinds)) {
      kinds[name] = { name, ...kind };
      kinds[name].spellings = spellingsOf(kinds[name]);
    }
    return { said: rules.quantity, kinds, rate: rules.rate, degreesAlone: rules.degreesAlone, longest: rules.limits.quantity };
  }

  return { ready, findUnit, plainUnit, otherKind, canonical, ofCanonical };
})();
