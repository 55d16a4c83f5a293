// @ts-check
/**
 * The comparing page: which firings, from when their times count, both kept in the page's address. A firing's data
 * comes as a script of its own, so that the page works from a folder and stays quick over thousands of firings.
 */
(() => {
  "use strict";
  const OFFERED = 8;
  const found = document.querySelector("[data-compare]");
  if (!(found instanceof HTMLElement)) return;
  const root = found;
  const most = Number(root.dataset.most);
  const chart = /** @type {any} */ (window).ashbookCompareChart;
  const tables = /** @type {any} */ (window).ashbookCompareTables;
  const degrees = /** @type {any} */ (window).ashbookDegrees;

  /** @template {HTMLElement} T @param {string} name @returns {T} */
  const part = (name) => /** @type {T} */ (root.querySelector(`[data-${name}]`));
  const field = /** @type {HTMLInputElement} */ (root.querySelector("input[type=search]"));
  const choices = /** @type {HTMLInputElement[]} */ ([...root.querySelectorAll("input[name=from]")]);

  /** @type {{durations: number[], tops: number[], conditions: string[][]}} */
  let shelf;
  /** @type {Columns} */
  let columns;
  /** @type {Map<string, number>} rows of the columns by slug */
  let rowOf = new Map();
  /** @type {string[]} slugs in the order they were chosen */
  let chosen = [];

  /** @param {string} slug */
  const dataOf = (slug) => /** @type {any} */ (window).ashbookFirings?.[slug];
  /** A firing's number and title. @param {number} row */
  const named = (row) => `${row + 1} ${columns.titles[row]}`;
  /** @param {string} slug */
  const numberOf = (slug) => Number(rowOf.get(slug)) + 1;
  const from = () => choices.find((choice) => choice.checked)?.value ?? "lit";

  /** @param {string[]} words */
  const listed = (words) => (words.length < 2 ? words.join("") : `${words.slice(0, -1).join(", ")} and ${words[words.length - 1]}`);

  /** A firing's name, or its number of the day: a firing that is added later may shift the numbers after it. @param {string} word */
  function slugOf(word) {
    if (rowOf.has(word)) return word;
    return /^\d+$/.test(word) ? columns.slugs[Number(word) - 1] : undefined;
  }

  function readAddress() {
    const address = new URLSearchParams(location.search);
    const wanted = (address.get("firings") ?? "").split(",").filter(Boolean);
    const slugs = wanted.map((one) => slugOf(one.trim()));
    chosen = [...new Set(slugs.filter((slug) => slug !== undefined))].slice(0, most);
    const kind = address.get("from");
    const choice = choices.find((one) => one.value === kind) ?? choices[0];
    choice.checked = true;
    const unknown = wanted.filter((_, index) => slugs[index] === undefined);
    return unknown.length ? `No firing here is called ${listed(unknown)}.` : "";
  }

  function writeAddress() {
    const slugs = chosen.map(encodeURIComponent).join(",");
    const query = [slugs ? `firings=${slugs}` : "", from() === "lit" ? "" : `from=${from()}`].filter(Boolean).join("&");
    try {
      history.replaceState(null, "", query ? `?${query}` : location.pathname);
    } catch {
      // Some browsers keep the address of a page opened from a folder as it is; the page works all the same.
    }
  }

  /** @param {number} row */
  const dayOf = (row) => [...firingsColumns.labels(columns.days, row), ...firingsColumns.labels(firingsColumns.facet(columns, "year"), row)].join(" ");

  /** The rows of firings that fit what was typed: that of its number, then the newest first, without those chosen. */
  function offered() {
    const fits = firingsWords.havingAll(columns, firingsWords.asked(field.value));
    const open = (/** @type {number} */ row) => fits[row] && !chosen.includes(columns.slugs[row]);
    const numbered = /^\d+$/.test(field.value.trim()) ? Number(field.value) - 1 : -1;
    const rows = open(numbered) ? [numbered] : [];
    for (let row = columns.size - 1; row >= 0 && rows.length < OFFERED; row -= 1) {
      if (row !== numbered && open(row)) rows.push(row);
    }
    return rows;
  }

  function showOffered() {
    const rows = offered();
    const items = rows.map((row) => {
      const item = document.createElement("li");
      const button = document.createElement("button");
      button.type = "button";
      button.className = "plain";
      button.textContent = named(row);
      button.addEventListener("click", () => add(columns.slugs[row]));
      const when = document.createElement("span");
      when.className = "quiet";
      when.textContent = ` ${dayOf(row)}`;
      item.append(button, when);
      return item;
    });
    part("offered").replaceChildren(...items);
    part("add").hidden = chosen.length >= most;
    part("offered").hidden = chosen.length > 1 && !field.value.trim();
    if (!rows.length) part("offered").textContent = "No firing has these words.";
  }

  function showChosen() {
    const items = chosen.map((slug, index) => {
      const row = Number(rowOf.get(slug));
      const item = document.createElement("li");
      const link = document.createElement("a");
      link.href = `firings/${encodeURIComponent(slug)}.html`;
      link.textContent = named(row);
      const button = document.createElement("button");
      button.type = "button";
      button.className = "plain";
      button.textContent = "Take away";
      button.setAttribute("aria-label", `Take firing ${row + 1} away`);
      button.addEventListener("click", () => remove(slug));
      item.append(chart.sample(index + 1), link, " ", button);
      return item;
    });
    part("chosen").replaceChildren(...items);
  }

  /** @param {string} slug */
  function add(slug) {
    chosen.push(slug);
    field.value = "";
    changed();
    if (!part("add").hidden) field.focus();
    else /** @type {HTMLElement | null} */ (part("chosen").querySelector("li:last-child button"))?.focus();
  }

  /** @param {string} slug */
  function remove(slug) {
    chosen = chosen.filter((one) => one !== slug);
    changed();
    field.focus();
  }

  function changed() {
    writeAddress();
    void show("");
  }

  /** Load what is missing, then draw. @param {string} before  words to say first */
  async function show(before) {
    showChosen();
    showOffered();
    const missing = [];
    for (const slug of chosen) {
      if (dataOf(slug)) continue;
      await scriptFiles.load(`firings/${encodeURIComponent(slug)}/compare.js`).catch(() => missing.push(numberOf(slug)));
    }
    const firings = chosen.map(dataOf).filter((one) => one !== undefined);
    part("drawn").hidden = firings.length === 0;
    for (const name of ["conditions-part", "figures-part"]) part(name).hidden = firings.length < 2;
    const left = firings.length ? chart.draw(part("chart"), firings, from(), shelf) : [];
    say(before, firings, missing.map(String), left);
    if (!firings.length) return;
    tables.readings(part("readings"), firings, from(), shelf);
    if (firings.length > 1) {
      tables.conditions(part("conditions"), firings, shelf);
      tables.figures(part("figures"), firings);
    }
    degrees.show(root);
  }

  /** @param {string} before @param {any[]} firings @param {string[]} missing @param {number[]} left */
  function say(before, firings, missing, left) {
    const numbers = listed(firings.map((one) => String(one.number)));
    const told = [before];
    if (firings.length > 1) told.push(`Firings ${numbers} are laid over one another.`);
    if (firings.length === 1) told.push(`Choose one to three firings to lay over firing ${numbers}.`);
    if (!firings.length) told.push("Choose two to four firings.");
    if (missing.length) told.push(`What is known of ${listed(missing)} could not be read.`);
    part("said").textContent = told.filter(Boolean).join(" ");
    const caption = [];
    const without = firings.filter((one) => one.curve === null).map((one) => String(one.number));
    const unclocked = left.map(String).filter((number) => !without.includes(number));
    if (without.length) caption.push(`Nobody wrote down a temperature at ${listed(without)}.`);
    if (unclocked.length) caption.push(`When ${listed(unclocked)} ${unclocked.length > 1 ? "were" : "was"} lit by the clock was not recorded.`);
    if (left.length < firings.length) caption.push("Each line is the best reckoning for the probe that stands for the ware, straight between readings and broken where none was taken for long; what the readings may be out by stands with the figures below.");
    part("caption").textContent = caption.join(" ");
  }

  async function start() {
    const frames = scriptFiles.load(String(root.dataset.shelf));
    columns = await firingsColumns.load(String(root.dataset.columns));
    await frames;
    rowOf = new Map(columns.slugs.map((slug, row) => [slug, row]));
    shelf = /** @type {any} */ (window).ashbookShelf;
    const before = readAddress();
    root.hidden = false;
    /** @type {HTMLElement} */ (document.querySelector("[data-compare-plain]")).hidden = true;
    field.addEventListener("input", showOffered);
    field.addEventListener("keydown", (event) => {
      const first = event.key === "Enter" && field.value.trim() ? offered()[0] : undefined;
      if (first !== undefined) add(columns.slugs[first]);
    });
    for (const choice of choices) choice.addEventListener("change", changed);
    document.addEventListener("ashbook:degrees", () => void show(""));
    let width = 0;
    new ResizeObserver(() => {
      const now = part("chart").clientWidth;
      if (!now || now === width) return;
      width = now;
      chart.draw(part("chart"), chosen.map(dataOf).filter((one) => one !== undefined), from(), shelf);
    }).observe(part("chart"));
    await show(before);
  }

  start().catch(() => {
    root.hidden = true;
    /** @type {HTMLElement} */ (document.querySelector("[data-compare-plain]")).hidden = false;
  });
})();
