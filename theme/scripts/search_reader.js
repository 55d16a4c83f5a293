// @ts-check
/**
 * Asks mkdocs-material's search worker. From a host it runs as a worker; from a folder, where a browser starts none
 * and lets no script read a file, the same worker runs within the page and its index comes as a script.
 *
 * @typedef {{worker: string, inPage: string, index: string, indexScript: string}} Addresses
 * @typedef {{location: string, title: string, text: string, tags?: string[], score: number,
 *            terms: Record<string, boolean>}} Found
 * @typedef {{post: (message: object) => void, listen: (hear: (message: any) => void) => void, index: object}} Line
 */
(() => {
  "use strict";
  const SETUP = 0;
  const READY = 1;
  const QUERY = 2;
  const RESULT = 3;

  /**
   * @param {string} address
   * @returns {Promise<void>}
   */
  function loadScript(address) {
    return new Promise((resolve, reject) => {
      const script = document.createElement("script");
      script.src = address;
      script.addEventListener("load", () => resolve());
      script.addEventListener("error", () => reject(new Error(`${address} cannot be read`)));
      document.head.append(script);
    });
  }

  /**
   * @param {Addresses} addresses
   * @returns {Promise<Line>}
   */
  async function besideThePage(addresses) {
    const answer = await fetch(addresses.index);
    if (!answer.ok) throw new Error(`${addresses.index} cannot be read`);
    const index = await answer.json();
    const worker = new Worker(addresses.worker);
    return {
      index,
      post: (message) => worker.postMessage(message),
      listen: (hear) => worker.addEventListener("message", (event) => hear(event.data)),
    };
  }

  /**
   * @param {Addresses} addresses
   * @returns {Promise<Line>}
   */
  async function withinThePage(addresses) {
    await Promise.all([loadScript(addresses.indexScript), loadScript(addresses.inPage)]);
    const workerAddress = new URL(addresses.worker, document.baseURI);
    /** @type {(event: {data: object}) => void} */
    let ask = () => {};
    /** @type {(message: any) => void} */
    let hear = () => {};
    /** @type {any} */ (window).ashbookSearcher(
      (/** @type {string} */ _kind, /** @type {typeof ask} */ listener) => (ask = listener),
      (/** @type {object} */ message) => hear(message),
      async (/** @type {string[]} */ ...scripts) => {
        for (const script of scripts) await loadScript(new URL(script, workerAddress).href);
      },
      undefined,
    );
    return {
      index: /** @type {any} */ (window).ashbookSearchIndex,
      post: (message) => ask({ data: message }),
      listen: (listener) => (hear = listener),
    };
  }

  /**
   * Take out the signs that mean something to the worker's query language and nothing to a reader.
   *
   * @param {string} words
   * @returns {string}
   */
  const plainWords = (words) => words.replace(/[:^~*+\\]|(?<=^|\s)-+/g, " ").trim();

  /**
   * Make the search ready.
   *
   * @param {Addresses} addresses
   * @returns {Promise<(words: string) => Promise<Found[][]>>} asks for words; answers arrays of finds, one a page
   */
  async function openSearch(addresses) {
    const line = await (location.protocol === "file:" ? withinThePage(addresses) : besideThePage(addresses));
    /** @type {((items: Found[][]) => void)[]} */
    const waiting = [];
    const ready = new Promise((resolve) => {
      line.listen((message) => {
        if (message.type === READY) resolve(undefined);
        if (message.type === RESULT) waiting.shift()?.(message.data.items);
      });
    });
    line.post({ type: SETUP, data: { ...line.index, options: { suggest: false } } });
    await ready;
    return (words) =>
      new Promise((resolve) => {
        waiting.push(resolve);
        line.post({ type: QUERY, data: plainWords(words) });
      });
  }

  /** @type {any} */ (window).ashbookOpenSearch = openSearch;
})();
