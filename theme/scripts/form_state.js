// @ts-check
/** The form's fields to values and back: what stands in the page, as it is kept in a draft and as an entry would say it. */

/** @typedef {Record<string, any>} State  by names of fields: text, lists of words, {value, unit}, groups, lists of groups */

const formState = (() => {
  "use strict";
  const HOMES = "[data-group],[data-list],[data-item],[data-form]";
  let made = 0;

  /** The fields, groups and lists that stand directly in a part of the form. @param {Element} home */
  function within(home) {
    const found = home.querySelectorAll("[data-field],[data-group],[data-list]");
    return [...found].filter((element) => element.parentElement?.closest(HOMES) === home);
  }

  /** @param {Element} list @returns {HTMLElement[]} */
  function items(list) {
    return /** @type {HTMLElement[]} */ ([...list.querySelectorAll("[data-item]")].filter((item) => item.parentElement?.closest("[data-list]") === list));
  }

  /** @param {Element} home @returns {State} */
  function read(home) {
    /** @type {State} */
    const state = {};
    for (const element of within(home)) {
      const { field, group, list } = /** @type {HTMLElement} */ (element).dataset;
      if (field) state[field] = readField(element);
      else if (group) state[group] = read(element);
      else if (list) state[list] = items(element).map((item) => (item.dataset.photo ? { ...read(item), photo: item.dataset.photo } : read(item)));
    }
    return state;
  }

  /** @param {Element} element */
  function readField(element) {
    const ticks = [...element.querySelectorAll("[data-tick]")];
    if (ticks.length) return ticks.filter((tick) => /** @type {HTMLInputElement} */ (tick).checked).map((tick) => /** @type {HTMLInputElement} */ (tick).value);
    const pick = element.querySelector("[data-pick]");
    if (pick) return /** @type {HTMLInputElement | null} */ (element.querySelector("[data-pick]:checked"))?.value ?? "";
    const value = /** @type {HTMLInputElement} */ (element.querySelector("[data-value]")).value;
    const unit = /** @type {HTMLSelectElement | null} */ (element.querySelector("[data-unit]"));
    return unit ? { value, unit: unit.value } : value;
  }

  /** Put a state into the form. @param {Element} home @param {State} state */
  function write(home, state) {
    for (const element of within(home)) {
      const { field, group, list } = /** @type {HTMLElement} */ (element).dataset;
      if (field) writeField(element, state[field]);
      else if (group) write(element, state[group] ?? {});
      else if (list) writeList(/** @type {HTMLElement} */ (element), state[list] ?? []);
    }
  }

  /** @param {HTMLElement} list @param {State[]} states */
  function writeList(list, states) {
    elements.one(list, "[data-items]").replaceChildren();
    for (const state of states) {
      const item = addItem(list);
      if (state.photo) item.dataset.photo = state.photo;
      write(item, state);
    }
  }

  /** @param {Element} element @param {any} value */
  function writeField(element, value) {
    for (const tick of /** @type {NodeListOf<HTMLInputElement>} */ (element.querySelectorAll("[data-tick]"))) tick.checked = (value ?? []).includes(tick.value);
    for (const pick of /** @type {NodeListOf<HTMLInputElement>} */ (element.querySelectorAll("[data-pick]"))) pick.checked = pick.value === (value ?? "");
    const box = /** @type {HTMLInputElement | null} */ (element.querySelector("[data-value]"));
    if (!box) return;
    const unit = /** @type {HTMLSelectElement | null} */ (element.querySelector("[data-unit]"));
    box.value = (unit ? value?.value : value) ?? "";
    if (unit) unit.value = value?.unit ?? unit.options[0].value;
  }

  /** Add an empty item to a list: its template, with names of its own for labels and radios. @param {HTMLElement} list @returns {HTMLElement} */
  function addItem(list) {
    const template = /** @type {HTMLTemplateElement} */ (list.querySelector(":scope > template"));
    const copy = /** @type {DocumentFragment} */ (template.content.cloneNode(true));
    named(copy);
    const item = /** @type {HTMLElement} */ (copy.firstElementChild);
    elements.one(list, ":scope > [data-items]").append(copy);
    number(list);
    return item;
  }

  /** Items are told apart by their numbers. @param {HTMLElement} list */
  function number(list) {
    const one = list.dataset.one ?? "";
    const all = items(list);
    all.forEach((item, index) => {
      elements.one(item, "legend").textContent = `${one[0].toUpperCase()}${one.slice(1)}${all.length > 1 ? ` ${index + 1}` : ""}`;
    });
    const add = list.querySelector(":scope > [data-add]");
    if (add instanceof HTMLButtonElement) add.disabled = all.length >= Number(list.dataset.most || Infinity);
  }

  /** Give labels and radios of a copy names that nothing else in the page has. @param {ParentNode} copy */
  function named(copy) {
    made += 1;
    for (const [attribute, mark] of [["id", "-"], ["for", "-"], ["aria-labelledby", "-"]]) {
      for (const element of copy.querySelectorAll(`[${attribute}]`)) element.setAttribute(attribute, `${element.getAttribute(attribute)}${mark}${made}`);
    }
    partRadios(copy);
  }

  /** Radios of one field belong together, and to no other. @param {ParentNode} part */
  function partRadios(part) {
    for (const field of part.querySelectorAll("[data-field]")) {
      made += 1;
      for (const pick of field.querySelectorAll("[data-pick]")) pick.setAttribute("name", `pick-${made}`);
    }
  }

  /** A number and its unit as an entry has them. @param {{value: string, unit: string} | string} typed @param {string} kind @param {any} words @param {Set<string>} notRecorded */
  function composed(typed, kind, words, notRecorded) {
    const { value, unit } = typeof typed === "string" ? { value: typed, unit: "" } : typed;
    const plain = value.trim();
    if (!plain || !unit || notRecorded.has(plain.toLowerCase())) return plain;
    const whole = `${plain} ${unit}`;
    if ("quantity" in quantities.read(plain, kind, words)) return plain;
    if ("quantity" in quantities.read(whole, kind, words)) return whole;
    return /[\p{L}°%"']$/u.test(plain) ? plain : whole;
  }

  /**
   * What an entry would say.
   * @param {State} state @param {any[]} fields @param {any} words as `units.ready` gives them @param {Set<string>} notRecorded
   * @returns {State}
   */
  function values(state, fields, words, notRecorded) {
    /** @type {State} */
    const found = {};
    for (const field of fields) {
      const value = state[field.name];
      if (value === undefined) continue;
      if (field.kind === "group") found[field.name] = values(value, field.fields, words, notRecorded);
      else if (field.kind === "list") found[field.name] = value.map((/** @type {State} */ item) => values(item, field.fields, words, notRecorded));
      else if (field.kind === "quantity") found[field.name] = composed(value, field.quantity, words, notRecorded);
      else if (field.kind === "words" && typeof value === "string") found[field.name] = value.split(",");
      else found[field.name] = value;
    }
    return found;
  }

  /** The element of a problem's field: `pieces[2].weighed.dry`. Items that are empty are not counted. @param {Element} form @param {string} path */
  function locate(form, path) {
    let home = form;
    for (const part of path.split(".")) {
      const [, name, index] = /** @type {RegExpExecArray} */ (/^(\w+)(?:\[(\d+)\])?$/.exec(part));
      const found = within(home).find((element) => [element.getAttribute("data-field"), element.getAttribute("data-group"), element.getAttribute("data-list")].includes(name));
      if (!found) return home;
      home = found;
      if (index && home.hasAttribute("data-list")) home = items(home).filter((item) => !isEmpty(read(item)) || item.dataset.photo)[Number(index) - 1] ?? home;
    }
    return home;
  }

  /** @param {any} state @returns {boolean} */
  function isEmpty(state) {
    if (typeof state === "string") return !state.trim();
    if (Array.isArray(state)) return state.every(isEmpty);
    if ("unit" in state && "value" in state) return !state.value.trim();
    return Object.values(state).every(isEmpty);
  }

  return { read, write, values, locate, items, addItem, number, partRadios, isEmpty };
})();
