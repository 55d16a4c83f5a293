// @ts-check
/**
 * Shows what a word means beside it, while the pointer rests on it or it has the focus. Without this script the word
 * is a link to the page of words, and what reads the page aloud says its meaning either way.
 */
(() => {
  "use strict";
  const PAUSE_MS = 250;
  const EDGE = 8;

  const note = document.createElement("div");
  note.className = "hint-note";
  note.hidden = true;
  note.setAttribute("aria-hidden", "true"); // said already, by aria-describedby
  let timer = 0;
  /** @type {HTMLElement | null} */
  let shown = null;

  /** @param {HTMLElement} hint */
  function show(hint) {
    const meaning = document.getElementById(hint.getAttribute("aria-describedby") ?? "");
    if (!meaning) return;
    note.replaceChildren(...[...meaning.childNodes].map((node) => node.cloneNode(true)));
    note.hidden = false;
    document.body.append(note);
    shown = hint;
    place(hint);
  }

  /** Below the word, or above it where there is no room below; never past the edge. @param {HTMLElement} hint */
  function place(hint) {
    const at = hint.getBoundingClientRect();
    const size = note.getBoundingClientRect();
    const above = at.bottom + size.height > window.innerHeight && at.top > size.height;
    const left = Math.max(EDGE, Math.min(at.left, document.documentElement.clientWidth - size.width - EDGE));
    note.style.left = `${left + window.scrollX}px`;
    note.style.top = `${(above ? at.top - size.height : at.bottom) + window.scrollY}px`;
  }

  function hide() {
    clearTimeout(timer);
    note.hidden = true;
    shown = null;
  }

  /** @param {EventTarget | null} target @returns {HTMLElement | null} */
  const hintOf = (target) => (target instanceof Element ? target.closest("a.hint") : null);

  document.addEventListener("pointerover", (event) => {
    if (event.pointerType === "touch") return;
    const hint = hintOf(event.target);
    const within = event.target instanceof Node && note.contains(event.target);
    if (within || (hint && hint === shown)) {
      clearTimeout(timer);
      return;
    }
    clearTimeout(timer);
    timer = setTimeout(() => (hint ? show(hint) : shown && shown !== document.activeElement && hide()), PAUSE_MS);
  });
  document.addEventListener("focusin", (event) => {
    const hint = hintOf(event.target);
    if (hint?.matches(":focus-visible")) show(hint);
    else if (shown) hide();
  });
  document.addEventListener("keydown", (event) => {
    if (event.key === "Escape" && shown) hide();
  });
})();
