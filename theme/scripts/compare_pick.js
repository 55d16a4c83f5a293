// @ts-check
/** Tick boxes in the list of firings, and the link that lays those ticked over one another. */
(() => {
  "use strict";
  const MOST = 4;
  const list = document.querySelector("[data-firings-list]");
  const bar = document.querySelector("[data-pick-bar]");
  if (!(list instanceof HTMLElement) || !(bar instanceof HTMLElement)) return;
  const said = /** @type {HTMLElement} */ (bar.querySelector("[data-pick-said]"));
  const link = /** @type {HTMLAnchorElement} */ (bar.querySelector("a"));
  const clear = /** @type {HTMLButtonElement} */ (bar.querySelector("button"));
  const address = link.href;
  /** @type {Set<string>} numbers of the firings ticked, in that order */
  const ticked = new Set();
  const boxes = /** @type {HTMLInputElement[]} */ ([...list.querySelectorAll(".pick input")]);

  function tell() {
    const numbers = [...ticked];
    for (const box of boxes) box.disabled = ticked.size >= MOST && !box.checked;
    bar.hidden = ticked.size === 0;
    said.textContent = numbers.length === 1 ? `Firing ${numbers[0]} is ticked; tick one to three more.` : `Firings ${numbers.join(", ")} are ticked${numbers.length >= MOST ? ", the most there is room for" : ""}.`;
    link.hidden = numbers.length < 2;
    link.href = `${address}?firings=${numbers.join(",")}`;
  }

  clear.addEventListener("click", () => {
    ticked.clear();
    for (const box of boxes) box.checked = false;
    tell();
  });

  list.addEventListener("change", (event) => {
    const box = event.target;
    if (!(box instanceof HTMLInputElement)) return;
    if (box.checked) ticked.add(box.value);
    else ticked.delete(box.value);
    tell();
  });

  // A browser that goes back gives the boxes their ticks again.
  for (const box of boxes) if (box.checked) ticked.add(box.value);
  if (ticked.size) tell();
})();
