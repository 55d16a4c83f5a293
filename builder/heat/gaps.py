"""What the gaps between readings may hide: how much hotter, how much faster, and when a temperature was passed."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from builder.readings.curve import Floats


def unseen_peak_c(minutes: Floats, celsius: Floats) -> float | None:
    """Return how hot it may have become between the readings beside the hottest one, °C; None where none can tell.

    A curve that turns over evenly (its rise only ever slows and its fall only ever quickens) lies below the chords of
    its neighbouring stretches drawn on: where they meet is the highest it can have been. Takes one curve, shape (n,).
    None where the hottest reading has not two readings on one side and one on the other.

    >>> unseen_peak_c(np.array([0.0, 1.0, 2.0, 3.0]), np.array([0.0, 100.0, 100.0, 0.0]))
    150.0
    """
    top = int(celsius.argmax())
    slopes = (celsius[1:] - celsius[:-1]) / (minutes[1:] - minutes[:-1])
    reached = [
        _chords_meet_c(minutes, celsius, slopes, left)
        for left in (top - 1, top)
        if left >= 1 and left + 2 < minutes.size
    ]
    return max(reached, default=None)


def _chords_meet_c(minutes: Floats, celsius: Floats, slopes: Floats, left: int) -> float:
    """Return the temperature at which the chord before stretch `left` and the chord after it meet within it."""
    up, down = max(float(slopes[left - 1]), 0.0), min(float(slopes[left + 1]), 0.0)
    a, b, run = float(celsius[left]), float(celsius[left + 1]), float(minutes[left + 1] - minutes[left])
    if up == down:
        return max(a, b)
    after = (b - down * run - a) / (up - down)
    return max(a, b, a + up * after) if 0.0 <= after <= run else max(a, b)


def gap_at_fastest_min(minutes: Floats, celsius: Floats) -> float:
    """Return how far apart the two readings stand between which the curve, shape (n,), n ≥ 2, rose fastest, minutes.

    >>> gap_at_fastest_min(np.array([0.0, 1.0, 6.0]), np.array([20.0, 30.0, 500.0]))
    5.0
    """
    steps = minutes[1:] - minutes[:-1]
    return float(steps[((celsius[1:] - celsius[:-1]) / steps).argmax()])


def gaps_at_crossings_min(minutes: Floats, celsius: Floats, levels_c: Sequence[float]) -> list[float]:
    """Return the longest gap between readings in which the curve, shape (n,), crosses each temperature (°C), minutes.

    0 where it never crosses it.

    >>> gaps_at_crossings_min(np.array([0.0, 1.0, 6.0]), np.array([20.0, 700.0, 300.0]), (600.0, 900.0))
    [5.0, 0.0]
    """
    hot = celsius >= np.array(levels_c)[:, np.newaxis]
    crossed = (hot[:, 1:] != hot[:, :-1]) * (minutes[1:] - minutes[:-1])
    found: list[float] = crossed.max(axis=1, initial=0.0).tolist()
    return found
