// @ts-check
/** A small curve drawn while it grows: readings against minutes, the window as a band, and where the fire is now. */

/**
 * @typedef {{name: string, points: {minutes: number, value: number}[]}} Track
 * @typedef {{tracks: Track[], events: {minutes: number, words: string}[], unit: "°C" | "°F", window: [number | null, number | null],
 *   from: number, now: number | null, zero: string}} Drawing  the window and the values in the unit; minutes from `zero`
 */

const fireCurve = (() => {
  "use strict";
  const [WIDTH, HEIGHT, LEFT, RIGHT, TOP, FOOT] = [360, 184, 40, 10, 10, 26];
  const FRAMES = [20, 40, 60, 120, 180, 360, 720, 1440, 2880];
  const { drawn } = elements;

  /** The frame that a fire of so many minutes stands in: few of them, so that fires look alike. @param {number} minutes */
  function frame(minutes) {
    return FRAMES.find((length) => minutes <= length * 0.94) ?? Math.ceil(minutes / 1440) * 1440;
  }

  /** @param {number} minutes */
  function timeWords(minutes) {
    return minutes >= 60 ? `${+(minutes / 60).toFixed(1)} h` : `${minutes} min`;
  }

  class Canvas {
    /** @param {Drawing} drawing */
    constructor(drawing) {
      this.drawing = drawing;
      const values = drawing.tracks.flatMap((track) => track.points.map((point) => point.value));
      const fahrenheit = drawing.unit === "°F";
      this.step = fahrenheit ? 400 : 200;
      this.top = Math.max(fahrenheit ? 2000 : 1000, Math.ceil((Math.max(0, ...values) * 1.02) / this.step) * this.step);
      const minutes = drawing.tracks.flatMap((track) => track.points.map((point) => point.minutes));
      this.from = Math.min(0, drawing.from);
      this.length = frame(Math.max(1, drawing.now ?? 0, ...minutes) - this.from);
    }

    /** @param {number} minutes */
    x(minutes) {
      return +(LEFT + ((minutes - this.from) / this.length) * (WIDTH - LEFT - RIGHT)).toFixed(1);
    }

    /** @param {number} value */
    y(value) {
      return +(HEIGHT - FOOT - (Math.max(0, value) / this.top) * (HEIGHT - TOP - FOOT)).toFixed(1);
    }

    *grid() {
      for (let value = this.step; value <= this.top; value += this.step) {
        yield drawn("line", { class: "curve-grid", x1: LEFT, x2: WIDTH - RIGHT, y1: this.y(value), y2: this.y(value) });
        yield drawn("text", { class: "curve-label", x: LEFT - 6, y: this.y(value) + 4, "text-anchor": "end" }, String(value));
      }
      yield drawn("text", { class: "curve-label", x: LEFT + 4, y: this.y(this.top) + 14 }, this.drawing.unit);
      const step = [5, 10, 15, 30, 60, 120, 240, 480, 720].find((minutes) => this.length / minutes <= 5) ?? 1440;
      for (let minutes = 0; minutes < this.from + this.length * 0.97; minutes += step) {
        const words = minutes === 0 ? this.drawing.zero : timeWords(minutes);
        yield drawn("line", { class: "curve-tick", x1: this.x(minutes), x2: this.x(minutes), y1: this.y(0), y2: this.y(0) + 5 });
        yield drawn("text", { class: "curve-label", x: this.x(minutes), y: HEIGHT - 8, "text-anchor": minutes === 0 ? "start" : "middle" }, words);
      }
    }

    *window() {
      const [low, high] = this.drawing.window;
      if (low === null && high === null) return;
      const [top, foot] = [this.y(high ?? this.top), this.y(low ?? 0)];
      yield drawn("rect", { class: "curve-window", x: LEFT, y: top, width: WIDTH - LEFT - RIGHT, height: foot - top });
      for (const edge of [low, high]) {
        if (edge !== null) yield drawn("line", { class: "curve-window-edge", x1: LEFT, x2: WIDTH - RIGHT, y1: this.y(edge), y2: this.y(edge) });
      }
      if (foot - top >= 16) yield drawn("text", { class: "curve-window-words", x: WIDTH - RIGHT - 6, y: (top + foot) / 2 + 4.5, "text-anchor": "end" }, "window");
    }

    /** A curve in ink, and in ember where it runs within the window. @param {Track} track @param {number} number */
    *line(track, number) {
      const corners = track.points.map((point) => `${this.x(point.minutes)} ${this.y(point.value)}`);
      if (corners.length === 1) yield drawn("circle", { class: "curve-point", cx: corners[0].split(" ")[0], cy: corners[0].split(" ")[1], r: 3 });
      if (corners.length > 1) yield drawn("path", { class: `curve-line curve-line-${number + 1}`, d: `M${corners.join("L")}` });
      if (number === 0) yield* this.inside(track.points);
    }

    /** @param {{minutes: number, value: number}[]} points */
    *inside(points) {
      const [low, high] = [this.drawing.window[0] ?? -Infinity, this.drawing.window[1] ?? Infinity];
      if (low === -Infinity && high === Infinity) return;
      for (let index = 1; index < points.length; index += 1) {
        const [a, b] = [points[index - 1], points[index]];
        const at = (/** @type {number} */ share) => `${this.x(a.minutes + share * (b.minutes - a.minutes))} ${this.y(a.value + share * (b.value - a.value))}`;
        const rise = b.value - a.value;
        const ends = rise === 0 ? [0, a.value >= low && a.value <= high ? 1 : 0] : [(low - a.value) / rise, (high - a.value) / rise].sort((x, y) => x - y);
        const [start, end] = [Math.max(0, ends[0]), Math.min(1, ends[1])];
        if (end > start) yield drawn("path", { class: "curve-inside", d: `M${at(start)}L${at(end)}` });
      }
    }

    *events() {
      for (const event of this.drawing.events) {
        const x = this.x(event.minutes);
        yield drawn("path", { class: "curve-event", d: `M${x} ${this.y(0)}v-9` }, drawn("title", {}, event.words));
      }
    }

    *here() {
      const last = this.drawing.tracks[0]?.points.at(-1);
      if (!last || this.drawing.now === null) return;
      yield drawn("circle", { class: "curve-here-ring", cx: this.x(last.minutes), cy: this.y(last.value), r: 9 });
      yield drawn("circle", { class: "curve-here", cx: this.x(last.minutes), cy: this.y(last.value), r: 4 });
    }

    /** @returns {Iterable<Node>} */
    *all() {
      yield* this.window();
      yield* this.grid();
      yield drawn("line", { class: "curve-ground", x1: LEFT, x2: WIDTH - RIGHT, y1: this.y(0), y2: this.y(0) });
      yield* this.events();
      for (const [number, track] of this.drawing.tracks.entries()) yield* this.line(track, number);
      yield* this.here();
    }
  }

  /** The curve in a sentence, for those who do not see it. @param {Drawing} drawing */
  function words(drawing) {
    const told = drawing.tracks.filter((track) => track.points.length);
    if (!told.length) return "No reading yet.";
    return told
      .map(({ name, points }) => {
        const hottest = points.reduce((a, b) => (b.value > a.value ? b : a));
        return `${name}: ${points.length} reading${points.length === 1 ? "" : "s"}, hottest ${Math.round(hottest.value)} ${drawing.unit} at ${Math.round(hottest.minutes)} min, last ${Math.round(points[points.length - 1].value)} ${drawing.unit}.`;
      })
      .join(" ");
  }

  /** @param {SVGElement} svg @param {Drawing} drawing */
  function draw(svg, drawing) {
    svg.setAttribute("viewBox", `0 0 ${WIDTH} ${HEIGHT}`);
    svg.setAttribute("role", "img");
    svg.setAttribute("aria-label", words(drawing));
    svg.replaceChildren(...new Canvas(drawing).all());
  }

  return { draw, frame };
})();
