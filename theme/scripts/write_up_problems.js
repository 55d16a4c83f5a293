// @ts-check
/** What is wrong with a write-up, shown: below its field, and in a list that leads to each. */

const writeUpProblems = (() => {
  "use strict";

  /** @param {HTMLElement} place @param {FormProblem[]} problems @param {(field: Element, value: string) => void} [mend] writes a value that was offered into its field */
  function tell(place, problems, mend) {
    const words = problems.map((problem) => `${problem.message} ${problem.help}`).join(" ");
    if (place.dataset.said === words) return;
    place.dataset.said = words;
    place.hidden = !problems.length;
    place.replaceChildren(...ticked(words), ...(mend ? offers(place, problems, mend) : []));
    place.classList.toggle("doubt", problems.length > 0 && problems.every((problem) => problem.warning));
    const box = place.parentElement?.querySelector("[data-value]");
    box?.toggleAttribute("aria-invalid", problems.some((problem) => !problem.warning));
    if (box && problems.length) box.setAttribute("aria-describedby", (place.id ||= `wrong-${Math.random().toString(36).slice(2)}`));
    else box?.removeAttribute("aria-describedby");
  }

  /**
   * Buttons with what the help offers in the potter's own number: a phone's keys may have no sign for it.
   * @param {HTMLElement} place @param {FormProblem[]} problems @param {(field: Element, value: string) => void} mend
   * @returns {Node[]}
   */
  function offers(place, problems, mend) {
    const field = place.closest("[data-kind=quantity]");
    const meant = problems.filter((problem) => problem.code.startsWith("quantity-") && /^(?:Write|Did you mean) `/.test(problem.help));
    const values = meant.flatMap((problem) => problem.help.split("`").filter((_, index) => index % 2));
    return field && values.length ? [elements.make("span", { class: "offers" }, ...values.map((value) => elements.button(value, () => mend(field, value))))] : [];
  }

  /** How the form calls the place of a problem: `Wall`, `Piece 2, Survival`. @param {Element} element */
  function called(element) {
    const own = element.querySelector(":scope > :is(.field-name, legend, h3, summary > .group-name)")?.firstChild?.textContent?.trim() ?? "";
    const item = element.parentElement?.closest("[data-item]")?.querySelector("legend")?.textContent ?? "";
    return [item, own].filter(Boolean).join(", ");
  }

  /** All problems, each a way to its field. @param {HTMLElement} form @param {FormProblem[]} problems @param {string} wrong what is wrong with the readings @returns {Node[]} */
  function listed(form, problems, wrong) {
    const errors = problems.filter((problem) => !problem.warning);
    const number = errors.length + (wrong ? 1 : 0);
    const items = problems.map((problem) => {
      const place = formState.locate(form, problem.field);
      const way = elements.button("", () => goTo(formState.locate(form, problem.field)), "plain");
      way.append(elements.make("span", {}, elements.make("strong", {}, called(place)), " ", ...ticked(`${problem.message} ${problem.help}`)));
      return elements.make("li", { class: problem.warning ? "doubt" : undefined }, way);
    });
    if (wrong) items.push(elements.make("li", {}, elements.button(wrong, () => goTo(elements.one(form, "[data-readings]")), "plain")));
    if (!items.length) return [];
    const head = number ? `${number === 1 ? "One thing is" : `${number} things are`} to be mended before the file can be made.` : "Nothing stands in the way. Somebody should look at this once more:";
    return [elements.make("p", {}, head), elements.make("ul", {}, ...items)];
  }

  /** @param {Element} element */
  function goTo(element) {
    for (let fold = element.closest("details"); fold; fold = fold.parentElement?.closest("details") ?? null) fold.open = true;
    if (element instanceof HTMLDetailsElement) element.open = true;
    element.scrollIntoView({ block: "center" });
    const target = element.querySelector("input:not([type=hidden]), select, textarea, button");
    if (target instanceof HTMLElement) target.focus({ preventScroll: true });
  }

  /** Words in which `what is typed` stands between backticks, with that as code. @param {string} words @returns {Node[]} */
  function ticked(words) {
    return words.split("`").map((part, index) => (index % 2 ? elements.make("code", {}, part) : document.createTextNode(part)));
  }

  return { tell, listed };
})();
