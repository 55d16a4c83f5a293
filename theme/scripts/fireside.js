// @ts-check
/** The log beside the fire: what is on the device, what the screen shows of it, and what a tap adds. */

class Fireside {
  /** @param {HTMLElement} root */
  constructor(root) {
    this.root = root;
    this.rules = elements.block("fireside-rules");
    /** @type {Fire[]} */
    this.fires = [];
    /** @type {Line[]} */
    this.lines = [];
    /** @type {Fire | null} */
    this.fire = null;
    this.probe = 0;
    this.drawnAt = 0;
    this.shelf = new FiresideShelf(root, {
      begin: (fire) => this.begin(fire),
      open: (id) => this.open(id),
      remove: (id) => this.remove(id),
    });
    this.pad = new FiresidePad(elements.one(root, "[data-hand]"), this.rules, (value, ago) => this.reading(value, ago));
    this.list = new FiresideLines(elements.one(root, "[data-lines]"), elements.one(root, "[data-more]"), this.rules, (line) => this.change(line));
    this.listen();
  }

  /** @param {string} name */
  part(name) {
    return elements.one(this.root, `[data-${name}]`);
  }

  listen() {
    const on = (/** @type {string} */ name, /** @type {() => void} */ act) => this.part(name).addEventListener("click", act);
    on("light", () => this.add({ kind: "lit" }, "The main fire is lit"));
    on("over", () => this.add({ kind: "over" }, "The fire is over"));
    on("again", () => this.goOn());
    on("close", () => this.close());
    on("save-table", () => this.saveTable());
    on("own-close", () => this.askWords(false));
    on("trouble-again", () => deviceStore.settle());
    this.part("own").addEventListener("submit", (event) => {
      event.preventDefault();
      this.ownWords();
    });
    this.part("awake").addEventListener("change", () => this.stayAwake());
    document.addEventListener("visibilitychange", () => this.tick());
    addEventListener("pageshow", () => this.tick());
    deviceStore.onTrouble((words) => this.tell(words));
    deviceStore.onChange(() => this.load());
    setInterval(() => this.tick(), 1000);
  }

  async start() {
    await this.load();
    const last = [...this.fires].sort((a, b) => b.begun - a.begun)[0];
    if (last) this.shelf.likeLast(last);
    if (last && fireLog.moment(this.of(last.id), "over") === null) this.open(last.id);
    else this.close();
  }

  async load() {
    [this.fires, this.lines] = await Promise.all([deviceStore.all("fires"), deviceStore.all("lines")]);
    if (this.fire) this.fire = this.fires.find((fire) => fire.id === this.fire?.id) ?? null;
    this.show();
  }

  /** @param {string} id */
  of(id) {
    return this.lines.filter((line) => line.fire === id);
  }

  // What changes

  /** @param {Fire} fire */
  async begin(fire) {
    this.fires.push(fire);
    this.open(fire.id);
    await deviceStore.put("fires", fire);
    await deviceStore.stay();
    this.show();
  }

  /** @param {string} id */
  open(id) {
    this.fire = this.fires.find((fire) => fire.id === id) ?? null;
    this.probe = fireLog.lastWritten(this.current().filter((line) => line.kind === "reading"))?.probe ?? 0;
    this.setPad();
    this.show();
    this.part("fire-title").focus({ preventScroll: true });
    scrollTo(0, 0);
    this.stayAwake();
  }

  close() {
    this.fire = null;
    this.stayAwake();
    this.show();
  }

  /** @param {string} id */
  async remove(id) {
    const lines = this.of(id);
    this.fires = this.fires.filter((fire) => fire.id !== id);
    this.lines = this.lines.filter((line) => line.fire !== id);
    this.show();
    await Promise.all([deviceStore.remove("fires", id), ...lines.map((line) => deviceStore.remove("lines", line.id))]);
  }

  /** @param {Partial<Line>} what @param {string} said @param {number} [minutesAgo] */
  async add(what, said, minutesAgo = 0) {
    if (!this.fire) return;
    const at = Date.now() - minutesAgo * fireLog.MINUTE;
    const line = /** @type {Line} */ ({ id: deviceStore.newId(), fire: this.fire.id, at, ...what });
    this.lines.push(line);
    this.show();
    this.stayAwake();
    const kept = await deviceStore.put("lines", line);
    this.part("said").textContent = kept ? `${said}, ${fireLog.clock(at)}` : `${said}: not kept yet`;
    this.show();
  }

  /** @param {Line} line */
  async change(line) {
    this.lines = this.lines.map((other) => (other.id === line.id ? line : other));
    this.show();
    this.stayAwake();
    await deviceStore.put("lines", line);
    this.part("said").textContent = line.gone ? "Taken back" : "Changed";
    this.show();
  }

  /** @param {number} value @param {number} minutesAgo */
  reading(value, minutesAgo) {
    const unit = this.fire?.unit ?? "°C";
    return this.add({ kind: "reading", probe: this.probe, value, unit }, `${value} ${unit} written down`, minutesAgo);
  }

