"""A curve in stretches: those between gaps of the record, and of each the part inside the window."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from builder.readings.curve import Floats

Window = tuple[float | None, float | None]
"""Lower and upper edge of a method's window, °C; None for an edge that the group does not name."""

GAP_TIMES_MEDIAN = 4.0
"""A stretch without a reading counts as a gap from so many times the median interval on …"""
GAP_LEAST_MIN = 2.0
"""… if it is also longer than this, in minutes: a fire read every ten seconds may miss a few."""


@dataclass(frozen=True, slots=True)
class Stretch:
    """A part of a curve drawn in one form."""

    points: tuple[tuple[float, float], ...]
    """Minute and °C of each point."""
    inside: bool
    """It lies inside the window."""


def gaps(minutes: Floats) -> tuple[int, ...]:
    """Find the gaps in a record: indices i for which nothing was read between reading i and i + 1."""
    if minutes.size < 3:
        return ()
    steps = np.diff(minutes)
    long = (steps > GAP_TIMES_MEDIAN * float(np.median(steps))) & (steps > GAP_LEAST_MIN)
    return tuple(int(index) for index in np.flatnonzero(long))


def without_gaps(count: int, gaps_after: tuple[int, ...]) -> tuple[slice, ...]:
    """Cut a record of `count` readings at its gaps."""
    starts = (0, *(index + 1 for index in gaps_after))
    ends = (*(index + 1 for index in gaps_after), count)
    return tuple(slice(start, end) for start, end in zip(starts, ends, strict=True))


def inside(celsius: float, window: Window) -> bool:
    """Tell whether a temperature lies inside the window; never where the group names none."""
    low, high = window
    if low is None and high is None:
        return False
    return (low is None or celsius >= low) and (high is None or celsius <= high)


def stretches(minutes: Floats, celsius: Floats, window: Window) -> tuple[Stretch, ...]:
    """Cut a line exactly where it crosses the edges of the window; minutes and °C, shape (n,), n ≥ 2."""
    edges = [edge for edge in window if edge is not None]
    points = [(float(minutes[0]), float(celsius[0]))]
    found: list[Stretch] = []
    was_inside: bool | None = None
    for point in zip(minutes[1:].tolist(), celsius[1:].tolist(), strict=True):
        for piece_end in (*_crossings(points[-1], point, edges), point):
            is_inside = inside((points[-1][1] + piece_end[1]) / 2, window)
            if was_inside is not None and is_inside != was_inside:
                found.append(Stretch(tuple(points), was_inside))
                points = points[-1:]
            was_inside = is_inside
            points.append(piece_end)
    found.append(Stretch(tuple(points), bool(was_inside)))
    return tuple(found)


def _crossings(start: tuple[float, float], end: tuple[float, float], edges: list[float]) -> list[tuple[float, float]]:
    """Where a straight piece crosses the edges, in the order met."""
    found = []
    for edge in edges:
        if (start[1] - edge) * (end[1] - edge) < 0:
            share = (edge - start[1]) / (end[1] - start[1])
            found.append((start[0] + share * (end[0] - start[0]), edge))
    return sorted(found)
