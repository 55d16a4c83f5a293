// @ts-check
/** Light or dark, by the reader's choice; without one, by the reader's system. Loaded before the page is drawn. */
(() => {
  "use strict";
  const KEY = "ashbook.scheme";
  const root = document.documentElement;
  const systemIsDark = matchMedia("(prefers-color-scheme: dark)");

  /** @returns {string | null} the choice that was kept; none where the browser keeps nothing */
  function kept() {
    try {
      return localStorage.getItem(KEY);
    } catch {
      return null;
    }
  }

  /** @param {"light" | "dark"} scheme */
  function keep(scheme) {
    try {
      localStorage.setItem(KEY, scheme);
    } catch {
      // The choice then holds for this page alone.
    }
  }

  /** @param {string | null} scheme */
  function show(scheme) {
    if (scheme === "light" || scheme === "dark") root.dataset.scheme = scheme;
    else delete root.dataset.scheme;
    label();
  }

  /** @returns {"light" | "dark"} the scheme that the switch leads to */
  function other() {
    const now = root.dataset.scheme ?? (systemIsDark.matches ? "dark" : "light");
    return now === "dark" ? "light" : "dark";
  }

  /** The switch says what it will do. */
  function label() {
    const button = document.querySelector(".scheme-switch");
    if (!(button instanceof HTMLButtonElement)) return;
    button.textContent = other() === "dark" ? "Dark" : "Light";
    button.setAttribute("aria-label", `${button.textContent} colours`);
    button.hidden = false;
  }

  // What scripts are going to show has its room from the first moment on, so that nothing moves later.
  root.dataset.scripts = "";
  show(kept());
  systemIsDark.addEventListener("change", label);
  addEventListener("storage", (event) => {
    if (event.key === KEY) show(event.newValue);
  });
  document.addEventListener("DOMContentLoaded", () => {
    label();
    document.querySelector(".scheme-switch")?.addEventListener("click", () => {
      const scheme = other();
      keep(scheme);
      show(scheme);
    });
  });
})();
