// The list of firings: picks by words and facets, sorts, and keeps what was asked in the page's address.
// Without this script the list is whole, newest first.

/**
 * @typedef {object} Asked
 * @property {Map<string, Set<string>>} picked  values by facet
 * @property {string} words
 * @property {string} sort
 * @property {HeatRange} heat  between which temperatures the hottest reading is
 */

const AT_ONCE = 100;
const { SORTS, folded } = firingRows;

/** Every word asked for stands somewhere in the row. @param {Row} row @param {string[]} words */
function hasWords(row, words) {
  return words.every((word) => row.words.includes(word));
}

/** Or within a facet. @param {Row} row @param {string} facet @param {Set<string>} values */
function hasFacet(row, facet, values) {
  return values.size === 0 || (row.facets[facet] || [""]).some((value) => values.has(value));
}

/** The facets whose picked values a row has none of: and between facets. @param {Row} row @param {Asked} asked */
function missed(row, asked) {
  const facets = [];
  for (const [facet, values] of asked.picked) if (!hasFacet(row, facet, values)) facets.push(facet);
  return facets;
}

/** @param {Row} row @param {Asked} asked */
function isAsked(row, asked) {
  return firingsHeat.holds(asked.heat, row.peak) && missed(row, asked).length === 0;
}

class Firings {
  /** @param {HTMLElement} root */
  constructor(root) {
    this.form = /** @type {HTMLFormElement} */ (root.querySelector("[data-firings-form]"));
    this.list = /** @type {HTMLElement} */ (root.querySelector("[data-firings-list]"));
    this.empty = /** @type {HTMLElement} */ (root.querySelector("[data-firings-empty]"));
    this.hint = /** @type {HTMLElement} */ (root.querySelector("[data-firings-hint]"));
    this.sentence = /** @type {HTMLElement} */ (document.querySelector("[data-firings-sentence]"));
    this.whole = this.sentence.textContent || "";
    this.rows = [.../** @type {NodeListOf<HTMLElement>} */ (root.querySelectorAll("[data-facets]"))].map(firingRows.read);
    const rowOf = new Map(this.rows.map((row) => [row.element, row]));
    this.years = [...this.list.children].map((section) => {
      const list = /** @type {HTMLElement} */ (section.querySelector("ol"));
      const rows = [.../** @type {HTMLCollectionOf<HTMLElement>} */ (list.children)].map((element) => rowOf.get(element));
      return { section: /** @type {HTMLElement} */ (section), list, rows: /** @type {Row[]} */ (rows) };
    });
    this.found = new Set(this.rows);
    this.site = root.dataset.site || "";
    this.heat = firingsHeat.fields(this.form);
    this.table = /** @type {HTMLElement | null} */ (root.querySelector("[data-seen-table]"));
    this.download = /** @type {HTMLButtonElement | null} */ (root.querySelector("[data-firings-download]"));
    this.later = 0;
    this.flat = document.createElement("ol");
    this.flat.className = "firing-lines flat";
    this.boxes = [.../** @type {NodeListOf<HTMLInputElement>} */ (this.form.querySelectorAll("input[type=checkbox]"))];
    this.shownOrder = "newest";
  }

  start() {
    this.form.hidden = false;
    if (this.table) this.table.hidden = false;
    this.download?.addEventListener("click", () => fileSaving.save(firingsCsv.file(this.seen(), this.site)));
    const fold = this.form.querySelector("[data-facets-fold]");
    if (fold instanceof HTMLDetailsElement) fold.open = window.matchMedia("(min-width: 60em)").matches;
    this.readAddress();
    this.form.addEventListener("submit", (event) => event.preventDefault());
    const typed = (/** @type {EventTarget | null} */ field) => field instanceof HTMLInputElement && ["search", "number"].includes(field.type);
    // Leaving a field that is typed into is a change too, and must not take the button away that is being pressed.
    this.form.addEventListener("change", (event) => typed(event.target) || this.show(true));
    let waiting = 0;
    this.form.addEventListener("input", (event) => {
      if (!typed(event.target)) return;
      window.clearTimeout(waiting);
      waiting = window.setTimeout(() => this.show(true), 120);
    });
    for (const button of document.querySelectorAll("[data-firings-clear]")) {
      button.addEventListener("click", () => this.clear());
    }
    window.addEventListener("popstate", () => {
      this.readAddress();
      this.show(false);
    });
    document.addEventListener("ashbook:degrees", () => {
      this.heat.turn();
      if (this.heat.asked().set) this.show(false);
    });
    // Until something is asked, the list and its counts stand as they were built.
    if (window.location.search) this.show(false);
  }

