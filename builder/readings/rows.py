"""Inline rows: `4:30  565 °C  flames over the rim`, a row a reading, to a Table."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field, replace
from functools import cache

import numpy as np
from numpy.typing import NDArray

from builder.base.codes import problem
from builder.base.problem import Place, Problem
from builder.base.quantity import QuantityFault, parse_quantity
from builder.base.units import DEGREE_SIGNS, find_unit, from_canonical
from builder.checks.firing import Probe, RawReadings
from builder.readings.curve import Repair
from builder.readings.table import BLANKS, Column, Table, TableRead, is_missing_in_row, missing, probes_of
from builder.readings.times import read_times

FIELD = "readings.rows"
HOTTEST_C, COLDEST_C = 1800.0, -90.0
"""A value beyond these was not read off a wood fire: wood's adiabatic flame is below 2,000 °C, and no weather
station has ever been colder than −89.2 °C (Vostok, 1983; WMO archive of extremes)."""

_END = r"(?=[\s,;|]|\Z)"
_TIME = re.compile(
    r"\s*(\d{1,4}[-/.]\d{1,2}[-/.]\d{1,4}[T ]\d{1,2}:\d{1,2}(?::\d{1,2}(?:\.\d+)?)?(?:\s?[ap]\.?m\b\.?)?"
    r"|\d{1,4}:\d{1,2}(?:\.\d+)?(?::\d{1,2}(?:\.\d+)?)?(?:\s?[ap]\.?m\b\.?)?"
    r"|(?:\d+(?:\.\d+)?\s*(?:h|hr|hrs|hours?|min|mins|minutes?|s|secs?|seconds?)\b\s*)+"
    rf"|\S+?){_END}",
    re.IGNORECASE | re.ASCII,
)
_GAP = re.compile(r"[\s,;|]*")
_PLAIN = re.compile(rf"(-?[0-9]{{1,4}}(?:\.[0-9]{{1,2}})?) ?(°[CF]|[CF]|mV)?{_END}")
_USUAL_CELL = r"[ \t]+((-?[0-9]{1,4}(?:\.[0-9]{1,2})?) ?(°[CF]))"
_SCALE = rf"(?:[{DEGREE_SIGNS}]\s*[CFK]|deg(?:rees?)?\.?\s*[CFK]|[CFK]|℃|℉|[mµμ]V|celsius|fahrenheit)"
_DIGITS = rf"(?:\d{{1,3}}(?:[ \u00a0\u2009\u202f]\d{{3}})+(?=\s*{_SCALE})|\d[\d.,'\u00a0\u2009\u202f]*\d|\d)"
_VALUE = re.compile(
    rf"(?:(?:about|approx\.?|around|ca\.?|c\.|~|≈)\s*)?[-+−–]?{_DIGITS}\s*"
    rf"(?:(?:{_SCALE}\s*)?(?:-|–|to\b|±)\s*{_DIGITS}\s*(?={_SCALE}))?(?:{_SCALE})?{_END}",
    re.IGNORECASE,
)
_BOUND = re.compile(
    rf"[<>≤≥]=?\s*({_DIGITS}(?:\s*{_SCALE})?){_END}"
    r"|(?:over|above|beyond|under|below|more than|less than|at least|up to|max\.?|maximum|min\.?)\s+"
    rf"({_DIGITS}\s*{_SCALE})\s*\Z",
    re.IGNORECASE,
)
"""`>1000 °C`, or a row that is `over 1000 °C`: not to be taken for the words of an event."""
_BULLET = re.compile(r"\s*[-–*•]\s+(?=\d{1,4}[:h.])")
_SPACED = re.compile(rf"\d{{1,3}} \d{{3}}(?= ?{_SCALE}{_END})")
_TOKEN = re.compile(r"[^\s,;|]+")
_LOOKS_LIKE_VALUE = re.compile(r"[-+−–~≈]?\d")


@cache
def _usual_row(probes: int) -> re.Pattern[str]:
    """Match a row of minutes, seconds and degrees, with words or none: what is read of it is what the long way reads.

    The words hold no digit, without which nothing in them can be a value. It finds such rows among many lines too.
    """
    cells = _USUAL_CELL * probes
    return re.compile(rf"^[ \t]*([0-9]{{1,4}}:[0-5][0-9]){cells}(?:[ \t]+([A-Za-z][^\d\n]*)|[ \t]*)$", re.MULTILINE)


@dataclass(slots=True)
class _Cell:
    """One probe's value in one row."""

    value: float
    unit: str
    as_read: str
    start: int


_NO_CELL = _Cell(float("nan"), "", "", 0)


@dataclass(slots=True)
class _Row:
    """One row, taken apart."""

    line: int
    time: str
    cells: list[_Cell]
    words: str
    """What stands after the values."""


