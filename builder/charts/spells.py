"""A curve in stretches: those between gaps of the record, and of each the part inside the window."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from builder.readings.curve import Floats

Window = tuple[float | None, float | None]
"""Lower and upper edge of a method's window, °C; None for an edge that the group does not name."""
Cut = tuple[Floats, Floats, list[tuple[slice, bool]]]
"""A line cut at a window's edges: minutes and °C of all its points, shape (n,), and of each stretch its place among
them and whether it lies inside the window."""

GAP_TIMES_MEDIAN = 4.0
"""A stretch without a reading counts as a gap from so many times the median interval on …"""
GAP_LEAST_MIN = 2.0
"""… if it is also longer than this, in minutes: a fire read every ten seconds may miss a few."""


@dataclass(frozen=True, slots=True)
class Stretch:
    """A part of a curve drawn in one form."""

    minutes: Floats
    """Shape (k,), k ≥ 2."""
    celsius: Floats
    """Shape (k,)."""
    inside: bool
    """It lies inside the window."""

    @property
    def points(self) -> list[tuple[float, float]]:
        """Minute and °C of each point."""
        return list(zip(self.minutes.tolist(), self.celsius.tolist(), strict=True))


def gaps(minutes: Floats) -> tuple[int, ...]:
    """Find the gaps in a record: indices i for which nothing was read between reading i and i + 1."""
    if minutes.size < 3:
        return ()
    steps = np.diff(minutes)
    if steps.max() <= GAP_LEAST_MIN:
        return ()
    long = (steps > GAP_TIMES_MEDIAN * float(np.median(steps))) & (steps > GAP_LEAST_MIN)
    return tuple(int(index) for index in np.flatnonzero(long))


def without_gaps(count: int, gaps_after: tuple[int, ...]) -> tuple[slice, ...]:
    """Cut a record of `count` readings at its gaps."""
    starts = (0, *(index + 1 for index in gaps_after))
    ends = (*(index + 1 for index in gaps_after), count)
    return tuple(slice(start, end) for start, end in zip(starts, ends, strict=True))


def inside(celsius: Floats, window: Window) -> NDArray[np.bool_]:
    """Tell of each temperature whether it lies inside the window; none does where the group names no window."""
    low, high = window
    if low is None and high is None:
        return np.zeros(celsius.shape, dtype=bool)
    above = np.ones(celsius.shape, dtype=bool) if low is None else celsius >= low
    return above if high is None else above & (celsius <= high)


def stretches(minutes: Floats, celsius: Floats, window: Window) -> tuple[Stretch, ...]:
    """Cut a line exactly where it crosses the edges of the window; minutes and °C, shape (n,), n ≥ 2."""
    minutes, celsius, cuts = cut_at_edges(minutes, celsius, window)
    return tuple(Stretch(minutes[piece], celsius[piece], within) for piece, within in cuts)


def cut_at_edges(minutes: Floats, celsius: Floats, window: Window) -> Cut:
    """Add to a line, shape (n,), n ≥ 2, the points at which it crosses the window's edges, and say where to cut it."""
    if window == (None, None):
        return minutes, celsius, [(slice(0, minutes.size), False)]
    minutes, celsius = _with_crossings(minutes, celsius, window)
    within = inside((celsius[:-1] + celsius[1:]) / 2, window)
    cuts = [0, *(np.flatnonzero(within[1:] != within[:-1]) + 1).tolist(), minutes.size - 1]
    return minutes, celsius, [(slice(first, last + 1), bool(within[first])) for first, last in pairwise(cuts)]


def _with_crossings(minutes: Floats, celsius: Floats, window: Window) -> tuple[Floats, Floats]:
    """Add to a line the points at which it crosses the edges, in the order met."""
    places: list[Floats] = [np.arange(minutes.size, dtype=np.float64)]
    crossed: list[tuple[Floats, Floats]] = [(minutes, celsius)]
    for edge in window:
        if edge is not None:
            above = celsius - edge
            before = np.flatnonzero(above[:-1] * above[1:] < 0)
            if before.size:
                share = (edge - celsius[before]) / (celsius[before + 1] - celsius[before])
                moments = minutes[before] + share * (minutes[before + 1] - minutes[before])
                crossed.append((moments, np.full(before.size, edge)))
                places.append(np.asarray(before + 0.5))
    if len(crossed) == 1:
        return minutes, celsius
    found_minutes, found_celsius = (np.concatenate(lines) for lines in zip(*crossed, strict=True))
    order = np.lexsort((found_minutes, np.concatenate(places)))
    return found_minutes[order], found_celsius[order]
