// @ts-check
/** The write-up form: a draft on this device, checked while it is written, made into one file to hand over. */

class WriteUp {
  /** @param {HTMLElement} root */
  constructor(root) {
    this.root = root;
    this.form = /** @type {HTMLFormElement} */ (elements.one(root, "[data-form]"));
    this.rules = elements.block("write-up-rules");
    this.words = units.ready(this.rules);
    this.notRecorded = new Set(this.rules.notRecorded);
    /** @type {any} */
    this.draft = null;
    /** @type {any[]} */
    this.drafts = [];
    /** Fields that the potter has been in; problems of others wait. @type {Set<Element>} */
    this.touched = new Set();
    this.asked = false;
    /** @type {File | null} */
    this.file = null;
    this.saving = 0;
    /** What waits until a finger that is down is up again; null while none is down. @type {(() => void)[] | null} */
    this.pressing = null;
    formState.partRadios(this.form);
    this.readings = new WriteUpReadings(this.form, this.rules, () => this.changed());
    this.photos = new WriteUpPhotos(this.form, (words) => this.say(words), () => this.changed());
    this.shelf = new WriteUpDrafts(elements.one(root, "[data-drafts]"), { open: (id) => this.open(id), begin: () => this.begin() });
    this.listen();
  }

  /** @param {string} name */
  part(name) {
    return elements.one(this.form, `[data-${name}]`);
  }

  listen() {
    this.form.addEventListener("input", () => this.changed());
    for (const way of ["change", "focusout"]) {
      this.form.addEventListener(way, (event) => this.whenReleased(() => this.left(/** @type {Element} */ (event.target))));
    }
    document.addEventListener("pointerdown", () => (this.pressing = []));
    for (const end of ["pointerup", "pointercancel"]) document.addEventListener(end, () => setTimeout(() => this.released()));
    this.form.addEventListener("click", (event) => this.clicked(/** @type {Element} */ (event.target)));
    this.form.addEventListener("submit", (event) => {
      event.preventDefault();
      this.make();
    });
    this.part("save").addEventListener("click", () => this.file && fileSaving.save(this.file));
    this.part("share").addEventListener("click", () => this.send());
    askFirst(this.part("delete-part"), "Delete this draft with its photos from this device? The log of the fire stays.", () => this.remove());
    const settle = () => document.visibilityState === "hidden" && this.keep();
    document.addEventListener("visibilitychange", settle);
    addEventListener("pagehide", () => this.keep());
    deviceStore.onTrouble((words) => this.tell(words));
  }

  async start() {
    this.drafts = await deviceStore.all("drafts");
    await this.readings.load();
    const fire = /^#fire=([\w-]+)$/.exec(location.hash)?.[1];
    const newest = [...this.drafts].sort((a, b) => b.changed - a.changed)[0];
    const ofFire = fire && this.drafts.find((draft) => draft.fire === fire);
    if (fire && !ofFire) await this.begin(fire);
    else if (ofFire || newest) await this.open((ofFire || newest).id);
    else await this.begin();
  }

  // Drafts

  /** @param {string} [fire] the log that it is about */
  async begin(fire) {
    await this.keep();
    const draft = { id: deviceStore.newId(), fire: fire ?? "", changed: Date.now(), state: {}, story: "", readings: null };
    const log = this.readings.fires.find((one) => one.id === fire);
    if (log) {
      const { title, method, date, lit } = fireLog.forEntry(log, this.readings.linesOf(log.id));
      draft.state = { title, method, date, lit };
      draft.readings = /** @type {any} */ ({ source: "log", log: log.id });
    }
    await this.fillIn(draft);
    if (log) await this.keep();
  }

  /** @param {string} id */
  async open(id) {
    await this.keep();
    const draft = this.drafts.find((one) => one.id === id);
    if (draft) await this.fillIn(draft);
  }

  /** @param {any} draft */
  async fillIn(draft) {
    this.draft = draft;
    this.touched.clear();
    this.asked = false;
    await this.photos.load(draft.id);
    formState.write(this.form, draft.state);
    for (const list of /** @type {NodeListOf<HTMLElement>} */ (this.form.querySelectorAll('[data-list="pieces"]'))) {
      if (!formState.items(list).length) formState.addItem(list);
    }
    /** @type {HTMLTextAreaElement} */ (this.part("story")).value = draft.story;
    this.readings.restore(draft.readings, draft.state.readings?.probes);
    this.photos.dressAll();
    this.unfold();
    this.shelf.show(this.drafts, draft.id);
    this.show();
  }

  /** Folds with something in them stand open, and one that is all that its part holds. */
  unfold() {
    for (const fold of /** @type {NodeListOf<HTMLDetailsElement>} */ (this.form.querySelectorAll("[data-folds]"))) {
      const alone = fold.parentElement?.matches(".part") && fold.parentElement.querySelectorAll(":scope > .field, :scope > [data-folds]").length === 1;
      fold.open = Boolean(alone) || !isBlank(fold);
    }
  }

