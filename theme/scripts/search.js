// @ts-check
/** The search field: shows what was found, says how much, and can be used by keyboard alone. */
(() => {
  "use strict";
  const MOST_SHOWN = 20;
  const EXCERPT = 200;
  const PAUSE_MS = 120;

  const form = /** @type {HTMLFormElement | null} */ (document.getElementById("search"));
  const openSearch = /** @type {any} */ (window).ashbookOpenSearch;
  if (!form || !openSearch) return;
  const field = /** @type {HTMLInputElement} */ (form.querySelector("input"));
  const found = /** @type {HTMLElement} */ (form.querySelector(".search-found"));
  const said = /** @type {HTMLElement} */ (form.querySelector("[role=status]"));
  const list = /** @type {HTMLElement} */ (form.querySelector(".search-results"));
  const opener = /** @type {HTMLButtonElement | null} */ (document.querySelector(".search-open"));
  const home = new URL(form.dataset.root ?? "index.html", document.baseURI);

  /** @type {Promise<(words: string) => Promise<any[][]>> | undefined} */
  let searcher;
  let timer = 0;
  let waited = false;

  const ready = () =>
    (searcher ??= openSearch({
      worker: form.dataset.worker,
      inPage: form.dataset.inPage,
      index: form.dataset.index,
      indexScript: form.dataset.indexScript,
    }));

  /**
   * Append words with their marks. Only `<mark>` is understood: all else is text.
   *
   * @param {Element} element
   * @param {string} words
   */
  function appendMarked(element, words) {
    words.split(/<mark>(.*?)<\/mark>/s).forEach((part, place) => {
      if (place % 2 === 0) return element.append(part);
      const mark = document.createElement("mark");
      mark.textContent = part;
      element.append(mark);
    });
  }

  /**
   * The words of a piece of the index, with its marks kept and its other tags dropped.
   *
   * @param {string} html
   * @returns {string}
   */
  function wordsOf(html) {
    const spaced = html.replace(/<(?!\/?mark>)[^>]*>/g, " ");
    const marked = spaced.replace(/<mark>/g, "\u0001").replace(/<\/mark>/g, "\u0002");
    const plain = new DOMParser().parseFromString(marked, "text/html").body.textContent ?? "";
    return plain.replace(/\s+/g, " ").trim().replace(/\u0001/g, "<mark>").replace(/\u0002/g, "</mark>");
  }

  /**
   * A stretch of words around the first mark, cut between words.
   *
   * @param {string} words
   * @returns {string}
   */
  function excerpt(words) {
    const mark = words.indexOf("<mark>");
    const from = mark > 70 ? words.indexOf(" ", mark - 60) + 1 : 0;
    let cut = words.slice(from, from + EXCERPT);
    if (from + EXCERPT < words.length) {
      cut = cut.slice(0, cut.lastIndexOf(" "));
      if (cut.lastIndexOf("<mark>") > cut.lastIndexOf("</mark>")) cut = cut.slice(0, cut.lastIndexOf("<mark>"));
      cut += "…";
    }
    return (from > 0 ? "… " : "") + cut;
  }

  /**
   * @param {string} kind
   * @param {string} words
   * @returns {HTMLElement}
   */
  function line(kind, words) {
    const span = document.createElement("span");
    span.className = kind;
    appendMarked(span, words);
    return span;
  }

  /**
   * One page that was found, as an item of the list.
   *
   * @param {any[]} finds
   * @returns {HTMLElement}
   */
  function item(finds) {
    const page = finds.find((find) => !find.location.includes("#")) ?? finds[0];
    const best = finds[0];
    const link = document.createElement("a");
    link.href = new URL(best.location, home).href;
    const part = best === page ? "" : `: ${wordsOf(best.title)}`;
    link.append(line("search-title", page.title + part));
    const words = excerpt(wordsOf(best.text));
    if (words) link.append(line("search-words", words));
    const tags = (best.tags ?? []).filter((/** @type {string} */ tag) => tag.includes("<mark>"));
    if (tags.length) link.append(line("search-words", tags.join(", ")));
    const terms = Object.entries(best.terms).filter(([, there]) => !there);
    if (terms.length) link.append(line("search-lacking", `without ${terms.map(([term]) => term).join(", ")}`));
    const element = document.createElement("li");
    element.append(link);
    return element;
  }

  /**
   * @param {string} words
   * @param {any[][]} pages
   */
  function show(words, pages) {
    list.replaceChildren(...pages.slice(0, MOST_SHOWN).map(item));
    found.hidden = false;
    if (pages.length === 0) return nothing(words);
    const counted = pages.length === 1 ? "One page" : `${pages.length} pages`;
    const more = pages.length > MOST_SHOWN ? `, the nearest ${MOST_SHOWN} shown; another word narrows it down` : "";
    said.textContent = `${counted} with “${words}”${more}.`;
  }

  /** @param {string} words */
  function nothing(words) {
    const all = document.createElement("a");
    all.href = new URL("firings/index.html", home).href;
    all.textContent = "Look through all firings";
    said.replaceChildren(
      `Nothing with “${words}”. Fewer words find more, and the beginning of a word is enough: spall finds spalled and spalling. `,
      all,
      ".",
    );
  }

  function close() {
    found.hidden = true;
    list.replaceChildren();
    said.textContent = "";
  }

  async function search() {
    const words = field.value.trim();
    if (!words) return close();
    try {
      if (!waited) {
        said.textContent = "The search is getting ready.";
        found.hidden = false;
      }
      const ask = await ready();
      waited = true;
      const pages = await ask(words);
      if (field.value.trim() === words) show(words, pages);
    } catch (error) {
      searcher = undefined;
      found.hidden = false;
      said.textContent = "The search cannot be read just now. The page that lists all firings works without it.";
      console.warn(error);
    }
  }

  /** @param {boolean} open */
  function unfold(open) {
    form?.classList.toggle("is-open", open);
    opener?.setAttribute("aria-expanded", String(open));
    if (open) field.focus();
    else close();
  }

  /** Escape first leaves the results, then the words, then the folded-out field. */
  function leave() {
    if (!field.value && opener) {
      unfold(false);
      opener.focus();
      return;
    }
    if (document.activeElement === field) field.value = "";
    close();
    field.focus();
  }

  /** @param {KeyboardEvent} event */
  function move(event) {
    const links = [...list.querySelectorAll("a")];
    const at = links.indexOf(/** @type {HTMLAnchorElement} */ (document.activeElement));
    if (event.key === "Escape") leave();
    else if (event.key === "ArrowDown" && links.length) links[Math.min(at + 1, links.length - 1)].focus();
    else if (event.key === "ArrowUp" && at === 0) field.focus();
    else if (event.key === "ArrowUp" && at > 0) links[at - 1].focus();
    else return;
    event.preventDefault();
  }

  form.addEventListener("submit", (event) => {
    event.preventDefault();
    clearTimeout(timer);
    void search().then(() => list.querySelector("a")?.click());
  });
  form.addEventListener("keydown", move);
  field.addEventListener("focus", () => void ready().catch(() => (searcher = undefined)));
  field.addEventListener("input", () => {
    clearTimeout(timer);
    timer = setTimeout(search, PAUSE_MS);
  });
  opener?.addEventListener("click", () => unfold(opener.getAttribute("aria-expanded") !== "true"));
  document.addEventListener("click", (event) => {
    if (event.target instanceof Node && !form.contains(event.target)) close();
  });
  document.addEventListener("keydown", (event) => {
    const typing = event.target instanceof Element && event.target.closest("input, textarea, select, [contenteditable]");
    if (event.key !== "/" || typing || event.ctrlKey || event.metaKey || event.altKey) return;
    event.preventDefault();
    unfold(true);
  });
  form.hidden = false;
  if (opener) opener.hidden = false;
})();