  clear() {
    this.form.reset();
    for (const box of this.boxes) box.checked = false;
    this.heat.clear();
    this.show(true);
    this.sentence.scrollIntoView({ block: "nearest" });
  }

  /** @returns {Asked} */
  asked() {
    const picked = new Map();
    for (const box of this.boxes) {
      if (!picked.has(box.name)) picked.set(box.name, new Set());
      if (box.checked) picked.get(box.name).add(box.value);
    }
    const field = (/** @type {string} */ name) => /** @type {HTMLInputElement} */ (this.form.elements.namedItem(name)).value;
    return { picked, words: field("q"), sort: field("sort"), heat: this.heat.asked() };
  }

  /** @param {boolean} keep  whether to write what is asked into the address */
  show(keep) {
    const asked = this.asked();
    const words = folded(asked.words).split(/\s+/).filter(Boolean);
    const worded = this.rows.filter((row) => hasWords(row, words));
    const found = new Set(worded.filter((row) => isAsked(row, asked)));
    const unknown = asked.heat.set ? worded.filter((row) => Number.isNaN(row.peak) && missed(row, asked).length === 0).length : 0;
    this.found = found;
    if (this.download) this.download.disabled = found.size === 0;
    this.arrange(asked.sort, found);
    for (const row of this.rows) {
      if (row.element.hidden === found.has(row)) row.element.hidden = !found.has(row);
    }
    for (const year of this.years) year.section.hidden = !year.rows.some((row) => found.has(row));
    this.count(worded, asked);
    this.tell(found.size, asked, words.length > 0, unknown);
    if (keep) this.writeAddress(asked);
  }

  /** The rows that are seen, in the order in which they are. */
  seen() {
    return [...this.found].sort(SORTS[/** @type {keyof typeof SORTS} */ (this.shownOrder)]);
  }

  /** Years keep their headings; any other order is one list. @param {string} sort @param {Set<Row>} found */
  arrange(sort, found) {
    if (sort === this.shownOrder || !Object.hasOwn(SORTS, sort)) return;
    this.shownOrder = sort;
    const byDate = sort === "newest" || sort === "oldest";
    const compare = SORTS[/** @type {keyof typeof SORTS} */ (sort)];
    if (byDate) {
      window.clearTimeout(this.later);
      for (const year of this.years) year.list.append(...[...year.rows].sort(compare).map((row) => row.element));
      const years = sort === "newest" ? this.years : [...this.years].reverse();
      this.list.replaceChildren(...years.map((year) => year.section));
    } else {
      const sorted = [...this.rows].sort(compare);
      const shown = sorted.filter((row) => found.has(row));
      const others = sorted.filter((row) => !found.has(row));
      this.fill([...shown, ...others].map((row) => row.element));
    }
  }

  /** Put rows into the one list, the first of them at once and the rest a few at a time. @param {HTMLElement[]} elements */
  fill(elements) {
    window.clearTimeout(this.later);
    this.flat.replaceChildren(...elements.slice(0, AT_ONCE));
    this.list.replaceChildren(this.flat);
    let done = AT_ONCE;
    const more = () => {
      this.flat.append(...elements.slice(done, done + AT_ONCE));
      done += AT_ONCE;
      if (done < elements.length) this.later = window.setTimeout(more);
    };
    if (done < elements.length) this.later = window.setTimeout(more);
  }

