// @ts-check
/** A quantity as a potter writes it, read as the check reads it (builder/base/quantity.py), with its words for faults. */

/**
 * @typedef {{raw: string, kind: string, value: number, unit: string, canonical: number, low: number, high: number}} Quantity
 * @typedef {{value: number, unit: Unit | null, start: number}} Term
 */

const quantities = (() => {
  "use strict";
  const { matchAt, likeness, numeral, NumeralFault } = numerals;
  const { findUnit, plainUnit, otherKind, canonical, ofCanonical } = units;

  /** @type {Record<string, string>} */
  const ONE_FOR_ONE = { "−": "-", "–": "-", "—": "-", "‒": "-", "‐": "-", "‑": "-", "﹣": "-", "－": "-", "⁄": "/", "∕": "/", "′": "'", "’": "'", "″": '"', "”": '"', "～": "~" };
  const ABOUT = "(?:about|approximately|approx|around|roughly|circa|nearly|almost|some|ca|c|~|≈|∼)";
  const BEFORE = new RegExp(`\\s*(?:${ABOUT}(?![a-z])\\.?)?\\s*(?:(?<between>between)\\s|from\\s)?\\s*`, "iy");
  const AFTER = /[ ,(]*(?:approx|approximately|or so|roughly|estimated|est|ca)[.)]*\s*$/i;
  const CLOCK = /(\d{1,3}):(\d{2})(?::(\d{2}))?(?!\d)/y;
  const WORDS = /((?:(?! +(?:to|and|or|till|until|by|plus)\b|\.\.)[^\d,;()~≈±+…¼-¾⅐-⅞-])*)/iy;
  const TO = / *(?:-+|…|\.\.+|to\b|till\b|until\b)(?: *(?:about|ca\.?|~))? */iy;
  const BETWEEN_AND = / *and\b(?: *(?:about|ca\.?|~))? */iy;
  const PLUS_MINUS = / *(?:±|\+ ?\/ ?-|plus or minus) */iy;
  const JOINER = /[, ]*(?:and\b|\+)? *(?=[\d¼-¾⅐-⅞])/iy;
  const PLAIN_JOINER = /[, ]*(?=[\d¼-¾⅐-⅞])/y;
  const SIGN = /([+-]?) ?/y;
  const DIGIT = /[\d¼-¾⅐-⅞]/;
  const PARTED = /\d+(?: +\d+)+/y;

  /** The words with their gaps filled. @param {Fault} said @param {Record<string, string | number>} gaps @returns {Fault} */
  function fill(said, gaps) {
    const filled = (/** @type {string} */ words) => words.replace(/⟦(\w+)⟧/g, (gap, name) => String(gaps[name] ?? gap));
    return { ...said, message: filled(said.message), help: filled(said.help) };
  }

  class Refused extends Error {
    /** @param {Fault} fault */
    constructor(fault) {
      super(fault.message);
      this.fault = fault;
    }
  }

  class Reader {
    /** @param {string} raw @param {Kind} kind @param {string | undefined} defaultUnit @param {QuantityWords} words */
    constructor(raw, kind, defaultUnit, words) {
      this.raw = raw;
      this.kind = kind;
      this.words = words;
      this.at = 0;
      this.between = false;
      this.default = findUnit(kind, defaultUnit ?? "");
      this.text = [...raw.slice(0, words.longest + 1)].map((sign) => (/\s/.test(sign) ? " " : ONE_FOR_ONE[sign] ?? sign)).join("");
    }

    /** @param {string} name @param {Record<string, string | number>} [gaps] @returns {never} */
    refuse(name, gaps = {}) {
      throw new Refused(fill(this.words.said[name], { words: this.kind.words, example: this.kind.example, raw: this.raw.trim(), ...gaps }));
    }

    /** @returns {Quantity} */
    quantity() {
      this.refuseAtSight();
      const before = matchAt(BEFORE, this.text, 0);
      const after = AFTER.exec(this.text);
      if (before) {
        this.at = before[0].length;
        this.between = Boolean(before.groups?.between);
      }
      this.text = after ? this.text.slice(0, after.index) : this.text.trimEnd();
      const first = this.side();
      const spread = this.spread(first);
      const second = spread === null ? this.secondSide() : null;
      if (this.at < this.text.replace(/[ .,;]+$/, "").length) this.refuseRest();
      const ends = this.ends(first, second, spread);
      const [low, high] = [Math.min(...ends), Math.max(...ends)];
      const middle = low === high ? low : (low + high) / 2;
      const unit = this.unitOf(first[0]);
      const single = first.length === 1 && low === high;
      const value = single ? first[0].value : ofCanonical(unit, middle);
      return { raw: this.raw, kind: this.kind.name, value, unit: unit.symbol, canonical: middle, low, high };
    }

    /** @param {Term[]} first @param {Term[] | null} second @param {number | null} spread */
    ends(first, second, spread) {
      if (spread !== null) {
        const unit = this.unitOf(first[0]);
        return [canonical(unit, first[0].value - spread), canonical(unit, first[0].value + spread)];
      }
      if (second === null) return [this.total(first), this.total(first)];
      const lone = [first, second].filter((side) => side.length === 1 && side[0].unit === null);
      if (lone.length === 1) lone[0][0].unit = lone[0] === first ? second[0].unit : first[first.length - 1].unit;
      return [this.total(first), this.total(second)];
    }

    /** @param {Term[]} terms */
    total(terms) {
      return terms.reduce((sum, term) => sum + canonical(this.unitOf(term), term.value), 0);
    }

    /** @param {Term} term */
    unitOf(term) {
      const unit = term.unit ?? this.default;
      if (unit) return unit;
      const share = this.kind.units[0].symbol === "%" ? this.asShare() : null;
      if (share !== null) return this.refuse("shareOfOne", { share });
      const options = this.kind.units.slice(0, 3).map((one) => `\`${`${this.raw.trim()} ${one.symbol}`}\``);
      const last = options.pop();
      return this.refuse("noUnit", { choice: options.length ? `${options.join(", ")} or ${last}` : String(last) });
    }

    side() {
      const terms = [this.term(true)];
      for (;;) {
        const last = terms[terms.length - 1];
        if (!this.kind.compound || last.unit === null || terms[0].value < 0) return terms;
        const joiner = matchAt(this.between ? PLAIN_JOINER : JOINER, this.text, this.at);
        if (!joiner) return terms;
        terms.push(this.nextTerm(this.at + joiner[0].length, last.unit));
      }
    }

    /** @param {number} start @param {Unit} before @returns {Term} */
    nextTerm(start, before) {
      const beforeJoiner = this.at;
      this.at = start;
      /** @type {Term} */
      let term = { value: 0, unit: null, start };
      try {
        term = this.term(false);
      } catch (refused) {
        if (!(refused instanceof Refused)) throw refused;
      }
      if (term.unit === null && term.value && before.symbol === "h") term.unit = findUnit(this.kind, "min");
      if (term.unit === null || term.unit.times / term.unit.per >= before.times / before.per) {
        this.at = beforeJoiner;
        this.refuseRest();
      }
      return term;
    }

    /** @param {boolean} signed @returns {Term} */
    term(signed) {
      const start = this.at;
      const sign = signed ? matchAt(SIGN, this.text, start) : null;
      const at = start + (sign ? sign[0].length : 0);
      const clock = matchAt(CLOCK, this.text, at);
      if (clock) return this.clock(clock, at);
      let found;
      try {
        found = numeral(this.text, at, this.kind.grouped === true);
      } catch (fault) {
        if (!(fault instanceof NumeralFault)) throw fault;
        const rest = this.raw.slice(at + fault.written.length).trim() || this.kind.units[0].symbol;
        const [one, other] = fault.readings;
        return this.refuse(fault.fault, { written: fault.written, one, other, rest });
      }
      if (!found) return this.refuseWithoutNumber(at);
      this.at = found.end;
      return { value: sign?.[1] === "-" ? -found.value : found.value, unit: this.unit(), start };
    }

    /** @returns {Unit | null} */
    unit() {
      const match = matchAt(WORDS, this.text, this.at);
      const words = match ? match[1].trim() : "";
      if (!match || !words.replace(/^\.+|\.+$/g, "")) return null;
      const start = this.at + match[1].length - match[1].trimStart().length;
      let unit = findUnit(this.kind, words);
      if (!unit && this.words.degreesAlone.includes(plainUnit(words))) unit = this.default;
      if (!unit) this.refuseUnit(words, start);
      this.at = start + words.length;
      return unit;
    }

    /** @param {RegExpExecArray} match @param {number} start @returns {Term} */
    clock(match, start) {
      this.at = start + match[0].length;
      const [first, second, third] = [Number(match[1]), Number(match[2]), Number(match[3] ?? 0)];
      const unit = this.kind.name === "time" ? this.unit() : null;
      const known = unit !== null && ["h", "min"].includes(unit.symbol) && !(unit.symbol === "min" && match[3]);
      if (!known || Math.max(second, third) > 59) {
        this.refuse(this.kind.name === "time" ? "clockTime" : "clock", { written: match[0], hours: first, minutes: second });
      }
      return { value: first + second / 60 + third / 3600, unit, start };
    }

    /** @param {Term[]} first @returns {number | null} */
    spread(first) {
      const match = matchAt(PLUS_MINUS, this.text, this.at);
      if (!match || first.length > 1) return null;
      this.at += match[0].length;
      const term = this.term(false);
      if (first[0].unit === null) first[0].unit = term.unit;
      else if (term.unit !== null && term.unit !== first[0].unit) {
        this.at = term.start;
        this.refuseRest();
      }
      return term.value;
    }

    /** @returns {Term[] | null} */
    secondSide() {
      const match = matchAt(this.between ? BETWEEN_AND : TO, this.text, this.at);
      if (!match) return null;
      const end = this.at + match[0].length;
      if (end === this.text.length) this.refuseRest();
      this.at = end;
      return this.side();
    }

    refuseAtSight() {
      const length = [...this.raw].length;
      if (length > this.words.longest) this.refuse("tooLong", { length: length.toLocaleString("en-GB") });
      const digit = /(?![0-9])\p{Nd}/u.exec(this.raw);
      if (digit) {
        const mended = this.raw.replace(/\p{Nd}/gu, (sign) => String(digitOf(sign))).trim();
        this.refuse("strangeDigit", { digit: digit[0], mended });
      }
    }

    /** A bare number below one as it would be written of a hundred. @returns {string | null} */
    asShare() {
      const raw = this.raw.trim();
      const found = numeral(raw, 0, false);
      if (!found || found.end < raw.length || found.value < 0.001 || found.value >= 1) return null;
      return String(Number((100 * found.value).toPrecision(3)));
    }

    /** @param {number} at @returns {never} */
    refuseWithoutNumber(at) {
      const ahead = DIGIT.test(this.text.slice(0, at)) ? -1 : this.text.slice(at).search(DIGIT);
      if (ahead > 0 && "quantity" in attempt(this.text.slice(at + ahead), this.kind, this.default?.symbol, this.words)) {
        const kept = this.raw.slice(at + ahead, this.text.length).trim();
        return this.refuse("ledIn", { over: this.raw.slice(at, at + ahead).trim(), kept });
      }
      return this.refuse(this.raw.trim() ? "noNumber" : "nothing");
    }

    /** @param {string} words @param {number} start @returns {never} */
    refuseUnit(words, start) {
      for (let end = words.length - 1; end > 0; end -= 1) {
        if (words[end] === " " && findUnit(this.kind, words.slice(0, end))) {
          this.at = start + end;
          this.refuseRest();
        }
      }
      const number = this.raw.slice(0, start).trim();
      const plain = plainUnit(words);
      if (this.words.degreesAlone.includes(plain) && this.kind.units[0].symbol === "°C") {
        return this.refuse("whichDegrees", { unit: words, number });
      }
      const other = otherKind(this.words, plain);
      if (other) return this.refuse("otherKind", { unit: words, others: other });
      const near = this.nearest(plain);
      const unknown = this.words.said.unknownUnit;
      const symbols = this.kind.units.map((unit) => unit.symbol).filter(Boolean);
      const choice = `${symbols.slice(0, -1).join(", ")} or ${symbols[symbols.length - 1]}`;
      const help = near ? this.words.said.meantUnit.help : symbols.length > 1 ? unknown.help : this.words.said.oneOfUnits.help;
      throw new Refused(fill({ ...unknown, help }, { unit: words, words: this.kind.words, example: this.kind.example, number, choice, symbol: near?.symbol ?? "" }));
    }

    /** The unit that a misspelt one is most like. @param {string} plain */
    nearest(plain) {
      let [best, score] = ["", 0];
      for (const word of this.kind.spellings.keys()) {
        if (word !== plainUnit(word)) continue;
        const like = likeness(word, plain);
        if (like >= 0.7 && (like > score || (like === score && word > best))) [best, score] = [word, like];
      }
      return best ? findUnit(this.kind, best) : null;
    }

    /** @returns {never} */
    refuseRest() {
      const rest = this.text.slice(this.at);
      const start = this.at + rest.length - rest.replace(/^[ ,;]+/, "").length;
      const parted = matchAt(PARTED, this.text, 0);
      if (parted && parted[0].length > start) this.refuse("badNumber", { written: parted[0] });
      this.refuse("leftOver", { over: this.raw.slice(start).trim(), kept: this.raw.slice(0, this.at).trim() });
    }
  }

  /** @param {string} sign a decimal digit of any script */
  function digitOf(sign) {
    const code = /** @type {number} */ (sign.codePointAt(0));
    let zero = code;
    while (/\p{Nd}/u.test(String.fromCodePoint(zero - 1)) && code - zero < 9) zero -= 1;
    return code - zero;
  }

  /**
   * Read one quantity of a kind, or say why it cannot be read.
   * @param {string} text @param {string} kind @param {QuantityWords} words @param {string} [defaultUnit]
   */
  const read = (text, kind, words, defaultUnit) => attempt(text, words.kinds[kind], defaultUnit, words);

  /**
   * @param {string} text @param {Kind} kind @param {string | undefined} defaultUnit @param {QuantityWords} words
   * @returns {{quantity: Quantity} | {fault: Fault}}
   */
  function attempt(text, kind, defaultUnit, words) {
    try {
      return { quantity: new Reader(text, kind, defaultUnit, words).quantity() };
    } catch (refused) {
      if (refused instanceof Refused) return { fault: refused.fault };
      throw refused;
    }
  }

  return { read, fill };
})();
