// @ts-check
/**
 * The pages that must open without a signal, with all that they need, kept on the device: those and nothing else.
 * The build writes in what they are, and a version that is the hash of their contents.
 */

/** @type {{version: string, addresses: string[]}} */
const KEPT = { version: "", addresses: [] };
const worker = /** @type {any} */ (self);
/** How the names of this archive's shelves begin: several archives may share a host. */
const SHELVES = `ashbook ${worker.registration.scope} `;
const SHELF = SHELVES + KEPT.version;

/** The address on this site that is asked for, without what follows a question mark. @param {string} address */
function plain(address) {
  const [asked, scope] = [new URL(address), worker.registration.scope];
  return `${asked.origin}${asked.pathname}`.slice(scope.length);
}

worker.addEventListener("install", (/** @type {any} */ event) => {
  const fetched = KEPT.addresses.map((address) => new Request(address, { cache: "no-cache" }));
  event.waitUntil(caches.open(SHELF).then((shelf) => shelf.addAll(fetched)).then(() => worker.skipWaiting()));
});

worker.addEventListener("activate", (/** @type {any} */ event) => {
  const others = (/** @type {string[]} */ names) => names.filter((name) => name.startsWith(SHELVES) && name !== SHELF);
  event.waitUntil(
    caches.keys()
      .then((names) => Promise.all(others(names).map((name) => caches.delete(name))))
      .then(() => worker.clients.claim()),
  );
});

worker.addEventListener("fetch", (/** @type {any} */ event) => {
  const address = plain(event.request.url);
  if (event.request.method !== "GET" || !event.request.url.startsWith(worker.registration.scope) || !KEPT.addresses.includes(address)) return;
  event.respondWith(
    caches.open(SHELF)
      .then((shelf) => shelf.match(address))
      .then((kept) => kept ?? fetch(event.request)),
  );
});
