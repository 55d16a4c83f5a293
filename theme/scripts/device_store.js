// @ts-check
/**
 * What the potter writes, kept on the device. Every change is noted in the browser's small storage at once, in the
 * same moment as the tap, and crossed out there when its database has written it through to the disk: a page that is
 * closed or a battery that dies in between loses nothing. Where the browser refuses both, `trouble` says so in words.
 */

/** @typedef {{id: string, [key: string]: any}} Kept */

const deviceStore = (() => {
  "use strict";
  /** One for each archive on a host; a folder may move, and has one all the same. */
  const NAME = location.protocol === "file:" ? "ashbook" : `ashbook ${location.pathname.replace(/[^/]*$/, "")}`;
  const SHELVES = ["fires", "lines", "drafts", "photos"];
  const NO_KEEPING = "This browser keeps nothing on the device, perhaps because the window is a private one. What you write down is gone when this page closes: save it as a file before that.";

  /** @type {Promise<IDBDatabase | null> | null} */
  let opened = null;
  /** What the device has not taken, by shelf and id; null stands for a removal. @type {Map<string, {shelf: string, id: string, thing: Kept | null}>} */
  const waiting = new Map();
  let trouble = "";
  const NOTES = `${NAME} notes `;
  const ownNotes = NOTES + newId();
  /** @type {((trouble: string) => void)[]} */
  const listeners = [];
  /** @type {(() => void)[]} */
  const watchers = [];
  const channel = "BroadcastChannel" in globalThis ? new BroadcastChannel(NAME) : null;
  channel?.addEventListener("message", () => watchers.forEach((watcher) => watcher()));

  /** Note down what waits, at once. Pictures are too large for this. @returns {boolean} whether everything is noted */
  function note() {
    const all = [...waiting.values()];
    const small = all.filter(({ thing }) => !thing?.bytes);
    try {
      if (small.length) localStorage.setItem(ownNotes, JSON.stringify(small));
      else localStorage.removeItem(ownNotes);
      return small.length === all.length;
    } catch {
      return false;
    }
  }

  /** Take up what an earlier page noted and had no time to keep. */
  function takeUpNotes() {
    try {
      for (const key of Object.keys(localStorage).filter((one) => one.startsWith(NOTES))) {
        for (const each of JSON.parse(localStorage.getItem(key) ?? "[]")) waiting.set(`${each.shelf}/${each.id}`, each);
        note();
        localStorage.removeItem(key);
      }
    } catch {
      // Without that storage there are no notes.
    }
  }

  /** @param {string} words */
  function say(words) {
    trouble = words;
    listeners.forEach((listener) => listener(words));
  }

  /** @returns {Promise<IDBDatabase | null>} */
  function database() {
    opened ??= new Promise((resolve) => {
      const refuse = () => resolve(null);
      try {
        const request = indexedDB.open(NAME, 1);
        request.onupgradeneeded = () => SHELVES.forEach((shelf) => request.result.createObjectStore(shelf, { keyPath: "id" }));
        request.onsuccess = () => {
          request.result.onversionchange = () => request.result.close();
          resolve(request.result);
        };
        request.onerror = refuse;
      } catch {
        refuse();
      }
    });
    return opened;
  }

  /** Write everything that waits, in one transaction that is done when it is on the disk. @param {IDBDatabase} base */
  function write(base) {
    const batch = [...waiting.values()];
    return new Promise((resolve, reject) => {
      const shelves = [...new Set(batch.map((each) => each.shelf))];
      const transaction = base.transaction(shelves, "readwrite", { durability: "strict" });
      for (const { shelf, id, thing } of batch) {
        if (thing) transaction.objectStore(shelf).put(thing);
        else transaction.objectStore(shelf).delete(id);
      }
      transaction.oncomplete = () => resolve(batch);
      transaction.onabort = () => reject(transaction.error ?? new Error("stopped"));
    });
  }

  /** Try again to keep what the device has not taken. @returns {Promise<boolean>} whether all is kept now */
  async function settle() {
    const noted = note();
    const base = await database();
    if (!base) {
      say(noted ? "" : NO_KEEPING);
      return noted;
    }
    if (!waiting.size) return true;
    try {
      for (const each of /** @type {any[]} */ (await write(base))) {
        const key = `${each.shelf}/${each.id}`;
        if (waiting.get(key) === each) waiting.delete(key);
      }
      note();
    } catch (error) {
      opened = null;
      if (noted) return true;
      const why = error instanceof DOMException && error.name === "QuotaExceededError" ? "its storage is full" : "it refused";
      const many = waiting.size === 1 ? "The last thing is" : `The last ${waiting.size} things are`;
      say(`The device did not keep this: ${why}. ${many} on this page only; do not close it. Free some space, then write on or try again.`);
      return false;
    }
    if (!waiting.size && trouble) say("");
    channel?.postMessage("changed");
    return !waiting.size;
  }

  /** Keep a thing. @param {string} shelf @param {Kept} thing @returns {Promise<boolean>} whether it is on the disk */
  function put(shelf, thing) {
    waiting.set(`${shelf}/${thing.id}`, { shelf, id: thing.id, thing: structuredClone(thing) });
    return settle();
  }

  /** @param {string} shelf @param {string} id @returns {Promise<boolean>} */
  function remove(shelf, id) {
    waiting.set(`${shelf}/${id}`, { shelf, id, thing: null });
    return settle();
  }

  /** Everything on a shelf, with what only this page has. @param {string} shelf @returns {Promise<any[]>} */
  async function all(shelf) {
    const base = await database();
    /** @type {Kept[]} */
    const kept = await new Promise((resolve) => {
      if (!base) return resolve([]);
      try {
        const request = base.transaction(shelf).objectStore(shelf).getAll();
        request.onsuccess = () => resolve(request.result);
        request.onerror = () => resolve([]);
      } catch {
        opened = null;
        resolve([]);
      }
    });
    const found = new Map(kept.map((thing) => [thing.id, thing]));
    for (const { shelf: other, id, thing } of waiting.values()) {
      if (other !== shelf) continue;
      if (thing) found.set(id, structuredClone(thing));
      else found.delete(id);
    }
    return [...found.values()];
  }

  takeUpNotes();
  if (waiting.size) settle();

  /** A name that no other thing on this device has. */
  function newId() {
    return `${Date.now().toString(36)}-${Math.random().toString(36).slice(2, 10)}`;
  }

  /** Ask the browser not to clear this away by itself. */
  async function stay() {
    try {
      return await navigator.storage.persist();
    } catch {
      return false;
    }
  }

  return {
    put,
    remove,
    all,
    settle,
    newId,
    stay,
    /** @returns {string} what stands in the way of keeping; empty where nothing does */
    trouble: () => trouble,
    /** @param {(trouble: string) => void} listener told whenever the trouble changes */
    onTrouble: (listener) => void listeners.push(listener),
    /** @param {() => void} watcher told when another page of the site has changed something */
    onChange: (watcher) => void watchers.push(watcher),
  };
})();