@dataclass(slots=True)
class _RowReader:
    """Takes rows apart and collects what is wrong with them."""

    raw: RawReadings
    file: str
    problems: list[Problem] = field(default_factory=list)

    def fault(self, code: str, line: int, offset: int, message: str, help: str) -> None:
        place = Place(self.file, line, self.raw.rows_column + offset)
        self.problems.append(problem(code, place, FIELD, message, help))

    def row(self, line: int, text: str, probes: Sequence[Probe]) -> _Row | None:
        usual = _usual_row(len(probes)).match(text)
        if usual is not None:
            return self.usual(line, usual)
        bullet = _BULLET.match(text)
        if bullet:
            mark = bullet.group().strip()
            message = f"`{mark}` begins an item of a list, and rows are plain lines."
            self.fault("reading-time", line, bullet.end() - len(bullet.group().lstrip()), message, "Take it away.")
            text = " " * bullet.end() + text[bullet.end() :]
        time = _TIME.match(text)
        if time is None:
            return None
        cells: list[_Cell] = []
        at = time.end()
        comma_parted = text[at : at + 1] == "," and text[at + 1 : at + 2].strip() != ""
        for probe in probes:
            start = _skip(text, at)
            found = self.cell(line, text, start, probe, comma_parted)
            if found is None:
                break
            cell, at = found
            cells.append(cell)
        at = _skip(text, at)
        if not self.complete(line, text, at, len(cells), len(probes)):
            cells = []
        return _Row(line, time[1].strip(), cells, text[at:].strip())

    def usual(self, line: int, found: re.Match[str]) -> _Row:
        """Take a row apart that is a time and degrees, which most are."""
        time, *parts, words = found.groups("")
        cells = [
            self.judged(line, _Cell(float(parts[at + 1]), parts[at + 2], parts[at], found.start(at + 2)))
            for at in range(0, len(parts), 3)
        ]
        return _Row(line, time, cells, words.strip())

    def complete(self, line: int, text: str, at: int, found: int, wanted: int) -> bool:
        """Hold that a row has a value for each probe and none over; a row of words alone is an event."""
        rest = text[at:]
        if found == wanted:
            over = _VALUE.match(rest)
            if over is None or not re.search(_SCALE + r"\s*\Z", over.group(), re.IGNORECASE):
                return True
            self.fault(
                "reading-columns", line, at,
                f"`{over.group().strip()}` is one temperature more than there are probes ({wanted}).",
                "Name a probe for each column under `probes`, or take the value away.",
            )  # fmt: skip
            return False
        token = _TOKEN.match(rest)
        bound = _BOUND.match(rest)
        if bound:
            shown = bound[1] or bound[2]
            self.fault(
                "reading-value", line, at, f"`{bound.group().strip()}` is a bound and no reading.",
                f"Write what was shown, `{shown}`; where the thermometer can show no more, say so under its probe: "
                f"`limit: {shown}`.",
            )  # fmt: skip
        elif token and _LOOKS_LIKE_VALUE.match(rest):
            self.fault(
                "reading-value", line, at, f"`{token.group()}` is not a temperature.",
                "Write a number with its unit, like `565 °C`, or `-` where there was no reading.",
            )  # fmt: skip
        elif found or not rest.strip():
            so_far = text[:at].rstrip()
            self.fault(
                "reading-columns", line, at,
                f"This row has {found or 'no'} temperature{'' if found == 1 else 's'}; there "
                f"{'is 1 probe' if wanted == 1 else f'are {wanted} probes'}.",
                f"Write `{' '.join([so_far, *['-'] * (wanted - found), rest]).rstrip()}` where a probe was not read.",
            )  # fmt: skip
        return False

    def cell(self, line: int, text: str, at: int, probe: Probe, comma_parted: bool) -> tuple[_Cell, int] | None:
        plain = _PLAIN.match(text, at)
        unit = (plain[2] or probe.unit) if plain else None
        if plain and unit and not (plain[2] is None and _SPACED.match(text, at)):
            symbol = unit if unit[0] in "°m" else f"°{unit}"
            return self.judged(line, _Cell(float(plain[1]), symbol, plain.group(), at)), plain.end()
        token = _TOKEN.match(text, at)
        if token and is_missing_in_row(token.group()):
            return _Cell(float("nan"), "", token.group(), at), token.end()
        match = _VALUE.match(text, at)
        if match is None:
            return None
        end = match.end()
        if comma_parted and "," in match.group():
            end = at + match.group().index(",")
        return self.careful(line, text[at:end].rstrip(), at, probe), end

    def careful(self, line: int, written: str, at: int, probe: Probe) -> _Cell:
        """Read a value that is not plain, with the reasons of `parse_quantity` where it cannot be read."""
        kind = "voltage" if written.casefold().endswith("v") or probe.unit == "mV" else "temperature"
        if kind == "voltage" and re.search(r"[cfk℃℉]\Z", written, re.IGNORECASE):
            kind = "temperature"
        quantity = parse_quantity(written, kind, probe.unit)
        if isinstance(quantity, QuantityFault):
            self.fault(quantity.code, line, at + quantity.offset, quantity.message, quantity.help)
            return _Cell(float("nan"), "", written, at)
        if quantity.unit in ("°C", "°F", "mV"):
            return self.judged(line, _Cell(quantity.value, quantity.unit, written, at))
        unit = "mV" if kind == "voltage" else "°C"
        return self.judged(line, _Cell(from_canonical(quantity.canonical, unit, kind), unit, written, at))

    def judged(self, line: int, cell: _Cell) -> _Cell:
        celsius = (cell.value - 32) / 1.8 if cell.unit == "°F" else cell.value
        if cell.unit != "mV" and not COLDEST_C <= celsius <= HOTTEST_C:
            self.fault("reading-impossible", line, cell.start, *never_read(cell.as_read))
            return _Cell(float("nan"), "", cell.as_read, cell.start)
        return cell


