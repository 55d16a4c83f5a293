// @ts-check
/**
 * Draws curves laid over one another in a frame like those of the firings' own pages: the ground line, round degrees,
 * the window a clay band. Line form first, colour second, and each curve carries its firing's number.
 *
 * @typedef {{minutes: number[], celsius: number[], gaps: number[], least: boolean}} Curve
 * @typedef {{number: number, slug: string, title: string, day: string, method: string, lit: number | null,
 *            window: [number | null, number | null], curve: Curve | null}} Drawn
 * @typedef {"lit" | "hottest" | "clock"} From
 * @typedef {{left: number, right: number, top: number, ground: number, from: number, to: number, topC: number}} Frame
 */
(() => {
  "use strict";
  const NS = "http://www.w3.org/2000/svg";
  const STEPS_MIN = [1, 2, 5, 10, 15, 30, 60, 120, 240, 360, 720, 1440];
  const LETTER = 14;

  const degrees = () => /** @type {any} */ (window).ashbookDegrees;
  const inFahrenheit = () => degrees().unit() === "f";

  /**
   * @param {string} tag
   * @param {Record<string, string | number>} attributes
   * @param {...(Node | string)} children
   */
  function svg(tag, attributes, ...children) {
    const element = document.createElementNS(NS, tag);
    for (const [name, value] of Object.entries(attributes)) {
      element.setAttribute(name, typeof value === "number" ? String(Math.round(value * 10) / 10) : value);
    }
    element.append(...children);
    return element;
  }

  /** @param {number} celsius */
  function degreeWords(celsius) {
    const value = inFahrenheit() ? degrees().fahrenheit(celsius, false) : celsius;
    return `${degrees().plain(value, 0)} ${inFahrenheit() ? "°F" : "°C"}`;
  }

  /** @param {Curve} curve */
  const hottest = (curve) => curve.minutes[curve.celsius.indexOf(Math.max(...curve.celsius))];

  /** What is added to a curve's minutes; null where it has no place on such a scale. @param {Drawn} one @param {From} from */
  function shift(one, from) {
    if (!one.curve) return null;
    return { lit: 0, hottest: -hottest(one.curve), clock: one.lit }[from];
  }

  /** @param {number} span @param {number} most */
  const stepFor = (span, most) => STEPS_MIN.find((step) => span / step <= most) ?? 1440;

  /** @param {number} minute @param {From} from @param {boolean} last */
  function timeWords(minute, from, last) {
    const two = (/** @type {number} */ number) => String(number).padStart(2, "0");
    if (from === "clock") return `${Math.floor(minute / 60) % 24}:${two(((minute % 60) + 60) % 60)}`;
    if (minute === 0) return from === "lit" ? "lit" : "hottest";
    const hours = Math.floor(Math.abs(minute) / 60);
    const rest = Math.abs(minute) % 60;
    const words = hours ? `${hours} h${rest ? ` ${rest}` : ""}` : `${rest}${last || from === "lit" ? " min" : ""}`;
    return from === "hottest" ? `${minute < 0 ? "−" : "+"}${words}` : words;
  }

  /** Temperature at a minute, straight between readings; null outside the record and inside a gap. @param {Curve} curve @param {number} minute */
  function at(curve, minute) {
    const { minutes, celsius } = curve;
    if (minute < minutes[0] || minute > minutes[minutes.length - 1]) return null;
    const after = minutes.findIndex((other) => other >= minute);
    if (minutes[after] === minute || after === 0) return celsius[after];
    if (curve.gaps.includes(after - 1)) return null;
    const share = (minute - minutes[after - 1]) / (minutes[after] - minutes[after - 1]);
    return celsius[after - 1] + share * (celsius[after] - celsius[after - 1]);
  }

  /** Choose what the frame shows: times, and the end of the scale of degrees.
   * @param {Drawn[]} placed @param {From} from @param {{durations: number[], tops: number[]}} shelf */
  function frameOf(placed, from, shelf) {
    const curves = placed.map((one) => /** @type {Curve} */ (one.curve));
    const shifts = placed.map((one) => Number(shift(one, from)));
    const edges = placed.flatMap((one) => one.window).filter((edge) => edge !== null);
    const highest = Math.max(...curves.flatMap((curve) => curve.celsius), ...edges);
    const topC = shelf.tops.find((top) => top >= highest) ?? shelf.tops[shelf.tops.length - 1];
    const ends = curves.map((curve, index) => curve.minutes[curve.minutes.length - 1] + shifts[index]);
    if (from === "lit") {
      const last = Math.max(...ends);
      return { from: 0, to: shelf.durations.find((one) => one >= last) ?? shelf.durations[shelf.durations.length - 1], topC };
    }
    const starts = curves.map((curve, index) => Math.max(0, curve.minutes[0]) + shifts[index]);
    const step = stepFor(Math.max(...ends) - Math.min(...starts), 5);
    return { from: Math.floor(Math.min(...starts) / step) * step, to: Math.ceil(Math.max(...ends) / step) * step, topC };
  }

  /** Points of a curve between two minutes, in unbroken runs. @param {Curve} curve @param {number} first @param {number} last */
  function runs(curve, first, last) {
    /** @type {[number, number][][]} */
    const found = [[]];
    const put = (/** @type {number} */ minute, /** @type {number | null} */ celsius) => celsius !== null && found[found.length - 1].push([minute, celsius]);
    if (curve.minutes[0] < first) put(first, at(curve, first));
    curve.minutes.forEach((minute, index) => {
      if (minute >= first && minute <= last) put(minute, curve.celsius[index]);
      if (curve.gaps.includes(index)) found.push([]);
    });
    if (curve.minutes[curve.minutes.length - 1] > last) put(last, at(curve, last));
    return found.filter((run) => run.length > 0);
  }

  /** @param {Frame} frame @param {From} from @param {boolean} narrow */
  function scales(frame, from, narrow) {
    const x = (/** @type {number} */ minute) => frame.left + ((minute - frame.from) / (frame.to - frame.from)) * (frame.right - frame.left);
    const y = (/** @type {number} */ celsius) => frame.ground - (celsius / frame.topC) * (frame.ground - frame.top);
    const numbers = svg("g", { class: "chart-number" });
    let rules = "";
    let ticks = "";
    const topHere = inFahrenheit() ? degrees().fahrenheit(frame.topC, false) : frame.topC;
    for (let value = inFahrenheit() ? 400 : 200; value <= topHere; value += inFahrenheit() ? 400 : 200) {
      const row = y(inFahrenheit() ? (value - 32) / 1.8 : value);
      rules += `M${frame.left} ${row.toFixed(1)}H${frame.right}`;
      numbers.append(svg("text", { x: frame.left - 6, y: row + 4.5, "text-anchor": "end" }, String(value)));
    }
    numbers.append(svg("text", { x: frame.left + 4, y: frame.top + 14 }, inFahrenheit() ? "°F" : "°C"));
    const step = stepFor(frame.to - frame.from, from === "lit" ? 4 : narrow ? 4 : 6);
    for (let minute = Math.ceil(frame.from / step) * step; minute <= frame.to; minute += step) {
      const last = minute + step > frame.to;
      ticks += `M${x(minute).toFixed(1)} ${frame.ground}v4`;
      const anchor = last ? "end" : minute === frame.from ? "start" : "middle";
      numbers.append(svg("text", { x: x(minute), y: frame.ground + 19, "text-anchor": anchor }, timeWords(minute, from, last)));
    }
    const drawn = [
      svg("path", { class: "chart-rule", d: rules }),
      svg("path", { class: "chart-tick", d: ticks }),
      svg("path", { class: "chart-ground", d: `M${frame.left} ${frame.ground}H${frame.right}` }),
      numbers,
    ];
    return { x, y, drawn };
  }

  /** The windows of the methods, each once, with the numbers of its firings. @param {Drawn[]} placed */
  function windows(placed) {
    /** @type {Map<string, {low: number | null, high: number | null, numbers: number[]}>} */
    const found = new Map();
    for (const one of placed) {
      const [low, high] = one.window;
      if (low === null && high === null) continue;
      const key = `${low} ${high}`;
      if (!found.has(key)) found.set(key, { low, high, numbers: [] });
      found.get(key)?.numbers.push(one.number);
    }
    return [...found.values()];
  }

  /** @param {Drawn[]} placed @param {Frame} frame @param {(celsius: number) => number} y */
  function bands(placed, frame, y) {
    const all = windows(placed);
    const back = [];
    const front = [];
    all.forEach(({ low, high, numbers }, index) => {
      const top = high === null ? frame.top : y(high);
      const bottom = low === null ? frame.ground : y(low);
      back.push(svg("rect", { class: all.length > 1 ? "chart-band compare-band" : "chart-band", x: frame.left, y: top, width: frame.right - frame.left, height: Math.max(0, bottom - top) }));
      const rows = [low, high].filter((edge) => edge !== null).map((edge) => `M${frame.left} ${y(Number(edge)).toFixed(1)}H${frame.right}`);
      back.push(svg("path", { class: "chart-edge", d: rows.join("") }));
      const said = all.length > 1 ? `window of ${numbers.join(", ")}` : "working window";
      const row = all.length > 1 ? (index % 2 ? bottom - 5 : top + LETTER) : top - 5;
      front.push(svg("text", { class: "chart-band-words", x: frame.right - 6, y: row, "text-anchor": "end" }, said));
    });
    return { back, front };
  }

  /** Find a clear place for a curve's number: at its hottest, else along it. */
  function numberPlace(/** @type {Drawn} */ one, /** @type {Drawn[]} */ placed, /** @type {any} */ frame, /** @type {any} */ scale, /** @type {From} */ from, /** @type {number[][]} */ taken) {
    const curve = /** @type {Curve} */ (one.curve);
    const own = Number(shift(one, from));
    const last = curve.minutes[curve.minutes.length - 1];
    const offered = [hottest(curve), ...[0.95, 0.8, 0.65, 0.5, 0.35, 0.2].map((share) => curve.minutes[0] + share * (last - curve.minutes[0]))];
    let best = [frame.left, frame.top, -1];
    for (const minute of offered) {
      const celsius = at(curve, minute);
      if (celsius === null || minute + own < frame.from || minute + own > frame.to) continue;
      const place = [scale.x(minute + own), scale.y(celsius) - 8];
      const room = Math.min(...taken.map(([x, y]) => Math.max(Math.abs(x - place[0]) - 12, Math.abs(y - place[1]) - 4)), 40);
      const others = placed.filter((other) => other !== one).map((other) => {
        const there = at(/** @type {Curve} */ (other.curve), minute + own - Number(shift(other, from)));
        return there === null ? 40 : Math.abs(scale.y(there) - (place[1] - 5));
      });
      const clear = Math.min(room, ...others, place[0] < frame.left + 10 || place[0] > frame.right - 8 || place[1] < 12 ? 2 : 40);
      if (clear > best[2]) best = [place[0], place[1], clear];
      if (clear > 13) break;
    }
    return best;
  }

  /** Say a chart to somebody who cannot see it. @param {Drawn[]} placed */
  function chartWords(placed) {
    return placed.map((one) => {
      const curve = /** @type {Curve} */ (one.curve);
      const last = curve.minutes.length - 1;
      const minutes = (/** @type {number} */ value) => `${degrees().plain(value, value < 10 ? 1 : 0)} min`;
      return `Firing ${one.number}: ${degreeWords(curve.celsius[0])} at first, hottest ${curve.least ? "at least " : ""}` +
        `${degreeWords(Math.max(...curve.celsius))} at ${minutes(hottest(curve))}, last reading ` +
        `${degreeWords(curve.celsius[last])} at ${minutes(curve.minutes[last])}.`;
    }).join(" ");
  }

  /** @param {string} d @param {number} form  1 to 4 */
  const line = (d, form) => svg("path", { class: `compare-line compare-line-${form}`, d });

  /**
   * Draw firings into an element. Firings without a place on the scale are left out; their numbers are returned.
   *
   * @param {HTMLElement} element
   * @param {Drawn[]} firings
   * @param {From} from
   * @param {{durations: number[], tops: number[]}} shelf
   * @returns {number[]}
   */
  function draw(element, firings, from, shelf) {
    const placed = firings.filter((one) => shift(one, from) !== null);
    const left = firings.filter((one) => !placed.includes(one)).map((one) => one.number);
    if (!placed.length) {
      element.replaceChildren();
      return left;
    }
    const width = Math.max(300, Math.min(960, element.clientWidth || 840));
    const narrow = width < 520;
    const height = narrow ? 300 : 380;
    const frame = { left: 44, right: width - 10, top: 22, ground: height - 30, ...frameOf(placed, from, shelf) };
    const scale = scales(frame, from, narrow);
    const { back, front } = bands(placed, frame, scale.y);
    const lines = svg("g", {});
    const words = svg("g", { class: "chart-words" }, ...front);
    /** @type {number[][]} */
    const taken = [];
    for (const one of placed) {
      const own = Number(shift(one, from));
      const form = firings.indexOf(one) + 1;
      const parts = runs(/** @type {Curve} */ (one.curve), frame.from - own, frame.to - own);
      const d = parts.map((run) => `M${run.map(([minute, celsius]) => `${scale.x(minute + own).toFixed(1)} ${Math.min(scale.y(celsius), frame.ground + 5).toFixed(1)}`).join("L")}${run.length === 1 ? "h0" : ""}`).join("");
      lines.append(line(d, form));
      const place = numberPlace(one, placed, frame, scale, from, taken);
      taken.push(place);
      words.append(svg("text", { class: "chart-strong compare-number", x: place[0], y: place[1], "text-anchor": "middle" }, String(one.number)));
    }
    const title = svg("title", { id: "compare-title" }, "Temperature of firings laid over one another");
    const desc = svg("desc", { id: "compare-desc" }, chartWords(placed));
    element.replaceChildren(svg("svg", { class: "chart-drawing compare-drawing", viewBox: `0 0 ${width} ${height}`, width, height, role: "img", "aria-labelledby": "compare-title compare-desc" }, title, desc, ...back, ...scale.drawn, lines, words));
    return left;
  }

  /** A short stretch of a curve's line, for the list of firings. @param {number} form */
  const sample = (form) => svg("svg", { class: "compare-sample", viewBox: "0 0 44 10", width: 44, height: 10, "aria-hidden": "true", focusable: "false" }, line("M0 5H44", form));

  /** @type {any} */ (window).ashbookCompareChart = { draw, sample, at, shift, frameOf, stepFor, timeWords };
})();
