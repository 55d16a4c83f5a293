// The rows of the list of firings: what is known of each, and the orders they can stand in.

/**
 * @typedef {object} Row
 * @property {HTMLElement} element
 * @property {Record<string, string[]>} facets
 * @property {string} words   what a search by words looks into
 * @property {string} title
 * @property {number} number
 * @property {number} peak    hottest reading, °C; NaN where not known
 * @property {number} length  minutes from lighting to the last reading; NaN where not known
 * @property {number} pieces
 */

const firingRows = (() => {
  "use strict";
  const SORTS = {
    newest: (a, b) => b.number - a.number,
    oldest: (a, b) => a.number - b.number,
    hottest: (a, b) => knownFirst(a.peak, b.peak, b.peak - a.peak) || b.number - a.number,
    coolest: (a, b) => knownFirst(a.peak, b.peak, a.peak - b.peak) || b.number - a.number,
    longest: (a, b) => knownFirst(a.length, b.length, b.length - a.length) || b.number - a.number,
    most: (a, b) => b.pieces - a.pieces || b.number - a.number,
    title: (a, b) => a.title.localeCompare(b.title, document.documentElement.lang || undefined),
  };

  /** @param {number} a @param {number} b @param {number} order */
  function knownFirst(a, b, order) {
    if (Number.isNaN(a) || Number.isNaN(b)) return Number(Number.isNaN(a)) - Number(Number.isNaN(b));
    return order;
  }

  /** @param {string} words */
  function folded(words) {
    return words.normalize("NFKD").replace(/\p{Mark}/gu, "").toLowerCase();
  }

  /** A row reads its own words and facets when they are first asked for: a long list is ready at once. @param {HTMLElement} element @returns {Row} */
  function read(element) {
    const data = element.dataset;
    const number = (/** @type {string | undefined} */ text) => (text ? Number(text) : NaN);
    /** @type {Record<string, string[]> | undefined} */
    let facets;
    /** @type {string | undefined} */
    let words;
    return {
      element,
      get facets() {
        return (facets ??= JSON.parse(data.facets || "{}"));
      },
      get words() {
        const own = (element.textContent || "").replace(element.querySelector(".pick")?.textContent || "", "");
        return (words ??= folded(own).replace(/\s+/g, " "));
      },
      get title() {
        return (element.querySelector("a") || element).textContent || "";
      },
      number: number(data.number),
      peak: number(data.peak),
      length: number(data.length),
      pieces: number(data.pieces),
    };
  }

  return { SORTS, folded, read };
})();