def never_read(written: str) -> tuple[str, str]:
    """Say that no fire shows such a reading, and what to do about it."""
    help_ = "Look for a digit too many or another unit; write `-` where the thermometer showed nonsense."
    return f"`{written}` was never read off a wood fire.", help_


def _skip(text: str, at: int) -> int:
    gap = _GAP.match(text, at)
    return gap.end() if gap else at


def read_rows(raw: RawReadings, file: str) -> TableRead:
    """Read inline rows; every fault of every row is a problem with its line and column in the entry `file`."""
    probes = probes_of(raw)
    if raw.bare_unit:
        probes = tuple(replace(probe, unit=probe.unit or raw.bare_unit) for probe in probes)
    usual = _usual_table(raw, probes)
    if usual is not None:
        return TableRead(usual)
    reader = _RowReader(raw, file)
    rows = [row for line, text in raw.rows if text.strip() and (row := reader.row(line, text, probes))]
    times = read_times([row.time for row in rows], raw.time)
    texts = dict(raw.rows)
    for index, fault in times.faults:
        line = rows[index].line
        offset = len(texts[line]) - len(texts[line].lstrip())
        reader.fault("reading-time", line, offset, fault.message, fault.help)
    columns = tuple(_column(reader, rows, number, probe) for number, probe in enumerate(probes))
    nonsense = tuple(told for number, probe in enumerate(probes) for told in _nonsense(rows, number, probe))
    table = Table(times.seconds, times.on_clock, columns, tuple(row.words for row in rows), nonsense)
    return TableRead(table, tuple(sorted(reader.problems, key=lambda found: found.sort_key)))


def _usual_table(raw: RawReadings, probes: Sequence[Probe]) -> Table | None:
    """Read all rows at once where each holds an elapsed time and degrees of one scale; None where one does not."""
    texts = [text for _, text in raw.rows if text.strip()]
    found = _usual_row(len(probes)).findall("\n".join(texts)) if raw.time == "elapsed" else []
    if not found or len(found) != len(texts):
        return None
    times, *cells, words = zip(*found, strict=True)
    columns = tuple(
        Column(probe, np.array([float(number) for number in numbers]), units[0], written)
        for probe, written, numbers, units in zip(probes, cells[::3], cells[1::3], cells[2::3], strict=True)
        if len(set(units)) == 1
    )
    if len(columns) < len(probes) or any(_impossible(column).any() for column in columns):
        return None
    minutes_and_seconds = [time.split(":") for time in times]
    elapsed_s = np.array([60.0 * int(minutes) + int(seconds) for minutes, seconds in minutes_and_seconds])
    return Table(elapsed_s, False, columns, tuple(remark.strip() for remark in words))


def _impossible(column: Column) -> NDArray[np.bool_]:
    celsius = (column.values - 32) / 1.8 if column.unit == "°F" else column.values
    return (celsius < COLDEST_C) | (celsius > HOTTEST_C)


def _nonsense(rows: Sequence[_Row], number: int, probe: Probe) -> Iterator[Repair]:
    """Tell of `nan` and `OL` in one probe's cells; a dash there says itself that nothing was read."""
    cells = [row.cells[number] for row in rows if number < len(row.cells)]
    empty = [cell.as_read for cell in cells if not cell.unit]
    found = [written for written in empty if written not in BLANKS and is_missing_in_row(written)]
    if found:
        yield missing("not a number", probe, len(cells), found)


def _column(reader: _RowReader, rows: Sequence[_Row], number: int, probe: Probe) -> Column:
    """Put one probe's cells into the unit that most of them were written in."""
    cells = [row.cells[number] if number < len(row.cells) else _NO_CELL for row in rows]
    units = [cell.unit for cell in cells if cell.unit]
    unit = max(dict.fromkeys(units), key=units.count) if units else probe.unit or "°C"
    values = np.array([cell.value for cell in cells], dtype=np.float64)
    if any(other != unit for other in units):
        for index, cell in enumerate(cells):
            if cell.unit and cell.unit != unit:
                values[index] = _converted(reader, rows[index].line, cell, unit)
    return Column(probe, values, unit, tuple(cell.as_read for cell in cells))


def _converted(reader: _RowReader, line: int, cell: _Cell, unit: str) -> float:
    if "mV" in (cell.unit, unit):
        reader.fault(
            "reading-value", line, cell.start, f"`{cell.as_read}` stands in a column of {unit}.",
            "Write a probe's readings all in millivolts, or all in degrees.",
        )  # fmt: skip
        return float("nan")
    source = find_unit(cell.unit, "temperature")
    return from_canonical(source.canonical(cell.value), unit, "temperature") if source else float("nan")
