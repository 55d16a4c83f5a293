"""Rows of a table to the values of entries, each value knowing the row and the column it came from.

Nothing is made up: an empty cell gives no value, a word goes over as it was written, a number keeps its own unit and
gets that of its column where it has none.
"""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterable
from dataclasses import dataclass, field

from builder.base.codes import problem
from builder.base.problem import Place, Problem
from builder.base.quantity import Quantity, QuantityFault, parse_quantity
from builder.checks.fault import shown
from builder.checks.words import NOT_RECORDED
from builder.entries.compose import Value
from builder.intake.headings import STORY, TARGETS, UNDECIDED, guess, is_key
from builder.intake.mapping_file import DECIMAL_COMMA, ColumnMeaning, DraftColumn, TableMapping
from builder.intake.old_table import OldTable, Row
from builder.settings import Settings

_PARTED = re.compile(r"\s*[;,+&\n]\s*")
_DATE = re.compile(r"(\d{1,2})[./-](\d{1,2})[./-](\d{4})\Z", re.ASCII)
_COMMA_NUMBER = re.compile(r"(?<![\d.,])(\d{1,3}(?:\.\d{3})+|\d+)(?:,(\d+))?(?![\d.,])", re.ASCII)
_INDEX = re.compile(r"\[\d+\]")
_HEADING = re.compile(r"\{([^{}]+)\}")


@dataclass(slots=True)
class OldFiring:
    """One firing as the table tells it."""

    first: int
    """Row of its first line."""
    rows: list[int] = field(default_factory=list)
    values: dict[str, str] = field(default_factory=dict)
    """Values of the firing, by dotted path."""
    pieces: list[dict[str, str]] = field(default_factory=list)
    """Values of each piece, by path below `pieces`."""
    story: list[str] = field(default_factory=list)
    origin: dict[str, tuple[int, str]] = field(default_factory=dict)
    """Row and heading of each value, by path as problems name it: `weather.wind`, `pieces[2].survival`."""
    problems: list[Problem] = field(default_factory=list)

    @property
    def name(self) -> str:
        """Date and title, as far as they are known."""
        return f"{self.values.get('date', '')} {self.values.get('title', '')}".strip()

    def nested(self) -> dict[str, Value]:
        """Return the values as an entry nests them."""
        whole = _nest(self.values)
        if self.pieces:
            whole["pieces"] = [_nest(piece) for piece in self.pieces]
        return whole


def _nest(flat: dict[str, str]) -> dict[str, Value]:
    nested: dict[str, Value] = {}
    for path, text in flat.items():
        target = nested
        *groups, last = path.split(".")
        for group in groups:
            inner = target.setdefault(group, {})
            if not isinstance(inner, dict):
                raise TypeError(f"{group} holds a value and fields")
            target = inner
        target[last] = _listed(path, text)
    return nested


def _listed(path: str, text: str) -> Value:
    known = TARGETS.get(path) or TARGETS.get(f"pieces.{path}")
    if known is not None and (known.kind == "words" or known.many):
        return [part for part in _PARTED.split(text) if part]
    return text


def is_empty(cell: str) -> bool:
    """Tell whether a cell says nothing, or that nothing was recorded."""
    return not cell or cell.casefold() in NOT_RECORDED


# What is put before the keeper


def draft_columns(table: OldTable, settings: Settings) -> tuple[list[DraftColumn], tuple[str, ...]]:
    """Guess what each column means, and which of them tell the firings apart."""
    columns: list[DraftColumn] = []
    taken: set[str] = set()
    keys = [name for name in table.headings if is_key(name)][:1]
    for heading in table.headings:
        found = guess(heading)
        path = UNDECIDED if found.field in taken and found.field != STORY else found.field
        if heading in keys:
            path = "leave out"
        taken.add(path)
        choices = _choices(path, settings)
        told = [cell for cell in table.column(heading) if not is_empty(cell)] if choices else []
        meaning = ColumnMeaning(path, found.unit if path == found.field else "")
        columns.append(DraftColumn(heading, meaning, found.sure or path != found.field, Counter(told), choices))
    return columns, tuple(keys) or _by_date(columns)


