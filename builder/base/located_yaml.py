"""YAML to nodes that know their line and column; every scalar stays text.

PyYAML's C parser yields events with exact places. Only plain data is let through: no aliases, anchors, tags
or doubled keys, and bounded size and depth. What a scalar means (`NO`, `12:30`, `0600`) is the field's business.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass, field
from typing import Any

import yaml

from builder.base.codes import problem
from builder.base.problem import Place, Problem
from builder.base.yaml_faults import plain_fault, quoted

MAX_CHARACTERS = 200_000
"""Longest front matter, in characters: a firing of a thousand hand-written rows needs about 40,000."""
MAX_DEPTH = 8
"""Deepest nesting; an entry needs four."""
MAX_NODES = 20_000
"""Most values in one document."""
MAX_FAULTY_KEYS = 50
"""Most keys of one document that are told to be wrong; after that nobody reads on."""
MAX_MENDS = 12
"""Most parts of one document that are left out because they cannot be read."""

_LONG_READINGS = "Put long readings in a file beside the entry and name it under `readings`."


@dataclass(frozen=True, slots=True)
class Scalar:
    """One value, as text."""

    text: str
    place: Place
    block: bool = False
    """Written as a block (`|` or `>`): its lines begin on the line after `place`."""
    quoted: bool = False
    broken: bool = False
    """Stands for what could not be read; a problem says why."""


@dataclass(frozen=True, slots=True)
class Sequence:
    """A list of values."""

    items: tuple[Node, ...]
    place: Place


@dataclass(frozen=True, slots=True)
class Mapping:
    """Keys with their values, in the order written."""

    items: tuple[tuple[Scalar, Node], ...]
    place: Place

    def get(self, key: str) -> Node | None:
        """Return the value of a key, or None."""
        return next((value for name, value in self.items if name.text == key), None)


Node = Scalar | Sequence | Mapping


class _Refused(Exception):
    """Something in the document that ends its reading."""

    def __init__(self, fault: Problem) -> None:
        super().__init__(fault.message)
        self.fault = fault


@dataclass(slots=True)
class _Composer:
    """Turns parser events into nodes and collects what is wrong with them."""

    file: str
    line_offset: int
    lines: list[str]
    problems: list[Problem] = field(default_factory=list)
    count: int = 0

    def document(self) -> tuple[Node | None, Problem | None]:
        """Read the whole document, or say what ended its reading."""
        node: Node | None = None
        try:
            events = iter(yaml.CLoader("\n".join(self.lines)).get_event, None)
            for event in events:
                if isinstance(event, yaml.DocumentStartEvent) and node is not None:
                    place = self.place(event.start_mark)
                    raise _Refused(problem("yaml-syntax", place, "", "A second document begins here.",
                                           "Keep one front matter between two lines of `---`."))  # fmt: skip
                if isinstance(event, yaml.NodeEvent):
                    node = self.node(event, events, 1)
        except _Refused as refused:
            return None, refused.fault
        except yaml.MarkedYAMLError as error:
            fault = plain_fault(error, self.lines)
            place = Place(self.file, fault.line + 1 + self.line_offset, fault.column + 1)
            return None, problem("yaml-syntax", place, "", fault.message, fault.help)
        except RecursionError:
            # The C parser has no depth limit of its own; ours is reached first, so this is a second fence.
            place = Place(self.file, self.line_offset + 1)
            return None, problem("yaml-too-large", place, "", "Nested too deep to read.", "Write it flat.")
        return node, None

    def place(self, mark: Any) -> Place:
        if mark is None:
            return Place(self.file, self.line_offset + 1, 1)
        return Place(self.file, mark.line + 1 + self.line_offset, mark.column + 1)

    def refuse_extras(self, event: Any) -> None:
        mark = event.start_mark
        if isinstance(event, yaml.AliasEvent) or event.anchor:
            code, sign = "yaml-anchor", f"*{event.anchor}" if isinstance(event, yaml.AliasEvent) else f"&{event.anchor}"
            message = f"YAML reads `{sign}` as a mark that stands for another value; an entry may hold none."
        else:
            code, message = "yaml-tag", f"YAML reads `{event.tag}` as a tag; an entry holds plain words only."
        help_ = f"If you meant the sign itself, put the value in quotes: `{quoted(self.lines[mark.line])}`."
        raise _Refused(problem(code, self.place(mark), "", message, help_))

    def node(self, event: Any, events: Iterator[yaml.Event], depth: int) -> Node:
        if event.anchor or event.tag:
            self.refuse_extras(event)
        self.count += 1
        if depth > MAX_DEPTH or self.count > MAX_NODES:
            limit = f"{MAX_DEPTH} levels deep" if depth > MAX_DEPTH else f"{MAX_NODES:,} values long"
            raise _Refused(
                problem(
                    "yaml-too-large",
                    self.place(event.start_mark),
                    "",
                    f"The front matter is more than {limit}; no entry needs that.",
                    _LONG_READINGS,
                )
            )
        if isinstance(event, yaml.ScalarEvent):
            style = event.style
            return Scalar(event.value, self.place(event.start_mark), style in ("|", ">"), style in ("'", '"'))
        if isinstance(event, yaml.SequenceStartEvent):
            return self.sequence(event, events, depth)
        return self.mapping(event, events, depth)

    def sequence(self, start: yaml.Event, events: Iterator[yaml.Event], depth: int) -> Sequence:
        items = []
        for event in events:
            if isinstance(event, yaml.SequenceEndEvent):
                break
            items.append(self.node(event, events, depth + 1))
        return Sequence(tuple(items), self.place(start.start_mark))

    def mapping(self, start: yaml.Event, events: Iterator[yaml.Event], depth: int) -> Mapping:
        items: dict[str, tuple[Scalar, Node]] = {}
        for event in events:
            if isinstance(event, yaml.MappingEndEvent):
                break
            if len(self.problems) >= MAX_FAULTY_KEYS:
                message = f"{MAX_FAULTY_KEYS} keys before this place are wrong; the rest was not read."
                place = self.place(event.start_mark)
                raise _Refused(problem("yaml-too-large", place, "", message, "Mend those first."))
            key = self.node(event, events, depth + 1)
            value = self.node(next(events), events, depth + 1)
            if not isinstance(key, Scalar):
                self.problems.append(
                    problem(
                        "yaml-key",
                        key.place,
                        "",
                        "A key must be one word, not a list or a group.",
                        "Write `key: value`.",
                    )
                )
            elif key.text in items:
                first = items[key.text][0].place.line
                self.problems.append(
                    problem(
                        "key-twice",
                        key.place,
                        key.text,
                        f"`{key.text}` stands twice; first in line {first}.",
                        "Keep one of the two. Several pieces or photos go in one list, a `-` each.",
                    )
                )
            else:
                items[key.text] = (key, value)
        return Mapping(tuple(items.values()), self.place(start.start_mark))


def compose(text: str, file: str, line_offset: int = 0, mend: bool = False) -> tuple[Node | None, tuple[Problem, ...]]:
    """Read one YAML document to nodes.

    `line_offset` is added to every line: how many lines of the file stand before `text`. Returns None for the
    node where the document is empty or cannot be read; then the problems say why. With `mend`, a part that cannot be
    read is left out and the rest is read all the same, so that one slip does not hide the others.
    """
    if len(text) > MAX_CHARACTERS:
        message = f"The front matter is {len(text):,} characters long; the limit is {MAX_CHARACTERS:,}."
        return None, (problem("yaml-too-large", Place(file, line_offset + 1), "", message, _LONG_READINGS),)
    refused: list[Problem] = []
    for signs, say in ((UNPRINTABLE, _unprintable), (_ODD_BREAK, _odd_break)):
        found = signs.search(text)
        if found:
            refused.append(say(text, found.start(), file, line_offset))
            text = signs.sub(" ", text)
    lines = text.split("\n")
    broken: list[Scalar] = []
    while True:
        composer = _Composer(file, line_offset, lines)
        node, fault = composer.document()
        if fault is None or not mend or len(broken) >= MAX_MENDS or fault.code == "yaml-too-large":
            break
        key = _leave_out(lines, (fault.place.line or 1) - 1 - line_offset, file, line_offset)
        if key is None:
            break
        refused.append(fault)
        broken.append(key)
    if fault is not None:
        return None, (*composer.problems, *refused, fault)
    return _with_broken(node, broken), (*composer.problems, *refused)


_TOP = re.compile(r"[^\s#\-\]}]")
"""How a line begins that is a key at the left margin; a hyphen there belongs to the list of the key above."""


def _leave_out(lines: list[str], at: int, file: str, line_offset: int) -> Scalar | None:
    """Empty the lines of the key at the left margin that holds line `at`, and return that key; None where none does."""
    at = min(at, len(lines) - 1)
    first = next((number for number in range(at, -1, -1) if _TOP.match(lines[number])), None)
    if first is None:
        return None
    last = next((number for number in range(first + 1, len(lines)) if _TOP.match(lines[number])), len(lines))
    word = re.match(r"[^\s:]+", lines[first])
    key = Scalar(word.group() if word else lines[first], Place(file, first + 1 + line_offset, 1), broken=True)
    lines[first:last] = [""] * (last - first)
    return key


def _with_broken(node: Node | None, broken: list[Scalar]) -> Node | None:
    """Add the keys whose values could not be read, so that nobody is told that they are missing."""
    if not broken or (node is not None and not isinstance(node, Mapping)):
        return node
    items = node.items if node is not None else ()
    known = {key.text for key, _ in items}
    added = {key.text: (key, key) for key in broken if key.text not in known}
    return Mapping((*items, *added.values()), items[0][0].place if items else broken[0].place)


UNPRINTABLE = re.compile(r"[\x00-\x08\x0b\x0c\x0e-\x1f\x7f-\x84\x86-\x9f\ud800-\udfff\ufeff\ufffe\uffff]")
"""YAML 1.1 section 5.1: characters outside its printable set."""


_ODD_BREAK = re.compile("[\x85\u2028\u2029]")
"""Ends of lines to YAML, and to next to no editor: places would be counted past them."""


def _odd_break(text: str, at: int, file: str, line_offset: int) -> Problem:
    return problem(
        "yaml-syntax",
        _place_of(text, at, file, line_offset),
        "",
        f"A line break stands here that only some programs know (U+{ord(text[at]):04X}).",
        "Delete it and press the Enter key instead; it comes along when text is pasted from a word processor.",
    )


def _place_of(text: str, at: int, file: str, line_offset: int) -> Place:
    return Place(file, text.count("\n", 0, at) + 1 + line_offset, at - text.rfind("\n", 0, at))


def _unprintable(text: str, at: int, file: str, line_offset: int) -> Problem:
    return problem(
        "yaml-syntax",
        _place_of(text, at, file, line_offset),
        "",
        f"A character that cannot be printed (U+{ord(text[at]):04X}) stands here.",
        "Delete it and type the word again; it may have come along when the text was pasted.",
    )
