// @ts-check
/** The firings that are seen, as a CSV file; a column of the same name as in data/firings.csv means the same. */

const firingsCsv = (() => {
  "use strict";
  const COLUMNS = ["firing", "number", "title", "date", "potter", "method", "place", "ware", "peak_c", "pieces", "judged", "successes", "url"];
  // What a spreadsheet may take for the beginning of a formula, as in builder/exports/cells.py.
  const FORMULA = /^[=+\-@\t\r\n＝＋－＠]/;
  const BARE_NUMBER = /^[+-]?\d+([.,]\d+)?$/;

  /** @param {string} text */
  const inert = (text) => (FORMULA.test(text) && !BARE_NUMBER.test(text) ? `'${text}` : text);

  /** @param {string} text */
  const quoted = (text) => (/[",\r\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text);

  /** @param {Row} row @param {string} site  address of the site's root; empty where it has none of its own */
  function cells(row, site) {
    const data = row.element.dataset;
    const page = row.element.querySelector("a")?.getAttribute("href") ?? "";
    return [
      decodeURIComponent(page.replace(/\.html$/, "")),
      data.number,
      row.title,
      row.element.querySelector("time")?.dateTime,
      row.facets.potter[0],
      row.facets.method[0],
      data.place,
      data.ware,
      Number.isNaN(row.peak) ? "" : String(row.peak),
      data.pieces,
      data.judged,
      data.successes,
      `${site}firings/${page}`,
    ];
  }

  /** @param {Row[]} rows @param {string} site */
  function file(rows, site) {
    const lines = [COLUMNS, ...rows.map((row) => cells(row, site))];
    const text = lines.map((line) => line.map((cell) => quoted(inert(cell ?? ""))).join(",") + "\r\n").join("");
    return new File([text], "firings-seen.csv", { type: "text/csv;charset=utf-8" });
  }

  return { file };
})();
