"""What stands above and below the curves of a window's chart: pots as strokes, firings with their uncertainty."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from builder.archive.window_curves import Floats
from builder.base.units import from_canonical, to_canonical
from builder.charts.piles import levels, tick_step
from builder.charts.svg import element, escaped

WELL = "came out well"
LINE = 17.0
"""Height of a line of words, in pixels."""
_STROKE, _LEVEL, _MOST_LEVELS = 7.0, 9.0, 12
"""Height of a pot's stroke, from one level to the next, and levels at most."""
_WHISKER, _MOST_WHISKERS = 6.0, 12


@dataclass(frozen=True, slots=True)
class FiringPots:
    """One firing in the chart."""

    heat: float
    """Its peak (or its minutes)."""
    low: float | None
    """The 95 % interval of that."""
    high: float | None
    well: int
    """Pieces that came out well by all that the method counts."""
    lost: Mapping[str, int]
    """Pieces that did not, by what failed, in words, in the order of the rows; a row without any is left away."""


@dataclass(frozen=True, slots=True)
class Size:
    """One of the three drawings, in pixels."""

    key: str
    width: float
    panel: float
    """Height of the curves' panel."""
    left: float = 48.0
    right: float = 10.0


SIZES = (Size("wide", 840, 190), Size("middling", 560, 170), Size("phone", 340, 150, 46, 8))


@dataclass(frozen=True, slots=True)
class Scale:
    """From the firings' unit to pixel columns."""

    low: float
    high: float
    size: Size

    def x(self, heat: float) -> float:
        """Pixel column of a peak, held inside the drawing."""
        inside = min(max(heat, self.low), self.high)
        share = (inside - self.low) / ((self.high - self.low) or 1.0)
        return self.size.left + share * (self.size.width - self.size.right - self.size.left)

    def columns(self, heats: Floats) -> list[float]:
        """Pixel columns of several."""
        return [self.x(float(heat)) for heat in heats]


Part = tuple[str, float]
"""Markup drawn from row 0 down, and its height in pixels."""


def _label(scale: Scale, words: str, class_: str | None = "chart-second") -> str:
    return element("text", escaped(words), x=scale.size.left, y=13, class_=class_)


def pots_above(scale: Scale, firings: Sequence[FiringPots]) -> Part:
    """Strokes that stand on the panel's upper edge."""
    counts = [(scale.x(one.heat), one.well) for one in firings if one.well]
    strokes, height = _strokes(counts)
    height = max(height, _LEVEL)
    base = LINE + height
    drawn = "".join(f"M{x:.1f} {base - _LEVEL * level - 2:.1f}v{-_STROKE:g}" for x, level in strokes)
    total = sum(count for _, count in counts)
    marks = element("path", class_="chart-pot", d=drawn) if drawn else ""
    return _label(scale, f"{total} {WELL}") + marks, base + 3


def pots_below(scale: Scale, firings: Sequence[FiringPots]) -> list[Part]:
    """Strokes that hang below their words, a row for each way of failing."""
    parts = []
    for why in dict.fromkeys(why for one in firings for why in one.lost):
        counts = [(scale.x(one.heat), one.lost[why]) for one in firings if one.lost.get(why)]
        if not counts:
            continue
        strokes, height = _strokes(counts)
        drawn = "".join(f"M{x:.1f} {LINE + _LEVEL * level + 1:.1f}v{_STROKE:g}" for x, level in strokes)
        label = _label(scale, f"{sum(count for _, count in counts)} {why}")
        parts.append((label + element("path", class_="chart-pot-lost", d=drawn), LINE + height + 4))
    return parts


def _strokes(counts: Sequence[tuple[float, int]]) -> tuple[list[tuple[float, int]], float]:
    """Put each pot at its firing's column, on the lowest level that is free; with the height of all levels."""
    columns = [x for x, count in sorted(counts) for _ in range(count)]
    stood = levels([(x, x) for x in columns], 4.0, _MOST_LEVELS)
    return list(zip(columns, stood, strict=True)), _LEVEL * (max(stood, default=0) + 1)


def whiskers(scale: Scale, firings: Sequence[FiringPots]) -> Part:
    """Each firing a dot at its peak on a line as long as its 95 % interval."""
    spans = sorted(
        (
            scale.x(one.heat if one.low is None else one.low),
            scale.x(one.heat if one.high is None else one.high),
            scale.x(one.heat),
        )
        for one in firings
    )
    stood = levels([(min(left, x - 2), max(right, x + 2)) for left, right, x in spans], 3.0, _MOST_WHISKERS)
    lines, dots = [], []
    for (left, right, x), level in zip(spans, stood, strict=True):
        row = LINE + 5 + _WHISKER * level
        lines.append(f"M{left:.1f} {row:g}H{right:.1f}")
        dots.append(f"M{x:.1f} {row:g}h0")
    label = _label(scale, f"{len(spans)} {'firing' if len(spans) == 1 else 'firings'}, each with its uncertainty")
    drawn = element("path", class_="chart-whisker", d="".join(lines)) + element(
        "path", class_="chart-dots", d="".join(dots)
    )
    return label + drawn, LINE + 8 + _WHISKER * (max(stood, default=0) + 1)


def ground(scale: Scale, unit: str) -> str:
    """The scale of heat, on the ground line."""
    size = scale.size
    line = element("path", class_="chart-ground", d=f"M{size.left:g} 4H{size.width - size.right:g}")
    if unit != "°C":
        return line + _ticks(scale, unit)
    return line + _ticks(scale, unit, " in-c") + _ticks(scale, "°F", " in-f")


def _ticks(scale: Scale, unit: str, only: str = "") -> str:
    """Round numbers of a unit below the ground line; those in °F where the degrees of the scale in °C put them."""
    size = scale.size

    def shown(heat: float) -> float:
        return from_canonical(heat, unit, "temperature") if unit == "°F" else heat

    def place(number: float) -> float:
        return scale.x(to_canonical(number, unit, "temperature") if unit == "°F" else number)

    low, high = shown(scale.low), shown(scale.high)
    step = tick_step(high - low, int((size.width - size.left) / 50))
    ticks = [count * step for count in range(int(-(-low // step)), int(high // step) + 1)]
    least, most = size.left + 14, size.width - size.right - 12
    marks = "".join(f"M{place(tick):.1f} 4v5" for tick in ticks)
    numbers = [
        element("text", f"{tick:g}", x=min(max(place(tick), least), most), y=24, text_anchor="middle") for tick in ticks
    ]
    numbers.append(element("text", unit, x=size.left - 8, y=24, text_anchor="end"))
    return element("path", class_=f"chart-tick{only}", d=marks) + element("g", *numbers, class_=f"chart-number{only}")
