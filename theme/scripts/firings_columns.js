// @ts-check
/**
 * The columns of all firings, as builder/pages/list_columns.py writes them: read once, a row a firing, the oldest first.
 *
 * @typedef {object} Column  words of which every row has a set
 * @property {string[]} words
 * @property {string[]} labels  the words as they are shown
 * @property {number[][]} sets  places of words
 * @property {Float64Array} rows  which set, by row
 *
 * @typedef {object} Columns
 * @property {number} size
 * @property {string[]} titles
 * @property {string[]} slugs
 * @property {Float64Array} dates  days from 1 January of the year 1, which is 1
 * @property {Map<string, Column>} facets
 * @property {Column} days  day and month in words
 * @property {Column} materials
 * @property {Column} marks  pots as SVG
 * @property {Column} pots  pots in words
 * @property {Column} places
 * @property {Column} wares
 * @property {Record<string, string>} fires  the kind of fire as SVG, by method
 * @property {Float64Array} more  pots that are not drawn
 * @property {Float64Array} peaks  hottest reading, °C; NaN where not known
 * @property {Float64Array} lengths  minutes from lighting to the last reading; NaN where not known
 * @property {Float64Array} pieces
 * @property {Float64Array} judged
 * @property {Float64Array} successes
 * @property {number} curvesEach  curves in one file
 */

const firingsColumns = (() => {
  "use strict";
  const DIGITS = "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz-_";
  const UNIX_EPOCH = 719163; // the day that 1 January 1970 is, counted so
  const DAY_MS = 86_400_000;

  /** @type {Uint8Array} a digit's worth by its letter */
  const worth = new Uint8Array(128);
  for (let digit = 0; digit < DIGITS.length; digit += 1) worth[DIGITS.charCodeAt(digit)] = digit;

  /** Read what packed_numbers wrote; NaN where nothing is known. @param {string} text @param {number} [parts] of a whole */
  function numbers(text, parts = 1) {
    const [width, least] = text.split(":", 2).map(Number);
    const start = text.indexOf(":", text.indexOf(":") + 1) + 1;
    const found = new Float64Array((text.length - start) / width);
    for (let row = 0, at = start; row < found.length; row += 1) {
      let number = 0;
      for (const end = at + width; at < end; at += 1) number = number * 64 + worth[text.charCodeAt(at)];
      found[row] = number === 0 ? NaN : (number - 1 + least) / parts;
    }
    return found;
  }

  /** @param {{words: string[], rows: string, labels?: string[], sets?: number[][]}} told @returns {Column} */
  function column(told) {
    const { words, labels = words, sets = words.map((_, place) => [place]) } = told;
    return { words, labels, sets, rows: numbers(told.rows) };
  }

  /** @param {any} told @returns {Columns} */
  function read(told) {
    /** @type {Map<string, Column>} */
    const facets = new Map();
    for (const [key, facet] of Object.entries(told.facets)) facets.set(key, column(facet));
    return {
      size: told.titles.length,
      titles: told.titles,
      slugs: told.slugs,
      fires: told.fires,
      curvesEach: told.curvesEach,
      facets,
      dates: numbers(told.dates),
      more: numbers(told.more),
      peaks: numbers(told.peaks, 10),
      lengths: numbers(told.lengths, 10),
      pieces: numbers(told.pieces),
      judged: numbers(told.judged),
      successes: numbers(told.successes),
      days: column(told.days),
      materials: column(told.materials),
      marks: column(told.marks),
      pots: column(told.pots),
      places: column(told.places),
      wares: column(told.wares),
    };
  }

  /** Load and read the columns. @param {string} address @returns {Promise<Columns>} */
  async function load(address) {
    await scriptFiles.load(address);
    return read(/** @type {any} */ (window).ashbookList);
  }

  /** A row's words as they are shown. @param {Column} from @param {number} row */
  const labels = (from, row) => from.sets[from.rows[row]].map((place) => from.labels[place]);

  /** A row's values. @param {Column} from @param {number} row */
  const values = (from, row) => from.sets[from.rows[row]].map((place) => from.words[place]);

  /** @param {Columns} columns @param {string} key @returns {Column} */
  const facet = (columns, key) => /** @type {Column} */ (columns.facets.get(key));

  /** A firing's date as `2026-05-02`. @param {Columns} columns @param {number} row */
  const isoDate = (columns, row) => new Date((columns.dates[row] - UNIX_EPOCH) * DAY_MS).toISOString().slice(0, 10);

  return { load, labels, values, facet, isoDate };
})();
