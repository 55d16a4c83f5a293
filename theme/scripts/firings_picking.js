// @ts-check
/**
 * Picking and sorting over the columns of all firings: which rows are asked for, and what each facet's values would
 * leave.
 *
 * @typedef {object} Asked
 * @property {Map<string, Set<string>>} picked  values by facet
 * @property {string} words
 * @property {string} sort
 * @property {HeatRange} heat  between which temperatures the hottest reading is
 *
 * @typedef {object} Picked
 * @property {number[]} rows  in the order asked for
 * @property {Map<string, Map<string, number>>} counts  by facet and value, given all other facets
 * @property {number} unknown  rows left out because their heat is not known
 */

const firingsPicking = (() => {
  "use strict";
  /** @type {Record<string, (columns: Columns) => (one: number, other: number) => number>} rows compared, by order */
  const SORTS = {
    newest: () => (one, other) => other - one,
    oldest: () => (one, other) => one - other,
    hottest: ({ peaks }) => byNumber(peaks, -1),
    coolest: ({ peaks }) => byNumber(peaks, 1),
    longest: ({ lengths }) => byNumber(lengths, -1),
    most: ({ pieces }) => byNumber(pieces, -1),
    title: byTitle,
  };

  /** What is not known stands last; what is equal, the newest first. @param {Float64Array} numbers @param {number} sign */
  function byNumber(numbers, sign) {
    return (/** @type {number} */ one, /** @type {number} */ other) => {
      const [a, b] = [numbers[one], numbers[other]];
      if (Number.isNaN(a) || Number.isNaN(b)) return Number(Number.isNaN(a)) - Number(Number.isNaN(b)) || other - one;
      return sign * (a - b) || other - one;
    };
  }

  /** @param {Columns} columns */
  function byTitle({ titles }) {
    const { compare } = new Intl.Collator(document.documentElement.lang || undefined);
    return (/** @type {number} */ one, /** @type {number} */ other) => compare(titles[one], titles[other]) || one - other;
  }

  /** Of every row, how many facets it misses, and the last of those. @param {Columns} columns @param {Asked} asked */
  function misses(columns, asked) {
    const [many, last] = [new Uint8Array(columns.size), new Uint8Array(columns.size)];
    let number = 0;
    for (const [key, { words, sets, rows }] of columns.facets) {
      const picked = asked.picked.get(key);
      if (picked?.size) {
        const fits = sets.map((set) => set.some((place) => picked.has(words[place])));
        for (let row = 0; row < rows.length; row += 1) {
          if (fits[rows[row]]) continue;
          many[row] += 1;
          last[row] = number;
        }
      }
      number += 1;
    }
    return { many, last };
  }

  /** A facet counts the rows that miss nothing, and those that miss it alone.
   * @param {Column} column @param {number[]} found @param {number[]} missed */
  function counted({ words, sets, rows }, found, missed) {
    const bySet = new Uint32Array(sets.length);
    for (const row of found) bySet[rows[row]] += 1;
    for (const row of missed) bySet[rows[row]] += 1;
    /** @type {Map<string, number>} */
    const counts = new Map();
    sets.forEach((set, at) => {
      for (const place of set) counts.set(words[place], (counts.get(words[place]) ?? 0) + bySet[at]);
    });
    return counts;
  }

  /** Or within a facet, and between facets. @param {Columns} columns @param {Asked} asked @returns {Picked} */
  function pick(columns, asked) {
    const worded = firingsWords.havingAll(columns, firingsWords.asked(asked.words));
    const { many, last } = misses(columns, asked);
    /** @type {number[]} */
    const rows = [];
    /** @type {number[][]} */
    const missed = [...columns.facets].map(() => []);
    let unknown = 0;
    for (let row = 0; row < columns.size; row += 1) {
      if (!worded[row] || many[row] > 1) continue;
      if (!firingsHeat.holds(asked.heat, columns.peaks[row])) unknown += Number(!many[row] && Number.isNaN(columns.peaks[row]));
      else if (many[row]) missed[last[row]].push(row);
      else rows.push(row);
    }
    const counts = new Map([...columns.facets].map(([key, column], number) => [key, counted(column, rows, missed[number])]));
    return { rows: rows.sort(SORTS[asked.sort](columns)), counts, unknown };
  }

  /** @param {string} sort */
  const isOrder = (sort) => Object.hasOwn(SORTS, sort);

  return { pick, isOrder };
})();
