// @ts-check
/** The pad on which a reading is set: steps, keys, and one wide button that says what it will write. */

/**
 * @typedef {object} PadRules
 * @property {number} coldest °C
 * @property {number} hottest °C
 * @property {[string, string]} neverRead what is said of a reading that no fire shows, with a gap for it
 */

class FiresidePad {
  /** @param {HTMLElement} root @param {PadRules} rules @param {(value: number, minutesAgo: number) => void} write */
  constructor(root, rules, write) {
    this.root = root;
    this.rules = rules;
    this.write = write;
    this.value = 20;
    this.unit = /** @type {"°C" | "°F"} */ ("°C");
    this.minutesAgo = 0;
    this.fresh = true;
    this.lastTap = -Infinity;
    this.keypad = elements.one(root, "[data-keypad]");
    this.fillKeypad();
    this.listen();
  }

  listen() {
    const on = (/** @type {string} */ selector, /** @type {() => void} */ act) => elements.one(this.root, selector).addEventListener("click", act);
    for (const button of this.root.querySelectorAll("[data-step]")) {
      button.addEventListener("click", () => this.set(this.value + Number(button.getAttribute("data-step"))));
    }
    on("[data-value]", () => this.toggleKeys(Boolean(this.keypad.hidden)));
    on("[data-write]", () => this.writeDown());
    on("[data-earlier]", () => this.setMinutesAgo(this.minutesAgo + 1));
    on("[data-now]", () => this.setMinutesAgo(0));
  }

  fillKeypad() {
    const keys = ["1", "2", "3", "4", "5", "6", "7", "8", "9", "⌫", "0", "Done"];
    for (const key of keys) {
      const made = elements.button(key, () => this.key(key));
      if (key === "⌫") made.setAttribute("aria-label", "Rub out a figure");
      this.keypad.append(made);
    }
  }

  /** @param {boolean} open */
  toggleKeys(open) {
    this.keypad.hidden = !open;
    this.fresh = true;
    elements.one(this.root, "[data-value]").setAttribute("aria-expanded", String(open));
    // The keys push the button down that is pressed after them.
    if (open) elements.one(this.root, "[data-write]").scrollIntoView({ block: "nearest" });
  }

  /** The first figure begins a new number; later ones go on with it. @param {string} key */
  key(key) {
    if (key === "Done") return this.toggleKeys(false);
    const written = this.fresh ? "" : String(Math.abs(this.value));
    this.fresh = false;
    if (key === "⌫") return this.set(Number(String(this.value).slice(0, -1)) || 0);
    if (written.length < 4) this.set(Number(written + key));
  }

  /** @param {number} value @param {"°C" | "°F"} [unit] */
  set(value, unit = this.unit) {
    this.value = Math.round(value);
    this.unit = unit;
    this.show();
  }

  /** @param {number} minutes */
  setMinutesAgo(minutes) {
    this.minutesAgo = minutes;
    this.show();
  }

  /** What stands against writing this down; empty where nothing does. */
  wrong() {
    return fireLog.neverRead(this.value, this.unit, this.rules);
  }

  written() {
    return `${this.value} ${this.unit}`.replace("-", "−");
  }

  show() {
    const ago = this.minutesAgo ? `, ${this.minutesAgo} min ago` : "";
    const value = elements.one(this.root, "[data-value]");
    value.textContent = String(this.value).replace("-", "−");
    value.setAttribute("aria-label", `${this.written()}, type another number`);
    elements.one(this.root, "[data-write]").textContent = `Write down ${this.written()}${ago}`;
    elements.one(this.root, "[data-now]").hidden = !this.minutesAgo;
    const wrong = elements.one(this.root, "[data-wrong]");
    wrong.textContent = this.wrong();
    wrong.hidden = !wrong.textContent;
  }

  /** A second tap within half a second is a thumb that bounced. */
  writeDown() {
    const now = performance.now();
    if (this.wrong() || now - this.lastTap < 500) return;
    this.lastTap = now;
    this.write(this.value, this.minutesAgo);
    this.toggleKeys(false);
    this.setMinutesAgo(0);
  }
}