def _by_date(columns: list[DraftColumn]) -> tuple[str, ...]:
    """Take date and title for the key of a table with a piece a row that numbers no firings."""
    fields = {column.meaning.path: column.heading for column in columns}
    if "pieces.name" not in fields or "date" not in fields:
        return ()
    return tuple(fields[path] for path in ("date", "title", "potter") if path in fields)


def _choices(path: str, settings: Settings) -> tuple[str, ...]:
    known = TARGETS.get(path)
    if known is None or known.kind != "word" or known.many:
        return ()
    if known.words_from:
        people = {key: one.name for key, one in getattr(settings, known.words_from).items()}
        return (*people, *(name for name in people.values() if name not in people))
    return (*known.words, *settings.words.get(path, ()))


# Rows to firings


def with_points(cell: str) -> str:
    """Write the numbers of a table whose commas begin the decimals, and whose points part thousands, as entries do.

    >>> with_points("6,5 mm"), with_points("1.450,25 g"), with_points("1.450 kg"), with_points("1,450 kg")
    ('6.5 mm', '1450.25 g', '1450 kg', '1.4500 kg')
    """
    return _COMMA_NUMBER.sub(lambda found: _with_point(found[1], found[2]), cell)


def _with_point(whole: str, decimals: str | None) -> str:
    plain = whole.replace(".", "")
    # Three figures behind a point could be thousands; a nought more says that they are none.
    return plain if decimals is None else f"{plain}.{decimals}{'0' if len(decimals) == 3 else ''}"


@dataclass(slots=True)
class _Reader:
    table: OldTable
    mapping: TableMapping
    settings: Settings
    file: str

    def firings(self) -> list[OldFiring]:
        found: dict[tuple[str, ...], OldFiring] = {}
        before: tuple[str, ...] | None = None
        for row in self.table.rows:
            key = self.key(row, before)
            before = key
            firing = found.setdefault(key, OldFiring(row.number))
            firing.rows.append(row.number)
            self.add(row, firing)
        return list(found.values())

    def key(self, row: Row, before: tuple[str, ...] | None) -> tuple[str, ...]:
        """Return what tells the row's firing; a row without it belongs to the one above."""
        if not self.mapping.firing:
            return (str(row.number),)
        key = tuple(self.cell(row, heading) for heading in self.mapping.firing)
        return before if before is not None and not any(key) else key

    def cell(self, row: Row, heading: str) -> str:
        return row.cells[self.table.headings.index(heading)]

    def add(self, row: Row, firing: OldFiring) -> None:
        piece: dict[str, tuple[str, str]] = {}
        for path, (text, heading) in self.told(row).items():
            if path == STORY:
                continue
            if path.startswith("pieces."):
                piece[path.removeprefix("pieces.")] = (text, heading)
            else:
                self.add_value(row, path, text, heading, firing)
        self.add_piece(row, piece, firing)
        for heading, meaning in self.mapping.columns.items():
            text = self.cell(row, heading)
            if meaning.path == STORY and not is_empty(text) and text not in firing.story:
                firing.story.append(text)

    def told(self, row: Row) -> dict[str, tuple[str, str]]:
        """Return what a row says, by field, each with its heading; empty for what holds for every row."""
        told: dict[str, tuple[str, str]] = {}
        for path, text in self.mapping.always.items():
            filled = self.filled(text, row)
            if filled:
                told[path] = (filled, "")
        for heading, meaning in self.mapping.columns.items():
            cell = self.cell(row, heading)
            if meaning.path in TARGETS and not is_empty(cell):
                told[meaning.path] = (self.written(cell, meaning), heading)
        own = any(heading for path, (_, heading) in told.items() if path.startswith("pieces."))
        if not own and any(meaning.path.startswith("pieces.") for meaning in self.mapping.columns.values()):
            told = {path: value for path, value in told.items() if not path.startswith("pieces.")}
        return told

    def filled(self, text: str, row: Row) -> str:
        """Put a row's cells in the place of `{Heading}`."""

        def cell_of(named: re.Match[str]) -> str:
            return self.cell(row, named[1]) if named[1] in self.table.headings else named[0]

        return " ".join(_HEADING.sub(cell_of, text).split())

    def written(self, cell: str, meaning: ColumnMeaning) -> str:
        """Write a cell as the field wants it, as far as the keeper decided how."""
        known = TARGETS[meaning.path]
        cell = meaning.words.get(cell, cell)
        if known.kind == "date":
            return self.date(cell)
        if known.words_from:
            people = getattr(self.settings, known.words_from)
            names = {one.name.casefold(): key for key, one in people.items()}
            parts = _PARTED.split(cell) if known.many else [cell]
            return ", ".join(str(names.get(part.casefold(), part)) for part in parts)
        if known.kind == "quantity":
            return self.quantity(cell, known.quantity, meaning.unit)
        return cell if known.kind == "words" else " ".join(cell.split())

    def date(self, cell: str) -> str:
        form = _DATE.match(cell)
        if form is None or self.mapping.dates == "as written":
            return cell
        one, two, year = form.groups()
        day, month = (one, two) if self.mapping.dates == "day first" else (two, one)
        return f"{year}-{int(month):02}-{int(day):02}"

    def quantity(self, cell: str, kind: str, unit: str) -> str:
        if self.mapping.numbers == DECIMAL_COMMA:
            cell = with_points(cell)
        read = parse_quantity(cell, kind, self.settings.units.get(kind))
        bare = isinstance(read, QuantityFault) and read.code == "quantity-unit"
        if bare and unit and isinstance(parse_quantity(f"{cell} {unit}", kind), Quantity):
            return f"{cell} {unit}"
        return cell

    def add_value(self, row: Row, path: str, text: str, heading: str, firing: OldFiring) -> None:
        there = firing.values.get(path)
        if there is None:
            firing.values[path] = text
            firing.origin[path] = (row.number, heading)
        elif there != text:
            first = firing.origin[path][0]
            message = f"Column {shown(heading)} says {shown(text)}; row {first} of the same firing says {shown(there)}."
            help_ = (
                "Correct one of the rows; what differs from piece to piece belongs under `pieces`, or into the story."
            )
            firing.problems.append(problem("table-conflict", Place(self.file, row.number), path, message, help_))

    def add_piece(self, row: Row, piece: dict[str, tuple[str, str]], firing: OldFiring) -> None:
        if not piece:
            return
        firing.pieces.append({path: text for path, (text, _) in piece.items()})
        number = len(firing.pieces)
        for path, (_, heading) in piece.items():
            firing.origin[f"pieces[{number}].{path}"] = (row.number, heading)
        firing.origin[f"pieces[{number}]"] = (row.number, "")


