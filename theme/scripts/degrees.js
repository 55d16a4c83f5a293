// @ts-check
/**
 * °C or °F, by the reader's choice, remembered. Without this script every page reads in °C as it was built.
 *
 * A temperature is marked `<span class="t" data-c="742">742 °C</span>`, in a drawing likewise by a tspan. A difference
 * has the class `step`, a rate `rate`, an area under a curve `area`: these turn by 9/5 alone, without the 32.
 * What is written for one scale only has the class `in-c` or `in-f`, and the style sheet shows one of the two.
 */
(() => {
  "use strict";
  const KEY = "ashbook.degrees";
  const root = document.documentElement;
  /** @type {WeakMap<Element, string>} every marked number's words as they were built */
  const built = new WeakMap();

  /** @returns {string | null} the choice that was kept; none where the browser keeps nothing */
  function kept() {
    try {
      return localStorage.getItem(KEY);
    } catch {
      return null;
    }
  }

  /** @param {"c" | "f"} unit */
  function keep(unit) {
    try {
      localStorage.setItem(KEY, unit);
    } catch {
      // The choice then holds for this page alone.
    }
  }

  /** @returns {"c" | "f"} */
  const unit = () => (root.dataset.degrees === "f" ? "f" : "c");

  /**
   * @param {number} celsius
   * @param {boolean} difference  a difference, a rate or an area: no 32
   */
  const fahrenheit = (celsius, difference) => celsius * 1.8 + (difference ? 0 : 32);

  /**
   * Write a number as the pages do: a real minus, a comma in the thousands from 10,000 on.
   *
   * @param {number} value
   * @param {number} decimals
   */
  function plain(value, decimals) {
    const digits = Math.abs(value).toFixed(decimals);
    const [whole, part] = digits.split(".");
    const spaced = whole.length > 4 ? whole.replace(/\B(?=(\d{3})+$)/g, ",") : whole;
    return (value < 0 && Number(digits) !== 0 ? "−" : "") + spaced + (part ? `.${part}` : "");
  }

  /** @param {Element} mark */
  function showOne(mark) {
    const words = built.get(mark) ?? mark.textContent ?? "";
    built.set(mark, words);
    const celsius = Number(/** @type {HTMLElement} */ (mark).dataset.c);
    if (unit() === "c" || !Number.isFinite(celsius)) {
      if (mark.textContent !== words) mark.textContent = words;
      return;
    }
    const number = words.match(/[\d,]+(?:\.(\d+))?/);
    const difference = ["step", "rate", "area"].some((kind) => mark.classList.contains(kind));
    const value = plain(fahrenheit(celsius, difference), number?.[1]?.length ?? 0);
    const signed = words.startsWith("+") && !value.startsWith("−") ? `+${value}` : value;
    mark.textContent = words.replace(/^[+−-]?[\d,]+(?:\.\d+)?/, signed).replace("°C", "°F");
  }

  /** Show every marked number below an element in the reader's unit. @param {ParentNode} part */
  function show(part) {
    for (const mark of part.querySelectorAll(".t[data-c]")) showOne(mark);
  }

  /** The switch says what it will do. */
  function label() {
    const button = document.querySelector(".degrees-switch");
    if (!(button instanceof HTMLButtonElement)) return;
    const other = unit() === "c" ? "°F" : "°C";
    button.textContent = other;
    button.setAttribute("aria-label", `Temperatures in ${other}`);
    button.hidden = false;
  }

  /** @param {string | null} chosen */
  function choose(chosen) {
    if (chosen === "f") root.dataset.degrees = "f";
    else delete root.dataset.degrees;
    if (document.readyState === "loading") return;
    show(document);
    label();
    document.dispatchEvent(new CustomEvent("ashbook:degrees"));
  }

  choose(kept());
  addEventListener("storage", (event) => {
    if (event.key === KEY) choose(event.newValue);
  });
  document.addEventListener("DOMContentLoaded", () => {
    if (unit() === "f") show(document);
    label();
    document.querySelector(".degrees-switch")?.addEventListener("click", () => {
      const other = unit() === "c" ? "f" : "c";
      keep(other);
      choose(other);
    });
  });

  /** @type {any} */ (window).ashbookDegrees = { unit, fahrenheit, plain, show };
})();
