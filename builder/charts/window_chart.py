"""The chart of a working window: every pot a stroke, both curves, their product with its band, the window as a bar.

Above the curves stand the pots that came out well, below them the bar, the firings with their uncertainty, and the
lost pots by what failed. Nothing is drawn surer than it is: dashed outside the data, hatched where a temperature only
may work, an arrow where an end lies beyond what was tried, and no bar at all where the firings are too few to tell.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence

import numpy as np

from builder.archive.window import POSSIBLE, SURE, End, Finding, Window
from builder.charts.piles import runs
from builder.charts.svg import degree_words, degrees, drawing, element, path_data, words_width
from builder.charts.window_marks import (
    LINE,
    SIZES,
    FiringPots,
    Part,
    Scale,
    Size,
    ground,
    pots_above,
    pots_below,
    whiskers,
)

RISING, FALLING = "carbon cleared", "paint held"
"""The names of the two curves."""
_BAR = 11.0
_NUMBER_SIZE = 13.0


def window_chart(window: Window, firings: Sequence[FiringPots], name: str, words: str, unit: str = "°C") -> str:
    """Draw a window as three inline SVGs, of which one is shown; empty where no firing tells of it.

    `name` makes the ids unique on the page; `words` is the text alternative.
    """
    if window.tried_c is None:
        return ""
    return element(
        "div",
        *(_drawing(size, window, firings, name, words, unit) for size in SIZES),
        class_="chart chart-window",
    )


def _drawing(size: Size, window: Window, firings: Sequence[FiringPots], name: str, words: str, unit: str) -> str:
    scale = _scale(size, window, unit)
    body, top = [], 2.0
    for part in (
        pots_above(scale, firings),
        _panel(scale, window) if window.grid_c.size else ("", 0.0),
        _bar(scale, window, unit == "°C") if window.finding is Finding.WINDOW else ("", 0.0),
        whiskers(scale, firings),
        *pots_below(scale, firings),
    ):
        if part[0]:
            body.append(element("g", part[0], transform=f"translate(0 {top:g})"))
            top += part[1]
    body.append(element("g", ground(scale, unit), transform=f"translate(0 {top:g})"))
    title = "Working window"
    return drawing(f"{name}-{size.key}", f"chart-drawing chart-{size.key}", (size.width, top + 30), title, words, body)


def _scale(size: Size, window: Window, unit: str) -> Scale:
    if window.grid_c.size:
        low, high = float(window.grid_c[0]), float(window.grid_c[-1])
    else:
        tried = window.tried_c or (0.0, 0.0)
        margin = 50.0 if unit == "°C" else max(1.0, (tried[1] - tried[0]) / 4)
        low, high = tried[0] - margin, tried[1] + margin
    return Scale(max(low, 0.0), high, size)


def _panel(scale: Scale, window: Window) -> Part:
    """The curves: either kind of outcome thin, their product with its band, the level."""
    size, height = scale.size, scale.size.panel

    def row(chance: float) -> float:
        return 4 + (1 - chance) * height

    columns = scale.columns(window.grid_c)
    right = size.width - size.right
    rules = "".join(f"M{size.left:g} {row(share):g}H{right:g}" for share in (0.0, 1.0))
    level = element("path", class_="chart-level", d=f"M{size.left:g} {row(window.level):g}H{right:g}")
    shares = sorted({0.0, window.level, 1.0})
    numbers = [
        element(
            "text",
            f"{100 * share:.0f}" + (" %" if share == 1 else ""),
            x=size.left - 6,
            y=row(share) + 4,
            text_anchor="end",
        )
        for share in shares
    ]
    band = path_data(
        [
            *((x, row(float(y))) for x, y in zip(columns, window.chance[2], strict=True)),
            *((x, row(float(y))) for x, y in reversed(list(zip(columns, window.chance[1], strict=True)))),
        ],
        closed=True,
    )
    thin = [
        element(
            "path",
            class_=f"chart-thin chart-{side}",
            d=path_data((x, row(float(y))) for x, y in zip(columns, curve, strict=True)),
        )
        for side, curve in (("rising", window.rising), ("falling", window.falling))
    ]
    names = _curve_names(scale, window, row(float(window.rising[-1])), row(float(window.falling[0])))
    drawn = [
        _ground_of_window(window, columns, row(1.0), row(0.0)),
        element("path", class_="chart-rule", d=rules),
        element("path", class_="chart-ribbon", d=band),
        level,
        *thin,
        *_product(window, columns, [row(float(y)) for y in window.chance[0]]),
        element("g", *numbers, class_="chart-number"),
        *names,
    ]
    return "".join(drawn), height + 12


def _curve_names(scale: Scale, window: Window, rising_end: float, falling_start: float) -> list[str]:
    """Write each thin curve's name at the end where it is high, below the line."""
    size = scale.size
    right = size.width - size.right
    return [
        element("text", FALLING, x=size.left + 4, y=falling_start + 16, class_="chart-second chart-name-falling"),
        element("text", RISING, x=right - 2, y=rising_end + 16, class_="chart-second", text_anchor="end"),
    ]


