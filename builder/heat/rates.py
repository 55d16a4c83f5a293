"""How high and how fast: the highest reading, when it came, and the rates of rise and fall.

Every function takes the minutes of a curve's readings, shape (n,), strictly increasing, and its temperatures in °C,
shape (..., n), and returns shape (...): one curve, or a thousand drawn from what the readings allow, alike. Between
readings the curve is straight. NaN stands for a figure that a curve does not have; `firing_heat` says why in words.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from builder.readings.curve import Floats


def peak_c(celsius: Floats) -> Floats:
    """Return the highest temperature, °C.

    >>> float(peak_c(np.array([14.0, 812.0, 640.0])))
    812.0
    """
    return np.asarray(celsius.max(axis=-1))


def time_to_peak_min(minutes: Floats, celsius: Floats) -> Floats:
    """Return the minute from lighting of the first highest reading.

    >>> float(time_to_peak_min(np.array([0.0, 9.0, 12.0]), np.array([14.0, 812.0, 640.0])))
    9.0
    """
    return np.asarray(minutes[celsius.argmax(axis=-1)])


def heating_rate_c_per_min(minutes: Floats, celsius: Floats) -> Floats:
    """Return the overall rise, °C/min: (hottest − first reading) / time between; NaN where the first is the hottest.

    The heating rate of the open-firing literature, as in Livingstone Smith 2001, Journal of Archaeological Science
    28:991. It flattens a fast start and a slow end into one number: see the fastest rise beside it.

    >>> float(heating_rate_c_per_min(np.array([0.0, 10.0, 12.0]), np.array([20.0, 820.0, 640.0])))
    80.0
    """
    return _slope(peak_c(celsius) - celsius[..., 0], time_to_peak_min(minutes, celsius) - minutes[0])


def cooling_rate_c_per_min(minutes: Floats, celsius: Floats) -> Floats:
    """Return the overall fall, °C/min: (hottest − last reading) / time between; NaN where the last is the hottest.

    >>> float(cooling_rate_c_per_min(np.array([0.0, 10.0, 12.0]), np.array([20.0, 820.0, 640.0])))
    90.0
    """
    return _slope(peak_c(celsius) - celsius[..., -1], minutes[-1] - time_to_peak_min(minutes, celsius))


def fastest_rise_c_per_min(minutes: Floats, celsius: Floats, window_min: float) -> Floats:
    """Return the steepest mean rise over any window of `window_min` minutes, °C/min; NaN where the log is shorter.

    max over t of (T(t + w) − T(t)) / w. The mean rise is itself straight between the moments at which the window
    begins or ends at a reading, so its maximum lies at one of these: the result is exact. Negative where the curve
    falls throughout.

    >>> float(fastest_rise_c_per_min(np.array([0.0, 0.5, 2.0]), np.array([0.0, 50.0, 80.0]), 1.0))
    60.0
    """
    starts = np.unique(np.concatenate([minutes, minutes - window_min]))
    starts = starts[(starts >= minutes[0]) & (starts + window_min <= minutes[-1])]
    if starts.size == 0:
        return np.full(celsius.shape[:-1], np.nan)
    starts = _perhaps_fastest(minutes, celsius, starts, window_min)
    rises = at_minutes(minutes, celsius, starts + window_min) - at_minutes(minutes, celsius, starts)
    return np.asarray(rises.max(axis=-1) / window_min)


def _perhaps_fastest(minutes: Floats, celsius: Floats, starts: Floats, window_min: float) -> Floats:
    """Leave out the windows that are the fastest on none of the curves; of hundreds a few remain.

    A curve rises between two readings by no less than the least and no more than the most of all curves: summed over a
    window, these say between what its rise lies. One whose most is below the least of another is never the fastest.
    """
    steps = np.diff(celsius)
    over = tuple(range(steps.ndim - 1))
    least, most = (
        np.interp(starts + window_min, minutes, summed) - np.interp(starts, minutes, summed)
        for summed in (np.append(0.0, np.cumsum(ends)) for ends in (steps.min(axis=over), steps.max(axis=over)))
    )
    return np.asarray(starts[most >= least.max() - _LOST_C])


_LOST_C = 1e-6
"""Degrees that rounding may cost the sum of many steps."""


def rise_between_c_per_min(minutes: Floats, celsius: Floats, low_c: float, high_c: float) -> Floats:
    """Return the mean rise from `low_c` to `high_c` (°C) on the way up, °C/min.

    (high − low) / (t₂ − t₁): t₂ the moment the curve first reaches `high_c`, t₁ the last moment before it at which it
    stood at `low_c`. NaN where it never reaches `high_c` or was above `low_c` from the first reading on.

    >>> float(rise_between_c_per_min(np.array([0.0, 2.0, 4.0]), np.array([0.0, 150.0, 250.0]), 100.0, 200.0))
    60.0
    """
    if minutes.size < 2:
        return np.full(celsius.shape[:-1], np.nan)
    passage = _passage(celsius, low_c, high_c)
    minutes, celsius = minutes[passage], celsius[..., passage]
    n = minutes.size
    hot = celsius >= high_c
    reached = hot.argmax(axis=-1)
    before = (celsius <= low_c) & (np.arange(n) < reached[..., np.newaxis])
    left = np.minimum(n - 1 - before[..., ::-1].argmax(axis=-1), n - 2)
    known = hot.any(axis=-1) & before.any(axis=-1)
    end = _crossing_min(minutes, celsius, np.maximum(reached - 1, 0), high_c)
    start = _crossing_min(minutes, celsius, left, low_c)
    return np.where(known, _slope(np.asarray(high_c - low_c), end - start), np.nan)


def _passage(celsius: Floats, low_c: float, high_c: float) -> slice:
    """Return the readings between which every curve passes from `low_c` to `high_c`, two at least.

    They begin with the last reading that stands at or below `low_c` on all curves before any has reached `high_c`, and
    end with the first that stands at or above `high_c` on all.
    """
    over = tuple(range(celsius.ndim - 1))
    least, most = celsius.min(axis=over), celsius.max(axis=over)
    begun, over_all = most >= high_c, least >= high_c
    before = int(begun.argmax()) if begun.any() else 0
    below = np.flatnonzero(most[:before] <= low_c)
    first = int(below[-1]) if below.size else 0
    last = int(over_all.argmax()) if over_all.any() else most.size - 1
    return slice(first, max(last, first + 1) + 1)


def fall_between_c_per_min(minutes: Floats, celsius: Floats, high_c: float, low_c: float) -> Floats:
    """Return the mean fall from `high_c` to `low_c` (°C) on the last way down, °C/min.

    The rise of the same curve run backwards in time: from the last moment at `high_c` to the first moment at `low_c`
    after it. NaN where the readings end before, or it was never so hot.

    >>> float(fall_between_c_per_min(np.array([0.0, 2.0, 4.0]), np.array([700.0, 600.0, 500.0]), 598.0, 548.0))
    50.0
    """
    return rise_between_c_per_min(-minutes[::-1], celsius[..., ::-1], low_c, high_c)


def largest_gap_min(minutes: Floats) -> float | None:
    """Return the longest time between two readings, minutes; None for a single reading.

    >>> largest_gap_min(np.array([0.0, 1.0, 4.0]))
    3.0
    """
    return float(np.diff(minutes).max()) if minutes.size > 1 else None


def spread_c(curves: list[tuple[Floats, Floats]]) -> Floats:
    """Return the largest difference between probes at one moment, °C; NaN where no two were read at one time.

    `curves` holds each probe's minutes, shape (n,), and temperatures, shape (..., n). Only moments between a probe's
    first and last reading count for it. Between the readings of all probes together the difference between the
    hottest and the coldest is convex, so its maximum lies at one of the readings: the result is exact.

    >>> rim, foot = (np.array([0.0, 4.0]), np.array([0.0, 400.0])), (np.array([1.0, 3.0]), np.array([90.0, 90.0]))
    >>> float(spread_c([rim, foot]))
    210.0
    """
    if len(curves) < 2:
        return np.full(curves[0][1].shape[:-1], np.nan)
    if all(np.array_equal(minutes, curves[0][0]) for minutes, _ in curves):
        together = [celsius for _, celsius in curves]
        return np.asarray((np.maximum.reduce(together) - np.minimum.reduce(together)).max(axis=-1))
    moments = np.unique(np.concatenate([minutes for minutes, _ in curves]))
    highest = np.full((*curves[0][1].shape[:-1], moments.size), -np.inf)
    lowest = np.full_like(highest, np.inf)
    probes = np.zeros(moments.size, dtype=int)
    for minutes, celsius in curves:
        seen = (moments >= minutes[0]) & (moments <= minutes[-1])
        there = at_minutes(minutes, celsius, moments[seen])
        highest[..., seen] = np.maximum(highest[..., seen], there)
        lowest[..., seen] = np.minimum(lowest[..., seen], there)
        probes += seen
    several = probes >= 2
    if not several.any():
        return np.full(celsius.shape[:-1], np.nan)
    return np.asarray((highest[..., several] - lowest[..., several]).max(axis=-1))


def at_minutes(minutes: Floats, celsius: Floats, moments: Floats) -> Floats:
    """Return the temperatures at `moments` (minutes, shape (k,), within the readings), °C, shape (..., k).

    >>> at_minutes(np.array([0.0, 2.0]), np.array([20.0, 220.0]), np.array([0.5, 2.0])).tolist()
    [70.0, 220.0]
    """
    if minutes.size == 1:
        return np.asarray(celsius[..., np.zeros(moments.size, dtype=int)])
    left = np.clip(np.searchsorted(minutes, moments, side="right") - 1, 0, minutes.size - 2)
    share = (moments - minutes[left]) / (minutes[left + 1] - minutes[left])
    # A reading of all curves lies together in memory when they come from `main_fire`: take whole readings.
    readings = np.moveaxis(celsius, -1, 0)
    before, there = np.moveaxis(readings[left], 0, -1), np.moveaxis(readings[left + 1], 0, -1)
    there -= before
    there *= share
    there += before
    return there


def _crossing_min(minutes: Floats, celsius: Floats, left: NDArray[np.intp], level_c: float) -> Floats:
    """Return the minute at which the straight line from reading `left` to the next passes `level_c`."""
    curves = np.indices(left.shape, sparse=True)
    a, b = celsius[(*curves, left)], celsius[(*curves, left + 1)]
    share = np.divide(level_c - a, b - a, out=np.zeros_like(a), where=b != a)
    return np.asarray(minutes[left] + share * (minutes[left + 1] - minutes[left]))


def _slope(rise: Floats, run: Floats) -> Floats:
    rise, run = np.broadcast_arrays(rise, run)
    return np.asarray(np.divide(rise, run, out=np.full(run.shape, np.nan), where=run > 0))
