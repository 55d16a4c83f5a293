// @ts-check
/** Photos of a write-up: made anew on the device, smaller and without what the camera wrote into them, and kept there. */

class WriteUpPhotos {
  /** @param {HTMLElement} form @param {(words: string) => void} say @param {() => void} changed */
  constructor(form, say, changed) {
    this.list = elements.one(form, '[data-list="photos"]');
    this.say = say;
    this.changed = changed;
    this.draft = "";
    /** @type {Map<string, any>} */
    this.kept = new Map();
    const chooser = /** @type {HTMLInputElement} */ (elements.one(form, "[data-photos]"));
    chooser.addEventListener("change", async () => {
      const files = [...(chooser.files ?? [])];
      chooser.value = "";
      for (const file of files) await this.add(file);
      this.changed();
    });
  }

  /** @param {string} draft */
  async load(draft) {
    this.draft = draft;
    const photos = (await deviceStore.all("photos")).filter((photo) => photo.draft === draft);
    this.kept = new Map(photos.map((photo) => [photo.id, photo]));
  }

  /** @param {File} file */
  async add(file) {
    const picture = await smaller(file);
    if (!picture) {
      this.say(`“${file.name}” is no picture that this browser can read. Save it as JPEG and add that.`);
      return;
    }
    const photo = { id: deviceStore.newId(), draft: this.draft, ...picture };
    this.kept.set(photo.id, photo);
    const item = formState.addItem(this.list);
    item.dataset.photo = photo.id;
    this.dress(item);
    await deviceStore.put("photos", photo);
  }

  /** Show the picture in its item. @param {HTMLElement} item */
  async dress(item) {
    const photo = this.kept.get(item.dataset.photo ?? "");
    if (!photo || item.querySelector("canvas")) return;
    const canvas = /** @type {HTMLCanvasElement} */ (elements.make("canvas", { class: "photo-seen", role: "img", "aria-label": "The photo" }));
    item.querySelector("legend")?.after(canvas);
    const bitmap = await createImageBitmap(new Blob([photo.bytes], { type: "image/jpeg" }));
    const scale = Math.min(1, 480 / bitmap.width);
    [canvas.width, canvas.height] = [Math.round(bitmap.width * scale), Math.round(bitmap.height * scale)];
    canvas.getContext("2d")?.drawImage(bitmap, 0, 0, canvas.width, canvas.height);
    bitmap.close();
  }

  dressAll() {
    for (const item of formState.items(this.list)) {
      if (this.kept.has(item.dataset.photo ?? "")) this.dress(item);
      else item.remove();
    }
    formState.number(this.list);
  }

  /** The photos in the form's order, each with the name of its file. @returns {{name: string, bytes: Uint8Array}[]} */
  files() {
    return formState.items(this.list).flatMap((item, index) => {
      const photo = this.kept.get(item.dataset.photo ?? "");
      return photo ? [{ name: `photo-${index + 1}.jpg`, bytes: new Uint8Array(photo.bytes) }] : [];
    });
  }

  /** Photos that were taken away from the form are forgotten. */
  async sweep() {
    const shown = new Set(formState.items(this.list).map((item) => item.dataset.photo));
    for (const id of [...this.kept.keys()].filter((one) => !shown.has(one))) {
      this.kept.delete(id);
      await deviceStore.remove("photos", id);
    }
  }
}

/** A picture drawn anew: upright, no longer than 1600 px on a side, its pixels and nothing else. @param {File} file */
async function smaller(file) {
  const [longest, quality] = [1600, 0.85];
  try {
    const bitmap = await createImageBitmap(file, { imageOrientation: "from-image" });
    const scale = Math.min(1, longest / Math.max(bitmap.width, bitmap.height));
    const canvas = document.createElement("canvas");
    [canvas.width, canvas.height] = [Math.max(1, Math.round(bitmap.width * scale)), Math.max(1, Math.round(bitmap.height * scale))];
    const paper = /** @type {CanvasRenderingContext2D} */ (canvas.getContext("2d"));
    paper.fillStyle = "white"; // a drawing on nothing would turn black
    paper.fillRect(0, 0, canvas.width, canvas.height);
    paper.drawImage(bitmap, 0, 0, canvas.width, canvas.height);
    bitmap.close();
    /** @type {Blob | null} */
    const blob = await new Promise((resolve) => canvas.toBlob(resolve, "image/jpeg", quality));
    return blob ? { width: canvas.width, height: canvas.height, bytes: await blob.arrayBuffer() } : null;
  } catch {
    return null;
  }
}