def _ground_of_window(window: Window, columns: Sequence[float], top: float, bottom: float) -> str:
    """The clay band where it works, as on every curve of a firing; nothing where no window is told."""
    if window.finding is not Finding.WINDOW:
        return ""
    works = [int(share >= SURE) for share in window.works]
    bands = [(columns[first], columns[last]) for inside, first, last in runs(works) if inside]
    return "".join(
        element("rect", class_="chart-band", x=left, y=top, width=right - left, height=bottom - top)
        + element("path", class_="chart-edge", d=f"M{left:.1f} {top:g}V{bottom:g}M{right:.1f} {top:g}V{bottom:g}")
        for left, right in bands
    )


def _product(window: Window, columns: Sequence[float], rows: Sequence[float]) -> list[str]:
    """The product: ember where it works, solid between the coolest and the hottest firing, dashed beyond."""
    low, high = window.tried_c or (0.0, 0.0)
    told = window.finding is Finding.WINDOW
    states = [
        int(low <= heat <= high) + int(low <= heat <= high and told and share >= SURE)
        for heat, share in zip(window.grid_c, window.works, strict=True)
    ]
    looks = ("chart-product chart-beyond", "chart-product", "chart-product chart-in")
    lines = []
    for state, first, last in runs(states):
        # Each run reaches to the point before, so that the line does not break.
        points = list(zip(columns[max(first - 1, 0) : last + 1], rows[max(first - 1, 0) : last + 1], strict=True))
        lines.append(element("path", class_=looks[state], d=path_data(points)))
    return lines


def _bar(scale: Scale, window: Window, in_degrees: bool) -> Part:
    """The window: solid where it works, hatched where it may work, an arrow at an open end, its ends in numbers."""
    states = [2 if share >= SURE else 1 if share >= POSSIBLE else 0 for share in window.works]
    columns, drawn = scale.columns(window.grid_c), []
    for state, first, last in runs(states):
        left, right = columns[max(first - (state == 1), 0)], columns[last]
        if state == 2:
            drawn.append(element("rect", class_="chart-works", x=left, y=2, width=right - left, height=_BAR))
        elif state == 1:
            right = columns[min(last + 1, len(columns) - 1)]
            drawn.append(element("path", class_="chart-may", d=_hatching(left, right)))
    for place, side in ((0, -1), (-1, 1)):
        if window.works[place] >= POSSIBLE:
            x, middle = columns[place], 2 + _BAR / 2
            tip = x + side * 8
            arrow = path_data([(tip - side * 7, middle - 6), (tip, middle), (tip - side * 7, middle + 6)])
            drawn.append(element("path", class_="chart-arrow", d=arrow))
    return "".join(drawn) + _end_words(scale, window, in_degrees), _BAR + LINE + 6


def _hatching(left: float, right: float) -> str:
    """Slanting strokes inside a frame, all within the two columns."""
    box = f"M{left:.1f} 2H{right:.1f}V{2 + _BAR:g}H{left:.1f}Z"
    slants = []
    for start in np.arange(left - _BAR, right, 5.0):
        first, last = max(float(start), left), min(float(start) + _BAR, right)
        if last > first:
            slants.append(f"M{first:.1f} {2 + _BAR - (first - start):.1f}L{last:.1f} {2 + _BAR - (last - start):.1f}")
    return box + "".join(slants)


def _end_words(scale: Scale, window: Window, in_degrees: bool) -> str:
    """Write where each end may lie under its hatching, the two kept apart."""
    placed: list[tuple[float, float, str]] = []
    for end in (window.low, window.high):
        if end is None or (end.low_c is None and end.high_c is None):
            continue
        words = _end_range(end, degrees if in_degrees else degree_words)
        known = [value for value in (end.low_c, end.high_c) if value is not None]
        half = words_width(_end_range(end, lambda value, bare: "0000"), _NUMBER_SIZE) / 2
        middle = scale.x(sum(known) / len(known))
        middle = min(max(middle, scale.size.left + half), scale.size.width - half)
        if placed and middle - half < placed[-1][1] + 8:
            middle = placed[-1][1] + 8 + half
        placed.append((middle, middle + half, words))
    texts = [element("text", words, x=middle, y=_BAR + 17, text_anchor="middle") for middle, _, words in placed]
    return element("g", *texts, class_="chart-number") if texts else ""


def _end_range(end: End, say: Callable[[float, bool], str]) -> str:
    if end.low_c is None:
        return f"below {say(end.high_c or 0.0, True)}"
    if end.high_c is None:
        return f"above {say(end.low_c, True)}"
    return f"{say(end.low_c, True)} to {say(end.high_c, True)}"
