"""How high and how fast: the highest reading, when it came, and the rates of rise and fall.

Every function takes the minutes of a curve's readings, shape (n,), strictly increasing, and its temperatures in °C,
shape (..., n), and returns shape (...): one curve, or a thousand drawn from what the readings allow, alike. Between
readings the curve is straight. NaN stands for a figure that a curve does not have; `firing_heat` says why in words.
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from builder.heat.extremes import Extremes
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
    return Extremes.of(minutes, celsius).peak_min


def heating_rate_c_per_min(minutes: Floats, celsius: Floats, extremes: Extremes | None = None) -> Floats:
    """Return the overall rise, °C/min: (hottest − first reading) / time between; NaN where the first is the hottest.

    The heating rate of the open-firing literature, as in Livingstone Smith 2001, Journal of Archaeological Science
    28:991. It flattens a fast start and a slow end into one number: see the fastest rise beside it.

    >>> float(heating_rate_c_per_min(np.array([0.0, 10.0, 12.0]), np.array([20.0, 820.0, 640.0])))
    80.0
    """
    known = extremes or Extremes.of(minutes, celsius)
    return _slope(known.peak_c - celsius[..., 0], known.peak_min - minutes[0])


def cooling_rate_c_per_min(minutes: Floats, celsius: Floats, extremes: Extremes | None = None) -> Floats:
    """Return the overall fall, °C/min: (hottest − last reading) / time between; NaN where the last is the hottest.

    >>> float(cooling_rate_c_per_min(np.array([0.0, 10.0, 12.0]), np.array([20.0, 820.0, 640.0])))
    90.0
    """
    known = extremes or Extremes.of(minutes, celsius)
    return _slope(known.peak_c - celsius[..., -1], minutes[-1] - known.peak_min)


def fastest_rise_c_per_min(minutes: Floats, celsius: Floats, window_min: float) -> Floats:
    """Return the steepest mean rise over any window of `window_min` minutes, °C/min; NaN where the log is shorter.

    max over t of (T(t + w) − T(t)) / w. The mean rise is itself straight between the moments at which the window
    begins or ends at a reading, so its maximum lies at one of these: the result is exact. Negative where the curve
    falls throughout.

    >>> float(fastest_rise_c_per_min(np.array([0.0, 0.5, 2.0]), np.array([0.0, 50.0, 80.0]), 1.0))
    60.0
    """
    starts = np.concatenate([minutes, minutes - window_min])
    starts = starts[(starts >= minutes[0]) & (starts + window_min <= minutes[-1])]
    if starts.size == 0:
        return np.full(celsius.shape[:-1], np.nan)
    starts = _perhaps_fastest(minutes, celsius, starts, window_min)
    both = at_minutes(minutes, celsius, np.concatenate([starts, starts + window_min]))
    rises = both[..., starts.size :] - both[..., : starts.size]
    return np.asarray(rises.max(axis=-1) / window_min)


def _perhaps_fastest(minutes: Floats, celsius: Floats, starts: Floats, window_min: float) -> Floats:
    """Leave out the windows that are the fastest on none of the curves; of hundreds a few remain.

    A curve rises between two readings by no less than the least and no more than the most of all curves: summed over a
    window, these say between what its rise lies. One whose most is below the least of another is never the fastest.
    """
    steps = celsius[..., 1:] - celsius[..., :-1]
    over = tuple(range(steps.ndim - 1))
    ends = np.concatenate([starts, starts + window_min])
    least, most = (
        summed[starts.size :] - summed[: starts.size]
        for summed in (
            np.interp(ends, minutes, np.concatenate([[0.0], bounds.cumsum()]))
            for bounds in (steps.min(axis=over), steps.max(axis=over))
        )
    )
    # Where readings come once in a window, one begins at a reading as another ends there: the same window twice.
    return np.array(sorted(set(starts[most >= least.max() - _LOST_C].tolist())))


_LOST_C = 1e-6
"""Degrees that rounding may cost the sum of many steps."""


def rise_between_c_per_min(minutes: Floats, celsius: Floats, low_c: float, high_c: float) -> Floats:
    """Return the mean rise from `low_c` to `high_c` (°C) on the way up, °C/min.

    (high − low) / (t₂ − t₁): t₂ the moment the curve first reaches `high_c`, t₁ the last moment before it at which it
    stood at `low_c`. NaN where it never reaches `high_c` or was above `low_c` from the first reading on.

    >>> float(rise_between_c_per_min(np.array([0.0, 2.0, 4.0]), np.array([0.0, 150.0, 250.0]), 100.0, 200.0))
    60.0
    """
    return np.asarray(rates_between_c_per_min(minutes, celsius, [(low_c, high_c)])[0])


def fall_between_c_per_min(minutes: Floats, celsius: Floats, high_c: float, low_c: float) -> Floats:
    """Return the mean fall from `high_c` to `low_c` (°C) on the last way down, °C/min.

    The rise of the same curve run backwards in time: from the last moment at `high_c` to the first moment at `low_c`
    after it. NaN where the readings end before, or it was never so hot.

    >>> float(fall_between_c_per_min(np.array([0.0, 2.0, 4.0]), np.array([700.0, 600.0, 500.0]), 598.0, 548.0))
    50.0
    """
    return np.asarray(rates_between_c_per_min(minutes, celsius, [(high_c, low_c)])[0])


def rates_between_c_per_min(
    minutes: Floats, celsius: Floats, spans: Sequence[tuple[float, float]], extremes: Extremes | None = None
) -> Floats:
    """Return the mean rate from one temperature to another (°C) for each of k `spans`, °C/min, shape (k, ...).

    A rise where the second is the higher, as `rise_between_c_per_min`, else a fall, as `fall_between_c_per_min`.
    """
    curves = celsius.shape[:-1]
    if minutes.size < 2:
        return np.full((len(spans), *curves), np.nan)
    known = extremes or Extremes.of(minutes, celsius)
    signs = np.array([1.0 if start < end else -1.0 for start, end in spans])
    low, high = np.array([sorted(span) for span in spans]).T[..., np.newaxis]
    index = _passages(known, spans)
    moments = minutes[index] * signs[:, np.newaxis]
    readings = np.moveaxis(celsius, -1, 0).reshape(minutes.size, -1)[index]
    n = index.shape[1]
    hot = readings >= high[..., np.newaxis]
    reached = hot.argmax(axis=1)
    before = (readings <= low[..., np.newaxis]) & (np.arange(n)[:, np.newaxis] < reached[:, np.newaxis])
    left = np.minimum(n - 1 - before[:, ::-1].argmax(axis=1), n - 2)
    start, end = _crossings_min(moments, readings, np.array([left, np.maximum(reached - 1, 0)]), np.array([low, high]))
    run = end - start
    run[~(hot.any(axis=1) & before.any(axis=1) & (run > 0.0))] = np.nan
    return np.asarray((high - low) / run).reshape(-1, *curves)


def _passages(extremes: Extremes, spans: Sequence[tuple[float, float]]) -> NDArray[np.intp]:
    """Return the readings between which every curve passes from one temperature to the other, shape (k, m), m ≥ 2.

    They begin with the last reading that stands at or below the lower on all curves before any has reached the higher,
    and end with the first that stands at or above the higher on all; so back in time where it falls. Short ones end
    with their last reading repeated.
    """
    least, most = extremes.least.tolist(), extremes.most.tolist()
    n = len(least)
    ends = [
        _passage(least, most, *span) if span[0] < span[1] else _passage(least[::-1], most[::-1], *span[::-1])
        for span in spans
    ]
    longest = max(last - first for first, last in ends)
    index = [[min(first + step, last) for step in range(longest + 1)] for first, last in ends]
    return np.array(
        [own if start < end else [n - 1 - at for at in own] for own, (start, end) in zip(index, spans, strict=True)]
    )


def _passage(least: list[float], most: list[float], low_c: float, high_c: float) -> tuple[int, int]:
    """Return the first and the last reading of a passage upwards."""
    last = len(least) - 1
    begun = next((at for at, celsius in enumerate(most) if celsius >= high_c), 0)
    first = next((at for at in range(begun - 1, -1, -1) if most[at] <= low_c), 0)
    over_all = next((at for at, celsius in enumerate(least) if celsius >= high_c), last)
    return first, max(over_all, first + 1)


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
    left = minutes[1:-1].searchsorted(moments, side="right")
    share = (moments - minutes[left]) / (minutes[left + 1] - minutes[left])
    # A reading of all curves lies together in memory when they come from `main_fire`: take whole readings.
    readings = np.moveaxis(celsius, -1, 0)
    before, there = np.moveaxis(readings[left], 0, -1), np.moveaxis(readings[left + 1], 0, -1)
    there -= before
    there *= share
    there += before
    return there


def _crossings_min(minutes: Floats, celsius: Floats, left: NDArray[np.intp], level_c: Floats) -> Floats:
    """Return the minutes at which the straight lines from readings `left` to the next pass `level_c`, if they do.

    Shapes (k, n), (k, n, curves), (2, k, curves) and (2, k, 1): two lines in each of k passages.
    """
    passages, count, curves = celsius.shape
    row = left + count * np.arange(passages)[:, np.newaxis]
    at = row * curves + np.arange(curves)
    # By their places in one row of all, which costs a quarter of asking by passage, reading and curve.
    a, b, begin, end = celsius.take(at), celsius.take(at + curves), minutes.take(row), minutes.take(row + 1)
    step = b - a
    step[step == 0.0] = 1.0
    return np.asarray(begin + (level_c - a) / step * (end - begin))


def _slope(rise: Floats, run: Floats) -> Floats:
    return np.asarray(rise / np.where(run > 0.0, run, np.nan))
