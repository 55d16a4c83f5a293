// @ts-check
/**
 * The list of firings: picks by words and facets, sorts, and keeps what was asked in the page's address. Without this
 * script the list is whole, newest first, page by page.
 */

class Firings {
  /** @param {HTMLElement} root */
  constructor(root) {
    this.root = root;
    this.form = /** @type {HTMLFormElement} */ (elements.one(root, "[data-firings-form]"));
    this.empty = elements.one(root, "[data-firings-empty]");
    this.hint = elements.one(root, "[data-firings-hint]");
    this.sentence = elements.one(document, "[data-firings-sentence]");
    this.whole = this.sentence.textContent || "";
    this.total = firingsCount(Number(root.dataset.total));
    this.site = root.dataset.site || "";
    this.heat = firingsHeat.fields(this.form);
    this.table = /** @type {HTMLElement | null} */ (root.querySelector("[data-seen-table]"));
    this.download = /** @type {HTMLButtonElement | null} */ (root.querySelector("[data-firings-download]"));
    this.boxes = [.../** @type {NodeListOf<HTMLInputElement>} */ (this.form.querySelectorAll("input[type=checkbox]"))];
    /** @type {Promise<FiringsList>} */
    this.list = firingsColumns.load(root.dataset.columns || "").then((columns) => new FiringsList(root, columns));
  }

  start() {
    this.form.hidden = false;
    if (this.table) this.table.hidden = false;
    this.download?.addEventListener("click", () => void this.save());
    const fold = this.form.querySelector("[data-facets-fold]");
    if (fold instanceof HTMLDetailsElement) fold.open = window.matchMedia("(min-width: 60em)").matches;
    this.readAddress();
    this.listen();
    // Until something is asked, the list and its counts stand as they were built.
    if (window.location.search) this.show(false);
    this.list.catch(() => {
      this.root.classList.add("unread");
    });
  }

  listen() {
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
  }

  /** A table of all that was found, in the order in which it is seen. */
  async save() {
    const { columns, rows } = await this.list;
    fileSaving.save(firingsCsv.file(columns, rows, this.site));
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
    if (keep) this.writeAddress(asked);
    this.list.then((list) => {
      const { rows, counts, unknown } = firingsPicking.pick(list.columns, asked);
      list.show(rows, asked.sort === "newest" || asked.sort === "oldest");
      if (this.download) this.download.disabled = rows.length === 0;
      this.count(counts);
      this.tell(rows.length, asked, unknown);
    }, () => {}); // `start` says what is left where the columns cannot be had
  }

  /** Each facet counts what picking its values would leave. @param {Map<string, Map<string, number>>} counts */
  count(counts) {
    for (const box of this.boxes) {
      const number = counts.get(box.name)?.get(box.value) || 0;
      const label = /** @type {HTMLElement} */ (box.closest("label"));
      const shown = label.querySelector("[data-count]");
      if (shown) shown.textContent = firingsCount(number);
      label.classList.toggle("none", number === 0 && !box.checked);
    }
  }

  /** @param {number} found @param {Asked} asked @param {number} unknown  left out because their heat is not known */
  tell(found, asked, unknown) {
    const picked = [];
    for (const [facet, values] of asked.picked) {
      if (values.size) picked.push(this.boxes.filter((box) => box.name === facet && box.checked).map(optionWords).join(" or "));
    }
    if (asked.words.trim()) picked.push(`with “${asked.words.trim()}”`);
    if (asked.heat.set) picked.push(asked.heat.words);
    const all = picked.length === 0;
    const count = `${firingsCount(found)} of ${this.total} firings`;
    this.sentence.textContent = all ? this.plainSentence(asked.sort) : `${found === 0 ? `No firing of ${this.total}` : count}: ${picked.join("; ")}.${firingsHeat.leftOut(unknown)}`;
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
    field("sort").value = firingsPicking.isOrder(sort) ? sort : "newest";
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
