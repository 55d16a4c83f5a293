"""The mapping file: which column is which field, written once for the keeper to correct, and followed from then on."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass, field
from pathlib import Path

from builder.base.codes import problem
from builder.base.located_yaml import Mapping, Node, Scalar, Sequence, compose
from builder.base.problem import Place, Problem, has_errors
from builder.base.units import KINDS, find_unit
from builder.checks.fault import either, shown
from builder.checks.words import nearest
from builder.entries.compose import quoted, yaml_words
from builder.entries.front_matter import read_text
from builder.intake.headings import LEFT_OUT, STORY, TARGETS, UNDECIDED

DATES = ("as written", "day first", "month first")
DECIMAL_COMMA = "decimal comma"
NUMBERS = ("as written", DECIMAL_COMMA)
_PARTS = ("firing", "columns", "always", "dates", "numbers")
_OF_A_COLUMN = ("field", "unit", "words")


@dataclass(frozen=True, slots=True)
class ColumnMeaning:
    """What is made of one column."""

    path: str
    """A field's dotted path, `story`, `leave out` or `?`."""
    unit: str = ""
    """Unit of numbers that have none of their own."""
    words: dict[str, str] = field(default_factory=dict)
    """The group's word for each word of the table, where they differ."""


@dataclass(frozen=True, slots=True)
class TableMapping:
    """All that the keeper decided about a table."""

    columns: dict[str, ColumnMeaning]
    """By heading."""
    firing: tuple[str, ...] = ()
    """Headings whose cells together tell a firing; empty where each row is one."""
    always: dict[str, str] = field(default_factory=dict)
    """What holds for every row, by field; `{Heading}` stands for that column's cell."""
    dates: str = DATES[0]
    numbers: str = NUMBERS[0]


# Reading


@dataclass(slots=True)
class _Reader:
    place: Place
    headings: tuple[str, ...]
    problems: list[Problem] = field(default_factory=list)

    def fault(self, node: Node | Scalar, message: str, help_: str) -> None:
        self.problems.append(problem("table-mapping", node.place, "", message, help_))

    def items(self, node: Node | None, known: tuple[str, ...] = ()) -> dict[str, tuple[Scalar, Node]]:
        if node is None or (isinstance(node, Scalar) and not node.text):
            return {}
        if not isinstance(node, Mapping):
            self.fault(node, "Here stand keys with values.", "Look at a mapping file that is written anew.")
            return {}
        for key, _ in node.items:
            if known and key.text not in known:
                near = nearest(key.text, known)
                help_ = f"Did you mean {shown(near)}?" if near else f"Write one of {either(known)}."
                self.fault(key, f"{shown(key.text)} means nothing here.", help_)
        return {key.text: (key, value) for key, value in node.items}

    def text(self, node: Node | None) -> str:
        if node is None:
            return ""
        if isinstance(node, Scalar):
            return node.text.strip()
        self.fault(node, "Here stands one value.", "Write it after the colon.")
        return ""

    def one_of(self, node: Node | None, choices: tuple[str, ...]) -> str:
        text = self.text(node) or choices[0]
        if text not in choices and node is not None:
            self.fault(node, f"{shown(text)} is not a choice here.", f"Write {either(choices)}.")
            return choices[0]
        return text

    def heading(self, node: Scalar) -> str | None:
        if node.text in self.headings:
            return node.text
        near = nearest(node.text, self.headings)
        help_ = f"Did you mean {shown(near)}?" if near else f"Its columns are {either(self.headings[:12], 'and')}."
        self.fault(node, f"The table has no column {shown(node.text)}.", help_)
        return None

    def target(self, node: Node, more: tuple[str, ...] = ()) -> str:
        text = self.text(node)
        if text in TARGETS or text in more:
            return text
        near = nearest(text, (*TARGETS, *more))
        help_ = f"Did you mean {shown(near)}?" if near else "The page of fields lists them all: `weather.wind`, say."
        self.fault(node, f"{shown(text)} is not a field that a column can fill.", help_)
        return LEFT_OUT


def read_mapping(path: Path, headings: tuple[str, ...]) -> tuple[TableMapping | None, tuple[Problem, ...]]:
    """Read a mapping file for a table with these headings; None where it cannot be followed."""
    text, refused = read_text(path, path.name)
    if refused is not None:
        return None, (refused,)
    root, problems = compose(text, path.name)
    reader = _Reader(Place(path.name), headings, list(problems))
    parts = {key: node for key, (_, node) in reader.items(root, _PARTS).items()}
    columns = dict(_columns(reader, parts.get("columns")))
    mapping = TableMapping(
        columns={name: columns.get(name, ColumnMeaning(UNDECIDED)) for name in headings},
        firing=tuple(_headings(reader, parts.get("firing"))),
        always=dict(_always(reader, parts.get("always"))),
        dates=reader.one_of(parts.get("dates"), DATES),
        numbers=reader.one_of(parts.get("numbers"), NUMBERS),
    )
    return (None if has_errors(reader.problems) else mapping), tuple(reader.problems)


