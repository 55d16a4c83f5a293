"""How long and how far above a temperature: minutes above, soak, and what lies inside and over a window.

Shapes as in `rates`: minutes (n,), temperatures (..., n) in °C, results (...). Straight between readings, so each
figure is exact; a temperature may be left and reached again, and all its spells count together.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from builder.heat.extremes import Extremes
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
    """Shape (n,) or (n, curves): the readings between which they lie, °C."""
    least: Floats
    """Shape (n − 1,): the coldest that each is on any curve, °C."""
    most: Floats
    """Shape (n − 1,): the hottest that each is on any curve, °C."""
    high: Floats
    """Shape (n − 1,) or (n − 1, curves): the hotter end of each, °C."""
    height: Floats
    """Shape (n − 1,) or (n − 1, curves): how far apart its ends are, °C; 1 where it is level."""
    level: NDArray[np.bool_] | None
    """Shape (n − 1,) or (n − 1, curves): which are level; None where none is."""

    @classmethod
    def of(cls, minutes: Floats, celsius: Floats, extremes: Extremes | None = None) -> Stretches:
        """Cut a curve at its readings; `extremes` are its own, where they are known."""
        known = extremes or Extremes.of(minutes, celsius)
        least, most = np.minimum(known.least[:-1], known.least[1:]), np.maximum(known.most[:-1], known.most[1:])
        readings = celsius.T
        high = np.maximum(readings[:-1], readings[1:])
        height = high - np.minimum(readings[:-1], readings[1:])
        level = height == 0.0
        height[level] = 1.0
        return cls(minutes[1:] - minutes[:-1], readings, least, most, high, height, level if level.any() else None)

    def minutes_above(self, level_c: Floats | float, *, at_level: bool = True) -> Floats:
        """Return the total time above `level_c` (°C; shape () or (...)), minutes; at it counts where `at_level`.

        Of a straight stretch from a to b the share (max(a, b) − level) / |b − a|, held between 0 and 1.
        """
        least, most = (level_c, level_c) if isinstance(level_c, float) else (level_c.min(), level_c.max())
        whole = self.least > most
        cut = (~whole & (self.most >= least)).nonzero()[0]
        share = self.high.take(cut, axis=0)
        share -= level_c
        if self.level is not None:
            # Indices into all of them in one row are found many times sooner than such of rows and columns.
            flat, every = np.flatnonzero(self.level.take(cut, axis=0)), share.reshape(-1)
            every[flat] = every[flat] >= 0.0 if at_level else every[flat] > 0.0
        share /= self.height.take(cut, axis=0)
        share.clip(0.0, 1.0, out=share)
        return np.asarray(self.minutes[whole].sum() + share.T @ self.minutes[cut])

    def minutes_inside(self, low_c: float | None, over_min: Floats) -> Floats:
        """Return the minutes inside a window from `low_c` (°C; None: open) on, of which `over_min` lie above it."""
        above = self.minutes.sum() if low_c is None else self.minutes_above(low_c)
        return np.asarray(np.maximum(above - over_min, 0.0))

    def area_above_c_min(self, level_c: float) -> Floats:
        """Return the area of the curve above a temperature (°C), degrees times minutes, shape (...).

        Of a straight stretch from a to b, with a⁺ = max(a − level, 0): dt (b⁺² − a⁺²) / 2(b − a); where a = b, dt a⁺.
        """
        reached = (self.most > level_c).nonzero()[0]
        start, end = self.celsius[reached], self.celsius[reached + 1]
        a, b = np.maximum(start - level_c, 0.0), np.maximum(end - level_c, 0.0)
        step = end - start
        # (b² − a²) / 2(b − a) is the plain mean (a + b) / 2 times the share of the stretch that lies above the level.
        share = np.divide(b - a, step, out=np.ones_like(step), where=step != 0)
        return np.asarray((0.5 * (a + b) * share).T @ self.minutes[reached])


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
    return minutes_above(minutes, celsius, celsius.max(axis=-1) - within_c)


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
    stretches = Stretches.of(minutes, celsius)
    over = np.zeros(()) if high_c is None else stretches.minutes_above(high_c, at_level=False)
    return stretches.minutes_inside(low_c, over)


def area_above_c_min(minutes: Floats, celsius: Floats, level_c: float) -> Floats:
    """Return the area of the curve above `level_c` (°C), degrees times minutes.

    Of a straight stretch from a to b, with a⁺ = max(a − level, 0): dt (b⁺² − a⁺²) / 2(b − a); where a = b, dt a⁺.

    >>> float(area_above_c_min(np.array([0.0, 10.0, 20.0]), np.array([500.0, 700.0, 500.0]), 600.0))
    500.0
    """
    return Stretches.of(minutes, celsius).area_above_c_min(level_c)


def short_c(celsius: Floats, low_c: float) -> Floats:
    """Return how far the hottest reading stayed below `low_c` (°C), degrees; 0 where it reached it.

    >>> float(short_c(np.array([14.0, 640.0]), 700.0))
    60.0
    """
    return np.asarray(np.maximum(low_c - celsius.max(axis=-1), 0.0))
