"""A curve's marks in a frame: its line in and out of the window, its ribbon, its gaps, its single readings."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator
from dataclasses import dataclass

import numpy as np

from builder.charts.frame import Frame
from builder.charts.layout import WIDE
from builder.charts.simplify import FEW, Indices, extremes_by_column, points_to_keep
from builder.charts.spells import Cut, Window, cut_at_edges, gaps, without_gaps
from builder.charts.svg import Tenths, line_data, line_tenths, path_data
from builder.readings.curve import Curve, Floats, Repair
from builder.readings.reading_limits import reading_limits_c

FEW_READINGS = 40
"""Up to so many readings each is marked by a dot: a fire read by hand should look like one."""
_MANY_READINGS = 3000
"""From so many on, a record is thinned before it is drawn at all."""
_BELOW_GROUND_PX = 5.0
"""How far a line may dip below the ground line: a frosty morning shows, a fault does not run off the page."""


@dataclass(frozen=True, slots=True)
class Shown:
    """The part of a curve that its frame shows, from lighting to the frame's end."""

    curve: Curve
    minutes: Floats
    celsius: Floats
    low: Floats
    """Lower 95 % limit of each reading, °C."""
    high: Floats
    gaps_after: tuple[int, ...]
    """Indices of readings that a gap follows."""
    spells: tuple[slice, ...]
    """The readings from gap to gap."""
    window: Window
    """What the line is cut at, °C."""
    cuts: tuple[Cut | None, ...]
    """Each spell cut there, where all its points are drawn in every frame; None where a frame leaves some out."""
    goes_on: bool
    """The record runs on beyond the frame."""

    @property
    def peak(self) -> tuple[float, float]:
        """Minute and °C of the highest reading shown."""
        index = int(np.argmax(self.celsius))
        return float(self.minutes[index]), float(self.celsius[index])


def shown(curve: Curve, last_minute: float, window: Window = (None, None)) -> Shown | None:
    """Cut a curve to its frame, in between two readings where need be; None where nothing is left.

    `window` is that at whose edges the line is cut, °C.
    """
    low, high = reading_limits_c(curve)
    lines: tuple[Floats, ...] = (curve.celsius, low, high)
    minutes = curve.minutes
    if minutes[0] > last_minute or minutes[-1] < 0:
        return None
    goes_on = bool(minutes[-1] > last_minute)
    if minutes[0] < 0 or goes_on:
        within = minutes[(minutes > 0) & (minutes < last_minute)]
        ends = (max(0.0, float(minutes[0])), min(last_minute, float(minutes[-1])))
        cut = np.unique(np.concatenate([[ends[0]], within, [ends[1]]]))
        lines = tuple(np.interp(cut, minutes, line) for line in lines)
        minutes = cut
    gaps_after = gaps(minutes)
    if minutes.size > _MANY_READINGS:
        kept = _worth_drawing(minutes, lines[0], gaps_after, last_minute)
        gaps_after = tuple(int(at) for at in np.searchsorted(kept, gaps_after))
        minutes, lines = minutes[kept], tuple(line[kept] for line in lines)
    spells = without_gaps(minutes.size, gaps_after)
    cuts = tuple(
        [
            cut_at_edges(minutes[spell], lines[0][spell], window) if 2 <= spell.stop - spell.start <= FEW else None
            for spell in spells
        ]
    )
    low, high = lines[1], lines[2]
    return Shown(curve, minutes, lines[0], low, high, gaps_after, spells, window, cuts, goes_on)


def _worth_drawing(minutes: Floats, celsius: Floats, gaps_after: tuple[int, ...], last_minute: float) -> Indices:
    """Thin a logger's record once for all drawings, to what the widest can show; gaps keep their two ends."""
    kept = extremes_by_column(minutes * (WIDE.width / last_minute), celsius)
    ends = np.array([index for at in gaps_after for index in (at, at + 1)], dtype=np.intp)
    return np.union1d(kept, ends)


def _row(frame: Frame, celsius: float) -> float:
    """Pixel row of a temperature, held inside the drawing."""
    return min(max(frame.y(celsius), 0.0), frame.ground + _BELOW_GROUND_PX)


def _tenths(frame: Frame, minutes: Floats, celsius: Floats) -> Tenths:
    """Place readings, shape (n,) each, where `Frame.x` and `_row` do; shape (2, n), in tenths of a pixel."""
    rows = np.minimum(np.maximum(frame.ground + celsius * frame.y_step, 0.0), frame.ground + _BELOW_GROUND_PX)
    return line_tenths(frame.layout.left + minutes * frame.x_step, rows)


def _thinned(frame: Frame, minutes: Floats, celsius: Floats) -> tuple[Floats, Floats]:
    """Leave out what this frame is too small to show."""
    if minutes.size <= FEW:
        return minutes, celsius
    kept = points_to_keep(frame.layout.left + minutes * frame.x_step, celsius * frame.y_step)
    return minutes[kept], celsius[kept]


def line_parts(frame: Frame, part: Shown) -> tuple[str, str]:
    """Write a curve's line outside and inside the window, each as the `d` of a path."""
    outside: list[str] = []
    inside: list[str] = []
    for spell, cut in zip(part.spells, part.cuts, strict=True):
        if spell.stop - spell.start < 2:
            continue
        drawn = cut or cut_at_edges(*_thinned(frame, part.minutes[spell], part.celsius[spell]), part.window)
        minutes, celsius, pieces = drawn
        tenths = _tenths(frame, minutes, celsius)
        for piece, within in pieces:
            (inside if within else outside).append(line_data(tenths[:, piece]))
    return "".join(outside), "".join(inside)


