// @ts-check
/** Where the page begins: a new log, and the logs that are kept on this device. */

class FiresideShelf {
  /**
   * @param {HTMLElement} root
   * @param {{begin: (fire: Fire) => void, open: (id: string) => void, remove: (id: string) => void}} acts
   */
  constructor(root, acts) {
    this.root = root;
    this.acts = acts;
    /** @type {string | null} the log that is about to be deleted */
    this.asked = null;
    elements.one(root, "[data-new]").addEventListener("submit", (event) => {
      event.preventDefault();
      this.begin();
    });
  }

  /** @param {string} selector */
  typed(selector) {
    return /** @type {HTMLInputElement} */ (elements.one(this.root, selector)).value.trim();
  }

  /** A new log is mostly like the one before: the same way of firing, thermometers and degrees. @param {Fire} last */
  likeLast(last) {
    const method = /** @type {HTMLSelectElement} */ (elements.one(this.root, "[data-new-method]"));
    if ([...method.options].some((option) => option.value === last.method)) method.value = last.method;
    /** @type {HTMLInputElement} */ (elements.one(this.root, "[data-new-probes]")).value = last.probes.join(", ");
    /** @type {HTMLInputElement} */ (elements.one(this.root, `[name=degrees][value="${last.unit}"]`)).checked = true;
  }

  begin() {
    const degrees = /** @type {HTMLInputElement} */ (elements.one(this.root, "[name=degrees]:checked"));
    const method = /** @type {HTMLSelectElement} */ (elements.one(this.root, "[data-new-method]"));
    this.acts.begin({
      id: deviceStore.newId(),
      title: this.typed("[data-new-title]"),
      method: method.value,
      unit: /** @type {"°C" | "°F"} */ (degrees.value),
      probes: probeNames(this.typed("[data-new-probes]")),
      begun: Date.now(),
    });
    /** @type {HTMLInputElement} */ (elements.one(this.root, "[data-new-title]")).value = "";
  }

  /** @param {Fire[]} fires @param {Line[]} lines */
  show(fires, lines) {
    const newest = [...fires].sort((a, b) => b.begun - a.begun);
    elements.one(this.root, "[data-kept-part]").hidden = !newest.length;
    elements.one(this.root, "[data-kept]").replaceChildren(...newest.map((fire) => this.row(fire, lines.filter((line) => line.fire === fire.id), () => this.show(fires, lines))));
  }

  /** @param {Fire} fire @param {Line[]} lines @param {() => void} again */
  row(fire, lines, again) {
    const { make, button } = elements;
    const title = fireTitle(fire);
    const over = fireLog.moment(lines, "over") !== null;
    const count = fireLog.standing(lines).length;
    const told = `${fireLog.day(fire.begun)}, ${count} line${count === 1 ? "" : "s"}${over ? "" : ", not over"}`;
    const words = make("p", {}, make("strong", {}, title), make("span", { class: "quiet" }, told));
    if (this.asked === fire.id) {
      const sure = button("Delete for good", () => {
        this.asked = null;
        this.acts.remove(fire.id);
      });
      const keep = button("Keep it", () => {
        this.asked = null;
        again();
      });
      return make("li", { class: "asked", role: "alert" }, make("p", {}, `Delete “${title}” with its ${count} line${count === 1 ? "" : "s"}? There is no other copy unless you saved one.`), make("div", { class: "pair" }, keep, sure));
    }
    const open = button(over ? "Look" : "Go on", () => this.acts.open(fire.id), "act");
    open.setAttribute("aria-label", `${over ? "Look at" : "Go on with"} ${title}`);
    const remove = button("Delete", () => {
      this.asked = fire.id;
      again();
    });
    remove.setAttribute("aria-label", `Delete ${title}`);
    return make("li", {}, words, make("div", { class: "pair" }, open, remove));
  }
}

/** @param {Fire} fire */
function fireTitle(fire) {
  return fire.title || `Fire of ${fireLog.day(fire.begun)}`;
}

/** Four names at the most, each once. @param {string} written */
function probeNames(written) {
  /** @type {Map<string, string>} */
  const names = new Map();
  for (const name of written.split(",").map((word) => word.trim().replace(/\s+/g, " ").slice(0, 60)).filter(Boolean)) {
    if (!names.has(name.toLowerCase())) names.set(name.toLowerCase(), name);
  }
  return [...names.values()].slice(0, 4).concat(names.size ? [] : ["wall"]);
}
