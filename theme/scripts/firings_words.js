// @ts-check
/** Words asked for, looked up in the columns of all firings: in titles, and in all else that stands on a line. */

const firingsWords = (() => {
  "use strict";
  const { facet } = firingsColumns;
  /** @type {WeakMap<string[], string[]>} lists of words without accents and capitals */
  const kept = new WeakMap();

  /** @param {string} words */
  function folded(words) {
    return words.normalize("NFKD").replace(/\p{Mark}/gu, "").toLowerCase();
  }

  /** @param {string[]} list */
  function foldedList(list) {
    const made = kept.get(list) ?? list.map(folded);
    kept.set(list, made);
    return made;
  }

  /** Cut what was typed into words. @param {string} typed */
  const asked = (typed) => folded(typed).split(/\s+/).filter(Boolean);

  /** @param {Columns} columns */
  function searched(columns) {
    const { days, materials, pots, places, wares } = columns;
    return [...["year", "method", "potter"].map((key) => facet(columns, key)), days, materials, pots, places, wares];
  }

  /** Which rows have one word. @param {Columns} columns @param {string} word */
  function having(columns, word) {
    const found = Uint8Array.from(foldedList(columns.titles), (title) => Number(title.includes(word)));
    if (/^\d+$/.test(word) && Number(word) <= columns.size && Number(word) > 0) found[Number(word) - 1] = 1;
    for (const { labels, sets, rows } of searched(columns)) {
      const fits = foldedList(labels).map((label) => label.includes(word));
      if (!fits.includes(true)) continue;
      const setFits = sets.map((set) => set.some((place) => fits[place]));
      for (let row = 0; row < rows.length; row += 1) if (setFits[rows[row]]) found[row] = 1;
    }
    return found;
  }

  /** Which rows have all words: 1 or 0 by row. @param {Columns} columns @param {string[]} words */
  function havingAll(columns, words) {
    const found = new Uint8Array(columns.size).fill(1);
    for (const word of words) {
      const own = having(columns, word);
      for (let row = 0; row < found.length; row += 1) found[row] &= own[row];
    }
    return found;
  }

  return { asked, havingAll };
})();
