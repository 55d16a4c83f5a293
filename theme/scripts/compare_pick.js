// @ts-check
/** Tick boxes in a list of firings, and the link that lays those ticked over one another. */
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
  /** @type {Map<string, string>} numbers of the firings ticked by their name, in the order in which they were */
  const ticked = new Map();

  /** Lines come and go; these are there now. */
  const boxes = () => /** @type {HTMLInputElement[]} */ ([...list.querySelectorAll(".pick input")]);

  function allow() {
    for (const box of boxes()) box.disabled = ticked.size >= MOST && !ticked.has(box.value);
  }

  function tell() {
    const numbers = [...ticked.values()];
    bar.hidden = ticked.size === 0;
    said.textContent = numbers.length === 1 ? `Firing ${numbers[0]} is ticked; tick one to three more.` : `Firings ${numbers.join(", ")} are ticked${numbers.length >= MOST ? ", the most there is room for" : ""}.`;
    link.hidden = numbers.length < 2;
    link.href = `${address}?firings=${[...ticked.keys()].map(encodeURIComponent).join(",")}`;
    allow();
  }

  /** @param {HTMLInputElement} box */
  function take(box) {
    const line = /** @type {HTMLElement | null} */ (box.closest("[data-number]"));
    if (box.checked) ticked.set(box.value, line?.dataset.number ?? "");
    else ticked.delete(box.value);
  }

  clear.addEventListener("click", () => {
    ticked.clear();
    for (const box of boxes()) box.checked = false;
    tell();
  });

  list.addEventListener("change", (event) => {
    if (!(event.target instanceof HTMLInputElement)) return;
    take(event.target);
    tell();
  });

  list.addEventListener("ashbook:lines", () => {
    for (const box of boxes()) box.checked = ticked.has(box.value);
    allow();
  });

  // A browser that goes back gives the boxes their ticks again.
  for (const box of boxes()) if (box.checked) take(box);
  if (ticked.size) tell();
})();
