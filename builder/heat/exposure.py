"""How long and how far above a temperature: minutes above, soak, and what lies inside and over a window.

Shapes as in `rates`: minutes (n,), temperatures (..., n) in °C, results (...). Straight between readings, so each
figure is exact; a temperature may be left and reached again, and all its spells count together.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from builder.readings.curve import Floats


@dataclass(frozen=True, slots=True)
class Stretches:
    """The straight stretches between the readings of a curve, looked at once for many temperatures.

    Of the curves drawn from one log nearly all stretches lie above a temperature on every curve, or below it on every
    one: only the few others are cut at it curve by curve.
    """

    minutes: Floats
    """Shape (n − 1,): how long each lasts."""
    celsius: Floats
    """Shape (..., n): the readings between which they lie, °C."""
    least: Floats
    """Shape (n − 1,): the coldest that each is on any curve, °C."""
    most: Floats
    """Shape (n − 1,): the hottest that each is on any curve, °C."""

    @classmethod
    def of(cls, minutes: Floats, celsius: Floats) -> Stretches:
        """Cut a curve at its readings."""
        over = tuple(range(celsius.ndim - 1))
        least, most = celsius.min(axis=over), celsius.max(axis=over)
        return cls(np.diff(minutes), celsius, np.minimum(least[:-1], least[1:]), np.maximum(most[:-1], most[1:]))

    def minutes_above(self, level_c: Floats | float, *, at_level: bool = True) -> Floats:
        """Return the total time above `level_c` (°C; shape () or (...)), minutes; at it counts where `at_level`.

        Of a straight stretch from a to b the share (max(a, b) − level) / |b − a|, held between 0 and 1.
        """
        level = np.asarray(level_c)
        whole = self.least > level.max()
        cut = np.flatnonzero(~whole & (self.most >= level.min()))
        shares = self._shares_above(cut, level[..., np.newaxis], at_level)
        return np.asarray(self.minutes[whole].sum() + shares @ self.minutes[cut])

    def _shares_above(self, cut: NDArray[np.intp], level: Floats, at_level: bool) -> Floats:
        """Return what share of some of the stretches lies above a temperature, shape (..., k)."""
        a, b = self.celsius[..., cut], self.celsius[..., cut + 1]
        high = np.maximum(a, b)
        height = high - np.minimum(a, b)
        flat = height == 0.0
        share = (high - level) / np.where(flat, 1.0, height)
        counted = high >= level if at_level else high > level
        return np.asarray(np.where(flat, counted, np.clip(share, 0.0, 1.0)))

    def soak_min(self, within_c: float) -> Floats:
        """Return the minutes at or above the hottest reading less `within_c` degrees."""
        return self.minutes_above(self.celsius.max(axis=-1) - within_c)

    def minutes_inside(self, low_c: float | None, high_c: float | None) -> Floats:
        """Return the minutes inside a window of temperatures (°C), its edges counted in; an edge may be open (None)."""
        inside = np.full(self.celsius.shape[:-1], self.minutes.sum())
        if low_c is not None:
            inside = self.minutes_above(low_c)
        if high_c is not None:
            inside = inside - self.minutes_above(high_c, at_level=False)
        return np.asarray(np.maximum(inside, 0.0))


def minutes_above(minutes: Floats, celsius: Floats, level_c: Floats | float) -> Floats:
    """Return the total time at or above `level_c` (°C; shape () or (...)), minutes.

    >>> float(minutes_above(np.array([0.0, 10.0, 20.0]), np.array([500.0, 700.0, 500.0]), 600.0))
    10.0
    """
    return Stretches.of(minutes, celsius).minutes_above(level_c)


def soak_min(minutes: Floats, celsius: Floats, within_c: float) -> Floats:
    """Return the minutes at or above the hottest reading less `within_c` degrees.

    >>> float(soak_min(np.array([0.0, 8.0, 10.0, 18.0]), np.array([0.0, 800.0, 800.0, 0.0]), 50.0))
    3.0
    """
    return Stretches.of(minutes, celsius).soak_min(within_c)


def minutes_over(minutes: Floats, celsius: Floats, level_c: float) -> Floats:
    """Return the total time above `level_c` (°C), minutes; a stretch that stands at the level itself is not over it.

    >>> float(minutes_over(np.array([0.0, 10.0, 20.0]), np.array([600.0, 600.0, 700.0]), 600.0))
    10.0
    """
    return Stretches.of(minutes, celsius).minutes_above(level_c, at_level=False)


def window_min(minutes: Floats, celsius: Floats, low_c: float | None, high_c: float | None) -> Floats:
    """Return the minutes inside a window of temperatures (°C), its edges counted in; an edge may be open (None).

    >>> float(window_min(np.array([0.0, 10.0]), np.array([500.0, 1000.0]), 600.0, 800.0))
    4.0
    """
    return Stretches.of(minutes, celsius).minutes_inside(low_c, high_c)


def area_above_c_min(minutes: Floats, celsius: Floats, level_c: float) -> Floats:
    """Return the area of the curve above `level_c` (°C), degrees times minutes.

    Of a straight stretch from a to b, with a⁺ = max(a − level, 0): dt (b⁺² − a⁺²) / 2(b − a); where a = b, dt a⁺.

    >>> float(area_above_c_min(np.array([0.0, 10.0, 20.0]), np.array([500.0, 700.0, 500.0]), 600.0))
    500.0
    """
    reached = np.flatnonzero(Stretches.of(minutes, celsius).most > level_c)
    start, end = celsius[..., reached], celsius[..., reached + 1]
    a, b = np.maximum(start - level_c, 0.0), np.maximum(end - level_c, 0.0)
    step = end - start
    # (b² − a²) / 2(b − a) is the plain mean (a + b) / 2 times the share of the stretch that lies above the level.
    share = np.divide(b - a, step, out=np.ones_like(step), where=step != 0)
    return np.asarray((0.5 * (a + b) * share) @ np.diff(minutes)[reached])


def short_c(celsius: Floats, low_c: float) -> Floats:
    """Return how far the hottest reading stayed below `low_c` (°C), degrees; 0 where it reached it.

    >>> float(short_c(np.array([14.0, 640.0]), 700.0))
    60.0
    """
    return np.asarray(np.maximum(low_c - celsius.max(axis=-1), 0.0))
