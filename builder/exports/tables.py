"""A table of open data: its columns with their meanings, its rows, and how it becomes a CSV file.

CSV as RFC 4180 has it: UTF-8 without a byte-order mark, commas, CRLF, a header row. An empty cell means not recorded.
"""

from __future__ import annotations

import csv
import io
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from datetime import date
from typing import TypeAlias

from builder.exports.cells import inert, number_words

Value: TypeAlias = str | float | int | date | None
"""What a cell can hold; None is not recorded."""

LongRows: TypeAlias = tuple[bytes, ...]
"""Rows of the tables that grow with every firing, as CSV, a table each."""


@dataclass(frozen=True, slots=True)
class Column:
    """One column, with all that a stranger must know of it."""

    name: str
    type: str
    """`string`, `number`, `integer` or `date`, as Table Schema has them."""
    title: str
    meaning: str
    """One sentence."""
    unit: str = ""
    """Unit of its numbers; empty for words, counts and bare ratios."""
    decimals: int = 0
    """Digits after the point, for a `number`."""
    words: tuple[str, ...] = ()
    """Every word that it may hold, where they are listed."""
    required: bool = False
    """Never empty."""


@dataclass(frozen=True, slots=True)
class Table:
    """One table of the open data."""

    name: str
    """Name of its file without the ending."""
    title: str
    meaning: str
    columns: tuple[Column, ...]
    key: tuple[str, ...]
    """Columns that together name a row."""
    refers: tuple[tuple[str, str], ...]
    """Columns that name a row of another table: column, table with a column of the same name."""
    rows: Iterable[tuple[Value, ...]]
    """A value for each column."""


def csv_bytes(table: Table) -> bytes:
    """Write a table as CSV."""
    return csv_head(table) + csv_rows(table)


def csv_head(table: Table) -> bytes:
    """Write the header row of a table."""
    return _csv([[column.name for column in table.columns]])


def csv_rows(table: Table) -> bytes:
    """Write a table's rows without their header: those of two parts of a table joined are those of the whole."""
    columns = zip(*table.rows, strict=True)
    return _csv(zip(*map(_cells, table.columns, columns), strict=True))


def _cells(column: Column, values: tuple[Value, ...]) -> list[str]:
    """Write a column's values: each different one once, since most stand in it again and again."""
    write = _cell_writer(column)
    words = {value: write(value) for value in set(values)}
    return [words[value] for value in values]


def _csv(rows: Iterable[Sequence[str]]) -> bytes:
    out = io.StringIO()
    csv.writer(out, lineterminator="\r\n").writerows(rows)
    return out.getvalue().encode()


def _cell_writer(column: Column) -> Callable[[Value], str]:
    """Return how a column's values are written."""
    decimals = column.decimals

    def number(value: Value) -> str:
        return "" if value is None else number_words(float(value), decimals)  # type: ignore[arg-type]

    def words(value: Value) -> str:
        return "" if value is None else inert(str(value))

    def plain(value: Value) -> str:
        return "" if value is None else str(value)

    return {"number": number, "integer": plain, "date": plain}.get(column.type, words)
