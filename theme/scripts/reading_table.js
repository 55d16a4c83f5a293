// @ts-check
/** A pasted table of readings: taken apart, understood as far as it can be, and written anew as a plain readings.csv. */

/**
 * @typedef {{cells: string[][], headings: string[], times: number, numbers: number[], count: string, unit: "" | "°C" | "°F"}} Taken
 * @typedef {{time: number, count: string, columns: number[], unit: string, lit: string}} Meant
 */

const readingTable = (() => {
  "use strict";
  const NUMBER = /^[-+−–]?\d[\d ]*(?:[.,]\d+)?\s?(?:[°º˚]?\s?[CF])?$/i;
  const COLONS = /^\d{1,4}:\d{1,2}(?::\d{1,2})?(?:[.,]\d+)?(?:\s?[ap]m)?$/i;
  const STAMP = /^(\d{4}-\d\d?-\d\d?|\d\d?[./]\d\d?[./]\d{2,4})[T ](\d{1,2}:\d{1,2}(?::\d{1,2})?)/;
  const MOST_ROWS = 20_000;

  /** @param {string} text @returns {string[][]} */
  function cellsOf(text) {
    const lines = text.split(/\r\n?|\n/).filter((line) => line.trim()).slice(0, MOST_ROWS);
    const marks = ["\t", ";", "|", ","];
    const mark = marks.find((one) => lines.filter((line) => line.includes(one)).length * 2 > lines.length);
    return lines.map((line) => (mark ? parted(line, mark) : spaced(line)).map((cell) => cell.trim()));
  }

  /** A line written by hand: a time, temperatures, words. @param {string} line */
  function spaced(line) {
    const words = line.trim().split(/\s+/);
    const cells = [words.shift() ?? ""];
    if (/^\d{4}-\d\d?-\d\d?$/.test(cells[0]) && COLONS.test(words[0] ?? "")) cells[0] += ` ${words.shift()}`;
    while (words.length && (NUMBER.test(words[0]) || words[0] === "-")) {
      const cell = words.shift();
      cells.push(/^[°º˚]?[CF]$/i.test(words[0] ?? "") ? `${cell} ${words.shift()}` : `${cell}`);
    }
    return words.length ? [...cells, words.join(" ")] : cells;
  }

  /** @param {string} line @param {string} mark */
  function parted(line, mark) {
    /** @type {string[]} */
    const cells = [""];
    let quoted = false;
    let before = "";
    for (const sign of line) {
      if (sign === '"') {
        if (before === '"' && !quoted) cells[cells.length - 1] += '"'; // a doubled mark within quotation marks is one
        quoted = !quoted;
      } else if (sign === mark && !quoted) cells.push("");
      else cells[cells.length - 1] += sign;
      before = sign;
    }
    return cells;
  }

  /** @param {string[]} column @param {RegExp[]} patterns */
  function share(column, ...patterns) {
    const told = column.filter((cell) => cell && cell !== "-");
    return told.length ? told.filter((cell) => patterns.some((pattern) => pattern.test(cell))).length / told.length : 0;
  }

  /** Take a table apart, and guess what its columns are. @param {string} text @returns {Taken | null} */
  function take(text) {
    const all = cellsOf(text);
    const width = Math.max(0, ...all.map((row) => row.length));
    const isData = (/** @type {string[]} */ row) => row.filter((cell) => NUMBER.test(cell) || COLONS.test(cell) || STAMP.test(cell)).length >= 2;
    const first = all.findIndex(isData);
    if (first < 0 || width < 2) return null;
    const cells = all.slice(first).map((row) => [...row, ...Array(width).fill("")].slice(0, width));
    const column = (/** @type {number} */ number) => cells.map((row) => row[number]);
    const numbers = [...Array(width).keys()];
    const timed = numbers.find((number) => share(column(number), COLONS, STAMP) > 0.5) ?? 0;
    const headings = numbers.map((number) => (first > 0 ? all[first - 1][number] ?? "" : ""));
    const hot = numbers.filter((number) => number !== timed && share(column(number), NUMBER) > 0.5);
    const written = `${headings.join(" ")} ${hot.map((number) => cells[0][number]).join(" ")}`;
    return { cells, headings, times: timed, numbers: hot, count: countOf(column(timed), headings[timed]), unit: /[°º˚]\s?F|fahrenheit/i.test(written) ? "°F" : /[°º˚]\s?C|celsius/i.test(written) ? "°C" : "" };
  }

  /** How times count. @param {string[]} column @param {string} heading */
  function countOf(column, heading) {
    if (column.some((cell) => STAMP.test(cell) || /[ap]m$/i.test(cell))) return "clock";
    if (share(column, COLONS) > 0.5) return /clock|time of day/i.test(heading) || Number(column[0].split(":")[0]) >= 5 ? "clock" : "ms";
    return /\bs(?:ec)?/i.test(heading.replace(/^time/i, "")) ? "s" : "min";
  }

  /** Seconds from the table's own zero; null where a cell is no such time. @param {string} cell @param {string} count @returns {number | null} */
  function seconds(cell, count) {
    const stamp = STAMP.exec(cell);
    if (stamp && count === "clock") return (dayNumber(stamp[1]) ?? 0) * 86_400 + (colons(stamp[2], "clock") ?? NaN);
    if (count === "min" || count === "s") {
      const number = Number(cell.replace(",", "."));
      return cell && Number.isFinite(number) ? number * (count === "min" ? 60 : 1) : null;
    }
    return colons(cell, count);
  }

  /** @param {string} cell @param {string} count */
  function colons(cell, count) {
    const match = /^(\d{1,4}):(\d{1,2})(?::(\d{1,2}))?(?:[.,]\d+)?(?:\s?([ap])m)?$/i.exec(cell);
    if (!match) return null;
    const [first, second] = [Number(match[1]), Number(match[2])];
    if (second > 59 || Number(match[3] ?? 0) > 59) return null;
    if (count === "ms" && match[3] === undefined) return first * 60 + second;
    const half = match[4]?.toLowerCase();
    const hours = half ? (first % 12) + (half === "p" ? 12 : 0) : first;
    return count === "clock" && hours > 23 ? null : hours * 3600 + second * 60 + Number(match[3] ?? 0);
  }

  /** Days since 1970; a day of the month written first is taken as one. @param {string} written */
  function dayNumber(written) {
    const parts = written.split(/[-./]/).map(Number);
    const [year, month, day] = parts[0] > 31 ? parts : [parts[2], parts[1], parts[0]];
    const at = Date.UTC(year < 100 ? 2000 + year : year, month - 1, day);
    return Number.isNaN(at) ? null : at / 86_400_000;
  }

  /** @param {string} cell @returns {number | null} */
  function value(cell) {
    const plain = cell.replace(/[°º˚]?\s?[CF]$/i, "").replace(/[−–]/, "-").replace(/ /g, "").trim();
    const number = Number(/^-?[+]?\d+,\d{1,2}$/.test(plain) ? plain.replace(",", ".") : plain.replace(/,(?=\d{3}(?!\d))/g, ""));
    return plain && Number.isFinite(number) ? number : null;
  }

  /** The rows that have a time, in order; a clock that falls back by half a day has passed midnight. @param {Taken} taken @param {Meant} meant */
  function rows(taken, meant) {
    let [passed, before] = [0, -Infinity];
    const found = [];
    for (const cells of taken.cells) {
      const at = seconds(cells[meant.time], meant.count);
      if (at === null || Number.isNaN(at)) continue;
      if (meant.count === "clock" && at + passed < before - 43_200) passed += 86_400;
      before = at + passed;
      const words = cells.filter((cell, number) => number !== meant.time && !meant.columns.includes(number) && !NUMBER.test(cell) && !COLONS.test(cell)).join(" ").trim();
      found.push({ at: at + passed, values: meant.columns.map((number) => value(cells[number])), words });
    }
    // The moment of lighting that was typed must not be outdone by a row that speaks of it.
    const typed = meant.lit.trim() !== "";
    return found.map((row) => ({ ...row, words: typed ? row.words.replace(/\blit\b/gi, "alight") : row.words })).sort((a, b) => a.at - b.at);
  }

  /** The moment of lighting, in the table's own seconds: as it was typed, else the row that says so, else the first. @param {ReturnType<typeof rows>} read @param {Meant} meant @returns {number | null} null where it was typed and is no time */
  function litAt(read, meant) {
    if (meant.lit.trim()) {
      const at = seconds(meant.lit.trim(), meant.count);
      if (at === null || meant.count !== "clock") return at;
      return at + 86_400 * Math.round((read[0].at - at) / 86_400);
    }
    return read.find((row) => /\blit\b/i.test(row.words))?.at ?? read[0].at;
  }

  /** Rows as a readings file: time from the first row, a column for each thermometer, words. @param {ReturnType<typeof rows>} read @param {string[]} names @param {string} unit */
  function csv(read, names, unit) {
    const cell = (/** @type {string | number | null} */ text) => (text === null ? "" : /[",\n]/.test(String(text)) ? `"${String(text).replaceAll('"', '""')}"` : String(text));
    const wordy = read.some((row) => row.words);
    const head = ["time", ...names.map((name) => `${name} (${unit})`), ...(wordy ? ["words"] : [])];
    const lines = read.map((row) => [fireLog.elapsed((row.at - read[0].at) * 1000), ...row.values, ...(wordy ? [row.words] : [])]);
    return [head, ...lines].map((line) => line.map(cell).join(",")).join("\n") + "\n";
  }

  return { take, rows, litAt, csv };
})();
