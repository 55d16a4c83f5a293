"""What seems to be in a readings file of which nothing is known yet: its times, its columns, their units."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from builder.readings.cells import Grid, decode, to_grid
from builder.readings.log_file import unit_in_heading
from builder.readings.numbers import read_numbers
from builder.readings.times import looks_like_time, read_times

_TIMES = re.compile(r"time|elapsed|clock|minute|second|\bmin\b|\bsec\b", re.IGNORECASE)
_DATED = re.compile(r"\d{4}-\d{2}-\d{2}")
_SOON_S = 1800.0
"""A log whose first time is later than this on its own clock hardly counts from a start."""


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
    return SeenLog(time + 1, None if dated else _time_kind(cells), columns, dated.group() if dated else None)


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