  /** Keep the draft once something has been written in it. */
  async keep() {
    clearTimeout(this.saving);
    this.saving = 0;
    if (!this.draft || !this.draft.dirty && !this.draft.fire) return;
    const { dirty: _, ...draft } = { ...this.draft, ...this.typed(), changed: this.draft.dirty ? Date.now() : this.draft.changed };
    this.draft = draft;
    this.drafts = [...this.drafts.filter((one) => one.id !== draft.id), draft];
    const kept = await deviceStore.put("drafts", draft);
    await this.photos.sweep();
    this.part("kept-words").textContent = kept ? `Draft kept on this device, ${fireLog.clock(Date.now(), true)}.` : "The draft is not kept.";
    this.shelf.show(this.drafts, this.draft.id);
  }

  typed() {
    return { state: formState.read(this.form), story: /** @type {HTMLTextAreaElement} */ (this.part("story")).value, readings: this.readings.state() };
  }

  async remove() {
    const { id } = this.draft;
    this.draft = null;
    this.drafts = this.drafts.filter((one) => one.id !== id);
    const photos = [...this.photos.kept.keys()];
    await Promise.all([deviceStore.remove("drafts", id), ...photos.map((photo) => deviceStore.remove("photos", photo))]);
    history.replaceState(null, "", location.pathname);
    await this.begin();
    this.say("The draft is deleted.");
    scrollTo(0, 0);
  }

  // While it is written

  changed() {
    if (!this.draft) return;
    this.draft.dirty = true;
    this.file = null;
    this.part("made").hidden = true;
    clearTimeout(this.saving);
    this.saving = setTimeout(() => this.keep(), 400);
    this.show();
  }

  /** A field was left: from now on it is told what is wrong with it, and a unit that was typed is chosen. @param {Element} target */
  left(target) {
    const field = target.closest("[data-field]");
    if (!field) return;
    this.chooseUnit(field);
    this.touched.add(field);
    this.show();
  }

  /** Words that appear under a finger would move the button away that it is about to press. @param {() => void} act */
  whenReleased(act) {
    if (this.pressing) this.pressing.push(act);
    else act();
  }

  released() {
    const acts = this.pressing ?? [];
    this.pressing = null;
    acts.forEach((act) => act());
  }

  /** @param {Element} field */
  chooseUnit(field) {
    const [box, unit] = [field.querySelector("[data-value]"), field.querySelector("[data-unit]")];
    if (!(box instanceof HTMLInputElement) || !(unit instanceof HTMLSelectElement)) return;
    const typed = /^(.*[\d¼-¾⅐-⅞])\s*([^\d¼-¾⅐-⅞]+)$/.exec(box.value.trim());
    const kinds = Object.values(this.words.kinds);
    const kind = kinds.find((one) => [...unit.options].every((option) => units.findUnit(one, option.value)));
    const found = typed && kind ? units.findUnit(kind, typed[2]) : null;
    if (!typed || !found || ![...unit.options].some((option) => option.value === found.symbol)) return;
    box.value = typed[1];
    unit.value = found.symbol;
  }

  /** What was offered is written in. @param {Element} field @param {string} value */
  mend(field, value) {
    const box = /** @type {HTMLInputElement} */ (field.querySelector("[data-value]"));
    box.value = value;
    this.chooseUnit(field);
    this.changed();
    /** @type {HTMLElement} */ (field.querySelector("[data-unit]") ?? box).focus();
  }

  /** @param {Element} target */
  clicked(target) {
    const [add, take] = [target.closest("[data-add]"), target.closest("[data-take-away]")];
    const list = /** @type {HTMLElement | null} */ (target.closest("[data-list]"));
    if (!list || !(add || take)) return;
    if (add) {
      const item = formState.addItem(list);
      /** @type {HTMLElement | null} */ (item.querySelector("input, select, textarea"))?.focus();
    } else {
      take?.closest("[data-item]")?.remove();
      formState.number(list);
      /** @type {HTMLElement | null} */ (list.querySelector("[data-add]"))?.focus();
    }
    this.changed();
  }

  /** The entry as it stands. */
  entry() {
    const state = formState.read(this.form);
    const typed = formState.values(state, this.rules.fields, this.words, this.notRecorded);
    const { readings, file } = this.readings.forEntry(typed.readings?.probes ?? []);
    const photos = this.photos.files();
    (typed.photos ?? []).forEach((/** @type {any} */ photo, /** @type {number} */ index) => {
      photo.file = photos[index]?.name;
    });
    const values = entryText.tidy({ ...typed, readings }, this.rules.fields, this.rules);
    const story = entryText.tidyStory(/** @type {HTMLTextAreaElement} */ (this.part("story")).value, this.rules);
    return { values, story, file, photos };
  }

