// @ts-check
/** The lines that are seen: those of the page as it was built, others made when they are asked for, a batch at a time. */

class FiringsList {
  /** @param {HTMLElement} root @param {Columns} columns */
  constructor(root, columns) {
    this.columns = columns;
    this.batch = Number(root.dataset.batch);
    this.element = elements.one(root, "[data-firings-list]");
    this.more = elements.one(root, "[data-firings-more]");
    this.curves = firingsCurves.watcher(columns);
    /** @type {Map<number, HTMLElement>} lines by row */
    this.lines = new Map();
    for (const line of this.element.querySelectorAll("[data-number]")) {
      if (line instanceof HTMLElement) this.lines.set(Number(line.dataset.number) - 1, line);
    }
    /** @type {number[]} all that was found, in order */
    this.rows = [...columns.titles.keys()].reverse();
    this.byDate = true;
    this.shown = this.lines.size;
    /** @type {{year: string, list: HTMLElement} | null} where the last line was put; none yet */
    this.last = null;
    this.listen();
    this.tell();
  }

  listen() {
    elements.one(this.more, "button").addEventListener("click", () => this.showMore());
    let before = 0;
    window.addEventListener("beforeprint", () => {
      before = this.shown;
      if (before < this.rows.length) this.append(this.rows.length);
    });
    window.addEventListener("afterprint", () => before < this.rows.length && this.begin(before));
  }

  /** @param {number[]} rows @param {boolean} byDate  years then have their headings */
  show(rows, byDate) {
    [this.rows, this.byDate] = [rows, byDate];
    this.begin(this.batch);
  }

  /** Show the first rows anew. @param {number} count */
  begin(count) {
    this.last = null;
    this.append(count);
  }

  /** The first of the lines that were added takes the focus: a reader goes on from there. */
  showMore() {
    const first = this.rows[this.shown];
    this.append(this.shown + this.batch);
    this.lines.get(first)?.querySelector("a")?.focus();
  }

  /** Add lines until so many are shown; where none of them was put there by this script, from the first on. @param {number} count */
  append(count) {
    if (!this.last) {
      this.element.replaceChildren();
      this.shown = 0;
    }
    /** @type {Map<HTMLElement, HTMLElement[]>} */
    const added = new Map();
    for (const row of this.rows.slice(this.shown, count)) {
      const list = this.listFor(row);
      if (!added.has(list)) added.set(list, []);
      added.get(list)?.push(this.line(row));
    }
    for (const [list, lines] of added) list.append(...lines);
    this.shown = Math.min(Math.max(this.shown, count), this.rows.length);
    this.tell();
    this.element.dispatchEvent(new CustomEvent("ashbook:lines"));
  }

  /** @param {number} row */
  line(row) {
    let line = this.lines.get(row);
    if (!line) {
      line = firingRows.build(this.columns, row);
      this.lines.set(row, line);
      this.curves.watch(line, row);
    }
    return line;
  }

  /** The list that a row belongs to: its year's, or the one. @param {number} row */
  listFor(row) {
    const year = this.byDate ? firingsColumns.values(firingsColumns.facet(this.columns, "year"), row)[0] : "";
    if (this.last?.year !== year) {
      const list = elements.make("ol", { class: this.byDate ? "firing-lines" : "firing-lines flat" });
      this.element.append(this.byDate ? yearSection(year, list) : list);
      this.last = { year, list };
    }
    return this.last.list;
  }

  tell() {
    const left = this.rows.length - this.shown;
    this.more.hidden = left <= 0;
    elements.one(this.more, "button").textContent = `Show ${Math.min(left, this.batch)} more`;
    elements.one(this.more, "[role=status]").textContent = `${firingsCount(this.shown)} of ${firingsCount(this.rows.length)} are shown.`;
  }
}

/** A year's own part of the list, its heading a way to the year's page. @param {string} year @param {HTMLElement} list */
function yearSection(year, list) {
  const id = `year-${year}`;
  const heading = elements.make("h2", { id }, elements.make("a", { href: `../years/${year}.html` }, year));
  return elements.make("section", { class: "year", "aria-labelledby": id }, heading, list);
}

/** Write a count as the pages do. @param {number} count */
function firingsCount(count) {
  return String(count).replace(/\B(?=(\d{3})+$)/g, ",");
}
