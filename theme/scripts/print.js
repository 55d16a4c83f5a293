// @ts-check
/** The button that prints a page; without scripts there is none, and the browser's own command prints as well. */
(() => {
  "use strict";
  for (const button of /** @type {NodeListOf<HTMLButtonElement>} */ (document.querySelectorAll(".print-page"))) {
    button.hidden = false;
    button.addEventListener("click", () => window.print());
  }
})();
