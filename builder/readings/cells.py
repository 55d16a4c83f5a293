"""A readings file taken apart: from bytes to a grid of cells under their headings, whatever parts them."""

from __future__ import annotations

import codecs
import csv
import re
from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass

from builder.base.units import DEGREE_SIGNS
from builder.readings.table import is_missing
from builder.readings.times import looks_like_date, looks_like_time

MAX_BYTES = 5_000_000
"""Largest readings file: a day of two readings a second of ten probes."""
MAX_ROWS = 200_000
MAX_LINE = 4_000
"""Longest line in characters."""
MAX_CELLS = 200
"""Most columns."""
_SAMPLE = 80
"""So many lines, past the head of the file, show what parts its cells."""

_BOMS = (
    (codecs.BOM_UTF8, "utf-8"),
    (codecs.BOM_UTF32_LE, "utf-32-le"),
    (codecs.BOM_UTF32_BE, "utf-32-be"),
    (codecs.BOM_UTF16_LE, "utf-16-le"),
    (codecs.BOM_UTF16_BE, "utf-16-be"),
)
_PARTERS = ("\t", ";", ",", "|", "  ", " ")
_WIDE = re.compile(r"\s{2,}|\t")
_LINE_ENDS = re.compile(r"\r\n|\r|\n")
_NUMBERISH = re.compile(
    rf"[-+−–]?(?:\d{{1,3}}(?: \d{{3}})+(?:[.,]\d+)?|\d[\d.,']*|[.,]\d+)(?:[eE][-+]?\d{{1,3}})?"
    rf"\s?(?:[{DEGREE_SIGNS}]?\s?[CFK]|℃|℉|[mµμ]V)?"
)
_OTHER_SPACES = ("\u00a0", "\u2009", "\u202f")
"""Spaces that some programs put between thousands and before units."""


class NotATable(Exception):
    """A file that is no table of readings; the words say why, and what to do."""

    def __init__(self, why: str, help: str, line: int | None = None) -> None:
        super().__init__(why)
        self.why, self.help, self.line = why, help, line


@dataclass(frozen=True, slots=True)
class Grid:
    """The cells of a file."""

    headings: tuple[str, ...]
    """Words at the head of each column; empty where the file has none."""
    rows: tuple[tuple[str, ...], ...]
    """Each row's cells, trimmed, as many as there are columns."""
    lines: tuple[int, ...]
    """Line of each row in the file, from 1."""

    @property
    def width(self) -> int:
        """Number of columns."""
        return len(self.rows[0]) if self.rows else 0

    def column(self, number: int) -> list[str]:
        """Return one column's cells, counted from 0."""
        return [row[number] for row in self.rows]


def decode(data: bytes) -> str:
    """Return a file's text, its spaces plain ones: by its byte-order mark, as UTF-8, else as Windows-1252.

    Raises NotATable.
    """
    text = _decoded(data)
    for space in _OTHER_SPACES:
        text = text.replace(space, " ")
    return text


def _decoded(data: bytes) -> str:
    if len(data) > MAX_BYTES:
        raise NotATable(
            f"The readings file has more than {MAX_BYTES // 1_000_000} MB.",
            "Cut it to the hours of the firing, or keep every tenth row.",
        )
    for mark, encoding in _BOMS:
        if data.startswith(mark):
            return data[len(mark) :].decode(encoding, "replace").lstrip("\ufeff")
    if b"\0" in data[:4096]:
        raise NotATable("The readings file is not text.", "Export the log as CSV or plain text.")
    try:
        return data.decode("utf-8")
    except UnicodeDecodeError:
        return data.decode("cp1252", "replace")


