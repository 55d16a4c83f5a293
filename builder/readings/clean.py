"""Readings in order, without doubles and open circuits: what is dropped or doubted is told, nothing is smoothed.

A spike is a reading, or up to three within five seconds, that stands above (or below) the readings on both sides by
more than a thermometer can move there and back: 100 °C, or 100 °C a second between the two where that is more, and
never more than 800 °C. Bare probes in a passing grass fire moved up to 45 °C between two readings of the half second
and did not come straight back (real logs in `tests/readings/real/`), so both sides are asked, and a fire's front is
safe. Readings more than 90 seconds apart are not judged: in a minute and a half a fire can do anything. 800 °C leaves
a hand log once a minute alone: for a reading to be dropped from it, the ware would have to gain and lose more than
that within two rows. Where more than a tenth of the readings would be spikes, the probe is restless all through: then
nothing can be told apart, and nothing is dropped.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from builder.readings.curve import Floats

Mask = NDArray[np.bool_]

LEAST_SPIKE_C = 100.0
FASTEST_C_PER_S = 100.0
MOST_STEP_C = 800.0
JUDGED_WITHIN_S = 90.0
SPIKE_WIDTHS = (1, 2, 3)
SPIKE_LASTS_S = 5.0
SPIKES_SHARE = 0.1
SPIKE_NEIGHBOURS = 4

STILL_READINGS, STILL_MIN, STILL_ABOVE_START_C = 8, 4.0, 100.0
"""A hot probe that shows one value so often and so long has probably frozen; common practice, no source."""
TOP_READINGS, TOP_FROM_C = 4, 300.0
"""So many equal highest readings in a row, and so hot, look like the end of a scale; common practice, no source."""
PULLED_FALL_C, PULLED_WITHIN_MIN = 400.0, 1.0
"""Ware in a fire does not lose so much in a minute, and never regain half of it; a drawn probe does."""
GAP_MIN, GAP_TIMES = 2.0, 5.0
"""A gap is noted from two minutes on where it is five times the usual one."""


@dataclass(frozen=True, slots=True)
class Run:
    """A stretch of readings, first and last index."""

    first: int
    last: int


def order_of(minutes: Floats) -> tuple[NDArray[np.intp], int]:
    """Return the indices that put times in order, equal ones as they stood, and how many stood out of order."""
    out_of_order = int(np.count_nonzero(minutes < np.maximum.accumulate(minutes))) if minutes.size else 0
    return np.argsort(minutes, kind="stable"), out_of_order


def doubles(minutes: Floats) -> tuple[Run, ...]:
    """Return the stretches of ordered times that are one and the same moment."""
    return runs(np.diff(minutes) == 0)


def runs(same_as_next: Mask) -> tuple[Run, ...]:
    """Return the stretches in which each reading is followed by one that belongs to it, in order."""
    edges = np.diff(np.concatenate(([0], same_as_next.astype(np.int8), [0])))
    starts, ends = np.flatnonzero(edges == 1), np.flatnonzero(edges == -1)
    return tuple(Run(int(first), int(last)) for first, last in zip(starts, ends, strict=True))


def spikes(minutes: Floats, celsius: Floats) -> Mask:
    """Mark the readings, shape (n,), that no thermometer in a fire can have shown, by the rule of this file."""
    marked = np.zeros(minutes.size, dtype=bool)
    if minutes.size < 3 or np.ptp(celsius) <= LEAST_SPIKE_C:
        return marked
    seconds = minutes * 60.0
    for width in SPIKE_WIDTHS:
        count = minutes.size - width - 1
        if count < 1:
            break
        for sign in (1.0, -1.0):
            found = _spikes_of_width(seconds, sign * celsius, width, count)
            for offset in range(1, width + 1):
                marked[offset : offset + count] |= found
    return _far_from_neighbours(celsius, marked)


def _far_from_neighbours(celsius: Floats, marked: Mask) -> Mask:
    """Unmark a sound reading that stands between two spikes: it is near the middle of its neighbourhood."""
    for index in np.flatnonzero(marked[: celsius.size]).tolist():
        around = celsius[max(index - SPIKE_NEIGHBOURS, 0) : index + SPIKE_NEIGHBOURS + 1]
        if abs(celsius[index] - np.median(around)) < LEAST_SPIKE_C / 2:
            marked[index] = False
    return marked


def _spikes_of_width(seconds: Floats, celsius: Floats, width: int, count: int) -> Mask:
    """Tell for each reading whether the `width` readings after it are a spike, shape (count,)."""
    before, after = celsius[:count], celsius[width + 1 :]
    inner = [celsius[offset : offset + count] for offset in range(1, width + 1)]
    up_s = seconds[1 : count + 1] - seconds[:count]
    down_s = seconds[width + 1 :] - seconds[width : width + count]
    lasts_s = seconds[width : width + count] - seconds[1 : count + 1]
    lowest = np.minimum.reduce(inner)
    rise, fall = lowest - before, lowest - after
    found: Mask = (
        (rise > _step_c(up_s))
        & (fall > _step_c(down_s))
        & (np.maximum(up_s, down_s) <= JUDGED_WITHIN_S)
        & (lasts_s <= SPIKE_LASTS_S)
        & (np.abs(before - after) < np.minimum(rise, fall) / 2)
    )
    return found


def _step_c(seconds: Floats) -> Floats:
    """Return the largest step that is believed over a time."""
    return np.clip(FASTEST_C_PER_S * seconds, LEAST_SPIKE_C, MOST_STEP_C)


def restless(marked: Mask) -> bool:
    """Tell whether so many readings are marked as spikes that none can be told from a sound one."""
    return int(np.count_nonzero(marked)) > max(3, SPIKES_SHARE * marked.size)


def frozen(minutes: Floats, celsius: Floats) -> tuple[Run, ...]:
    """Return the stretches in which a hot probe did not move at all, the topmost ones apart."""
    if minutes.size < STILL_READINGS:
        return ()
    low, high = celsius.min() + STILL_ABOVE_START_C, celsius.max()
    return tuple(
        run
        for run in runs(np.diff(celsius) == 0)
        if run.last - run.first + 1 >= STILL_READINGS
        and minutes[run.last] - minutes[run.first] >= STILL_MIN
        and low < celsius[run.first] < high
    )


def topped_out(celsius: Floats) -> Run | None:
    """Return the first stretch in which the highest reading repeats so often that the scale may have ended."""
    high = celsius.max()
    if high < TOP_FROM_C:
        return None
    at_top = celsius == high
    for run in runs(at_top[:-1] & at_top[1:]):
        if run.last - run.first + 1 >= TOP_READINGS:
            return run
    return None


def pulled_out(minutes: Floats, celsius: Floats) -> int | None:
    """Return the index of the first reading after a fall that only a probe drawn from the fire can show."""
    if minutes.size < 2:
        return None
    steps = (np.diff(celsius) < -PULLED_FALL_C) & (np.diff(minutes) <= PULLED_WITHIN_MIN)
    for index in np.flatnonzero(steps):
        if celsius[index + 1 :].max() < (celsius[index] + celsius[index + 1]) / 2:
            return int(index) + 1
    return None


def largest_gap(minutes: Floats) -> tuple[int, float] | None:
    """Return the index before the largest gap and its minutes, where it is much larger than the usual one."""
    if minutes.size < 3:
        return None
    gaps = np.diff(minutes)
    index = int(gaps.argmax())
    noted = gaps[index] > GAP_MIN and gaps[index] > GAP_TIMES * float(np.median(gaps))
    return (index, float(gaps[index])) if noted else None
