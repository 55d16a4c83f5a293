// @ts-check
/** Elements made in a script: one call an element, and never a word of the reader's taken for HTML. */

const elements = (() => {
  "use strict";
  const SVG = "http://www.w3.org/2000/svg";

  /**
   * @param {Element} element
   * @param {Record<string, string | number | boolean | undefined>} attributes false and undefined leave one out
   * @param {(Node | string)[]} children
   */
  function dressed(element, attributes, children) {
    for (const [name, value] of Object.entries(attributes)) {
      if (value !== undefined && value !== false) element.setAttribute(name, value === true ? "" : String(value));
    }
    element.append(...children);
    return element;
  }

  /** @param {string} tag @param {Record<string, string | number | boolean | undefined>} [attributes] @param {...(Node | string)} children @returns {HTMLElement} */
  function make(tag, attributes = {}, ...children) {
    return /** @type {HTMLElement} */ (dressed(document.createElement(tag), attributes, children));
  }

  /** @param {string} tag @param {Record<string, string | number | boolean | undefined>} [attributes] @param {...(Node | string)} children */
  function drawn(tag, attributes = {}, ...children) {
    return dressed(document.createElementNS(SVG, tag), attributes, children);
  }

  /** @param {string} words @param {() => void} act @param {string} [look] a class */
  function button(words, act, look = "") {
    const made = make("button", { type: "button", class: look || undefined }, words);
    made.addEventListener("click", act);
    return made;
  }

  /** The one element that must be there. @param {ParentNode} within @param {string} selector @returns {HTMLElement} */
  function one(within, selector) {
    const found = within.querySelector(selector);
    if (!(found instanceof HTMLElement || found instanceof SVGElement)) throw new Error(`no ${selector} in the page`);
    return /** @type {HTMLElement} */ (found);
  }

  /** A block of JSON that the build wrote into the page. @param {string} id @returns {any} */
  function block(id) {
    return JSON.parse(document.getElementById(id)?.textContent ?? "null");
  }

  return { make, drawn, button, one, block };
})();
