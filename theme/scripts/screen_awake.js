// @ts-check
/** Keeps the screen from going dark while somebody watches a fire, where the browser can. */

const screenAwake = (() => {
  "use strict";
  /** @type {WakeLockSentinel | null} */
  let lock = null;
  let wanted = false;

  const possible = () => "wakeLock" in navigator;

  /** @type {Promise<void> | null} */
  let asking = null;

  async function take() {
    if (!wanted || lock || !possible() || document.visibilityState !== "visible") return;
    asking ??= ask().finally(() => (asking = null));
    await asking;
  }

  async function ask() {
    try {
      const given = await navigator.wakeLock.request("screen");
      if (!wanted) return given.release(); // it was told to let go meanwhile
      lock = given;
      given.addEventListener("release", () => {
        lock = null;
      });
    } catch {
      lock = null; // a low battery, say: the screen then goes dark as it always does
    }
  }

  // The browser lets go whenever the page is out of sight.
  document.addEventListener("visibilitychange", take);

  return {
    possible,
    /** @returns {boolean} whether the screen is kept awake at this moment */
    kept: () => lock !== null,
    /** @param {boolean} keep */
    async keep(keep) {
      wanted = keep;
      if (keep) await take();
      else await lock?.release();
    },
  };
})();
