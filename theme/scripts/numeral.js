// @ts-check
/** Numbers as people write them, read as the check reads them (builder/base/numerals.py), and how alike two words are. */

const numerals = (() => {
  "use strict";

  const SPACED = /\d{1,3}(?: \d{3})+(?:[.,]\d+)?(?![\d/])/y;
  const RUN = /\d+(?:'\d{3}(?!\d))*(?:[.,]\d+)*|[.,]\d+/y;
  const FRACTION = /(\d{1,4}) ?\/ ?(\d{1,4})(?!\d)/y;
  const AFTER_WHOLE = /[ -]?(?=\d{1,4} ?\/ ?\d|[¼-¾⅐-⅞↉])/y;
  const VULGAR = /[¼-¾⅐-⅞↉]/y;
  const LARGEST = 1e9;

  /** @param {RegExp} pattern sticky @param {string} text @param {number} at */
  function matchAt(pattern, text, at) {
    pattern.lastIndex = at;
    return pattern.exec(text);
  }

  class NumeralFault extends Error {
    /** @param {"ambiguous" | "tooLarge" | "badNumber"} name @param {string} written @param {string[]} [readings] */
    constructor(name, written, readings = []) {
      super(written);
      this.fault = name;
      this.written = written;
      this.readings = readings;
    }
  }

  /** @param {string} number @param {string} written */
  function bounded(number, written) {
    const value = Number(number);
    if (value > LARGEST) throw new NumeralFault("tooLarge", written);
    return value;
  }

  /** @param {string} written @param {boolean} grouped */
  function decimal(written, grouped) {
    if (written.length > 24) throw new NumeralFault("tooLarge", written);
    const signs = [...written].filter((sign) => sign === "." || sign === ",");
    if (!signs.length) return bounded(written, written);
    const last = signs[signs.length - 1];
    const cut = written.lastIndexOf(last);
    const [head, tail] = [written.slice(0, cut), written.slice(cut + 1)];
    if (signs.length === 1) return oneSign(written, head, last, tail, grouped);
    const alike = (/** @type {string[]} */ some) => new Set(some).size === 1;
    let [whole, rest] = [head, tail];
    if (alike(signs)) [whole, rest] = [written, ""];
    else if (!(alike(signs.slice(0, -1)) && last !== signs[0])) throw new NumeralFault("badNumber", written);
    const [first, ...groups] = whole.split(/[.,]/);
    if (!(first.length >= 1 && first.length <= 3 && groups.every((group) => group.length === 3))) {
      throw new NumeralFault("badNumber", written);
    }
    return bounded(`${first}${groups.join("")}.${rest}`, written);
  }

  /** @param {string} written @param {string} head @param {string} sign @param {string} tail @param {boolean} grouped */
  function oneSign(written, head, sign, tail, grouped) {
    const asDecimal = `${head || "0"}.${tail}`;
    const ledByNought = /^0*$/.test(head);
    const couldPart = grouped && tail.length === 3 && head.length <= 3 && !ledByNought;
    if (couldPart && sign === ",") return bounded(head + tail, written);
    if (couldPart) {
      const shorter = asDecimal.replace(/0+$/, "").replace(/\.+$/, "");
      throw new NumeralFault("ambiguous", written, [shorter !== asDecimal ? shorter : `${asDecimal}0`, head + tail]);
    }
    if (sign === "," && head.length === 1 && tail.length === 1 && !ledByNought) {
      throw new NumeralFault("ambiguous", written, [asDecimal, `${head} to ${tail}`]);
    }
    return bounded(asDecimal, written);
  }

  /** @type {Record<string, number>} */
  const VULGARS = { "¼": 0.25, "½": 0.5, "¾": 0.75, "⅐": 1 / 7, "⅑": 1 / 9, "⅒": 0.1, "⅓": 1 / 3, "⅔": 2 / 3, "⅕": 0.2, "⅖": 0.4, "⅗": 0.6, "⅘": 0.8, "⅙": 1 / 6, "⅚": 5 / 6, "⅛": 0.125, "⅜": 0.375, "⅝": 0.625, "⅞": 0.875, "↉": 0 };

  /** @param {string} text @param {number} at @returns {{value: number, end: number} | null} */
  function fraction(text, at) {
    const vulgar = matchAt(VULGAR, text, at);
    if (vulgar) return { value: VULGARS[vulgar[0]], end: at + 1 };
    const match = matchAt(FRACTION, text, at);
    if (!match) return null;
    if (Number(match[2]) === 0) throw new NumeralFault("badNumber", match[0]);
    return { value: Number(match[1]) / Number(match[2]), end: at + match[0].length };
  }

  /** @param {string} text @param {number} at @param {boolean} grouped @returns {{value: number, end: number} | null} */
  function numeral(text, at, grouped) {
    const alone = fraction(text, at);
    if (alone) return alone;
    const match = matchAt(SPACED, text, at) ?? matchAt(RUN, text, at);
    if (!match) return null;
    const written = match[0];
    const end = at + written.length;
    const value = decimal(written.replace(/[ ']/g, ""), grouped);
    const gap = /^\d+$/.test(written) ? matchAt(AFTER_WHOLE, text, end) : null;
    const rest = gap ? fraction(text, end + gap[0].length) : null;
    return rest && rest.value < 1 ? { value: value + rest.value, end: rest.end } : { value, end };
  }

  /** What difflib calls the ratio of two words. @param {string} a @param {string} b */
  function likeness(a, b) {
    /** @param {number} a0 @param {number} a1 @param {number} b0 @param {number} b1 @returns {number} */
    function same(a0, a1, b0, b1) {
      let [bestA, bestB, size] = [a0, b0, 0];
      for (let i = a0; i < a1; i += 1) {
        for (let j = b0; j < b1; j += 1) {
          let length = 0;
          while (i + length < a1 && j + length < b1 && a[i + length] === b[j + length]) length += 1;
          if (length > size) [bestA, bestB, size] = [i, j, length];
        }
      }
      return size ? size + same(a0, bestA, b0, bestB) + same(bestA + size, a1, bestB + size, b1) : 0;
    }
    return a.length + b.length ? (2 * same(0, a.length, 0, b.length)) / (a.length + b.length) : 1;
  }

  return { matchAt, likeness, numeral, NumeralFault };
})();
