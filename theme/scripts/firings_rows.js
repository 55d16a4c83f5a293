// @ts-check
/** A firing's line made from the columns, as theme/fragments/firing_line.html makes it; its curve comes later. */

const firingRows = (() => {
  "use strict";
  const { make } = elements;
  const { labels, values, facet, isoDate } = firingsColumns;
  /** @type {Map<string, Element>} */
  const drawings = new Map();

  /** Draw what the build drew; it is sound SVG of its own. @param {string} svg */
  function drawn(svg) {
    let found = drawings.get(svg);
    if (!found) {
      const template = document.createElement("template");
      template.innerHTML = svg;
      found = /** @type {Element} */ (template.content.firstElementChild);
      drawings.set(svg, found);
    }
    return found.cloneNode(true);
  }

  /** @param {Columns} columns @param {number} row */
  function what(columns, row) {
    const [slug, date, number] = [columns.slugs[row], isoDate(columns, row), String(row + 1)];
    const time = make("time", { datetime: date }, ...labels(columns.days, row), make("span", { class: "year" }, ` ${Number(date.slice(0, 4))}`));
    const told = [labels(facet(columns, "potter"), row)[0], labels(columns.materials, row).join(", ")].filter(Boolean);
    const pick = make("label", { class: "pick" }, make("input", { type: "checkbox", value: slug }), " Compare", make("span", { class: "heard" }, ` firing ${number}`));
    return make("div", { class: "what" },
      make("h3", {}, make("a", { href: `${encodeURIComponent(slug)}.html` }, columns.titles[row])),
      make("p", { class: "quiet" }, time, ` · ${told.join(" · ")} `, pick));
  }

  /** @param {Columns} columns @param {number} row */
  function pots(columns, row) {
    const marks = labels(columns.marks, row).map(drawn);
    const more = columns.more[row] ? [make("span", { class: "more" }, `+ ${columns.more[row]}`)] : [];
    return make("div", { class: "pots" }, make("span", { class: "marks" }, ...marks, ...more), " ", make("span", { class: "words" }, ...labels(columns.pots, row)));
  }

  /** @param {Columns} columns @param {number} row */
  function build(columns, row) {
    const method = facet(columns, "method");
    const number = String(row + 1);
    return make("li", { class: "firing-line", "data-number": number },
      make("span", { class: "number" }, number),
      make("span", { class: "kind" }, drawn(columns.fires[values(method, row)[0]]), make("span", { class: "heard" }, ...labels(method, row))),
      what(columns, row), make("div", { class: "curve" }), pots(columns, row));
  }

  return { build, drawn };
})();
