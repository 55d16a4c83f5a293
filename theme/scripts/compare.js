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

  /** @type {{durations: number[], tops: number[], conditions: string[][], firings: [number, string, string, string, string][]}} */
  let shelf;
  /** @type {string[]} slugs in the order they were chosen */
  let chosen = [];

  /** @param {string} address @returns {Promise<void>} */
  function load(address) {
    return new Promise((resolve, reject) => {
      const script = document.createElement("script");
      script.src = address;
      script.addEventListener("load", () => resolve());
      script.addEventListener("error", () => reject(new Error(address)));
      document.head.append(script);
    });
  }

  /** @param {string} slug */
  const dataOf = (slug) => /** @type {any} */ (window).ashbookFirings?.[slug];
  /** @param {string} slug */
  const rowOf = (slug) => shelf.firings.find((row) => row[1] === slug);
  const from = () => choices.find((choice) => choice.checked)?.value ?? "lit";

  /** @param {string} words */
  const folded = (words) => words.normalize("NFKD").replace(/\p{Mark}/gu, "").toLowerCase();

  /** @param {string[]} words */
  const listed = (words) => (words.length < 2 ? words.join("") : `${words.slice(0, -1).join(", ")} and ${words[words.length - 1]}`);

  function readAddress() {
    const address = new URLSearchParams(location.search);
    const wanted = (address.get("firings") ?? "").split(",").filter(Boolean);
    const rows = wanted.map((one) => shelf.firings.find(([number, slug]) => String(number) === one.trim() || slug === one.trim()));
    chosen = [...new Set(rows.filter((row) => row !== undefined).map((row) => row[1]))].slice(0, most);
    const kind = address.get("from");
    const choice = choices.find((one) => one.value === kind) ?? choices[0];
    choice.checked = true;
    const unknown = wanted.filter((_, index) => rows[index] === undefined);
    return unknown.length ? `No firing here is called ${listed(unknown)}.` : "";
  }

  function writeAddress() {
    const numbers = chosen.map((slug) => rowOf(slug)?.[0]).join(",");
    const query = [numbers ? `firings=${numbers}` : "", from() === "lit" ? "" : `from=${from()}`].filter(Boolean).join("&");
    try {
      history.replaceState(null, "", query ? `?${query}` : location.pathname);
    } catch {
      // Some browsers keep the address of a page opened from a folder as it is; the page works all the same.
    }
  }

  /** The firings that fit what was typed, newest first, without those chosen. */
  function offered() {
    const words = folded(field.value).split(/\s+/).filter(Boolean);
    const fits = (/** @type {(typeof shelf.firings)[0]} */ row) => {
      const all = folded(`${row[2]} ${row[3]} ${row[4]}`);
      return words.every((word) => all.includes(word) || String(row[0]) === word);
    };
    const rows = [];
    for (let index = shelf.firings.length - 1; index >= 0 && rows.length < OFFERED; index -= 1) {
      const row = shelf.firings[index];
      if (!chosen.includes(row[1]) && fits(row)) rows.push(row);
    }
    return rows;
  }

  function showOffered() {
    const rows = offered();
    const items = rows.map(([number, slug, title, day]) => {
      const item = document.createElement("li");
      const button = document.createElement("button");
      button.type = "button";
      button.className = "plain";
      button.textContent = `${number} ${title}`;
      button.addEventListener("click", () => add(slug));
      const when = document.createElement("span");
      when.className = "quiet";
      when.textContent = ` ${day}`;
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
      const [number, , title] = rowOf(slug) ?? [0, slug, slug];
      const item = document.createElement("li");
      const link = document.createElement("a");
      link.href = `firings/${encodeURIComponent(slug)}.html`;
      link.textContent = `${number} ${title}`;
      const button = document.createElement("button");
      button.type = "button";
      button.className = "plain";
      button.textContent = "Take away";
      button.setAttribute("aria-label", `Take firing ${number} away`);
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
      await load(`firings/${encodeURIComponent(slug)}/compare.js`).catch(() => missing.push(rowOf(slug)?.[0]));
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
    await load(String(root.dataset.shelf));
    shelf = /** @type {any} */ (window).ashbookShelf;
    const before = readAddress();
    root.hidden = false;
    /** @type {HTMLElement} */ (document.querySelector("[data-compare-plain]")).hidden = true;
    field.addEventListener("input", showOffered);
    field.addEventListener("keydown", (event) => {
      const first = event.key === "Enter" && field.value.trim() ? offered()[0] : undefined;
      if (first) add(first[1]);
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
