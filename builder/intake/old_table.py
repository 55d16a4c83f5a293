"""A table of old notes, from CSV or a spreadsheet, to cells of text that know their row and column.

What a spreadsheet keeps as a date, a time or a share is written out as an entry writes it; nothing else is changed.
"""

from __future__ import annotations

import csv
import io
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date, datetime, time, timedelta
from pathlib import Path

MAX_BYTES = 20_000_000
MAX_ROWS = 20_000
MAX_COLUMNS = 200
MAX_CELL = 20_000
"""Longest cell, in characters: a story of a few pages."""
SPREADSHEETS = (".xlsx", ".xlsm")
TEXTS = (".csv", ".tsv", ".txt")
_PARTERS = ",;\t"


class NotATable(Exception):
    """A file that cannot be read as a table; `message` says why, `help` what to do."""

    def __init__(self, message: str, help_: str, line: int | None = None) -> None:
        super().__init__(message)
        self.message, self.help, self.line = message, help_, line


@dataclass(frozen=True, slots=True)
class Row:
    """One row below the headings."""

    number: int
    """Its line in the file, or its row in the sheet, from 1."""
    cells: tuple[str, ...]
    """As many as there are headings; trimmed, in one line each unless the cell has several."""


@dataclass(frozen=True, slots=True)
class OldTable:
    """The whole table."""

    headings: tuple[str, ...]
    rows: tuple[Row, ...]
    """Rows with something in them."""

    def column(self, heading: str) -> list[str]:
        """Return all cells below a heading."""
        at = self.headings.index(heading)
        return [row.cells[at] for row in self.rows]


def read_table(path: Path, sheet: str | None = None) -> OldTable:
    """Read a table. Raises NotATable."""
    suffix = path.suffix.lower()
    if suffix not in (*SPREADSHEETS, *TEXTS):
        raise NotATable(f"`{path.name}` is not a table that can be read.", "Save it as CSV, or as .xlsx.")
    if path.stat().st_size > MAX_BYTES:
        raise NotATable(f"The table has more than {MAX_BYTES // 1_000_000} MB.", "Take pictures and other sheets out.")
    rows = _spreadsheet_rows(path, sheet) if suffix in SPREADSHEETS else _text_rows(path)
    return _table(rows)


def _table(numbered: Iterator[tuple[int, list[str]]]) -> OldTable:
    kept: list[tuple[int, list[str]]] = []
    for number, cells in numbered:
        if any(cells):
            kept.append((number, cells))
        if len(kept) > MAX_ROWS:
            raise NotATable(f"The table has more than {MAX_ROWS:,} rows.", "Split it by years.")
    if len(kept) < 2:
        raise NotATable(
            "The table has no rows below its headings.",
            "Put the names of the columns in the first row, and a firing or a piece in each row below.",
        )
    first, head = kept[0]
    while head and not head[-1]:
        head.pop()
    headings = _headings(head, first)
    for number, cells in kept[1:]:
        extra = next((cell for cell in cells[len(headings) :] if cell), None)
        if extra is not None:
            raise NotATable(
                f"The row has more cells than there are headings: `{extra[:40]}` stands beyond the last.",
                "Put quotation marks around a cell that has the separating sign in it, or name the column.",
                number,
            )
    width = len(headings)
    rows = tuple(Row(number, (*cells[:width], *[""] * (width - len(cells)))) for number, cells in kept[1:])
    return OldTable(headings, rows)


def _headings(head: Sequence[str], number: int) -> tuple[str, ...]:
    if len(head) > MAX_COLUMNS:
        raise NotATable(f"The table has more than {MAX_COLUMNS} columns.", "Take away what no entry can tell.")
    names = [" ".join(name.split()) for name in head]
    for at, name in enumerate(names):
        if not name:
            names[at] = f"column {at + 1}"
        elif name in names[:at]:
            raise NotATable(f"Two columns are headed `{name}`.", "Give each column a name of its own.", number)
    return tuple(names)


# Text


def _text_rows(path: Path) -> Iterator[tuple[int, list[str]]]:
    data = path.read_bytes()
    try:
        text = data.decode("utf-8-sig")
    except UnicodeDecodeError:
        text = data.decode("utf-16" if data[:2] in (b"\xff\xfe", b"\xfe\xff") else "cp1252", "replace")
    if "\0" in text:
        raise NotATable("The file is not text.", "Save the table as CSV.")
    reader = csv.reader(io.StringIO(text, newline=""), delimiter=_parter(text, path.suffix.lower()))
    before = 0
    try:
        for cells in reader:
            yield before + 1, [_trimmed(cell) for cell in cells]
            before = reader.line_num
    except csv.Error as error:
        raise NotATable(
            f"The row cannot be read: {error}.", "Look for a quotation mark too many.", before + 1
        ) from error


def _parter(text: str, suffix: str) -> str:
    """Tell what parts the columns: the sign that stands most often in the first line with any."""
    if suffix == ".tsv":
        return "\t"
    head = next((line for line in text.splitlines() if any(sign in line for sign in _PARTERS)), ",")
    outside = "".join(head.split('"')[::2])
    return max(_PARTERS, key=lambda sign: (outside.count(sign), -_PARTERS.index(sign)))


def _trimmed(cell: str) -> str:
    if len(cell) > MAX_CELL:
        raise NotATable(f"A cell has more than {MAX_CELL:,} characters.", "Look for a quotation mark too many.")
    return "\n".join(" ".join(line.split()) for line in cell.strip().splitlines())


# Spreadsheets


def _spreadsheet_rows(path: Path, sheet: str | None) -> Iterator[tuple[int, list[str]]]:
    try:
        from openpyxl import load_workbook
    except ImportError as error:
        raise NotATable(
            "Spreadsheets need a library that is not installed.",
            "Install it with `pip install openpyxl`, or save the sheet as CSV.",
        ) from error
    try:
        book = load_workbook(path, read_only=True, data_only=True)
    except Exception as error:  # a damaged workbook raises almost anything
        raise NotATable("The spreadsheet cannot be opened.", "Save it again, or save the sheet as CSV.") from error
    try:
        names = book.sheetnames
        if sheet is not None and sheet not in names:
            raise NotATable(f"There is no sheet `{sheet}`.", f"Name one of: {', '.join(names)}.")
        found = book[sheet or names[0]]
        limits = {"max_row": MAX_ROWS + 1, "max_col": MAX_COLUMNS + 1}
        for number, row in enumerate(found.iter_rows(min_row=1, min_col=1, **limits), 1):
            yield number, [_trimmed(_written(cell.value, getattr(cell, "number_format", ""))) for cell in row]
    finally:
        book.close()


def _written(value: object, form: str) -> str:
    """Write a spreadsheet's value as an entry writes it."""
    if value is None:
        return ""
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, datetime):
        day = value.date().isoformat()
        return day if value.time() == time() else f"{day} {_clock(value.time())}"
    if isinstance(value, date):
        return value.isoformat()
    if isinstance(value, time):
        return _clock(value)
    if isinstance(value, timedelta):
        minutes, seconds = divmod(round(value.total_seconds()), 60)
        return f"{minutes}:{seconds:02}" if seconds else f"{minutes} min"
    if isinstance(value, (int, float)):
        return f"{value * 100:.10g} %" if "%" in form else f"{value:.10g}"
    return str(value)


def _clock(value: time) -> str:
    return value.strftime("%H:%M:%S" if value.second else "%H:%M")
