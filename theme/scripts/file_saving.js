// @ts-check
/** A file made on this page, given to the potter: saved, or handed to another program of the device. */

const fileSaving = (() => {
  "use strict";
  const KEPT_FOR = 60_000;

  /** @param {File} file */
  function save(file) {
    const address = URL.createObjectURL(file);
    const link = elements.make("a", { href: address, download: file.name });
    document.body.append(link);
    link.click();
    link.remove();
    setTimeout(() => URL.revokeObjectURL(address), KEPT_FOR);
  }

  /** @param {File} file @returns {boolean} whether this device can hand the file on */
  function canShare(file) {
    try {
      return navigator.canShare?.({ files: [file] }) ?? false;
    } catch {
      return false;
    }
  }

  /**
   * Hand a file to another program of the device, which the potter picks.
   * @param {File} file
   * @returns {Promise<"handed on" | "thought better of" | "refused">} refused also where a browser that said it could
   *   share files does not let this kind of file out
   */
  async function share(file) {
    try {
      await navigator.share({ files: [file], title: file.name });
      return "handed on";
    } catch (fault) {
      return fault instanceof DOMException && fault.name === "AbortError" ? "thought better of" : "refused";
    }
  }

  return { save, canShare, share };
})();
