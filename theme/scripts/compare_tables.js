// @ts-check
/**
 * The tables beside curves laid over one another: the curves as numbers, what was done differently, what came of it.
 *
 * @typedef {string | [string, string, string]} Part  plain words, or words of a number, its classes and its °C
 * @typedef {{said: Part[], same?: string[], low?: number, high?: number}} Told
 * @typedef {{label: Part[], said: Part[], interval: Part[], known: boolean, low?: number, high?: number,
 *            least?: boolean}} Figure  without ends where it has no interval
 * @typedef {{number: number, slug: string, title: string, told: Record<string, Told>, figures: Figure[], curve: any,
 *            pots: {said: string, successes: number, judged: number, rule: string}}} Firing
 */
(() => {
  "use strict";
  const NOT_RECORDED = "not recorded";

  /**
   * @param {string} tag
   * @param {Record<string, string>} attributes
   * @param {...(Node | string)} children
   */
  function make(tag, attributes, ...children) {
    const element = document.createElement(tag);
    for (const [name, value] of Object.entries(attributes)) element.setAttribute(name, value);
    element.append(...children);
    return element;
  }

  /** Numbers stay marked, so that they turn with the reader's choice. @param {Part[]} parts */
  function words(parts) {
    return parts.map((part) => {
      if (typeof part === "string") return part;
      const [said, classes, celsius] = part;
      return make("span", celsius ? { class: classes, "data-c": celsius } : { class: classes }, said);
    });
  }

  /** @param {Part[]} parts */
  const plainWords = (parts) => parts.map((part) => (typeof part === "string" ? part : part[0])).join("");

  /** @param {Firing[]} firings */
  const heads = (firings) => firings.map((one) => make("th", { scope: "col" }, make("a", { href: `firings/${encodeURIComponent(one.slug)}.html` }, `${one.number} ${one.title}`)));

  /** @param {string} label @param {Node[]} head @param {Node[]} bodies */
  const scrolled = (label, head, bodies) => make("div", { class: "scroll", tabindex: "0", role: "region", "aria-label": label },
    make("table", { class: "compare-table" }, make("thead", {}, make("tr", {}, ...head)), ...bodies));

  /** @param {string} heading @param {Node[]} rows @param {number} columns */
  const body = (heading, rows, columns) => make("tbody", {}, make("tr", { class: "group" }, make("th", { scope: "rowgroup", colspan: String(columns) }, heading)), ...rows);

  /** The curves at even times, straight between readings.
   * @param {HTMLElement} element @param {Firing[]} firings @param {string} from @param {any} shelf */
  function readings(element, firings, from, shelf) {
    const chart = /** @type {any} */ (window).ashbookCompareChart;
    const placed = firings.filter((one) => chart.shift(one, from) !== null);
    if (!placed.length) return element.replaceChildren();
    const frame = chart.frameOf(placed, from, shelf);
    const step = chart.stepFor(frame.to - frame.from, 15);
    const rows = [];
    for (let minute = Math.ceil(frame.from / step) * step; minute <= frame.to; minute += step) {
      const cells = placed.map((one) => {
        const celsius = chart.at(one.curve, minute - chart.shift(one, from));
        if (celsius === null) return make("td", {});
        const said = /** @type {any} */ (window).ashbookDegrees.plain(celsius, 0);
        return make("td", {}, make("span", { class: "t", "data-c": celsius.toFixed(1) }, `${said} °C`));
      });
      if (cells.some((cell) => cell.hasChildNodes())) rows.push(make("tr", {}, make("th", { scope: "row" }, chart.timeWords(minute, from, true)), ...cells));
    }
    const head = make("tr", {}, make("th", { scope: "col" }, "Time"), ...heads(placed));
    return element.replaceChildren(make("table", { class: "compare-table" }, make("thead", {}, head), make("tbody", {}, ...rows)));
  }

  /** @param {Told} one @param {Told} other */
  function differ(one, other) {
    if (one.low !== undefined && other.low !== undefined) return Number(one.high) < other.low || Number(other.high) < one.low;
    return JSON.stringify(one.same) !== JSON.stringify(other.same);
  }

  /** @template T @param {T[]} items @returns {[T, T][]} */
  const pairs = (items) => items.flatMap((one, index) => items.slice(index + 1).map((other) => /** @type {[T, T]} */ ([one, other])));

  /** Conditions that differ first, then those that not all recorded; what was alike in a sentence.
   * @param {HTMLElement} element @param {Firing[]} firings @param {any} shelf */
  function conditions(element, firings, shelf) {
    /** @type {{different: Node[], partly: Node[], alike: Node[][]}} */
    const found = { different: [], partly: [], alike: [] };
    for (const [path, group, heading] of shelf.conditions) {
      const told = firings.map((one) => one.told[path]);
      const known = told.filter((one) => one !== undefined);
      if (!known.length) continue;
      const different = pairs(known).some(([one, other]) => differ(one, other));
      const label = group ? `${group}: ${heading[0].toLowerCase()}${heading.slice(1)}` : heading;
      if (!different && known.length === told.length) {
        found.alike.push([make("span", { class: "label" }, label), " ", ...asNodes(words(known[0].said))]);
        continue;
      }
      const cells = told.map((one) => (one ? make("td", {}, ...words(one.said)) : make("td", { class: "unknown" }, NOT_RECORDED)));
      (different ? found.different : found.partly).push(make("tr", {}, make("th", { scope: "row" }, label), ...cells));
    }
    const columns = firings.length + 1;
    const bodies = [];
    if (found.different.length) bodies.push(body("Different", found.different, columns));
    if (found.partly.length) bodies.push(body("Recorded by some only, and not known to differ", found.partly, columns));
    const table = bodies.length ? [scrolled("Conditions side by side", [make("th", { scope: "col" }, "Condition"), ...heads(firings)], bodies)] : [make("p", {}, "Nothing that was recorded of these firings differs.")];
    const alike = found.alike.length ? [make("h3", {}, "Alike in all"), make("ul", { class: "compare-alike" }, ...found.alike.map((nodes) => make("li", {}, ...nodes)))] : [];
    element.replaceChildren(...table, ...alike);
  }

  /** @param {(Node | string)[]} parts @returns {Node[]} */
  const asNodes = (parts) => parts.map((part) => (typeof part === "string" ? document.createTextNode(part) : part));

  /** The intervals of two figures do not meet; one that is a lower bound has no upper end. @param {Figure} one @param {Figure} other */
  function apart(one, other) {
    const ends = (/** @type {Figure} */ figure) => (figure.low === undefined || (figure.high === undefined && !figure.least) ? null : [figure.low, figure.high ?? Infinity]);
    const [a, b] = [ends(one), ends(other)];
    return a !== null && b !== null && (a[1] < b[0] || b[1] < a[0]);
  }

  /** @param {HTMLElement} element @param {Firing[]} firings */
  function figures(element, firings) {
    const labels = new Map(firings.flatMap((one) => one.figures.map((figure) => [plainWords(figure.label), figure.label])));
    const order = longestFirst(firings);
    const sorted = [...labels.keys()].sort((a, b) => order.indexOf(a) - order.indexOf(b));
    /** @type {{apart: Node[], others: Node[]}} */
    const rows = { apart: [], others: [] };
    for (const label of sorted) {
      const own = firings.map((one) => one.figures.find((figure) => plainWords(figure.label) === label));
      if (own.every((figure) => !figure || !figure.known)) continue;
      const told = pairs(firings.map((one, index) => ({ number: one.number, figure: own[index] })))
        .filter(([one, other]) => one.figure && other.figure && apart(one.figure, other.figure))
        .map(([one, other]) => `${one.number} from ${other.number}`);
      const cells = own.map((figure) => figureCell(figure));
      const marked = make("td", { class: "compare-apart" }, told.join(", "));
      (told.length ? rows.apart : rows.others).push(make("tr", told.length ? { class: "is-apart" } : {}, make("th", { scope: "row" }, ...words(labels.get(label) ?? [])), ...cells, marked));
    }
    const columns = firings.length + 2;
    const head = [make("th", { scope: "col" }, "Figure"), ...heads(firings), make("th", { scope: "col" }, "Told apart")];
    const bodies = [make("tbody", {}, potsRow(firings), ruleRow(firings))];
    if (rows.apart.length) bodies.push(body("Told apart by their intervals", rows.apart, columns));
    if (rows.others.length) bodies.push(body(rows.apart.length ? "Not told apart" : "None is told apart by its interval", rows.others, columns));
    element.replaceChildren(scrolled("Figures side by side", head, bodies));
  }

  /** @param {Firing[]} firings */
  function longestFirst(firings) {
    const longest = [...firings].sort((a, b) => b.figures.length - a.figures.length)[0];
    const own = longest.figures.map((figure) => plainWords(figure.label));
    const rest = firings.flatMap((one) => one.figures.map((figure) => plainWords(figure.label)));
    return [...new Set([...own, ...rest])];
  }

  /** @param {Figure | undefined} figure */
  function figureCell(figure) {
    if (!figure || !figure.known) return make("td", { class: "unknown" }, "not known");
    const interval = plainWords(figure.interval) ? [" ", make("span", { class: "interval" }, "(", ...words(figure.interval), ")")] : [];
    return make("td", {}, ...words(figure.said), ...interval);
  }

  /** @param {Firing[]} firings */
  function potsRow(firings) {
    const cells = firings.map(({ pots }) => make("td", {}, pots.said, pots.judged ? `. ${pots.successes} of ${pots.judged} judged succeeded` : ". None can be judged"));
    return make("tr", {}, make("th", { scope: "row" }, "The pots"), ...cells, make("td", {}));
  }

  /** @param {Firing[]} firings */
  function ruleRow(firings) {
    const cells = firings.map(({ pots }) => make("td", {}, pots.rule));
    return make("tr", {}, make("th", { scope: "row" }, "Counts as success"), ...cells, make("td", {}));
  }

  /** @type {any} */ (window).ashbookCompareTables = { readings, conditions, figures };
})();
