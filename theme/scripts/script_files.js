// @ts-check
/** Scripts that hold data, loaded when they are needed: a browser reads those from a folder as well as from a host. */

const scriptFiles = (() => {
  "use strict";
  /** @type {Map<string, Promise<void>>} */
  const asked = new Map();

  /** Load a file once; rejected where it cannot be had. @param {string} address @returns {Promise<void>} */
  function load(address) {
    const before = asked.get(address);
    if (before) return before;
    const loading = new Promise((/** @type {(value: void) => void} */ resolve, reject) => {
      const script = document.createElement("script");
      script.src = address;
      script.addEventListener("load", () => resolve());
      script.addEventListener("error", () => reject(new Error(address)));
      document.head.append(script);
    });
    asked.set(address, loading);
    return loading;
  }

  return { load };
})();
