// @ts-check
/** Tick boxes in the list of firings, and the link that lays those ticked over one another. */
(() => {
  "use strict";
  const MOST = 4;
  const A_TIME = 150;
  const list = document.querySelector("[data-firings-list]");
  const bar = document.querySelector("[data-pick-bar]");
  if (!(list instanceof HTMLElement) || !(bar instanceof HTMLElement)) return;
  const said = /** @type {HTMLElement} */ (bar.querySelector("[data-pick-said]"));
  const link = /** @type {HTMLAnchorElement} */ (bar.querySelector("a"));
  const clear = /** @type {HTMLButtonElement} */ (bar.querySelector("button"));
  const address = link.href;
  /** @type {Set<string>} numbers of the firings ticked, in that order */
  const ticked = new Set();
  /** @type {HTMLInputElement[]} */
  const boxes = [];

  /** @param {HTMLElement} row */
  function addBox(row) {
    const number = row.dataset.number ?? "";
    const label = document.createElement("label");
    label.className = "pick";
    const box = document.createElement("input");
    box.type = "checkbox";
    box.value = number;
    box.addEventListener("change", () => tick(box));
    const heard = document.createElement("span");
    heard.className = "heard";
    heard.textContent = `firing ${number}`;
    label.append(box, "Compare ", heard);
    boxes.push(box);
    (row.querySelector(".what p") ?? row.querySelector(".what"))?.append(" ", label);
  }

  /** @param {HTMLInputElement} box */
  function tick(box) {
    if (box.checked) ticked.add(box.value);
    else ticked.delete(box.value);
    tell();
  }

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

  // A long list gets its boxes a few at a time, so that the page answers meanwhile.
  const rows = /** @type {HTMLElement[]} */ ([...list.querySelectorAll("[data-number]")]);
  const later = (/** @type {() => void} */ what) => ("requestIdleCallback" in window ? requestIdleCallback(what) : setTimeout(what, 30));
  function more() {
    rows.splice(0, A_TIME).forEach(addBox);
    if (rows.length) later(more);
  }
  more();
})();