def to_grid(text: str) -> Grid:
    """Take a text apart into headings and rows of cells. Raises NotATable."""
    lines = _LINE_ENDS.split(text)
    numbered = [(number, line) for number, line in enumerate(lines, 1) if line.strip()]
    if len(numbered) > MAX_ROWS:
        raise NotATable(
            f"The readings file has {len(numbered):,} rows; the limit is {MAX_ROWS:,}.",
            "Cut it to the hours of the firing, or keep every tenth row.",
        )
    long = next((number for number, line in numbered if len(line) > MAX_LINE), None)
    if long is not None:
        raise NotATable(
            f"Line {long} is longer than {MAX_LINE:,} characters.", "Look whether this is the right file.", long
        )
    if not numbered:
        raise NotATable("The readings file is empty.", "Put the log into it, or leave `file` out.")
    parter, width = _parting([line for _, line in numbered])
    split = [(number, _cells(line, parter)) for number, line in numbered]
    first = next((index for index, (_, cells) in enumerate(split) if _is_data(cells, width)), None)
    if first is None:
        raise NotATable(
            "The readings file has no row of times and temperatures.", "Look whether this is the right file."
        )
    rows = [(number, _fitted(cells, width)) for number, cells in split[first:]]
    headings = _headings([cells for _, cells in split[:first]], width)
    return Grid(headings, tuple(cells for _, cells in rows), tuple(number for number, _ in rows))


def looks_like_reading(cell: str) -> bool:
    """Tell whether a cell is a number, perhaps with its unit, or says that there is none."""
    return (is_missing(cell) or _NUMBERISH.fullmatch(cell) is not None) and not looks_like_date(cell)


def _plausible(cell: str) -> bool:
    """Tell whether a cell could stand in a row of readings."""
    return looks_like_reading(cell) or looks_like_time(cell) or looks_like_date(cell)


def _parting(lines: Sequence[str]) -> tuple[str, int]:
    """Find what parts the cells: the sign under which most cells look like readings, in rows of one width."""
    middle = len(lines) // 4
    sample = lines[middle : middle + _SAMPLE] if len(lines) > _SAMPLE else lines
    best: tuple[float, str, int] = (0.0, "", 0)
    for parter in _PARTERS:
        rows = [_cells(line, parter) for line in sample]
        widths = Counter(len(cells) for cells in rows)
        width = max(widths, key=lambda size: (widths[size], size))
        if not 2 <= width <= MAX_CELLS:
            continue
        fitting = [cells for cells in rows if len(cells) == width]
        good = sum(_plausible(cell) for cells in fitting for cell in cells) / (width * len(fitting))
        score = good * len(fitting) / len(rows)
        if score > best[0] + 1e-9:
            best = (score, parter, width)
    if not best[2]:
        raise NotATable(
            "The readings file has no columns that could be told apart.",
            "Part the columns by commas, semicolons or tabs.",
        )
    return best[1], best[2]


def _cells(line: str, parter: str) -> list[str]:
    if parter == " ":
        return line.split()
    if parter == "  ":
        return [cell.strip() for cell in _WIDE.split(line.strip())]
    if '"' in line:
        return [cell.strip() for cell in next(csv.reader([line], delimiter=parter, skipinitialspace=True), [])]
    return [cell.strip() for cell in line.split(parter)]


def _is_data(cells: Sequence[str], width: int) -> bool:
    if abs(len(cells) - width) > 1:
        return False
    told = [cell for cell in cells if not is_missing(cell)]
    good = sum(_plausible(cell) for cell in told)
    return len(told) > 0 and good * 2 > len(told) - (width > 2)


def _fitted(cells: list[str], width: int) -> tuple[str, ...]:
    if len(cells) > width:
        return (*cells[: width - 1], " ".join(cells[width - 1 :]))
    return (*cells, *[""] * (width - len(cells)))


def _headings(before: Sequence[Sequence[str]], width: int) -> tuple[str, ...]:
    """Join the last one or two rows above the data that have its width: names, and perhaps units below them.

    A row that reaches less far than the one below it names no columns: it tells of the logger.
    """
    head: list[tuple[str, ...]] = []
    below = 0
    for cells in reversed(before[-2:]):
        reach = max((at for at, cell in enumerate(cells, 1) if cell), default=0)
        if abs(len(cells) - width) > 1 or reach < max(below, 1):
            break
        head.insert(0, _fitted(list(cells), width))
        below = reach
    return tuple(" ".join(part for part in parts if part) for parts in zip(*head, strict=True)) if head else ()
