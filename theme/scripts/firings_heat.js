// @ts-check
/**
 * Between which temperatures the hottest reading is asked for: two fields in the reader's unit. What was typed is kept
 * as it was typed, in its own unit: turned to whole °C and back, 1300 °F would become 1299.
 *
 * @typedef {{value: number, unit: "c" | "f"}} Bound  whole degrees
 *
 * @typedef {object} HeatRange
 * @property {boolean} set
 * @property {Bound} [from]
 * @property {Bound} [to]
 * @property {string} words
 */

const firingsHeat = (() => {
  "use strict";
  const HIGHEST = 9999;
  const degrees = /** @type {any} */ (window).ashbookDegrees;

  /** @returns {"c" | "f"} */
  const unit = () => degrees.unit();

  /** Whole degrees of a unit. @param {number} celsius @param {"c" | "f"} of */
  const whole = (celsius, of) => Math.round(of === "f" ? degrees.fahrenheit(celsius, false) : celsius);

  /** @param {number} typed @returns {Bound} */
  const bound = (typed) => ({ value: Math.min(Math.max(Math.round(typed), 0), HIGHEST), unit: unit() });

  /** In the reader's unit. @param {Bound} kept */
  function shown(kept) {
    if (kept.unit === unit()) return kept.value;
    return whole(kept.unit === "f" ? (kept.value - 32) / 1.8 : kept.value, unit());
  }

  /** A firing without a hottest reading is in no range. @param {HeatRange} range @param {number} peak  °C */
  function holds({ set, from, to }, peak) {
    if (!set) return true;
    if (Number.isNaN(peak)) return false;
    return (!from || whole(peak, from.unit) >= from.value) && (!to || whole(peak, to.unit) <= to.value);
  }

  /** @param {number} unknown */
  function leftOut(unknown) {
    if (unknown === 0) return "";
    return unknown === 1 ? " 1 more has no hottest reading and is left out." : ` ${firingsCount(unknown)} more have no hottest reading and are left out.`;
  }

  /** @param {string} from @param {string} to  as they stand in the fields */
  function words(from, to) {
    const sign = unit() === "f" ? "°F" : "°C";
    const plain = (/** @type {string} */ text) => degrees.plain(Number(text), 0);
    if (from && to) return `hottest from ${plain(from)} to ${plain(to)} ${sign}`;
    return from ? `hottest ${plain(from)} ${sign} or more` : `hottest ${plain(to)} ${sign} or less`;
  }

  /** The two fields of a form; without them nothing is ever asked. @param {HTMLFormElement} form */
  function fields(form) {
    const inputs = /** @type {HTMLInputElement[]} */ ([...form.querySelectorAll("[data-heat-range] input")]);
    /** @type {Map<string, Bound>} what is asked by a field's name */
    const kept = new Map();

    /** @param {HTMLInputElement} input */
    function keep(input) {
      if (input.value === "") kept.delete(input.name);
      else kept.set(input.name, bound(input.valueAsNumber));
    }

    /** @returns {HeatRange} */
    function asked() {
      const [from, to] = inputs.map((input) => input.value);
      const set = kept.size > 0;
      return { set, from: kept.get("from"), to: kept.get("to"), words: set ? words(from, to) : "" };
    }

    function turn() {
      for (const input of inputs) {
        const own = kept.get(input.name);
        input.value = own === undefined ? "" : String(shown(own));
      }
    }

    /** `704` is in °C, `1300F` in °F. @param {URLSearchParams} address */
    function read(address) {
      kept.clear();
      for (const { name } of inputs) {
        const found = /^(\d{1,4})(F?)$/.exec(address.get(name) ?? "");
        if (found) kept.set(name, { value: Number(found[1]), unit: found[2] ? "f" : "c" });
      }
      turn();
    }

    /** @param {URLSearchParams} address */
    function write(address) {
      for (const [name, own] of kept) address.set(name, `${own.value}${own.unit === "f" ? "F" : ""}`);
    }

    function clear() {
      kept.clear();
      turn();
    }

    for (const input of inputs) input.addEventListener("input", () => keep(input));
    return { asked, turn, read, write, clear };
  }

  return { fields, holds, leftOut };
})();
