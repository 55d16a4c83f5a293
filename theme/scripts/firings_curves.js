// @ts-check
/** Small curves that are drawn when their lines come near the view: a few of them in a file. */

const firingsCurves = (() => {
  "use strict";
  const AHEAD = "600px 0px";

  /** @param {Columns} columns */
  function watcher(columns) {
    /** @type {WeakMap<Element, number>} row by line */
    const waiting = new WeakMap();

    /** @param {Element} line @param {number} row */
    async function draw(line, row) {
      const [file, place] = [Math.floor(row / columns.curvesEach), row % columns.curvesEach];
      await scriptFiles.load(`curves-${file}.js`);
      line.querySelector(".curve")?.append(firingRows.drawn(/** @type {any} */ (window).ashbookCurves[file][place]));
    }

    const seen = new IntersectionObserver((changes) => {
      for (const { isIntersecting, target } of changes) {
        const row = waiting.get(target);
        if (!isIntersecting || row === undefined) continue;
        seen.unobserve(target);
        waiting.delete(target);
        draw(target, row).catch(() => {}); // a line without its curve says all the same in words
      }
    }, { rootMargin: AHEAD });

    /** @param {Element} line @param {number} row */
    function watch(line, row) {
      waiting.set(line, row);
      seen.observe(line);
    }

    return { watch };
  }

  return { watcher };
})();
