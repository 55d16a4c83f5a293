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
    """The straight stretches between the readings of a curve, worked out once for many temperatures."""

    minutes: Floats
    """Shape (n − 1,): how long each lasts."""
    high: Floats
    """Shape (..., n − 1): its hotter end, °C."""
    height: Floats
    """Shape (..., n − 1): from its colder to its hotter end, °C; 1 where it is flat."""
    flat: NDArray[np.bool_] | None
    """Shape (..., n − 1): where it is flat; None where none is."""

    @classmethod
    def of(cls, minutes: Floats, celsius: Floats) -> Stretches:
        """Cut a curve at its readings."""
        high = np.maximum(celsius[..., :-1], celsius[..., 1:])
        height = high - np.minimum(celsius[..., :-1], celsius[..., 1:])
        flat = height == 0.0
        height[flat] = 1.0
        return cls(np.diff(minutes), high, height, flat if flat.any() else None)

    def minutes_above(self, level_c: Floats | float, *, at_level: bool = True) -> Floats:
        """Return the total time above `level_c` (°C; shape () or (...)), minutes; at it counts where `at_level`.

        Of a straight stretch from a to b the share (max(a, b) − level) / |b − a|, held between 0 and 1.
        """
        level = np.asarray(level_c)[..., np.newaxis]
        share = self.high - level
        share /= self.height
        np.clip(share, 0.0, 1.0, out=share)
        if self.flat is not None:
            counted = self.high >= level if at_level else self.high > level
            share[self.flat] = counted[self.flat]
        return np.asarray(share @ self.minutes)


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
    inside = np.full(celsius.shape[:-1], minutes[-1] - minutes[0])
    if low_c is not None:
        inside = stretches.minutes_above(low_c)
    if high_c is not None:
        inside = inside - stretches.minutes_above(high_c, at_level=False)
    return np.asarray(np.maximum(inside, 0.0))


def area_above_c_min(minutes: Floats, celsius: Floats, level_c: float) -> Floats:
    """Return the area of the curve above `level_c` (°C), degrees times minutes.

    Of a straight stretch from a to b, with a⁺ = max(a − level, 0): dt (b⁺² − a⁺²) / 2(b − a); where a = b, dt a⁺.

    >>> float(area_above_c_min(np.array([0.0, 10.0, 20.0]), np.array([500.0, 700.0, 500.0]), 600.0))
    500.0
    """
    above = np.maximum(celsius - level_c, 0.0)
    a, b = above[..., :-1], above[..., 1:]
    step = np.diff(celsius, axis=-1)
    # (b² − a²) / 2(b − a) is the plain mean (a + b) / 2 times the share of the stretch that lies above the level.
    share = np.divide(b - a, step, out=np.ones_like(step), where=step != 0)
    return np.asarray((0.5 * (a + b) * share) @ np.diff(minutes))


def short_c(celsius: Floats, low_c: float) -> Floats:
    """Return how far the hottest reading stayed below `low_c` (°C), degrees; 0 where it reached it.

    >>> float(short_c(np.array([14.0, 640.0]), 700.0))
    60.0
    """
    return np.asarray(np.maximum(low_c - celsius.max(axis=-1), 0.0))
