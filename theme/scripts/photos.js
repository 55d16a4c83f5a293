// @ts-check
/**
 * Shows a photo as large as the window, over the page. Without this script the same link opens the picture itself.
 * Escape closes, the arrow keys go on and back, and the focus returns to the photo it came from.
 */
(() => {
  "use strict";
  const links = /** @type {HTMLAnchorElement[]} */ ([...document.querySelectorAll("a.photo-open")]);
  if (!links.length || typeof HTMLDialogElement === "undefined") return;

  /**
   * @param {string} words
   * @param {() => void} what
   */
  function button(words, what) {
    const made = document.createElement("button");
    made.type = "button";
    made.textContent = words;
    made.addEventListener("click", what);
    return made;
  }

  const dialog = document.createElement("dialog");
  dialog.className = "lightbox";
  dialog.setAttribute("aria-label", "Photo");
  const picture = document.createElement("img");
  const words = document.createElement("p");
  words.className = "lightbox-words";
  words.setAttribute("role", "status");
  const back = button("Before", () => show(at - 1));
  const on = button("Next", () => show(at + 1));
  const close = button("Close", () => dialog.close());
  const line = document.createElement("div");
  line.className = "lightbox-line";
  line.append(back, on, close);
  back.hidden = on.hidden = links.length < 2;
  dialog.append(picture, words, line);
  let at = 0;

  /** @param {number} place */
  function show(place) {
    at = (place + links.length) % links.length;
    const small = /** @type {HTMLImageElement} */ (links[at].querySelector("img"));
    const caption = links[at].closest("figure")?.querySelector("figcaption")?.textContent?.trim() ?? "";
    picture.width = Number(small.getAttribute("width"));
    picture.height = Number(small.getAttribute("height"));
    picture.alt = small.alt;
    picture.src = links[at].href;
    const count = links.length > 1 ? `${at + 1} of ${links.length}. ` : "";
    words.textContent = count + (caption.replace(/\s+/g, " ") || small.alt);
  }

  dialog.addEventListener("keydown", (event) => {
    if (links.length > 1 && event.key === "ArrowRight") show(at + 1);
    if (links.length > 1 && event.key === "ArrowLeft") show(at - 1);
  });
  dialog.addEventListener("click", (event) => {
    if (event.target === dialog) dialog.close();
  });
  dialog.addEventListener("close", () => {
    dialog.remove();
    links[at].focus();
  });

  links.forEach((link, place) =>
    link.addEventListener("click", (event) => {
      if (event.ctrlKey || event.metaKey || event.shiftKey) return;
      event.preventDefault();
      show(place);
      document.body.append(dialog);
      dialog.showModal();
      close.focus();
    }),
  );
})();
