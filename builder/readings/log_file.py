"""A readings file to a Table: which column is whose, which unit, which sign is the decimal one."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass, field

import numpy as np

from builder.base.codes import problem
from builder.base.problem import Place, Problem
from builder.base.units import DEGREE_SIGNS
from builder.checks.firing import Probe, RawReadings
from builder.readings.cells import Grid, NotATable, decode, looks_like_reading, to_grid
from builder.readings.curve import Floats, Repair
from builder.readings.numbers import read_numbers
from builder.readings.rows import COLDEST_C, HOTTEST_C
from builder.readings.table import BLANKS, Column, Table, TableRead, missing, probes_of
from builder.readings.times import Times, looks_like_date, looks_like_time, read_times

_REMARKS = re.compile(r"\b(events?|notes?|remarks?|comments?|words?|what)\b", re.IGNORECASE)
_TIMES = re.compile(r"time|elapsed|clock|minute|second|\bmin\b|\bsec\b|\bhours?\b|\bt\b", re.IGNORECASE)


def _scale(letter: str, name: str) -> re.Pattern[str]:
    """Match a scale's letter in a heading: beside a degree sign, in brackets, or last after `temp`."""
    written = rf"[{DEGREE_SIGNS}]\s*{letter}|℃|{name}|\bdeg\.?\s*{letter}\b|[(\[]\s*{letter}\s*[)\]]|_{letter}\b"
    sign = "℃" if letter == "C" else "℉"
    return re.compile(rf"{written}|\btemp\S*,?\s+{letter}\s*$".replace("℃", sign), re.IGNORECASE)


_UNITS = (
    ("°C", _scale("C", "celsius")),
    ("°F", _scale("F", "fahrenheit")),
    ("mV", re.compile(r"\bmV\b|millivolt", re.IGNORECASE)),
)


@dataclass(slots=True)
class _LogReader:
    """Finds its way about one grid and collects what is wrong."""

    raw: RawReadings
    grid: Grid
    entry: Place
    """Where the entry names the file."""
    file: str
    """The readings file's own path."""
    problems: list[Problem] = field(default_factory=list)
    repairs: list[Repair] = field(default_factory=list)

    def fault(self, code: str, field_: str, message: str, help: str) -> None:
        self.problems.append(problem(code, self.entry, field_, message, help))

    # Which column is whose

    def find(self, column: str, field_: str) -> int | None:
        """Return the index of the column that is meant by a number or by words of its heading."""
        if column.strip().isascii() and column.strip().isdigit():
            number = int(column.strip()[:9])
            if 1 <= number <= self.grid.width:
                return number - 1
        else:
            found = _by_heading(column, self.grid.headings)
            if found is not None:
                return found
        named = ", ".join(f"`{name}`" for name in self.grid.headings if name)
        self.fault(
            "reading-column-missing", field_, f"The readings file has no column `{column}`.",
            f"Write a number from 1 to {self.grid.width}" + (f", or one of {named}." if named else "."),
        )  # fmt: skip
        return None

    def time_column(self) -> int | None:
        if self.raw.time_column is not None:
            return self.find(self.raw.time_column, "readings.time_column")
        taken = {int(name[:9]) - 1 for probe in self.raw.probes if (name := probe.column or "").isdecimal()}
        sample = self.grid.rows[:50]
        for looks in (looks_like_time, looks_like_date):
            for index in range(self.grid.width):
                hits = sum(looks(row[index]) for row in sample)
                if hits * 2 > len(sample) and index not in taken:
                    return None if looks is looks_like_date else index
        named = [index for index, name in enumerate(self.grid.headings) if _TIMES.search(name) and index not in taken]
        return named[0] if named else 0

    def columns(self, time: int) -> list[int | None]:
        """Return the column of each probe, None where it cannot be told."""
        probes = probes_of(self.raw)
        named = [
            self.find(probe.column, f"readings.probes[{index + 1}].column") if probe.column else None
            for index, probe in enumerate(probes)
        ]
        if all(probe.column for probe in probes):
            return named
        used = {time, *(index for index in named if index is not None)}
        free = [index for index in range(self.grid.width) if index not in used and self.numeric(index)]
        by_name = [
            named[index] if probe.column else _by_heading(probe.name, self.grid.headings)
            for index, probe in enumerate(probes)
        ]
        if None not in by_name and len(set(by_name)) == len(by_name):
            return by_name
        unnamed = [index for index, probe in enumerate(probes) if not probe.column]
        if len(unnamed) != len(free):
            self.fault(
                "reading-columns", "readings.probes",
                f"The readings file has {len(free)} columns of numbers beside the time, for {len(unnamed)} "
                f"probe{'' if len(unnamed) == 1 else 's'} without a `column`.",
                "Say which is whose: `column: 3` under each probe, counted from 1.",
            )  # fmt: skip
            return [None] * len(probes)
        for index, column in zip(unnamed, free, strict=True):
            named[index] = column
        return named

    def numeric(self, index: int) -> bool:
        """Tell whether most of what a column says is numbers, or words for a probe that gave none."""
        told = [cell for row in self.grid.rows[:200] if (cell := row[index]) not in BLANKS]
        return sum(map(looks_like_reading, told)) * 2 >= max(len(told), 1)

    def remarks(self, used: set[int | None]) -> tuple[str, ...]:
        for index, name in enumerate(self.grid.headings):
            if _REMARKS.search(name) and index not in used:
                return tuple(self.grid.column(index))
        words = [index for index in range(self.grid.width) if index not in used and not self.numeric(index)]
        if len(words) == 1 and not any(looks_like_date(row[words[0]]) for row in self.grid.rows[:5]):
            return tuple(self.grid.column(words[0]))
        return ("",) * len(self.grid.rows)

    # What the columns hold

    def times(self, column: int) -> Times:
        cells = self.grid.column(column)
        heading = self.grid.headings[column] if self.grid.headings else ""
        times = read_times(cells, self.raw.time, heading)
        self.repairs.extend(Repair("half seconds", note) for note in times.notes)
        bad = len(times.faults)
        if bad and bad == len(cells):
            index, fault = times.faults[0]
            place = Place(self.file, self.grid.lines[index])
            self.problems.append(problem("reading-time", place, "readings.file", fault.message, fault.help))
        elif bad:
            index, fault = times.faults[0]
            self.repairs.append(
                Repair(
                    "no time",
                    f"{_rows(bad)} of the readings file {'has' if bad == 1 else 'have'} no time that could be read, "
                    f"and {'was' if bad == 1 else 'were'} left out; the first is line {self.grid.lines[index]}.",
                    None,
                    cells[index][:40],
                )
            )
        return times

    def column(self, probe: Probe, number: int, index: int) -> Column:
        cells = self.grid.column(index)
        heading = self.grid.headings[index] if self.grid.headings else ""
        values, units, unread = read_numbers(cells)
        unit = self.unit(probe, number, heading, units)
        self.list_missing(probe, cells, unread)
        if unit != "mV":
            self.drop_impossible(probe, values, unit, cells)
        return Column(probe, values, unit, tuple(cell[:40] for cell in cells))

    def unit(self, probe: Probe, number: int, heading: str, units: Counter[str]) -> str:
        in_heading = unit_in_heading(heading)
        if units:
            return units.most_common(1)[0][0]
        if probe.unit and in_heading and probe.unit != in_heading:
            self.fault(
                "reading-unit", f"readings.probes[{number + 1}].unit",
                f"The entry says {probe.unit} for `{probe.name}`; its column is headed `{heading[:40]}`.",
                f"Write `unit: {in_heading}`, or correct the file.",
            )  # fmt: skip
        if probe.unit or in_heading:
            return probe.unit or in_heading or "°C"
        if self.raw.bare_unit:
            return self.raw.bare_unit
        self.fault(
            "quantity-unit", f"readings.probes[{number + 1}].unit",
            f"The numbers of `{probe.name}` in the readings file have no unit, and nothing says which one is meant.",
            "Add `unit: °C` (or `°F`, or `mV`) to the probe.",
        )  # fmt: skip
        return "°C"

    def list_missing(self, probe: Probe, cells: Sequence[str], unread: Sequence[int]) -> None:
        blank = [cells[index] for index in unread if cells[index] in BLANKS]
        words = [cells[index] for index in unread if cells[index] not in BLANKS]
        for kind, found in (("blank", blank), ("not a number", words)):
            if found:
                self.repairs.append(missing(kind, probe, len(cells), found))

    def drop_impossible(self, probe: Probe, values: Floats, unit: str, cells: Sequence[str]) -> None:
        celsius = (values - 32) / 1.8 if unit == "°F" else values
        out = np.flatnonzero((celsius > HOTTEST_C) | (celsius < COLDEST_C))
        if out.size:
            values[out] = np.nan
            self.repairs.append(
                Repair(
                    "impossible",
                    f"{_rows(out.size)} of {probe.name} held what no wood fire can show "
                    f"(`{cells[out[0]][:40]}` first), and {'was' if out.size == 1 else 'were'} left out.",
                    None,
                    cells[out[0]][:40],
                )
            )