  /** @param {string} words */
  happening(words) {
    if (words === this.rules.happenings.at(-1)) this.askWords(true);
    else this.add({ kind: "event", words: this.rules.happenings.includes(words) ? words[0].toLowerCase() + words.slice(1) : words }, words);
  }

  /** @param {boolean} ask */
  askWords(ask) {
    this.part("own").hidden = !ask;
    if (ask) this.part("own-words").focus();
  }

  ownWords() {
    const field = /** @type {HTMLInputElement} */ (this.part("own-words"));
    const words = field.value.trim();
    if (words) this.add({ kind: "event", words }, words);
    field.value = "";
    this.askWords(false);
  }

  goOn() {
    const over = this.current().find((line) => line.kind === "over" && !line.gone);
    if (over) this.change({ ...over, gone: true });
  }

  saveTable() {
    if (!this.fire) return;
    const name = `${fireLog.day(this.fire.begun)}-readings.csv`;
    fileSaving.save(new File([fireLog.csv(this.fire, this.current())], name, { type: "text/csv" }));
  }

  async stayAwake() {
    const wanted = /** @type {HTMLInputElement} */ (this.part("awake")).checked;
    const burning = this.fire !== null && fireLog.moment(this.current(), "over") === null;
    await screenAwake.keep(wanted && burning);
    this.part("awake-words").textContent = awakeWords(wanted && burning);
  }

  // What is shown

  current() {
    return this.fire ? this.of(this.fire.id) : [];
  }

  /** The window of the fire's method, in the fire's own degrees. @returns {[number | null, number | null]} */
  window() {
    const method = this.rules.methods.find((/** @type {any} */ one) => one.key === this.fire?.method);
    const unit = this.fire?.unit ?? "°C";
    const edge = (/** @type {number | null | undefined} */ celsius) => (celsius === null || celsius === undefined ? null : fireLog.inUnit(celsius, "°C", unit));
    return [edge(method?.low), edge(method?.high)];
  }

  setPad() {
    const unit = this.fire?.unit ?? "°C";
    const last = fireLog.track(this.current(), this.probe, unit).at(-1);
    this.pad.set(last ? last.value : unit === "°F" ? 70 : 20, unit);
  }

  show() {
    this.part("shelf").hidden = this.fire !== null;
    this.part("fire").hidden = this.fire === null;
    document.body.classList.toggle("beside-fire", this.fire !== null);
    if (!this.fire) return this.shelf.show(this.fires, this.lines);
    const lines = this.current();
    const [lit, over] = [fireLog.moment(lines, "lit"), fireLog.moment(lines, "over")];
    this.part("fire-title").textContent = fireTitle(this.fire);
    this.part("light").hidden = lit !== null;
    this.part("hand").hidden = over !== null;
    this.part("over").hidden = over !== null;
    this.part("after").hidden = over === null;
    this.part("awake-part").hidden = over !== null;
    this.part("write-it-up").setAttribute("href", `${this.root.dataset.writeUp}#fire=${this.fire.id}`);
    this.part("after-words").textContent = over === null ? "" : `Over at ${fireLog.clock(over)}${lit === null ? "" : `, ${fireLog.stretch(over - lit)} after lighting`}. The log stays here until you delete it.`;
    for (const list of this.root.querySelectorAll("[data-stage]")) {
      const stage = over !== null ? "over" : lit === null ? "before" : "burning";
      /** @type {HTMLElement} */ (list).hidden = list.getAttribute("data-stage") !== stage;
    }
    this.showProbes();
    this.showHappenings();
    this.list.show(this.fire, lines);
    this.drawnAt = 0;
    this.tick();
  }

  showProbes() {
    const names = this.fire?.probes ?? [];
    this.part("probes-part").hidden = names.length < 2;
    const box = this.part("probes");
    if (box.dataset.for !== `${this.fire?.id}`) this.fillProbes(box, names);
    box.dataset.for = `${this.fire?.id}`;
    for (const radio of box.querySelectorAll("input")) radio.checked = Number(radio.value) === this.probe;
  }

  /** @param {HTMLElement} box @param {string[]} names */
  fillProbes(box, names) {
    box.replaceChildren(
      ...names.map((name, number) => {
        const radio = elements.make("input", { type: "radio", name: "probe", value: number });
        radio.addEventListener("change", () => {
          this.probe = number;
          this.setPad();
          this.show();
        });
        return elements.make("label", {}, radio, elements.make("span", {}, name));
      }),
    );
  }

  /** The usual happenings, and the potter's own words of this fire. */
  showHappenings() {
    const usual = this.rules.happenings;
    const own = new Set(fireLog.standing(this.current()).filter((line) => line.kind === "event").map((line) => line.words ?? ""));
    for (const words of usual) own.delete(words[0].toLowerCase() + words.slice(1));
    const box = this.part("happenings");
    const wanted = [...usual.slice(0, -1), ...[...own].slice(-4), usual.at(-1)];
    if (box.dataset.for === JSON.stringify(wanted)) return;
    box.dataset.for = JSON.stringify(wanted);
    box.replaceChildren(...wanted.map((words) => elements.button(words, () => this.happening(words))));
  }

