// @ts-check
/** What is wrong with an entry while it is written, in the words of the check: the rules and words come from the page. */

/**
 * @typedef {{name: string, path: string, kind: string, label: string, required?: boolean, condition?: boolean,
 *   many?: boolean, quantity?: string, least?: number, longest?: number, most?: number, words?: string[],
 *   fields?: FieldRule[], bounds?: any}} FieldRule
 * @typedef {{field: string, code: string, message: string, help: string, warning: boolean}} FormProblem
 * @typedef {Record<string, any>} Values  an entry's values by the names of its fields, as they would be written
 */

const entryCheck = (() => {
  "use strict";
  const LONGEST = 240;
  const LOOK_AGAIN = "Look at the number and its unit again.";

  class Review {
    /** @param {any} rules the block of JSON that the build wrote */
    constructor(rules) {
      this.rules = rules;
      this.words = units.ready(rules);
      this.notRecorded = new Set(rules.notRecorded);
      this.warnings = new Set(rules.warnings);
      this.munsell = new RegExp(`^${rules.munsell.replace(/\\Z$/, "")}$`, "i");
      /** @type {FormProblem[]} */
      this.problems = [];
    }

    /** @param {string} field @param {{code: string, message: string, help: string}} said @param {Record<string, string | number>} [gaps] */
    report(field, said, gaps = {}) {
      const { code, message, help } = quantities.fill(said, gaps);
      this.problems.push({ field, code, message, help, warning: this.warnings.has(code) });
    }

    /** A potter's value in a message. @param {string} text */
    shown(text) {
      const plain = text.replace(/[\p{C}\p{Z}]/gu, " ").replace(/\s+/g, " ").trim();
      const letters = [...plain];
      const longest = this.rules.limits.shown;
      return `\`${letters.length > longest ? `${letters.slice(0, longest - 1).join("").trimEnd()}…` : plain}\``;
    }

    /** Judge every field of a group; gives the sound values. @param {Values} values @param {FieldRule[]} fields @param {string} at @returns {Values} */
    group(values, fields, at) {
      /** @type {Values} */
      const sound = {};
      for (const field of fields) {
        const value = values[field.name];
        const path = at ? `${at}.${field.name}` : field.name;
        if (value !== undefined) sound[field.name] = this.judge(value, field, path);
        else if (field.required) this.report(path, this.rules.said.missing[field.path]);
      }
      return sound;
    }

    /** @param {any} value @param {FieldRule} field @param {string} path @returns {any} */
    judge(value, field, path) {
      if (field.kind === "group") return this.group(value, field.fields ?? [], path);
      if (field.kind === "list") return value.map((/** @type {Values} */ item, /** @type {number} */ index) => this.group(item, field.fields ?? [], `${path}[${index + 1}]`));
      if (field.kind === "rows") return value;
      if (Array.isArray(value)) return this.wordList(value, field, path);
      return this.value(value, field, path);
    }

    /** @param {string[]} words @param {FieldRule} field @param {string} path */
    wordList(words, field, path) {
      const most = this.rules.limits.words;
      const sound = words.filter((word, index) => this.value(word, field, `${path}[${index + 1}]`) !== undefined);
      const count = new Set(sound.map((word) => word.toLowerCase())).size;
      if (count <= most) return sound;
      this.report(path, this.rules.said.manyWords, { name: field.name, count });
      return undefined;
    }

    /** @param {string} text @param {FieldRule} field @param {string} path @returns {any} */
    value(text, field, path) {
      const wordy = field.kind === "text" || field.kind === "words";
      if ((!wordy || field.condition) && this.notRecorded.has(text.toLowerCase())) {
        this.report(path, this.rules.said.notRecorded, { shown: this.shown(text), name: field.name });
        return undefined;
      }
      if (wordy) return this.text(text, field, path);
      if (field.kind === "quantity") return this.quantity(text, field, path);
      if (field.kind === "count") return this.count(text, field, path);
      if (field.kind === "munsell") return this.colour(text, path);
      if (field.kind === "date") return this.day(text, path);
      return text;
    }

    /** @param {string} text @param {FieldRule} field @param {string} path */
    text(text, field, path) {
      const [length, longest] = [[...text].length, field.longest ?? LONGEST];
      if (length <= longest) return text;
      const gaps = { length: length.toLocaleString("en-GB"), name: field.name, longest: longest.toLocaleString("en-GB") };
      this.report(path, this.rules.said.tooLong, gaps);
      return undefined;
    }

    /** Words in a phone's bent quotation marks, which are letters here. @param {string} text @param {FieldRule} field @param {string} path */
    curly(text, field, path) {
      if ([...text].length < 2 || !/^[“”„«‘’‚].*[“”„»‘’‚]$/u.test(text)) return false;
      this.report(path, this.rules.said.curly, { shown: this.shown(text), inside: text.slice(1, -1).trim() });
      return true;
    }

    /** @param {string} text @param {FieldRule} field @param {string} path */
    quantity(text, field, path) {
      const kind = field.quantity ?? "";
      const read = quantities.read(text, kind, this.words, this.rules.units[kind]);
      if ("fault" in read) {
        if (!this.curly(text, field, path)) this.report(path, read.fault);
        return undefined;
      }
      return this.within(read.quantity, field, path) ? read.quantity : undefined;
    }

    /** @param {string} text @param {FieldRule} field @param {string} path */
    count(text, field, path) {
      const least = field.least ?? 0;
      if (/^[0-9]{1,9}$/.test(text) && Number(text) >= least) {
        return this.within(Number(text), field, path) ? Number(text) : undefined;
      }
      if (this.curly(text, field, path)) return undefined;
      const figures = this.rules.numberWords[text.toLowerCase()] ?? /^([0-9]{1,6})\s*[\p{L}][\p{L}\p{N}_\s]*$/u.exec(text)?.[1];
      const said = this.rules.said;
      const plain = least === 0 ? said.countFromNought : said.count;
      const meant = figures !== undefined && Number(figures) >= least;
      this.report(path, meant ? { ...plain, help: said.countMeant.help } : plain, { shown: this.shown(text), name: field.name, figures: figures ?? "" });
      return undefined;
    }

    /** @param {any} value @param {FieldRule} field @param {string} path @returns {boolean} whether it can be */
    within(value, field, path) {
      const bounds = field.bounds;
      const whole = typeof value === "number";
      const [low, high] = whole ? [value, value] : [value.low, value.high];
      if (!bounds || (bounds.usualLow <= low && high <= bounds.usualHigh)) return true;
      const told = whole ? `\`${value}\`` : this.told(value);
      const other = whole ? "" : this.otherUnit(value, bounds);
      const possible = bounds.low <= low && high <= bounds.high;
      const said = possible ? bounds.unlikely : low < 0 && bounds.nothing ? bounds.nothing : bounds.impossible;
      this.report(path, { ...said, help: other ? said.help.replace(LOOK_AGAIN, other) : said.help }, { told });
      return possible;
    }

    /** @param {any} quantity */
    told(quantity) {
      const unit = this.words.kinds[quantity.kind].units[0].symbol;
      const converted = unit && unit !== quantity.unit ? ` (${figures(quantity.canonical, 4)} ${unit})` : "";
      return `${this.shown(quantity.raw)}${converted}`;
    }

    /** @param {any} quantity @param {any} bounds */
    otherUnit(quantity, bounds) {
      if (quantity.low !== quantity.high) return "";
      const meant = this.words.kinds[quantity.kind].units
        .filter((unit) => unit.symbol !== quantity.unit)
        .filter((unit) => {
          const value = units.canonical(unit, quantity.value);
          return bounds.usualLow <= value && value <= bounds.usualHigh;
        })
        .map((unit) => `${figures(quantity.value, 6)} ${unit.symbol}`.trim());
      return meant.length ? `If you meant ${either(meant.slice(0, 3))}, write that.` : "";
    }

    /** @param {string} text @param {string} path */
    colour(text, path) {
      const said = this.rules.said;
      const form = this.munsell.exec(text);
      if (!form) {
        const loose = /^(\d{1,2}(?:[.,]\d)?)\s*([RYGBP]{1,2})\s+(\d{1,2})\s*[-,\s]\s*(\d{1,2})$/i.exec(text);
        const mended = loose ? `${loose[1].replace(",", ".")}${loose[2].toUpperCase()} ${loose[3]}/${loose[4]}` : "";
        this.report(path, loose ? said.munsellMeant : said.munsell, { shown: this.shown(text), mended });
        return undefined;
      }
      const { step, value, chroma, grey } = /** @type {Record<string, string>} */ (form.groups);
      const inside = grey !== undefined ? Number(grey) <= 10 : Number(step) <= 10 && Number(value) <= 10 && Number(chroma) <= this.rules.limits.chroma;
      if (!inside) this.report(path, said.munsellScales, { shown: this.shown(text) });
      return inside ? text : undefined;
    }

    /** @param {string} text @param {string} path */
    day(text, path) {
      const year = text.slice(0, 4);
      if (Number(year) >= 1900 && Number(year) <= 2199) return text;
      this.report(path, this.rules.said.year, { year });
      return undefined;
    }

    // Fields against one another

    /** @param {Values} sound */
    pieces(sound) {
      const said = this.rules.said;
      const bare = ["none", "no", "no paint"].includes(String(sound.surface?.paint ?? "").toLowerCase());
      let count = 0;
      (sound.pieces ?? []).forEach((/** @type {Values} */ piece, /** @type {number} */ index) => {
        const at = `pieces[${index + 1}]`;
        count += piece.count ?? 1;
        this.weighed(piece.weighed ?? {}, `${at}.weighed`);
        this.marks(piece.marks ?? {}, `${at}.marks`);
        if (bare && piece.paint !== undefined && piece.paint !== "none") {
          this.report(`${at}.paint`, said.paintNone, { shown: this.shown(piece.paint) });
        }
      });
      if (count > this.rules.limits.pieces) this.report("pieces", said.manyPieces, { count: count.toLocaleString("en-GB") });
    }

    /** @param {Values} weighed @param {string} at */
    weighed({ dry, soaked, hung }, at) {
      const said = this.rules.said;
      if (dry && soaked) {
        if (soaked.high < dry.low) this.report(`${at}.soaked`, said.soakedOrder, { dry: dry.raw, soaked: soaked.raw });
        else if (soaked.canonical > dry.canonical * (1 + this.rules.limits.absorbed)) {
          this.report(`${at}.soaked`, said.soakedMuch, { share: ((soaked.canonical / dry.canonical - 1) * 100).toFixed(0) });
        }
      }
      if (dry && hung && hung.low >= dry.high) this.report(`${at}.hung`, said.hungOrder, { dry: dry.raw, hung: hung.raw });
    }

    /** @param {Values} marks @param {string} at */
    marks(marks, at) {
      const said = this.rules.said;
      const written = ["wet", "dry", "fired"].filter((name) => marks[name]);
      for (let index = 1; index < written.length; index += 1) {
        const [name, laterName] = [written[index - 1], written[index]];
        const [length, later] = [marks[name], marks[laterName]];
        if (later.low > length.high) {
          this.report(`${at}.${laterName}`, said.marksOrder, { name, laterName, length: length.raw, later: later.raw });
          return;
        }
      }
      const { wet, fired } = marks;
      if (wet && fired && fired.canonical < wet.canonical * (1 - this.rules.limits.shrinkage)) {
        this.report(`${at}.fired`, said.marksMuch, { share: ((1 - fired.canonical / wet.canonical) * 100).toFixed(0) });
      }
    }

    /** Witness cones, each and against one another. @param {Values} witness */
    cones({ cones_down: down = [], cones_standing: standing = [] }) {
      const said = this.rules.said;
      const ranks = (/** @type {string[]} */ words, /** @type {string} */ name) => words.map((word) => this.cone(word, `witness.${name}`)).filter((rank) => rank >= 0);
      const [fell, stood] = [ranks(down, "cones_down"), ranks(standing, "cones_standing")];
      if (!fell.length || !stood.length || Math.min(...stood) > Math.max(...fell)) return;
      const [hardest, softest] = [Math.max(...fell), Math.min(...stood)];
      const gaps = { down: this.rules.cones[hardest], standing: this.rules.cones[softest] };
      this.report("witness.cones_standing", hardest === softest ? said.conesSame : said.conesOrder, gaps);
    }

    /** Place of a cone among the others; −1 for none, which is reported. @param {string} word @param {string} path */
    cone(word, path) {
      const bare = word.toLowerCase().replace(/^cone/, "").trim().replace(/^δ/, "").trim().replaceAll("½", ".5").replaceAll(" 1/2", ".5").replaceAll(",", ".");
      const rank = this.rules.cones.indexOf(bare);
      if (rank < 0) {
        const meant = this.rules.cones.includes(`0${bare}`) ? `0${bare}` : "";
        this.report(path, meant ? this.rules.said.coneMeant : this.rules.said.coneUnknown, { shown: this.shown(word), meant });
      }
      return rank;
    }

    /** @param {Values} sound @param {Values} values */
    probes(sound, values) {
      /** @type {Map<string, string>} */
      const names = new Map();
      (sound.readings?.probes ?? []).forEach((/** @type {Values} */ probe, /** @type {number} */ index) => {
        const at = `readings.probes[${index + 1}]`;
        const folded = probe.name?.toLowerCase();
        if (folded !== undefined && names.has(folded)) this.report(`${at}.name`, this.rules.said.probeTwice, { name: probe.name });
        else if (folded !== undefined) names.set(folded, probe.name);
        if (probe.unit === "mV" && values.readings.probes[index].type === undefined) this.report(`${at}.type`, this.rules.said.probeType);
      });
    }
  }

  /** A number in so many figures, as Python's `g` writes it. @param {number} value @param {number} most */
  function figures(value, most) {
    if (value === 0) return "0";
    value = evened(value, most);
    const power = Number(value.toExponential(most - 1).split("e")[1]);
    if (power < -4 || power >= most) {
      const [digits, exponent] = value.toExponential(most - 1).split("e");
      const plain = digits.includes(".") ? digits.replace(/\.?0+$/, "") : digits;
      return `${plain}e${exponent[0]}${exponent.slice(1).padStart(2, "0")}`;
    }
    const fixed = value.toFixed(Math.max(0, most - 1 - power));
    return fixed.includes(".") ? fixed.replace(/\.?0+$/, "") : fixed;
  }

  /** A value that lies just between two is put to the even one. @param {number} value @param {number} most */
  function evened(value, most) {
    const [digits, exponent] = Math.abs(value).toExponential(60).split("e");
    const [kept, rest] = [digits.slice(0, most + 1), digits.slice(most + 1)];
    const even = /^50*$/.test(rest) && Number(kept[most]) % 2 === 0;
    return even ? Math.sign(value) * Number(`${kept}e${exponent}`) : value;
  }

  /** @param {string[]} words */
  function either(words) {
    const ticked = words.map((word) => `\`${word}\``);
    return ticked.length === 1 ? ticked[0] : `${ticked.slice(0, -1).join(", ")} or ${ticked[ticked.length - 1]}`;
  }

  /**
   * Every problem of an entry, in the order of its fields.
   * @param {Values} values as `entryValues.tidy` gives them
   * @param {any} rules
   * @returns {FormProblem[]}
   */
  function problems(values, rules) {
    const review = new Review(rules);
    const sound = review.group(values, rules.fields, "");
    review.pieces(sound);
    review.cones(sound.witness ?? {});
    review.probes(sound, values);
    return review.problems;
  }

  return { problems };
})();
