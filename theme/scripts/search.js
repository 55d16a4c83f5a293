// @ts-check
/** The search field: shows what was found, says how much, and can be used by keyboard alone. */
(() => {
  "use strict";
  const MOST_SHOWN = 20;
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

  /** @type {Promise<any> | undefined} */
  let searcher;
  let timer = 0;
  let waited = false;

  const ready = () => (searcher ??= openSearch(form.dataset.directory));

  /**
   * A line of words in which what was asked for is marked.
   *
   * @param {string} kind
   * @param {{text: string, marked: boolean}[]} pieces
   * @returns {HTMLElement}
   */
  function line(kind, pieces) {
    const span = document.createElement("span");
    span.className = kind;
    for (const piece of pieces) {
      const part = piece.marked ? document.createElement("mark") : document.createTextNode(piece.text);
      part.textContent = piece.text;
      span.append(part);
    }
    return span;
  }

  /**
   * One page that was found, as an item of the list.
   *
   * @param {any} found
   * @returns {HTMLElement}
   */
  function item(found) {
    const link = document.createElement("a");
    link.href = new URL(found.address, home).href;
    link.append(line("search-title", found.title));
    if (found.words.length) link.append(line("search-words", found.words));
    const comma = { text: ", ", marked: false };
    const tags = found.tags.flatMap((/** @type {any[]} */ tag, /** @type {number} */ at) => (at ? [comma, ...tag] : tag));
    if (tags.length) link.append(line("search-words", tags));
    if (found.lacking.length) link.append(line("search-lacking", [{ text: `without ${found.lacking.join(", ")}`, marked: false }]));
    const element = document.createElement("li");
    element.append(link);
    return element;
  }

  /**
   * @param {string} words
   * @param {any} answer
   */
  function show(words, answer) {
    list.replaceChildren(...answer.first.map(item));
    found.hidden = false;
    if (answer.pages === 0) return nothing(words);
    const counted = answer.pages === 1 ? "One page" : `${answer.pages} pages`;
    const some = answer.complete ? `${counted} with “${words}”` : `No page with all of “${words}”; ${counted.toLowerCase()} with some of it`;
    const more = answer.pages > MOST_SHOWN ? `, the nearest ${MOST_SHOWN} shown; another word narrows it down` : "";
    said.textContent = `${some}${more}.`;
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
      const index = await ready();
      waited = true;
      const answer = await index.ask(words, MOST_SHOWN);
      if (field.value.trim() === words) show(words, answer);
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