def read_firings(table: OldTable, mapping: TableMapping, settings: Settings, file: str) -> list[OldFiring]:
    """Join the rows of each firing and take their values; `file` is the table's name for problems."""
    return _Reader(table, mapping, settings, file).firings()


def undecided(table: OldTable, mapping: TableMapping, file: str) -> tuple[Problem, ...]:
    """Tell of each column that nobody has given a field, and in which something stands."""
    return tuple(
        problem(
            "table-column",
            Place(file),
            "",
            f"Column {shown(heading)} has no field; {filled} of its cells {'is' if filled == 1 else 'are'} left out.",
            "Give it a `field` in the mapping file: a field's path, `story`, or `leave out`.",
        )
        for heading, meaning in mapping.columns.items()
        if meaning.path == UNDECIDED and (filled := sum(not is_empty(cell) for cell in table.column(heading)))
    )


def placed(problems: Iterable[Problem], firing: OldFiring, mapping: TableMapping, file: str) -> tuple[Problem, ...]:
    """Give the problems of a written entry the row and column of the table that they come from."""
    return tuple(_placed(found, firing, mapping, file) for found in problems)


def _placed(found: Problem, firing: OldFiring, mapping: TableMapping, file: str) -> Problem:
    path = found.field
    while path and path not in firing.origin:
        path = path.rpartition(".")[0]
    row, heading = firing.origin.get(path, (firing.first, ""))
    said = f"Column {shown(heading)}: " if heading else ""
    help_ = found.help
    if found.code == "required-field" and not _asked_for(_INDEX.sub("", found.field), mapping):
        help_ = "Give it a column in the mapping file, or write under `always` what holds for every row."
    return problem(found.code, Place(file, row), found.field, f"{said}{found.message}", help_)


def _asked_for(path: str, mapping: TableMapping) -> bool:
    """Tell whether the keeper has given a field, or one inside it, a column or a value for every row."""
    given = {*mapping.always, *(meaning.path for meaning in mapping.columns.values())}
    return any(f"{name}.".startswith(f"{path}.") for name in given)
