"""What seems to be in a readings file of which nothing is known yet: its times, its columns, their units."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from builder.readings.cells import Grid, decode, to_grid
from builder.readings.curve import Floats
from builder.readings.log_file import unit_in_heading
from builder.readings.numbers import read_numbers
from builder.readings.times import DAY_S, looks_like_time, read_times

_TIMES = re.compile(r"time|elapsed|clock|minute|second|\bmin\b|\bsec\b", re.IGNORECASE)
_DATED = re.compile(r"\d{4}-\d{2}-\d{2}")
_SOON_S = 180.0
"""A log whose first time is later than this on its own clock hardly counts from a start."""
_RISE_S = 60.0
"""The rise is looked at over so many seconds, as in the figure of the fastest rise."""
_SLOW = 0.1
"""Going back from the fastest rise, a rise below this share of it is no longer the main fire's: a warm-up is slower
by far. A judgement that is only ever offered to the potter."""


@dataclass(frozen=True, slots=True)
class SeenMoment:
    """A reading that seems to matter."""

    time: str
    """When, as `lit` is written: `10:42:05` on the clock, `4:30` elapsed."""
    value: float
    """What the first probe showed."""


@dataclass(frozen=True, slots=True)
class SeenColumn:
    """A column that could be a probe's."""

    number: int
    """Its number, from 1."""
    heading: str
    unit: str | None
    """Unit that its heading or its cells name; None where nothing does."""
    highest: float
    """Highest number in it."""


@dataclass(frozen=True, slots=True)
class SeenLog:
    """What seems to be in a readings file."""

    time_column: int
    """Number of the time's column, from 1."""
    time: str | None
    """`elapsed` or `clock`; None where the times carry their dates."""
    columns: tuple[SeenColumn, ...]
    """Columns of numbers that change; at least one."""
    date: str | None
    """Day of the first reading, where the file says it."""
    peak: SeenMoment | None = None
    """The highest reading of the first column."""
    lit: SeenMoment | None = None
    """Where the first column begins to rise steeply; None where it does so from the first reading on."""


def see(data: bytes) -> SeenLog | None:
    """Look into a readings file's bytes; None where no times or no numbers are found. Raises NotATable."""
    grid = to_grid(decode(data))
    time = _time_column(grid)
    if time is None:
        return None
    columns = tuple(
        seen
        for index in range(grid.width)
        if index != time and (seen := _column(index, _heading(grid, index), grid.column(index))) is not None
    )
    if not columns:
        return None
    cells = grid.column(time)
    dated = _DATED.match(cells[0])
    kind = None if dated else _time_kind(cells)
    peak, lit = _moments(grid, time, kind, columns[0].number - 1)
    return SeenLog(time + 1, kind, columns, dated.group() if dated else None, peak, lit)


def _moments(grid: Grid, time: int, kind: str | None, column: int) -> tuple[SeenMoment | None, SeenMoment | None]:
    """Find the highest reading and the lighting in one column."""
    times = read_times(grid.column(time), kind, _heading(grid, time))
    values, _, _ = read_numbers(grid.column(column))
    known = ~np.isnan(times.seconds) & ~np.isnan(values)
    if known.sum() < 2:
        return None, None
    order = np.argsort(times.seconds[known], kind="stable")
    seconds, values = times.seconds[known][order], values[known][order]
    hottest = int(np.argmax(values))
    peak = SeenMoment(_as_lit(seconds[hottest], times.on_clock), float(values[hottest]))
    lit = lighting(seconds[: hottest + 1], values[: hottest + 1])
    return peak, SeenMoment(_as_lit(seconds[lit], times.on_clock), float(values[lit])) if lit else None


def lighting(seconds: Floats, values: Floats) -> int:
    """Return the index of the reading from which the values rise steeply to their last, the peak.

    From the start of the fastest rise over a minute it goes back as long as the rise is a tenth of that or more.
    `seconds` is in order, shape (n,); so are the `values`, in any unit.
    """
    rises = np.interp(seconds + _RISE_S, seconds, values) - values
    at = int(np.argmax(rises))
    least = _SLOW * float(rises[at])
    while at > 0 and rises[at - 1] >= least and values[at - 1] <= values[at]:
        at -= 1
    # A rise over a minute begins up to a minute before the fire: the last level reading in it is the lighting.
    while at + 1 < len(values) and values[at + 1] - values[at] < least * (seconds[at + 1] - seconds[at]) / _RISE_S:
        at += 1
    return at


def _as_lit(second: float, on_clock: bool) -> str:
    whole = int(second % DAY_S if on_clock else second)
    hours, minutes, seconds = whole // 3600, whole // 60 % 60, whole % 60
    return f"{hours}:{minutes:02}:{seconds:02}" if on_clock or hours else f"{minutes}:{seconds:02}"


def _heading(grid: Grid, index: int) -> str:
    return grid.headings[index] if grid.headings else ""


def _time_column(grid: Grid) -> int | None:
    sample = grid.rows[:50]
    for index in range(grid.width):
        if sum(looks_like_time(row[index]) for row in sample) * 2 > len(sample):
            return index
    return next((index for index, name in enumerate(grid.headings) if _TIMES.search(name)), None)


def _time_kind(cells: Sequence[str]) -> str:
    if not looks_like_time(cells[0]):
        return "elapsed"
    first = read_times(cells[:1], "elapsed").seconds
    return "elapsed" if not np.isnan(first[0]) and first[0] < _SOON_S else "clock"


def _column(index: int, heading: str, cells: Sequence[str]) -> SeenColumn | None:
    values, units, _ = read_numbers(cells)
    known = values[~np.isnan(values)]
    if known.size * 2 < len(cells) or float(np.ptp(known)) == 0.0:
        return None
    unit = units.most_common(1)[0][0] if units else unit_in_heading(heading)
    return SeenColumn(index + 1, heading, unit, float(known.max()))