  /** Each facet counts what picking its values would leave, given all other facets. @param {Row[]} worded @param {Asked} asked */
  count(worded, asked) {
    /** @type {Map<string, Map<string, number>>} */
    const counts = new Map([...asked.picked.keys()].map((facet) => [facet, new Map()]));
    for (const row of worded) {
      if (!firingsHeat.holds(asked.heat, row.peak)) continue;
      const facets = missed(row, asked);
      if (facets.length > 1) continue;
      for (const facet of facets.length ? facets : counts.keys()) {
        const own = /** @type {Map<string, number>} */ (counts.get(facet));
        for (const value of row.facets[facet] || [""]) own.set(value, (own.get(value) || 0) + 1);
      }
    }
    for (const box of this.boxes) {
      const number = counts.get(box.name)?.get(box.value) || 0;
      const label = /** @type {HTMLElement} */ (box.closest("label"));
      const shown = label.querySelector("[data-count]");
      if (shown) shown.textContent = String(number);
      label.classList.toggle("none", number === 0 && !box.checked);
    }
  }

  /** @param {number} found @param {Asked} asked @param {boolean} worded @param {number} unknown  left out because their heat is not known */
  tell(found, asked, worded, unknown) {
    const picked = [];
    for (const [facet, values] of asked.picked) {
      if (values.size) picked.push(this.boxes.filter((box) => box.name === facet && box.checked).map(optionWords).join(" or "));
    }
    if (worded) picked.push(`with “${asked.words.trim()}”`);
    if (asked.heat.set) picked.push(asked.heat.words);
    const all = picked.length === 0;
    const count = `${found} of ${this.rows.length} firings`;
    this.sentence.textContent = all ? this.plainSentence(asked.sort) : `${found === 0 ? `No firing of ${this.rows.length}` : count}: ${picked.join("; ")}.${firingsHeat.leftOut(unknown)}`;
    if (!all) {
      const clear = document.createElement("button");
      clear.type = "button";
      clear.className = "plain";
      clear.textContent = "See them all";
      clear.addEventListener("click", () => this.clear());
      this.sentence.append(" ", clear);
    }
    this.empty.hidden = found > 0;
    this.hint.textContent = picked.length > 1 ? "Take one of these away: " + picked.join("; ") + "." : "Try other or fewer words, or see them all.";
  }

  /** @param {string} sort */
  plainSentence(sort) {
    const option = this.form.querySelector(`option[value="${sort}"]`);
    const order = option ? (option.textContent || "").toLowerCase() : "newest first";
    return this.whole.replace("newest first", order);
  }

  readAddress() {
    const address = new URLSearchParams(window.location.search);
    for (const box of this.boxes) box.checked = address.getAll(box.name).includes(box.value);
    const field = (/** @type {string} */ name) => /** @type {HTMLInputElement} */ (this.form.elements.namedItem(name));
    this.heat.read(address);
    field("q").value = address.get("q") || "";
    const sort = address.get("sort") || "newest";
    field("sort").value = Object.hasOwn(SORTS, sort) ? sort : "newest";
    for (const box of this.boxes) {
      const fold = box.closest("details");
      if (box.checked && fold) fold.open = true;
    }
  }

  /** @param {Asked} asked */
  writeAddress(asked) {
    const address = new URLSearchParams();
    for (const [facet, values] of asked.picked) for (const value of values) address.append(facet, value);
    if (asked.words.trim()) address.set("q", asked.words.trim());
    if (asked.sort !== "newest") address.set("sort", asked.sort);
    this.heat.write(address);
    const query = address.toString();
    try {
      window.history.replaceState(null, "", query ? `?${query}` : window.location.pathname);
    } catch {
      // Some browsers keep the address of a page opened from a folder as it is; the list works all the same.
    }
  }
}

/** @param {HTMLInputElement} box */
function optionWords(box) {
  const facet = box.closest("[data-facet]")?.querySelector("summary")?.textContent || "";
  const words = box.closest("label")?.querySelector(".option")?.textContent || "";
  return box.value === "" ? `${facet.toLowerCase()} not recorded` : words;
}

const root = document.querySelector("[data-firings]");
if (root instanceof HTMLElement && root.querySelector("[data-firings-list]")) new Firings(root).start();
