// @ts-check
/** The firings that are seen, as a CSV file; a column of the same name as in data/firings.csv means the same. */

const firingsCsv = (() => {
  "use strict";
  const { values, facet, isoDate } = firingsColumns;
  const COLUMNS = ["firing", "number", "title", "date", "potter", "method", "place", "ware", "peak_c", "pieces", "judged", "successes", "url"];
  // What a spreadsheet may take for the beginning of a formula, as in builder/exports/cells.py.
  const FORMULA = /^[=+\-@\t\r\n＝＋－＠]/;
  const BARE_NUMBER = /^[+-]?\d+([.,]\d+)?$/;

  /** @param {string} text */
  const inert = (text) => (FORMULA.test(text) && !BARE_NUMBER.test(text) ? `'${text}` : text);

  /** @param {string} text */
  const quoted = (text) => (/[",\r\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text);

  /** @param {Columns} columns @param {number} row @param {string} site  address of the site's root; empty where it has none */
  function cells(columns, row, site) {
    const slug = columns.slugs[row];
    return [
      slug,
      String(row + 1),
      columns.titles[row],
      isoDate(columns, row),
      values(facet(columns, "potter"), row)[0],
      values(facet(columns, "method"), row)[0],
      ...values(columns.places, row),
      ...values(columns.wares, row),
      Number.isNaN(columns.peaks[row]) ? "" : String(columns.peaks[row]),
      String(columns.pieces[row]),
      String(columns.judged[row]),
      String(columns.successes[row]),
      `${site}firings/${encodeURIComponent(slug)}.html`,
    ];
  }

  /** @param {Columns} columns @param {number[]} rows @param {string} site */
  function file(columns, rows, site) {
    const lines = [COLUMNS, ...rows.map((row) => cells(columns, row, site))];
    const text = lines.map((line) => line.map((cell) => quoted(inert(cell))).join(",") + "\r\n").join("");
    return new File([text], "firings-seen.csv", { type: "text/csv;charset=utf-8" });
  }

  return { file };
})();