  /** All that changes by itself; everything is reckoned from moments, so it is right after any sleep. */
  tick() {
    if (!this.fire || document.visibilityState === "hidden") return;
    const lines = this.current();
    const [lit, over] = [fireLog.moment(lines, "lit"), fireLog.moment(lines, "over")];
    const now = over ?? Date.now();
    const points = fireLog.track(lines, this.probe, this.fire.unit);
    const last = points.at(-1);
    this.part("temperature").replaceChildren(...(last ? [String(Math.round(last.value)).replace("-", "−"), elements.make("span", { class: "degrees" }, this.fire.unit)] : ["–"]));
    this.part("since").textContent = lit === null ? "Not lit yet" : `${fireLog.stretch(now - lit)} ${over === null ? "since lit" : "in all"}`;
    this.part("rate").textContent = rateWords(points, now);
    this.part("fire-kept").textContent = deviceStore.trouble() ? "not kept" : "kept";
    this.tickWindow(points, now);
    if (now - this.drawnAt >= 5000 || over !== null) this.drawCurve(lines, lit, over);
  }

  /** @param {Point[]} points @param {number} now */
  tickWindow(points, now) {
    const [low, high] = this.window();
    const last = points.at(-1);
    const band = this.part("window");
    const inside = last !== undefined && last.value >= (low ?? -Infinity) && last.value <= (high ?? Infinity);
    const named = low !== null || high !== null;
    band.hidden = !named;
    band.classList.toggle("inside", inside && !isOld(last, now));
    const edges = `${low === null ? "" : Math.round(low)} to ${high === null ? "" : Math.round(high)} ${this.fire?.unit}`;
    let words = `The window is ${edges}`;
    if (last && inside) words = isOld(last, now) ? "In the window when last read" : "In the window";
    else if (last && low !== null && last.value < low) words = `${Math.round(low - last.value)} below the window, ${edges}`;
    else if (last && high !== null && last.value > high) words = `${Math.round(last.value - high)} above the window, ${edges}`;
    this.part("window-words").textContent = words;
    const minutes = named ? fireLog.minutesWithin(points, low ?? -Infinity, high ?? Infinity) : 0;
    this.part("window-time").textContent = minutes > 0 ? `${minutes < 10 ? minutes.toFixed(1) : Math.round(minutes)} min so far` : "";
  }

  /** @param {Line[]} lines @param {number | null} lit @param {number | null} over */
  drawCurve(lines, lit, over) {
    const fire = /** @type {Fire} */ (this.fire);
    const first = fireLog.standing(lines)[0]?.at ?? fire.begun;
    const zero = lit ?? first;
    const minutes = (/** @type {number} */ at) => (at - zero) / fireLog.MINUTE;
    const order = [this.probe, ...fire.probes.keys()].filter((probe, index, all) => all.indexOf(probe) === index);
    fireCurve.draw(/** @type {any} */ (this.part("curve")), {
      tracks: order.map((probe) => ({ name: fire.probes[probe], points: fireLog.track(lines, probe, fire.unit).map((point) => ({ minutes: minutes(point.at), value: point.value })) })),
      events: fireLog.standing(lines).filter((line) => line.kind === "event").map((line) => ({ minutes: minutes(line.at), words: line.words ?? "" })),
      unit: fire.unit,
      window: this.window(),
      from: minutes(first),
      now: over === null ? minutes(Date.now()) : null,
      zero: lit === null ? "begun" : "lit",
    });
    this.drawnAt = Date.now();
  }

  /** @param {string} words */
  tell(words) {
    this.part("trouble").hidden = !words;
    this.part("trouble-words").textContent = words;
  }
}

/** Whether a reading no longer tells what the fire does now. @param {Point} point @param {number} now */
function isOld(point, now) {
  return now - point.at > 10 * fireLog.MINUTE;
}

/** How fast it rises, or how old the last reading is where that tells more. @param {Point[]} points @param {number} now */
function rateWords(points, now) {
  const last = points.at(-1);
  if (!last) return "";
  if (isOld(last, now)) return `last read ${fireLog.stretch(now - last.at)} ago`;
  const rate = fireLog.rate(points);
  if (rate === null) return "";
  const size = Math.abs(rate) < 10 ? Math.abs(rate).toFixed(1).replace(/\.0$/, "") : String(Math.round(Math.abs(rate)));
  return size === "0" ? "steady" : `${rate > 0 ? "rising" : "falling"} ${size} a minute`;
}

/** What stands beside the switch that keeps the screen on. @param {boolean} wanted */
function awakeWords(wanted) {
  if (!screenAwake.possible()) return "This browser cannot keep the screen on; times hold all the same.";
  if (wanted && !screenAwake.kept()) return "The screen may go dark, the browser would not keep it on; times hold all the same.";
  return "Keep the screen on";
}

(() => {
  const root = document.querySelector("[data-fireside]");
  if (!(root instanceof HTMLElement)) return;
  document.querySelector("[data-without-scripts]")?.setAttribute("hidden", "");
  root.hidden = false;
  new Fireside(root).start();
})();
