// @ts-check
/** Between which temperatures the hottest reading is asked for: two fields in the reader's unit, kept in whole °C. */

/**
 * @typedef {object} HeatRange
 * @property {boolean} set
 * @property {number} from  whole °C; minus infinity where not asked
 * @property {number} to    whole °C; infinity where not asked
 * @property {string} words
 */

const firingsHeat = (() => {
  "use strict";
  const HIGHEST = 9999;
  const degrees = /** @type {any} */ (window).ashbookDegrees;
  const inFahrenheit = () => degrees.unit() === "f";

  /** @param {number} shown  in the reader's unit */
  function celsius(shown) {
    const whole = Math.round(inFahrenheit() ? (shown - 32) / 1.8 : shown);
    return Math.min(Math.max(whole, 0), HIGHEST);
  }

  /** @param {number} whole  °C */
  const shown = (whole) => Math.round(inFahrenheit() ? degrees.fahrenheit(whole, false) : whole);

  /** A firing without a hottest reading is in no range. @param {HeatRange} range @param {number} peak */
  function holds(range, peak) {
    const whole = Math.round(peak);
    return !range.set || (whole >= range.from && whole <= range.to);
  }

  /** @param {number} unknown */
  function leftOut(unknown) {
    if (unknown === 0) return "";
    return unknown === 1 ? " 1 more has no hottest reading and is left out." : ` ${unknown} more have no hottest reading and are left out.`;
  }

  /** @param {string} from @param {string} to  as they stand in the fields */
  function words(from, to) {
    const unit = inFahrenheit() ? "°F" : "°C";
    const plain = (/** @type {string} */ text) => degrees.plain(Number(text), 0);
    if (from && to) return `hottest from ${plain(from)} to ${plain(to)} ${unit}`;
    return from ? `hottest ${plain(from)} ${unit} or more` : `hottest ${plain(to)} ${unit} or less`;
  }

  /** The two fields of a form; without them nothing is ever asked. @param {HTMLFormElement} form */
  function fields(form) {
    const inputs = /** @type {HTMLInputElement[]} */ ([...form.querySelectorAll("[data-heat-range] input")]);
    /** @type {Map<string, number>} what is asked by a field's name, °C; it stays when the unit turns */
    const kept = new Map();

    function keep() {
      kept.clear();
      for (const input of inputs) if (input.value !== "") kept.set(input.name, celsius(input.valueAsNumber));
    }

    /** @returns {HeatRange} */
    function asked() {
      const [from, to] = inputs.map((input) => input.value);
      const set = kept.size > 0;
      return { set, from: kept.get("from") ?? -Infinity, to: kept.get("to") ?? Infinity, words: set ? words(from, to) : "" };
    }

    function turn() {
      for (const input of inputs) {
        const whole = kept.get(input.name);
        input.value = whole === undefined ? "" : String(shown(whole));
      }
    }

    /** @param {URLSearchParams} address */
    function read(address) {
      kept.clear();
      for (const { name } of inputs) {
        const text = address.get(name) ?? "";
        if (/^\d{1,4}$/.test(text)) kept.set(name, Number(text));
      }
      turn();
    }

    /** @param {URLSearchParams} address */
    function write(address) {
      for (const [name, whole] of kept) address.set(name, String(whole));
    }

    for (const input of inputs) input.addEventListener("input", keep);
    return { asked, turn, read, write, clear: keep };
  }

  return { fields, holds, leftOut };
})();