def read_log(raw: RawReadings, data: bytes, entry: Place, file: str) -> TableRead:
    """Read a readings file's bytes; `entry` is where the entry names it, `file` its own path for places."""
    try:
        grid = to_grid(decode(data))
    except NotATable as refused:
        place = Place(file, refused.line)
        return TableRead(None, (problem("reading-file", place, "readings.file", refused.why, refused.help),))
    reader = _LogReader(raw, grid, entry, file)
    time = reader.time_column()
    if time is None:
        if not reader.problems:
            reader.fault(
                "reading-time", "readings.time_column", "The readings file has dates without times of day.",
                "Name the column of the times: `time_column: 2`, counted from 1.",
            )  # fmt: skip
        return TableRead(None, tuple(reader.problems))
    places = reader.columns(time)
    times = reader.times(time)
    columns = tuple(
        reader.column(probe, number, index)
        for number, (probe, index) in enumerate(zip(probes_of(raw), places, strict=True))
        if index is not None
    )
    remarks = reader.remarks({time, *places})
    table = Table(times.seconds, times.on_clock, columns, remarks, tuple(reader.repairs))
    return TableRead(table, tuple(reader.problems))


def unit_in_heading(heading: str) -> str | None:
    """Return the unit that a column's heading names, or None.

    >>> unit_in_heading("Temp (°F)"), unit_in_heading("wall")
    ('°F', None)
    """
    return next((unit for unit, pattern in _UNITS if pattern.search(heading)), None)


def _by_heading(words: str, headings: Sequence[str]) -> int | None:
    """Find the one heading that is these words, or begins with them, or holds them."""
    wanted = _plain(words)
    plain = [_plain(name) for name in headings]
    tests = (
        lambda name: name == wanted,
        lambda name: re.sub(r"\s*[(\[].*", "", name) == wanted,
        lambda name: name.startswith(wanted),
        lambda name: wanted in name,
    )
    for test in tests:
        found = [index for index, name in enumerate(plain) if wanted and test(name)]
        if len(found) == 1:
            return found[0]
    return None


def _plain(words: str) -> str:
    return re.sub(r"\s+", " ", words.casefold().replace("º", "°").replace("_", " ")).strip()


def _rows(count: int) -> str:
    return "One row" if count == 1 else f"{count:,} rows"