def _path(class_: str, data: str) -> str:
    """Write a path, whose data and class are our own and need no escaping."""
    return f'<path class="{class_}" d="{data}"/>' if data else ""


def ribbon(frame: Frame, part: Shown) -> str:
    """Draw the ribbon of the 95 % limits, stretch by stretch between the gaps."""
    if not (part.high > part.low).any():
        return ""
    data = []
    for spell in part.spells:
        low_minutes, low = _thinned(frame, part.minutes[spell], part.low[spell])
        high_minutes, high = _thinned(frame, part.minutes[spell], part.high[spell])
        rim = np.concatenate((high_minutes, low_minutes[::-1])), np.concatenate((high, low[::-1]))
        data.append(line_data(_tenths(frame, *rim), closed=True))
    return _path("chart-ribbon", "".join(data))


def ware_line(frame: Frame, part: Shown) -> str:
    """Draw the curve that stands for the ware: ink, and thick and ember inside the window."""
    outside, inside = line_parts(frame, part)
    return (
        _path("chart-gap", _gap_data(frame, part))
        + _path("chart-line", outside)
        + _path("chart-in", inside)
        + _path("chart-dots", _dot_data(frame, part))
        + _going_on(frame, part)
    )


def other_line(frame: Frame, part: Shown, form: int) -> str:
    """Draw another probe's curve in line form 2 to 5."""
    outside, _ = line_parts(frame, part)
    form_class = f"chart-other chart-s{form}"
    return _path("chart-gap", _gap_data(frame, part)) + _path(form_class, outside or _single(frame, part))


def _gap_data(frame: Frame, part: Shown) -> str:
    ends = [slice(at, at + 2) for at in part.gaps_after]
    return "".join(line_data(_tenths(frame, part.minutes[each], part.celsius[each])) for each in ends)


def _dot_data(frame: Frame, part: Shown) -> str:
    """Strokes without length, which round caps make dots: every reading of a few, else those between two gaps."""
    if part.minutes.size <= FEW_READINGS:
        alone = list(range(part.minutes.size))
    else:
        alone = [spell.start for spell in part.spells if spell.stop - spell.start == 1]
    return "".join(_dot(frame, part, index) for index in alone)


def _single(frame: Frame, part: Shown) -> str:
    """A lone reading of another probe, as a dot."""
    return _dot(frame, part, 0)


def _dot(frame: Frame, part: Shown, index: int) -> str:
    return path_data([(frame.x(float(part.minutes[index])), _row(frame, float(part.celsius[index])))]) + "h0"


def _going_on(frame: Frame, part: Shown) -> str:
    """An arrow head at the frame's edge where the record runs on."""
    if not part.goes_on:
        return ""
    x, y = frame.right, _row(frame, float(part.celsius[-1]))
    return _path("chart-flag", path_data([(x - 5, y - 4), (x, y), (x - 5, y + 4)]))


def cross_places(frame: Frame, part: Shown, faults: Iterable[Repair]) -> list[tuple[float, float]]:
    """Give the pixels at which crosses stand; of crosses that would touch, the first."""
    kept: list[tuple[float, float]] = []
    for minute, celsius in sorted(_places(part, faults, {"spike"})):
        x, y = frame.x(minute), max(_row(frame, celsius), float(frame.layout.top))
        touches = bool(kept) and x - kept[-1][0] < 6 and abs(y - kept[-1][1]) < 6
        if 0 <= minute <= frame.minutes and not touches:
            kept.append((x, y))
    return kept


def spike_crosses(frame: Frame, part: Shown, faults: Iterable[Repair]) -> str:
    """Mark by a small cross where a reading was left out as a spike.

    A cross stands at the height that was read, or at the frame's upper edge where that lies above it; where the height
    is not known, on the line.
    """
    data = [
        path_data([(x - 3.5, y - 3.5), (x + 3.5, y + 3.5)]) + path_data([(x - 3.5, y + 3.5), (x + 3.5, y - 3.5)])
        for x, y in cross_places(frame, part, faults)
    ]
    return _path("chart-cross", "".join(data))


def doubt_marks(frame: Frame, part: Shown, faults: Iterable[Repair]) -> str:
    """Mark by a small open square a reading that was kept but is doubted; of a stretch, its two ends."""
    data = []
    for minute, celsius in sorted(set(_places(part, faults, DOUBTED))):
        if 0 <= minute <= frame.minutes:
            x, y = frame.x(minute), _row(frame, celsius)
            data.append(path_data([(x - 4, y - 4), (x + 4, y - 4), (x + 4, y + 4), (x - 4, y + 4)], closed=True))
    return _path("chart-doubt", "".join(data))


DOUBTED = frozenset({"frozen", "pulled out", "lone"})
"""Kinds of doubt that stand at a reading of the curve; a topped-out one is told at the peak."""


def _places(part: Shown, faults: Iterable[Repair], kinds: Collection[str]) -> Iterator[tuple[float, float]]:
    """Give minute and °C of the faults of some kinds, both ends of a stretch."""
    for fault in faults:
        if fault.kind in kinds and fault.minute is not None:
            on_line = float(np.interp(fault.minute, part.minutes, part.celsius))
            yield fault.minute, on_line if fault.celsius is None else fault.celsius
            if fault.until is not None:
                yield fault.until, float(np.interp(fault.until, part.minutes, part.celsius))