def _columns(reader: _Reader, node: Node | None) -> Iterator[tuple[str, ColumnMeaning]]:
    taken: dict[str, str] = {}
    for key, value in reader.items(node).values():
        heading = reader.heading(key)
        parts = {name: inner for name, (_, inner) in reader.items(value, _OF_A_COLUMN).items()}
        target = parts.get("field")
        if heading is None or target is None:
            continue
        path = reader.target(target, (STORY, LEFT_OUT, UNDECIDED))
        if path in TARGETS and path in taken:
            message = f"{shown(path)} is given to {shown(taken[path])} already."
            reader.fault(target, message, f"Write `{STORY}` or `{LEFT_OUT}` for one of the two.")
        taken[path] = heading
        yield heading, ColumnMeaning(path, _unit(reader, parts.get("unit"), path), _words(reader, parts.get("words")))


def _unit(reader: _Reader, node: Node | None, path: str) -> str:
    unit = reader.text(node)
    kind = TARGETS[path].quantity if path in TARGETS else ""
    if unit and node is not None and (not kind or find_unit(unit, kind) is None):
        units = [known.symbol for known in KINDS[kind].units if known.symbol][:6] if kind else []
        help_ = f"Write {either(units)}." if units else "Take `unit` away: this field has none."
        reader.fault(node, f"{shown(unit)} is no unit of {shown(path)}.", help_)
        return ""
    return unit


def _words(reader: _Reader, node: Node | None) -> dict[str, str]:
    return {old: new for old, (_, value) in reader.items(node).items() if (new := reader.text(value))}


def _headings(reader: _Reader, node: Node | None) -> Iterator[str]:
    items = node.items if isinstance(node, Sequence) else (node,) if isinstance(node, Scalar) and node.text else ()
    for item in items:
        if isinstance(item, Scalar) and (heading := reader.heading(item)) is not None:
            yield heading


def _always(reader: _Reader, node: Node | None) -> Iterator[tuple[str, str]]:
    for key, value in reader.items(node).values():
        path, text = reader.target(key), reader.text(value)
        if path in TARGETS and text:
            yield path, text


# Writing


@dataclass(frozen=True, slots=True)
class DraftColumn:
    """A column as it is put before the keeper."""

    heading: str
    meaning: ColumnMeaning
    sure: bool
    seen: Counter[str]
    """Each word in it with how often it stands there, for a field that takes words from a list."""
    choices: tuple[str, ...]
    """The words that such a field takes."""


_HEAD = """\
# How the columns of {table} become fields of an entry. Read it through, correct it, and run the same command again.
#
# field: a field by its path, as the site's page of fields has it (weather.wind, pieces.survival);
#        `story` puts the cell into the words below the fields; `leave out` passes it over;
#        `?` is not decided yet: such a column is left out, and told each time.
# unit:  the unit of numbers that have none of their own. A cell with a unit keeps it.
# words: the group's word for a word of the table. Nothing after the colon: the word is taken as it stands.
# An empty cell stays empty: nothing is made up for it.
"""


def draft(table: str, columns: list[DraftColumn], firing: tuple[str, ...]) -> str:
    """Write a mapping file for the keeper to correct."""
    lines = [_HEAD.format(table="".join(letter if letter.isprintable() else " " for letter in table))]
    lines += [
        "# The columns that together tell which rows are one firing. Empty: each row is a firing of its own.",
        f"firing: [{', '.join(quoted(name) for name in firing)}]",
        "",
        "# What 02/05/2026 means in this table: as written (it is then told as a problem) | day first | month first",
        f"dates: {DATES[0]}",
        "",
        "# What 6,5 and 1.450 mean in this table: as written (what can be read in two ways is then told as a problem)",
        "# | decimal comma (six and a half, and one thousand four hundred and fifty)",
        f"numbers: {NUMBERS[0]}",
        "",
        "# What holds for every row and stands in no column; {Heading} stands for that column's cell.",
        '# For example:  method: open-fire   or   title: "{Ware}, firing {No}"',
        "always: {}",
        "",
        "columns:",
    ]
    for column in columns:
        lines += _drafted(column)
    return "\n".join([*lines, ""])


def _drafted(column: DraftColumn) -> Iterator[str]:
    meaning = column.meaning
    doubt = "" if column.sure else "  # only like it: is it this one?"
    yield f"  {quoted(column.heading)}:"
    yield f"    field: {yaml_words(meaning.path) if meaning.path != UNDECIDED else quoted(UNDECIDED)}{doubt}"
    if meaning.path in TARGETS and TARGETS[meaning.path].kind == "quantity":
        yield f"    unit: {quoted(meaning.unit) if meaning.unit else ''}".rstrip()
    odd = [(word, count) for word, count in sorted(column.seen.items()) if word not in column.choices]
    if odd:
        yield f"    # The list has: {', '.join(column.choices)}"
        yield "    words:"
        for word, count in odd:
            near = nearest(word, column.choices, 0.75)
            often = "once" if count == 1 else f"{count} times"
            yield f"      {quoted(word)}:  # {often}" + (f"; did you mean {near}?" if near else "")
