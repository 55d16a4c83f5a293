// @ts-check
/**
 * Searches the index that the build wrote: small scripts, of which each search loads the few that it needs, so that it
 * works from a host and from a folder alike. A word that is asked for finds every word that begins with it.
 *
 * @typedef {{version: string, pages: number, each: number, begin: string[]}} Directory
 * @typedef {[address: string, title: string, tags: string[], parts: [anchor: string, heading: string, text: string][]]} Told
 * @typedef {{page: number, score: number, has: Set<string>}} Hit
 * @typedef {{text: string, marked: boolean}[]} Marked
 * @typedef {{address: string, title: Marked, words: Marked, tags: Marked[], lacking: string[]}} Found
 * @typedef {{pages: number, complete: boolean, first: Found[]}} Answer
 */
(() => {
  "use strict";
  /** Worth of a word once in the text, often in it, in the tags, in the title. */
  const WORTH = [1, 2, 5, 8];
  const EXACT = 1.6;
  /** Files of words that one beginning may ask for; a single letter would ask for more. */
  const MOST_FILES = 6;
  const EXCERPT = 200;
  const BEFORE_MARK = 60;
  const UNSPACED = /[\u0e00-\u0eff\u1000-\u109f\u1780-\u17ff\u2e80-\u312f\u31a0-\u9fff\uf900-\ufaff\u{20000}-\u{3ffff}]+/gu;
  const LONGEST = 40;

  /** @type {Map<string, (content: any) => void>} */
  const awaited = new Map();
  /** @type {Map<string, Promise<any>>} */
  const loaded = new Map();

  /** @type {any} */ (window).ashbookSearchHas = (/** @type {string} */ kind, /** @type {number} */ number, /** @type {any} */ content) =>
    awaited.get(`${kind}-${number}`)?.(content);

  /**
   * Load one file of the index, once.
   *
   * @param {string} name
   * @param {string} address
   * @returns {Promise<any>}
   */
  function load(name, address) {
    const known = loaded.get(name);
    if (known) return known;
    const promise = new Promise((resolve, reject) => {
      awaited.set(name, resolve);
      const script = document.createElement("script");
      script.src = address;
      script.addEventListener("load", () => script.remove());
      script.addEventListener("error", () => {
        loaded.delete(name);
        script.remove();
        reject(new Error(`${address} cannot be read`));
      });
      document.head.append(script);
    });
    loaded.set(name, promise);
    return promise;
  }

  /** Take accents and capitals off. @param {string} text */
  const folded = (text) => text.normalize("NFKD").replace(/\p{M}/gu, "").toLowerCase();

  /**
   * Cut a text into folded words, as the build did.
   *
   * @param {string} text
   * @returns {string[]}
   */
  function wordsOf(text) {
    return (folded(text).match(/[\p{L}\p{N}]+/gu) ?? []).flatMap((word) => {
      /** @type {string[]} */
      const parts = [];
      let at = 0;
      for (const run of word.matchAll(UNSPACED)) {
        const letters = [...run[0]];
        parts.push(word.slice(at, run.index));
        if (letters.length === 1) parts.push(letters[0]);
        for (let place = 0; place + 1 < letters.length; place++) parts.push(letters[place] + letters[place + 1]);
        at = run.index + run[0].length;
      }
      return [...parts, word.slice(at)].filter(Boolean).map((part) => part.slice(0, LONGEST));
    });
  }

  /**
   * Numbers of the files in which words with a beginning can stand.
   *
   * @param {string[]} begin first word of each file
   * @param {string} beginning
   * @returns {number[]}
   */
  function filesFor(begin, beginning) {
    let first = 0;
    while (first + 1 < begin.length && begin[first + 1] <= beginning) first++;
    const numbers = [];
    for (let at = first; at < begin.length && numbers.length < MOST_FILES; at++) {
      if (at > first && !begin[at].startsWith(beginning)) break;
      numbers.push(at);
    }
    return numbers;
  }

  /**
   * Unpack the pages of a word.
   *
   * @param {string} packed
   * @param {(page: number, place: number) => void} each
   */
  function unpack(packed, each) {
    let page = -1;
    for (const step of packed.split(" ")) {
      const value = parseInt(step, 36);
      page += value >> 2;
      each(page, value & 3);
    }
  }

  class Searcher {
    /** @param {string} folder @param {Directory} directory */
    constructor(folder, directory) {
      this.folder = folder;
      this.directory = directory;
    }

    /** @param {string} kind @param {number} number @returns {Promise<any>} */
    file(kind, number) {
      return load(`${kind}-${number}`, `${this.folder}${kind}-${number}.js?${this.directory.version}`);
    }

    /**
     * Every page that has a word with this beginning, with the best it is worth.
     *
     * @param {string} beginning
     * @returns {Promise<Map<number, number>>}
     */
    async pagesWith(beginning) {
      const files = await Promise.all(filesFor(this.directory.begin, beginning).map((number) => this.file("words", number)));
      /** @type {Map<number, number>} */
      const found = new Map();
      for (const words of files) {
        for (const word of Object.keys(words)) {
          if (!word.startsWith(beginning)) continue;
          const fits = word === beginning ? EXACT : beginning.length / word.length;
          unpack(words[word], (page, place) => {
            const worth = WORTH[place] * fits;
            if (worth > (found.get(page) ?? 0)) found.set(page, worth);
          });
        }
      }
      return found;
    }

    /**
     * Pages with all words, the best first; where none has all, those with the most.
     *
     * @param {string[]} words
     * @returns {Promise<Hit[]>}
     */
    async hits(words) {
      const found = await Promise.all(words.map((word) => this.pagesWith(word)));
      /** @type {Map<number, Hit>} */
      const hits = new Map();
      found.forEach((pages, at) => {
        const rare = Math.log(1 + this.directory.pages / (1 + pages.size));
        for (const [page, worth] of pages) {
          const hit = hits.get(page) ?? { page, score: 0, has: new Set() };
          hit.score += worth * rare;
          hit.has.add(words[at]);
          hits.set(page, hit);
        }
      });
      let most = 0;
      for (const hit of hits.values()) most = Math.max(most, hit.has.size);
      const best = [...hits.values()].filter((hit) => hit.has.size === most);
      return best.sort((a, b) => b.score - a.score || a.page - b.page);
    }

    /**
     * @param {string} asked
     * @param {number} most how many pages are told in full
     * @returns {Promise<Answer>}
     */
    async ask(asked, most) {
      const words = [...new Set(wordsOf(asked))];
      if (!words.length) return { pages: 0, complete: true, first: [] };
      const hits = await this.hits(words);
      const first = await Promise.all(hits.slice(0, most).map((hit) => this.found(hit, words)));
      return { pages: hits.length, complete: !hits.length || hits[0].has.size === words.length, first };
    }

    /** @param {Hit} hit @param {string[]} words @returns {Promise<Found>} */
    async found(hit, words) {
      const { each } = this.directory;
      /** @type {Told[]} */
      const pages = await this.file("pages", Math.floor(hit.page / each));
      const [address, title, tags, parts] = pages[hit.page % each];
      const [anchor, heading, excerpt] = bestPart(parts, words);
      const full = heading && anchor ? `${title}: ${heading}` : title;
      return {
        address: anchor ? `${address}#${anchor}` : address,
        title: marked(full, words),
        words: excerpt,
        tags: tags.map((tag) => marked(tag, words)).filter((tag) => tag.some((piece) => piece.marked)),
        lacking: words.filter((word) => !hit.has.has(word)),
      };
    }
  }

  /**
   * Where in a text a word that is asked for begins and ends, in order.
   *
   * @param {string} text
   * @param {string[]} words
   * @returns {[from: number, to: number, word: string][]}
   */
  function placesOf(text, words) {
    /** @type {[number, number, string][]} */
    const places = [];
    for (const match of text.matchAll(/[\p{L}\p{N}\p{M}]+/gu)) {
      const plain = folded(match[0]);
      const unspaced = plain.search(UNSPACED) >= 0;
      const word = words.find((one) => (unspaced ? plain.includes(one) : plain.startsWith(one)));
      if (word) places.push([match.index, match.index + match[0].length, word]);
    }
    return places;
  }

  /** @param {string} text @param {string[]} words @returns {Marked} */
  function marked(text, words) {
    /** @type {Marked} */
    const pieces = [];
    let at = 0;
    for (const [from, to] of placesOf(text, words)) {
      if (from > at) pieces.push({ text: text.slice(at, from), marked: false });
      pieces.push({ text: text.slice(from, to), marked: true });
      at = to;
    }
    if (at < text.length) pieces.push({ text: text.slice(at), marked: false });
    return pieces;
  }

  /**
   * The part of a page that has the most of the words, with a stretch around the first of them.
   *
   * @param {[string, string, string][]} parts
   * @param {string[]} words
   * @returns {[anchor: string, heading: string, excerpt: Marked]}
   */
  function bestPart(parts, words) {
    let best = parts[0] ?? ["", "", ""];
    let most = 0;
    for (const part of parts) {
      const told = new Set([...placesOf(part[1], words), ...placesOf(part[2], words)].map(([, , word]) => word));
      if (told.size > most) [best, most] = [part, told.size];
    }
    return [best[0], best[1], marked(excerpt(best[2], placesOf(best[2], words)[0]?.[0] ?? 0), words)];
  }

  /** A stretch of a text from a little before a place, cut between words. @param {string} text @param {number} place */
  function excerpt(text, place) {
    const from = place > BEFORE_MARK + 10 ? text.indexOf(" ", place - BEFORE_MARK) + 1 : 0;
    let cut = text.slice(from, from + EXCERPT);
    if (from + EXCERPT < text.length) cut = `${cut.slice(0, Math.max(cut.lastIndexOf(" "), 1))}…`;
    return (from > 0 ? "… " : "") + cut;
  }

  /**
   * Make the search ready.
   *
   * @param {string} directory address of the index's directory
   * @returns {Promise<Searcher>}
   */
  async function openSearch(directory) {
    const address = new URL(directory, document.baseURI);
    return new Searcher(new URL(".", address).href, await load("directory-0", address.href));
  }

  /** @type {any} */ (window).ashbookOpenSearch = openSearch;
})();
