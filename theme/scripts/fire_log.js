// @ts-check
/** A log kept at the fire: what its lines say of the fire, and the rows that they make in an entry. Times are moments. */

/**
 * @typedef {{id: string, title: string, method: string, unit: "°C" | "°F", probes: string[], begun: number}} Fire
 * @typedef {{id: string, fire: string, at: number, kind: "reading" | "event" | "lit" | "over", probe?: number,
 *   value?: number, unit?: "°C" | "°F", words?: string, gone?: boolean}} Line
 * @typedef {{at: number, value: number}} Point  value in the unit asked for
 */

const fireLog = (() => {
  "use strict";
  const MINUTE = 60_000;
  const DIFFERENT_READINGS = 5_000;

  /** @param {number} value @param {string} unit @param {string} wanted */
  function inUnit(value, unit, wanted) {
    if (unit === wanted) return value;
    return wanted === "°F" ? value * 1.8 + 32 : (value - 32) / 1.8;
  }

  /** The lines that hold, in order of time. @param {Line[]} lines */
  function standing(lines) {
    return lines.filter((line) => !line.gone).sort((a, b) => a.at - b.at || (a.id < b.id ? -1 : 1));
  }

  /** The standing line that was written last, whatever time it tells: names begin with the moment of writing. @param {Line[]} lines @returns {Line | null} */
  function lastWritten(lines) {
    return lines.filter((line) => !line.gone).reduce((a, b) => (a && a.id > b.id ? a : b), /** @type {Line | null} */ (null));
  }

  /** The moment of lighting, or of the end. @param {Line[]} lines @param {"lit" | "over"} kind @returns {number | null} */
  function moment(lines, kind) {
    return standing(lines).find((line) => line.kind === kind)?.at ?? null;
  }

  /** One probe's readings. @param {Line[]} lines @param {number} probe @param {string} unit @returns {Point[]} */
  function track(lines, probe, unit) {
    return standing(lines)
      .filter((line) => line.kind === "reading" && line.probe === probe)
      .map((line) => ({ at: line.at, value: inUnit(/** @type {number} */ (line.value), line.unit ?? "°C", unit) }));
  }

  /** Degrees a minute between the last two readings; null where there are not two. @param {Point[]} points @returns {number | null} */
  function rate(points) {
    const last = points[points.length - 1];
    const before = points.findLast((point) => last.at - point.at >= DIFFERENT_READINGS);
    return last && before ? ((last.value - before.value) / (last.at - before.at)) * MINUTE : null;
  }

  /** Minutes that a curve spends from `low` to `high`, drawn straight from reading to reading. @param {Point[]} points @param {number} low @param {number} high */
  function minutesWithin(points, low, high) {
    let total = 0;
    for (let index = 1; index < points.length; index += 1) {
      const [a, b] = [points[index - 1], points[index]];
      const crossing = (/** @type {number} */ level) => (a.value === b.value ? (a.value < level ? 1 : 0) : (level - a.value) / (b.value - a.value));
      const ends = a.value === b.value ? (a.value >= low && a.value <= high ? [0, 1] : [0, 0]) : [crossing(low), crossing(high)].sort((x, y) => x - y);
      const share = Math.max(0, Math.min(1, ends[1]) - Math.max(0, ends[0]));
      total += share * ((b.at - a.at) / MINUTE);
    }
    return total;
  }

  /** A stretch of time as one says it. @param {number} milliseconds */
  function stretch(milliseconds) {
    const seconds = Math.max(0, Math.floor(milliseconds / 1000));
    const [hours, minutes] = [Math.floor(seconds / 3600), Math.floor(seconds / 60) % 60];
    if (hours) return `${hours} h ${minutes} min`;
    return minutes ? `${minutes} min ${seconds % 60} s` : `${seconds} s`;
  }

  /** @param {number} number */
  const two = (number) => String(number).padStart(2, "0");

  /** The clock on the wall. @param {number} at @param {boolean} [withSeconds] */
  function clock(at, withSeconds = false) {
    const day = new Date(at);
    return `${two(day.getHours())}:${two(day.getMinutes())}${withSeconds ? `:${two(day.getSeconds())}` : ""}`;
  }

  /** The day where the fire burns. @param {number} at */
  function day(at) {
    const date = new Date(at);
    return `${date.getFullYear()}-${two(date.getMonth() + 1)}-${two(date.getDate())}`;
  }

  /** @param {number} milliseconds since the log's first line */
  function elapsed(milliseconds) {
    const seconds = Math.round(milliseconds / 1000);
    return `${Math.floor(seconds / 3600)}:${two(Math.floor(seconds / 60) % 60)}:${two(seconds % 60)}`;
  }

  /**
   * What is said of a reading that no fire shows; empty where one can.
   * @param {number} value @param {string} unit
   * @param {{coldest: number, hottest: number, neverRead: [string, string]}} rules degrees Celsius; words with a gap for the reading
   */
  function neverRead(value, unit, rules) {
    const celsius = inUnit(value, unit, "°C");
    const written = `${value} ${unit}`.replace("-", "−");
    return celsius >= rules.coldest && celsius <= rules.hottest ? "" : rules.neverRead[0].replace(/`⟦raw⟧`/, written);
  }

  /** What a line says. @param {Line} line */
  function says(line) {
    if (line.kind === "reading") return `${line.value} ${line.unit}`;
    if (line.kind === "lit") return "lit";
    return line.kind === "over" ? "the fire is over" : line.words ?? "";
  }

  /**
   * Words beside a row, so that no reader takes them for a temperature, or for the moment of lighting before it came.
   * @param {string} words @param {boolean} beforeLighting
   */
  function beside(words, beforeLighting) {
    const plain = words.replace(/\s+/g, " ").replace(/^[\s,;|]+/, "").trim();
    const unlit = beforeLighting ? plain.replace(/\blit\b/gi, "alight") : plain;
    return /^(?:[-+−–~≈.]?\s*\d|about|approx|around|ca\.?\s|c\.)/i.test(unlit) || /^[-–—−?*.]+(?:\s|$)/.test(unlit) ? `“${unlit}”` : unlit;
  }

  /** The rows of an entry: time since the first line, a value or a hyphen for each probe, words. @param {Fire} fire @param {Line[]} lines */
  function rows(fire, lines) {
    const kept = standing(lines);
    const lit = moment(lines, "lit");
    return kept.map((line) => {
      const cells = fire.probes.map((_, probe) => (line.kind === "reading" && line.probe === probe ? says(line) : "-"));
      const words = line.kind === "reading" ? "" : beside(says(line), lit !== null && line.at < lit);
      return [elapsed(line.at - kept[0].at), ...cells, words].filter(Boolean).join("  ");
    });
  }

  /** The same as a table for a spreadsheet. @param {Fire} fire @param {Line[]} lines */
  function csv(fire, lines) {
    const cell = (/** @type {string | number} */ text) => (/[",\n]/.test(String(text)) ? `"${String(text).replaceAll('"', '""')}"` : String(text));
    const head = ["time", ...fire.probes.map((name) => `${name} (${fire.unit})`), "words"];
    const body = standing(lines).map((line) => {
      const value = line.kind === "reading" ? round(inUnit(/** @type {number} */ (line.value), line.unit ?? "°C", fire.unit), 1) : "";
      return [`${day(line.at)} ${clock(line.at, true)}`, ...fire.probes.map((_, probe) => (line.probe === probe ? value : "")), line.kind === "reading" ? "" : says(line)];
    });
    return [head, ...body].map((row) => row.map(cell).join(",")).join("\n") + "\n";
  }

  /** @param {number} value @param {number} decimals */
  const round = (value, decimals) => Math.round(value * 10 ** decimals) / 10 ** decimals;

  /**
   * What the log gives to an entry.
   * @param {Fire} fire @param {Line[]} lines
   */
  function forEntry(fire, lines) {
    const lit = moment(lines, "lit");
    const first = standing(lines)[0]?.at ?? fire.begun;
    return {
      title: fire.title,
      method: fire.method,
      date: day(lit ?? first),
      lit: lit === null ? "" : clock(lit),
      readings: { time: "elapsed", probes: fire.probes.map((name) => ({ name })), rows: rows(fire, lines) },
    };
  }

  return { inUnit, standing, lastWritten, moment, track, rate, minutesWithin, stretch, clock, day, elapsed, neverRead, says, beside, rows, csv, forEntry, MINUTE };
})();
