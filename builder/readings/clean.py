"""Readings in order, without doubles and open circuits: what is dropped or doubted is told, nothing is smoothed.

A spike is a reading, or up to three within five seconds, that stands above (or below) the readings on both sides, and
above where each side's own trend was going, by more than a thermometer in a fire moves there and back. How much that
is depends on how far apart the readings stand (`believed_c`): 100 °C up to one second, growing to 400 °C at four
seconds, which a flame that licks a bare tip can do; from half a minute on it grows to 800 °C at a minute, so that a
hand log once a minute keeps its flicker. A reading above 1260 °C, where the wire of type K ends and where no open wood
fire goes, is judged more sternly: to stand 200 °C above both sides is enough. Bare probes in a passing grass
fire moved up to 45 °C between two readings of the half second and did not come straight back (real logs in
`tests/readings/real/`), so both sides are asked, and a fire's front is safe. Readings more than 90 seconds apart are
not judged: in a minute and a half a fire can do anything. A lone reading that is believed but stands far above or
below both its neighbours is told (`lone`). Where more than a tenth of the readings would be spikes, the probe is
restless all through: then nothing can be told apart, and nothing is dropped.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from builder.readings.curve import Floats

Mask = NDArray[np.bool_]

LEAST_SPIKE_C = 100.0
"""A step there and back that is believed at any speed, °C: common practice and the real logs."""
BELIEVED_S, BELIEVED_C = (0.0, 1.0, 4.0, 30.0, 60.0), (LEAST_SPIKE_C, LEAST_SPIKE_C, 400.0, 400.0, 800.0)
"""Seconds between readings, and what is believed to go there and back, °C: common practice and the real logs."""
REACH_C, BEYOND_REACH_STEP_C = 1260.0, 200.0
"""The end of type K (ASTM E230), above what open fires come to; there so large a jump and back is a spike."""
LONE_C, LONE_FROM_S = 250.0, 5.0
"""A believed reading that stands so far off both its neighbours, read further apart than this, is told."""
JUDGED_WITHIN_S = 90.0
"""Readings further apart are not judged, s: a fire can do anything in that time."""
SPIKE_WIDTHS = (1, 2, 3)
"""Readings in a row that a spike may have."""
SPIKE_LASTS_S, BEYOND_REACH_LASTS_S = 5.0, 60.0
"""How long a spike may last, s; and one beyond the reach of a fire."""
SPIKES_SHARE = 0.1
"""Share of the readings from which on spikes cannot be told from sound readings: common practice, no source."""
SPIKE_NEIGHBOURS = 4
"""Readings on each side among which a sound one between two spikes stands near the middle."""

STILL_READINGS, STILL_MIN, STILL_ABOVE_START_C = 8, 4.0, 100.0
"""A hot probe that shows one value so often and so long has probably frozen; common practice, no source."""
TOP_READINGS, TOP_FROM_C, TOP_FALL_C = 4, 300.0, 15.0
"""So many equal highest readings in a row, and so hot, look like the end of a scale where, within as long a time before
and after, it stood further below: a parabola within 1 °C of its top falls by 9 °C more, and its reading by 10."""
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
    return runs(minutes[1:] == minutes[:-1])


def runs(same_as_next: Mask) -> tuple[Run, ...]:
    """Return the stretches in which each reading is followed by one that belongs to it, in order."""
    if not same_as_next.any():
        return ()
    edges = np.diff(np.concatenate(([0], same_as_next.astype(np.int8), [0])))
    starts, ends = np.flatnonzero(edges == 1), np.flatnonzero(edges == -1)
    return tuple(Run(int(first), int(last)) for first, last in zip(starts, ends, strict=True))


def believed_c(seconds: Floats | float) -> Floats:
    """Return the largest step there and back that is believed of readings `seconds` apart, °C.

    >>> believed_c(np.array([0.5, 4.0, 10.0, 45.0, 60.0])).tolist()
    [100.0, 400.0, 400.0, 600.0, 800.0]
    """
    return np.asarray(np.interp(seconds, BELIEVED_S, BELIEVED_C))


def spikes(minutes: Floats, celsius: Floats) -> Mask:
    """Mark the readings, shape (n,), that no thermometer in a fire can have shown, by the rule of this file."""
    marked = np.zeros(minutes.size, dtype=bool)
    if minutes.size < 3 or _steps_there_and_back_c(celsius) <= LEAST_SPIKE_C:
        return marked
    for width in SPIKE_WIDTHS:
        if minutes.size < width + 2:
            break
        for upwards in (True, False):
            jump = Jump.of(minutes * 60.0, celsius if upwards else -celsius, width)
            found = jump.is_spike(REACH_C if upwards else np.inf)
            for offset in range(1, width + 1):
                marked[offset : offset + found.size] |= found
    return _far_from_neighbours(celsius, marked)


def _steps_there_and_back_c(celsius: Floats) -> float:
    """Return more than what any readings can stand off both their sides: the lesser of the largest steps, °C."""
    steps = celsius[1:] - celsius[:-1]
    return min(float(steps.max()), -float(steps.min()))


def lone(minutes: Floats, celsius: Floats) -> int | None:
    """Return the index of the reading that stands farthest off both its neighbours, where that is far; else None."""
    if minutes.size < 3 or _steps_there_and_back_c(celsius) <= LONE_C:
        return None
    jumps = [Jump.of(minutes * 60.0, sign * celsius, 1) for sign in (1.0, -1.0)]
    off_c = np.maximum(*(np.where(jump.level, jump.off_c, 0.0) for jump in jumps))
    off_c[(jumps[0].apart_s > JUDGED_WITHIN_S) | (jumps[0].apart_s < LONE_FROM_S)] = 0.0
    index = int(off_c.argmax())
    return index + 1 if off_c[index] > LONE_C else None


@dataclass(frozen=True, slots=True)
class Jump:
    """For each reading but the last few: how the readings after it stand above their two sides, shape (count,) each."""

    lowest_c: Floats
    """The lowest of the readings between the two sides."""
    off_c: Floats
    """How far that lies above both sides and above where each side was going."""
    above_c: Floats
    """How far that lies above both sides alone."""
    apart_s: Floats
    """The longer of the times from the sides to the readings between."""
    lasts_s: Floats
    """Time from the first to the last of the readings between."""
    level: Mask
    """The two sides stand level, compared with the jump."""

    @classmethod
    def of(cls, seconds: Floats, celsius: Floats, width: int) -> Jump:
        """Look at every `width` readings in a row and the readings on both sides of them."""
        count = seconds.size - width - 1
        before, after = celsius[:count], celsius[width + 1 :]
        up_s = seconds[1 : count + 1] - seconds[:count]
        down_s = seconds[width + 1 :] - seconds[width : width + count]
        lowest = np.minimum.reduce([celsius[offset : offset + count] for offset in range(1, width + 1)])
        rising = np.concatenate(([0.0], _slopes(seconds, celsius)[: count - 1]))
        falling = np.concatenate((-_slopes(seconds, celsius)[width + 1 :], [0.0]))
        on_the_way_up = before + np.maximum(rising, 0.0) * up_s
        on_the_way_down = after + np.maximum(falling, 0.0) * down_s
        off = lowest - np.maximum(on_the_way_up, on_the_way_down)
        above = lowest - np.maximum(before, after)
        level = np.abs(before - after) < above / 2
        lasts = seconds[width : width + count] - seconds[1 : count + 1]
        return cls(lowest, off, above, np.maximum(up_s, down_s), lasts, level)

    def is_spike(self, reach_c: float) -> Mask:
        """Tell which of the jumps no thermometer in a fire can follow; above `reach_c` less is believed."""
        usual = (self.off_c > believed_c(self.apart_s)) & (self.lasts_s <= SPIKE_LASTS_S) & self.level
        stern_c = np.minimum(BEYOND_REACH_STEP_C, believed_c(self.apart_s))
        beyond = (self.lowest_c > reach_c) & (self.above_c > stern_c) & (self.lasts_s <= BEYOND_REACH_LASTS_S)
        found: Mask = (usual | beyond) & (self.apart_s <= JUDGED_WITHIN_S)
        return found


def _slopes(seconds: Floats, celsius: Floats) -> Floats:
    """Return the rise from each reading to the next, °C a second; 0 between readings of (nearly) one moment."""
    steps = seconds[1:] - seconds[:-1]
    return np.divide(celsius[1:] - celsius[:-1], steps, out=np.zeros_like(steps), where=steps > 1e-3)


def _far_from_neighbours(celsius: Floats, marked: Mask) -> Mask:
    """Unmark a sound reading that stands between two spikes: it is near the middle of its neighbourhood."""
    for index in np.flatnonzero(marked[: celsius.size]).tolist():
        around = celsius[max(index - SPIKE_NEIGHBOURS, 0) : index + SPIKE_NEIGHBOURS + 1]
        if abs(celsius[index] - np.median(around)) < LEAST_SPIKE_C / 2:
            marked[index] = False
    return marked


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
        for run in runs(celsius[1:] == celsius[:-1])
        if run.last - run.first + 1 >= STILL_READINGS
        and minutes[run.last] - minutes[run.first] >= STILL_MIN
        and low < celsius[run.first] < high
    )


def topped_out(minutes: Floats, celsius: Floats) -> Run | None:
    """Return the first stretch in which the highest reading repeats as at the end of a scale.

    A fire that turns evenly also shows its highest degree again and again, for a logger reads often: for as long as it
    stays within one step of its display, then to fall by no more than nine steps in as long a time again, on its slower
    side. At the end of a scale it comes and goes on steeper ways.
    """
    high = celsius.max()
    if high < TOP_FROM_C:
        return None
    at_top = celsius == high
    for run in runs(at_top[:-1] & at_top[1:]):
        if run.last - run.first + 1 >= TOP_READINGS and _cut_off(minutes, celsius, run):
            return run
    return None


def _cut_off(minutes: Floats, celsius: Floats, run: Run) -> bool:
    """Tell whether a curve comes to and leaves a level stretch on steeper ways than a rounded top would."""
    lasts = minutes[run.last] - minutes[run.first]
    sides = [minutes[run.first] - lasts] * (run.first > 0) + [minutes[run.last] + lasts] * (run.last < minutes.size - 1)
    return bool(np.all(celsius[run.first] - np.interp(sides, minutes, celsius) > TOP_FALL_C))


def pulled_out(minutes: Floats, celsius: Floats) -> int | None:
    """Return the index of the first reading after a fall that only a probe drawn from the fire can show."""
    if minutes.size < 2:
        return None
    falls, takes = celsius[:-1] - celsius[1:], minutes[1:] - minutes[:-1]
    steps = (falls > PULLED_FALL_C) & (takes <= PULLED_WITHIN_MIN)
    for index in np.flatnonzero(steps):
        if celsius[index + 1 :].max() < (celsius[index] + celsius[index + 1]) / 2:
            return int(index) + 1
    return None


def largest_gap(minutes: Floats) -> tuple[int, float] | None:
    """Return the index before the largest gap and its minutes, where it is much larger than the usual one."""
    if minutes.size < 3:
        return None
    gaps = minutes[1:] - minutes[:-1]
    index = int(gaps.argmax())
    noted = gaps[index] > GAP_MIN and gaps[index] > GAP_TIMES * float(np.median(gaps))
    return (index, float(gaps[index])) if noted else None