  /** A thermometer is asked for what it has: fields of another kind are out of sight, and are not written. */
  hideStrange() {
    for (const item of this.form.querySelectorAll('[data-list="probes"] > [data-items] > [data-item]')) {
      const instrument = formState.read(item).instrument;
      const strange = this.rules.ofAnother[instrument] ?? [];
      for (const field of item.querySelectorAll("[data-field]")) /** @type {HTMLElement} */ (field).hidden = strange.includes(field.getAttribute("data-field"));
    }
  }

  /** Show what is wrong where it is wrong. @returns {FormProblem[]} */
  show() {
    this.hideStrange();
    const { values } = this.entry();
    const problems = entryCheck.problems(values, this.rules);
    for (const place of this.form.querySelectorAll("[data-field] [data-wrong], [data-list] > [data-wrong]")) writeUpProblems.tell(/** @type {HTMLElement} */ (place), []);
    /** @type {Map<HTMLElement, FormProblem[]>} */
    const places = new Map();
    for (const problem of problems) {
      const element = formState.locate(this.form, problem.field);
      if (!this.asked && !this.touched.has(element)) continue;
      const place = /** @type {HTMLElement | null} */ (element.querySelector("[data-wrong]"));
      if (place) places.set(place, [...(places.get(place) ?? []), problem]);
    }
    for (const [place, found] of places) writeUpProblems.tell(place, found, (field, value) => this.mend(field, value));
    const listed = this.asked ? writeUpProblems.listed(this.form, problems, this.readings.wrong()) : [];
    elements.one(this.form, "[data-problems]").replaceChildren(...listed);
    this.readings.preview(values.method ?? "");
    return problems;
  }

  // Handing over

  async make() {
    this.asked = true;
    await this.keep();
    const problems = this.show();
    if (this.readings.wrong() || problems.some((problem) => !problem.warning)) {
      this.part("made").hidden = true;
      this.part("problems").focus();
      return;
    }
    const { values, story, file, photos } = this.entry();
    const slug = entryText.slug(values.date, values.title, this.rules.limits.slug);
    const text = entryText.write(values, story);
    const bytes = (/** @type {string} */ words) => new TextEncoder().encode(words);
    const files = [{ name: "entry.md", bytes: bytes(text) }, ...(file ? [{ name: "readings.csv", bytes: bytes(file) }] : []), ...photos];
    const zip = zipFile.write(files.map((one) => ({ ...one, name: `${slug}/${one.name}` })), values.date);
    this.file = new File([/** @type {any} */ (zip)], `${slug}.zip`, { type: "application/zip" });
    const size = zip.length < 1e6 ? `${Math.ceil(zip.length / 1000)} kB` : `${(zip.length / 1e6).toFixed(1)} MB`;
    this.part("made-words").textContent = `${slug}.zip, ${size}: ${files.map((one) => one.name).join(", ")}.`;
    this.part("text").textContent = text;
    this.part("share").hidden = !fileSaving.canShare(this.file);
    this.part("share-words").textContent = "";
    this.part("made").hidden = false;
    this.part("made").focus();
  }

  async send() {
    if (!this.file) return;
    const went = await fileSaving.share(this.file);
    const told = { "handed on": "Handed to the program you picked.", "thought better of": "", refused: "This device does not hand such a file on from here. Save it, then send it as you send any other." };
    this.part("share").hidden = went === "refused";
    this.part("share-words").textContent = told[went];
  }

  /** @param {string} words */
  say(words) {
    elements.one(this.root, "[data-said]").textContent = words;
    if (words.startsWith("“")) this.tell(words);
  }

  /** @param {string} words */
  tell(words) {
    const trouble = elements.one(this.root, "[data-trouble]");
    trouble.hidden = !words;
    elements.one(trouble, "p").textContent = words;
  }
}

/** Whether nothing was written in a fold. @param {HTMLElement} fold */
function isBlank(fold) {
  const boxes = /** @type {NodeListOf<HTMLInputElement>} */ (fold.querySelectorAll("[data-value]"));
  const picked = fold.querySelector("[data-tick]:checked, [data-pick]:checked:not([value=''])");
  return !picked && [...boxes].every((box) => !box.value);
}

(() => {
  const root = document.querySelector("[data-write-up]");
  if (!(root instanceof HTMLElement)) return;
  // Shown once the draft is filled in: what a quick hand wrote before would be written over.
  new WriteUp(root).start().finally(() => {
    document.querySelector("[data-without-scripts]")?.setAttribute("hidden", "");
    root.hidden = false;
  });
})();
