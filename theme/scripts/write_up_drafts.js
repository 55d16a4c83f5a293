// @ts-check
/** The drafts on this device: which there are, one gone on with, one begun, one deleted once asked. */

class WriteUpDrafts {
  /** @param {HTMLElement} root @param {{open: (id: string) => void, begin: () => void}} acts */
  constructor(root, acts) {
    this.root = root;
    this.acts = acts;
    elements.one(root, "[data-new-draft]").addEventListener("click", () => acts.begin());
  }

  /** The drafts but the open one. @param {any[]} drafts @param {string} open */
  show(drafts, open) {
    const others = drafts.filter((draft) => draft.id !== open).sort((a, b) => b.changed - a.changed);
    this.root.hidden = !drafts.length;
    elements.one(this.root, "[data-draft-list]").replaceChildren(
      ...others.map((draft) => {
        const title = draft.state?.title?.trim() || "Without a title";
        const act = elements.button("Go on", () => this.acts.open(draft.id), "act");
        act.setAttribute("aria-label", `Go on with ${title}`);
        const told = `${draft.state?.date || "no day yet"}, last changed ${fireLog.day(draft.changed)} ${fireLog.clock(draft.changed)}`;
        return elements.make("li", {}, elements.make("p", {}, elements.make("strong", {}, title), elements.make("span", { class: "quiet" }, told)), elements.make("div", { class: "pair" }, act));
      }),
    );
    elements.one(this.root, "h2").hidden = !others.length;
    elements.one(this.root, "[data-new-draft]").hidden = !drafts.some((draft) => draft.id === open);
  }
}

/** A button that asks once more before it deletes. @param {HTMLElement} part @param {string} question @param {() => void} act */
function askFirst(part, question, act) {
  const button = elements.one(part, "button");
  button.addEventListener("click", () => {
    const asked = elements.make("div", { class: "asked", role: "alert" }, elements.make("p", {}, question));
    const back = () => {
      asked.remove();
      button.hidden = false;
      button.focus();
    };
    const keep = elements.button("Keep it", back);
    const sure = elements.button("Delete for good", () => {
      back();
      act();
    });
    asked.append(elements.make("div", { class: "pair" }, keep, sure));
    button.hidden = true;
    part.append(asked);
    keep.focus();
  });
}
