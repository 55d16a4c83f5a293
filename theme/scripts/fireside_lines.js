// @ts-check
/** The lines of a log, newest first; each can be changed, moved in time or taken back, and what was taken back put back. */

class FiresideLines {
  /**
   * @param {HTMLElement} list @param {HTMLElement} more @param {PadRules} rules
   * @param {(line: Line) => void} change keeps a changed line
   */
  constructor(list, more, rules, change) {
    this.list = list;
    this.rules = rules;
    this.more = more;
    this.change = change;
    /** @type {string | null} the line that is being changed */
    this.open = null;
    this.shown = 6;
    /** @type {Line[]} */
    this.lines = [];
    /** @type {Fire | null} */
    this.fire = null;
    more.addEventListener("click", () => {
      this.shown = Infinity;
      this.draw();
    });
  }

  /** @param {Fire} fire @param {Line[]} lines */
  show(fire, lines) {
    if (this.fire?.id !== fire.id) [this.shown, this.open] = [6, null];
    this.fire = fire;
    this.lines = lines;
    // Whoever is writing in a line must not have it drawn anew beneath the fingers.
    if (!this.open || !lines.some((line) => line.id === this.open)) this.draw();
  }

  draw() {
    const newest = [...this.lines].sort((a, b) => b.at - a.at || (a.id < b.id ? 1 : -1));
    const shown = newest.slice(0, this.shown);
    const last = fireLog.lastWritten(this.lines);
    this.list.replaceChildren(...shown.map((line) => this.row(line, line === last)));
    this.more.hidden = newest.length <= shown.length;
    this.more.textContent = `All ${newest.length} lines`;
  }

  /** @param {Line} line */
  what(line) {
    const probes = this.fire?.probes ?? [];
    const probe = line.kind === "reading" && probes.length > 1 ? `${probes[line.probe ?? 0]} ` : "";
    return `${probe}${fireLog.says(line).replace(/^-/, "−")}`;
  }

  /** @param {Line} line @param {boolean} last that was written: one tap takes it back */
  row(line, last) {
    const { make, button } = elements;
    const time = make("time", { class: "line-time" }, fireLog.clock(line.at));
    if (line.gone) {
      const back = button("Put back", () => this.save({ ...line, gone: false }));
      back.setAttribute("aria-label", `Put back ${fireLog.clock(line.at)}, ${this.what(line)}`);
      return make("li", { class: "gone" }, time, make("s", { class: "line-what" }, this.what(line)), back);
    }
    const item = make("li", { class: `line-${line.kind}` }, time, make("span", { class: "line-what" }, this.what(line)));
    if (this.open === line.id) item.append(this.form(line));
    else {
      const change = button("Change", () => this.edit(line.id));
      change.setAttribute("aria-label", `Change ${fireLog.clock(line.at)}, ${this.what(line)}`);
      item.append(change);
      if (last) {
        const back = button("Take back", () => this.save({ ...line, gone: true }));
        back.setAttribute("aria-label", `Take back ${fireLog.clock(line.at)}, ${this.what(line)}`);
        item.append(back);
      }
    }
    return item;
  }

  /** @param {string | null} id */
  edit(id) {
    this.open = id;
    this.draw();
    const first = this.list.querySelector("form input");
    if (first instanceof HTMLElement) first.focus();
  }

  /** @param {Line} line */
  save(line) {
    this.open = null;
    this.change(line);
  }

  /** @param {Line} line */
  form(line) {
    const { make, button } = elements;
    const when = /** @type {HTMLInputElement} */ (make("input", { type: "time", step: 1, required: true, value: fireLog.clock(line.at, true) }));
    const fields = [make("label", { class: "field" }, make("span", {}, "When"), when)];
    const reading = line.kind === "reading";
    const what = /** @type {HTMLInputElement} */ (
      make("input", { type: "text", inputmode: reading ? "decimal" : false, autocomplete: "off", maxlength: 120, value: reading ? String(line.value) : line.words ?? "" })
    );
    const probes = this.probes(line);
    if (probes) fields.push(make("label", { class: "field" }, make("span", {}, "Thermometer"), probes));
    if (reading || line.kind === "event") fields.push(make("label", { class: "field" }, make("span", {}, reading ? `Reading, ${line.unit}` : "What"), what));
    const wrong = make("p", { class: "pad-wrong", role: "alert", hidden: true });
    const form = make("form", { class: "line-form", novalidate: true }, ...fields, wrong);
    form.append(
      make("div", { class: "pair" }, make("button", { type: "submit", class: "act" }, "Keep the change"), button("Take back", () => this.save({ ...line, gone: true }))),
      button("Leave it as it was", () => this.edit(null), "plain"),
    );
    form.addEventListener("submit", (event) => {
      event.preventDefault();
      const on = probes ? { ...line, probe: Number(probes.value) } : line;
      const changed = changedLine(on, when.value, what.value, this.rules);
      if (typeof changed !== "string") return this.save(changed);
      wrong.textContent = changed;
      wrong.hidden = false;
    });
    return form;
  }

  /** The choice of a reading's thermometer, where there are several. @param {Line} line @returns {HTMLSelectElement | null} */
  probes(line) {
    const names = this.fire?.probes ?? [];
    if (line.kind !== "reading" || names.length < 2) return null;
    const options = names.map((name, number) => elements.make("option", { value: number, selected: number === line.probe }, name));
    return /** @type {HTMLSelectElement} */ (elements.make("select", {}, ...options));
  }
}

/** A line with another time and another content, or what is wrong with them. @param {Line} line @param {string} time @param {string} what @param {PadRules} rules @returns {Line | string} */
function changedLine(line, time, what, rules) {
  if (!/^\d\d:\d\d/.test(time)) return "Write the time as hours and minutes.";
  const [hours, minutes, seconds = "0"] = time.split(":");
  const day = new Date(line.at);
  day.setHours(Number(hours), Number(minutes), Number(seconds), 0);
  // Around midnight the nearer day is meant.
  const at = [-1, 0, 1].map((days) => day.getTime() + days * 86_400_000).reduce((a, b) => (Math.abs(b - line.at) < Math.abs(a - line.at) ? b : a));
  const moved = time === fireLog.clock(line.at, true) ? line.at : at;
  if (line.kind !== "reading") return line.kind === "event" && !what.trim() ? "Write what happened, or take the line back." : { ...line, at: moved, words: what.trim() };
  const value = Number(what.trim().replace(",", ".").replace("−", "-"));
  if (!what.trim() || !Number.isFinite(value)) return "Write the reading as a number.";
  const never = fireLog.neverRead(value, line.unit ?? "°C", rules);
  return never || { ...line, at: moved, value: Math.round(value * 100) / 100 };
}
