// @ts-check
/** The readings of a write-up: from a log beside the fire, or from a table; with a curve to see what they say. */

class WriteUpReadings {
  /** @param {HTMLElement} form @param {any} rules @param {() => void} changed */
  constructor(form, rules, changed) {
    this.form = form;
    this.root = elements.one(form, "[data-readings]");
    this.rules = rules;
    this.changed = changed;
    /** @type {Fire[]} */
    this.fires = [];
    /** @type {Line[]} */
    this.lines = [];
    this.probes = elements.one(this.root, '[data-list="probes"]');
    this.logged = this.select("log");
    this.table = /** @type {HTMLTextAreaElement} */ (this.part("table"));
    /** @type {any} */
    this.taken = null;
    this.listen();
  }

  /** @param {string} name */
  part(name) {
    return elements.one(this.root, `[data-${name}]`);
  }

  /** @param {string} name */
  select(name) {
    return /** @type {HTMLSelectElement} */ (this.part(name));
  }

  listen() {
    for (const radio of this.root.querySelectorAll("[name=source]")) radio.addEventListener("change", () => this.choose());
    this.logged.addEventListener("change", () => this.choose());
    this.table.addEventListener("input", () => this.readTable());
    const file = /** @type {HTMLInputElement} */ (this.part("table-file"));
    file.addEventListener("change", async () => {
      const chosen = file.files?.[0];
      if (!chosen) return;
      this.table.value = (await chosen.text()).replace(/^\ufeff/, "").slice(0, 2_000_000);
      file.value = "";
      this.readTable();
    });
    for (const name of ["table-time", "table-count"]) this.part(name).addEventListener("change", () => this.nameColumns());
    this.part("table-columns").addEventListener("change", () => this.nameProbes());
  }

  async load() {
    [this.fires, this.lines] = await Promise.all([deviceStore.all("fires"), deviceStore.all("lines")]);
    this.fires.sort((a, b) => b.begun - a.begun);
    this.part("from-log").hidden = !this.fires.length;
    this.logged.replaceChildren(...this.fires.map((fire) => elements.make("option", { value: fire.id }, `${fireLog.day(fire.begun)} ${fire.title}`.trim())));
  }

  source() {
    return /** @type {HTMLInputElement} */ (elements.one(this.root, "[name=source]:checked")).value;
  }

  fire() {
    return this.fires.find((fire) => fire.id === this.logged.value) ?? null;
  }

  /** @param {string} fire */
  linesOf(fire) {
    return this.lines.filter((line) => line.fire === fire);
  }

  /** Another source was chosen: its thermometers are named in the list below. */
  choose() {
    this.show();
    const fire = this.fire();
    if (this.source() === "log" && fire) this.setProbes(fire.probes);
    else if (this.source() === "table") this.readTable();
    this.changed();
  }

  show() {
    const source = this.source();
    for (const part of this.root.querySelectorAll("[data-source]")) /** @type {HTMLElement} */ (part).hidden = part.getAttribute("data-source") !== source;
    this.part("probes-part").hidden = source === "none";
  }

  /** The list of thermometers follows the source; what was written about one stays with its place. @param {string[]} names */
  setProbes(names) {
    const before = formState.read(this.root).probes ?? [];
    const states = names.map((name, index) => ({ ...before[index], name: before[index]?.name || name }));
    formState.write(this.root, { probes: states });
    for (const take of this.probes.querySelectorAll(":scope > [data-items] > [data-item] > [data-take-away]")) take.remove();
    this.part("ware-part").hidden = names.length < 2;
    this.select("ware").replaceChildren(...names.map((name, index) => elements.make("option", { value: index }, name)));
  }

  // A table

  readTable() {
    this.taken = readingTable.take(this.table.value);
    this.part("table-read").hidden = !this.taken;
    if (this.taken) {
      const heading = (/** @type {number} */ number) => this.taken.headings[number] || `Column ${number + 1}: ${this.taken.cells[0][number]}`;
      this.part("table-words").textContent = `${this.taken.cells.length} rows. Look whether the columns were understood.`;
      this.select("table-time").replaceChildren(...this.taken.cells[0].map((/** @type {string} */ _, /** @type {number} */ number) => elements.make("option", { value: number, selected: number === this.taken.times }, heading(number))));
      this.select("table-count").value = this.taken.count;
      if (this.taken.unit) /** @type {HTMLInputElement} */ (elements.one(this.root, `[name=table-unit][value="${this.taken.unit}"]`)).checked = true;
      this.nameColumns();
    } else this.changed();
  }

