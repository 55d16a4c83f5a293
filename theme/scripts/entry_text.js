// @ts-check
/** An entry's values to the text of entry.md: whatever was typed is read back as it was. */

const entryText = (() => {
  "use strict";
  /** Words that some reader of YAML takes for something else. */
  const MEANT_OTHERWISE = /^(?:y|n|yes|no|on|off|true|false|null|nan|inf|[-+.\d][-+.,:_\dxobe]*)$/i;
  const PLAIN = /^[A-Za-z0-9][A-Za-z0-9 .()/°%-]*$/;

  /** Values as they will be written: in one line, without what cannot be seen, and nothing that is empty.
   * @param {any} values @param {any[]} fields @param {any} rules @returns {Record<string, any>} */
  function tidy(values, fields, rules) {
    const dropped = new RegExp(`${rules.hidden}|${rules.unprintable}`, "gu");
    return tidyGroup(values, fields, dropped, rules);
  }

  /** @param {any} values @param {any[]} fields @param {RegExp} dropped @param {any} rules @returns {Record<string, any>} */
  function tidyGroup(values, fields, dropped, rules) {
    /** @type {Record<string, any>} */
    const kept = {};
    const strange = rules.ofAnother[values.instrument] ?? [];
    for (const field of fields) {
      const value = values[field.name];
      if (value === undefined || strange.includes(field.name)) continue;
      const tidied = tidyValue(value, field, dropped, rules);
      if (!isEmpty(tidied)) kept[field.name] = tidied;
    }
    return kept;
  }

  /** @param {any} value @param {any} field @param {RegExp} dropped @param {any} rules */
  function tidyValue(value, field, dropped, rules) {
    if (field.kind === "group") return tidyGroup(value, field.fields, dropped, rules);
    if (field.kind === "list") return value.map((/** @type {any} */ item) => tidyGroup(item, field.fields, dropped, rules)).filter((/** @type {any} */ item) => !isEmpty(item));
    if (field.kind === "rows") return value.map((/** @type {string} */ row) => line(row, dropped)).filter(Boolean);
    if (!Array.isArray(value)) return line(value, dropped);
    /** @type {Map<string, string>} */
    const words = new Map();
    for (const word of value.map((one) => line(one, dropped)).filter(Boolean)) {
      if (!words.has(word.toLowerCase())) words.set(word.toLowerCase(), word);
    }
    return [...words.values()];
  }

  /** @param {any} value */
  const isEmpty = (value) => value === "" || (typeof value === "object" && Object.keys(value).length === 0);

  /** @param {unknown} text @param {RegExp} dropped */
  function line(text, dropped) {
    return String(text).replace(dropped, "").replace(/[\s\x85]+/g, " ").trim().normalize("NFC");
  }

  /** The story, without what could turn its writing around. @param {string} story @param {any} rules */
  function tidyStory(story, rules) {
    const dropped = new RegExp(`${rules.turning}|${rules.unprintable}`, "gu");
    return story.replace(/\r\n?/g, "\n").replace(dropped, "").trim();
  }

  /** One value as YAML. @param {string} text */
  function word(text) {
    return PLAIN.test(text) && !text.endsWith(" ") && !MEANT_OTHERWISE.test(text) ? text : quoted(text);
  }

  /** @param {string} text */
  function quoted(text) {
    const escaped = text.replace(/["\\]/g, "\\$&").replace(/[\x00-\x1f\x7f-\xa0\u2028\u2029\ufeff]/g, (sign) => `\\u${sign.charCodeAt(0).toString(16).padStart(4, "0")}`);
    return `"${escaped}"`;
  }

  /** A value in one line: groups in braces, lists in brackets. @param {any} value @returns {string} */
  function inline(value) {
    if (Array.isArray(value)) return `[${value.map(inline).join(", ")}]`;
    if (typeof value === "object") return `{${Object.entries(value).map(([name, inner]) => `${name}: ${inline(inner)}`).join(", ")}}`;
    return word(value);
  }

  /** @param {string} name @param {Record<string, any>[]} items @param {string} indent */
  function list(name, items, indent) {
    const lines = [`${indent}${name}:`];
    for (const item of items) {
      Object.entries(item).forEach(([key, value], index) => lines.push(`${indent}  ${index ? "  " : "- "}${key}: ${inline(value)}`));
    }
    return lines;
  }

  /** @param {Record<string, any>} readings */
  function readingsLines(readings) {
    const lines = ["readings:"];
    for (const [name, value] of Object.entries(readings)) {
      if (name === "probes") lines.push(...list(name, value, "  "));
      else if (name === "rows") lines.push("  rows: |", ...value.map((/** @type {string} */ row) => `    ${row}`));
      else lines.push(`  ${name}: ${inline(value)}`);
    }
    return lines;
  }

  /**
   * The whole of entry.md.
   * @param {Record<string, any>} values as `tidy` gives them
   * @param {string} story
   */
  function write(values, story) {
    const lines = ["---"];
    for (const [name, value] of Object.entries(values)) {
      if (name === "readings") lines.push(...readingsLines(value));
      else if (name === "date") lines.push(`date: ${value}`);
      else if (Array.isArray(value) && typeof value[0] === "object") lines.push(...list(name, value, ""));
      else lines.push(`${name}: ${inline(value)}`);
    }
    return `${[...lines, "---"].join("\n")}\n${story ? `\n${story}\n` : ""}`;
  }

  /** The name of the entry's folder, which is its address too. @param {string} date @param {string} title @param {number} longest */
  function slug(date, title, longest) {
    const plain = title.normalize("NFKD").replace(/[^\x00-\x7f]/g, "").toLowerCase();
    const words = plain.replace(/[^a-z0-9]+/g, "-").replace(/^-+|-+$/g, "") || "firing";
    return `${date}-${words}`.slice(0, longest).replace(/-+$/, "");
  }

  return { tidy, tidyStory, write, slug, quoted };
})();
