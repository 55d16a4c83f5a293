// @ts-check
/** Keeps this page and what it needs on the device, so that it opens without a signal. Only a web host can do this. */
(() => {
  "use strict";
  if (!("serviceWorker" in navigator) || !location.protocol.startsWith("http")) return;
  navigator.serviceWorker.register("sw.js").catch(() => {
    // The page then needs a signal to open; what was written stays all the same.
  });
})();