  nameColumns() {
    const time = Number(this.select("table-time").value);
    const ticks = this.taken.cells[0].map((/** @type {string} */ _, /** @type {number} */ number) => {
      const tick = elements.make("input", { type: "checkbox", value: number, checked: this.taken.numbers.includes(number) });
      return number === time ? "" : elements.make("label", {}, tick, elements.make("span", {}, this.taken.headings[number] || `Column ${number + 1}`));
    });
    this.part("table-columns").replaceChildren(...ticks.filter(Boolean));
    this.nameProbes();
  }

  columns() {
    return [...this.part("table-columns").querySelectorAll("input:checked")].map((tick) => Number(/** @type {HTMLInputElement} */ (tick).value));
  }

  nameProbes() {
    const bare = (/** @type {string} */ words) => words.replace(/[([].*|[°º˚].*/, "").trim();
    this.setProbes(this.columns().map((number, index) => bare(this.taken.headings[number]) || `probe ${index + 1}`));
    this.changed();
  }

  meant() {
    const unit = /** @type {HTMLInputElement} */ (elements.one(this.root, "[name=table-unit]:checked")).value;
    const lit = /** @type {HTMLInputElement} */ (this.part("table-lit")).value;
    return { time: Number(this.select("table-time").value), count: this.select("table-count").value, columns: this.columns(), unit, lit };
  }

  // What they give

  /** What stands in the way of using the table; empty where nothing does. */
  wrong() {
    if (this.source() !== "table" || !this.table.value.trim()) return this.source() === "table" ? "Paste a table or choose a file, or say that no readings were kept." : "";
    if (!this.taken) return "No row with a time and a temperature was found in this.";
    const meant = this.meant();
    const read = readingTable.rows(this.taken, meant);
    if (!meant.columns.length) return "Tick at least one column of temperatures.";
    if (!read.length) return "No time could be read. Look at how the times count.";
    const lit = readingTable.litAt(read, meant);
    if (lit === null) return `\`${meant.lit}\` is not a time on the clock of these readings.`;
    return lit > read[read.length - 1].at ? `\`${meant.lit}\` is later than the last reading.` : "";
  }

  /** The group `readings` of the entry, and the file beside it. @param {any} probes @returns {{readings: any, file: string | null}} */
  forEntry(probes) {
    const ware = this.select("ware").value;
    const named = probes.length > 1 && ware !== "0" && ware !== "" ? { ware_probe: probes[Number(ware)]?.name } : {};
    const fire = this.fire();
    if (this.source() === "log" && fire) {
      return { readings: { time: "elapsed", ...named, probes, rows: fireLog.rows(fire, this.linesOf(fire.id)) }, file: null };
    }
    if (this.source() !== "table" || this.wrong()) return { readings: undefined, file: null };
    const meant = this.meant();
    const read = readingTable.rows(this.taken, meant);
    const lit = fireLog.elapsed((Number(readingTable.litAt(read, meant)) - read[0].at) * 1000);
    const columns = probes.map((/** @type {any} */ probe, /** @type {number} */ index) => ({ ...probe, column: String(index + 2), unit: meant.unit }));
    return {
      readings: { time: "elapsed", lit, file: "readings.csv", time_column: "1", ...named, probes: columns },
      file: readingTable.csv(read, probes.map((/** @type {any} */ probe) => probe.name), meant.unit),
    };
  }

  // The curve

  /** @param {string} method */
  preview(method) {
    const drawing = this.drawing(this.rules.methods.find((/** @type {any} */ one) => one.key === method));
    this.part("curve-part").hidden = !drawing;
    const wrong = this.wrong();
    this.part("readings-wrong").hidden = !wrong || !this.table.value.trim();
    this.part("readings-wrong").textContent = wrong;
    if (!drawing) return;
    fireCurve.draw(/** @type {any} */ (this.part("curve")), drawing);
    this.part("curve-words").textContent = this.part("curve").getAttribute("aria-label");
  }

  /** @param {any} method @returns {any} */
  drawing(method) {
    const names = (formState.read(this.root).probes ?? []).map((/** @type {any} */ probe) => probe.name);
    const fire = this.fire();
    const log = this.source() === "log" && fire ? this.ofLog(fire) : null;
    const read = log ?? (this.source() === "table" && !this.wrong() ? this.ofTable() : null);
    if (!read) return null;
    const edge = (/** @type {number | null | undefined} */ celsius) => (celsius === null || celsius === undefined ? null : fireLog.inUnit(celsius, "°C", read.unit));
    const tracks = read.tracks.map((points, index) => ({ name: names[index] ?? "", points }));
    return { tracks, events: read.events, unit: read.unit, window: [edge(method?.low), edge(method?.high)], from: read.from, now: null, zero: "lit" };
  }

  /** @param {Fire} fire */
  ofLog(fire) {
    const lines = this.linesOf(fire.id);
    const kept = fireLog.standing(lines);
    const zero = fireLog.moment(lines, "lit") ?? kept[0]?.at ?? fire.begun;
    const minutes = (/** @type {number} */ at) => (at - zero) / fireLog.MINUTE;
    return {
      tracks: fire.probes.map((_, probe) => fireLog.track(lines, probe, fire.unit).map((point) => ({ minutes: minutes(point.at), value: point.value }))),
      events: kept.filter((line) => line.kind === "event").map((line) => ({ minutes: minutes(line.at), words: line.words ?? "" })),
      unit: fire.unit,
      from: minutes(kept[0]?.at ?? zero),
    };
  }

  ofTable() {
    const meant = this.meant();
    const read = readingTable.rows(this.taken, meant);
    const zero = Number(readingTable.litAt(read, meant));
    const minutes = (/** @type {number} */ at) => (at - zero) / 60;
    return {
      tracks: meant.columns.map((_, index) => read.filter((row) => row.values[index] !== null).map((row) => ({ minutes: minutes(row.at), value: Number(row.values[index]) }))),
      events: read.filter((row) => row.words).map((row) => ({ minutes: minutes(row.at), words: row.words })),
      unit: meant.unit,
      from: minutes(read[0].at),
    };
  }

  // Drafts

  state() {
    const meant = this.taken ? this.meant() : null;
    return { source: this.source(), log: this.logged.value, table: this.table.value, meant, ware: this.select("ware").value };
  }

  /** @param {any} state @param {any} probes */
  restore(state, probes) {
    const source = state?.source === "log" && !this.fires.some((fire) => fire.id === state.log) ? "none" : state?.source ?? "none";
    /** @type {HTMLInputElement} */ (elements.one(this.root, `[name=source][value=${source}]`)).checked = true;
    if (state?.log) this.logged.value = state.log;
    this.table.value = state?.table ?? "";
    formState.write(this.root, { probes: probes ?? [] });
    this.taken = null;
    if (source === "table" && this.table.value) this.readTable();
    if (source === "table" && state?.meant && this.taken) this.restoreMeaning(state.meant);
    if (source === "log" && this.fire()) this.setProbes(/** @type {Fire} */ (this.fire()).probes);
    if (state?.ware) this.select("ware").value = state.ware;
    this.show();
  }

  /** @param {any} meant */
  restoreMeaning(meant) {
    this.select("table-time").value = String(meant.time);
    this.select("table-count").value = meant.count;
    this.nameColumns();
    for (const tick of /** @type {NodeListOf<HTMLInputElement>} */ (this.part("table-columns").querySelectorAll("input"))) tick.checked = meant.columns.includes(Number(tick.value));
    /** @type {HTMLInputElement} */ (elements.one(this.root, `[name=table-unit][value="${meant.unit}"]`)).checked = true;
    /** @type {HTMLInputElement} */ (this.part("table-lit")).value = meant.lit;
    this.nameProbes();
  }
}
