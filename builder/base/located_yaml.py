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

MAX_CHARACTERS = 200_000
"""Longest front matter, in characters: a firing of a thousand hand-written rows needs about 40,000."""
MAX_DEPTH = 8
"""Deepest nesting; an entry needs four."""
MAX_NODES = 20_000
"""Most values in one document."""


@dataclass(frozen=True, slots=True)
class Scalar:
    """One value, as text."""

    text: str
    place: Place
    block: bool = False
    """Written as a block (`|` or `>`): its lines begin on the line after `place`."""
    quoted: bool = False


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
    problems: list[Problem] = field(default_factory=list)
    count: int = 0

    def place(self, mark: Any) -> Place:
        if mark is None:
            return Place(self.file, self.line_offset + 1, 1)
        return Place(self.file, mark.line + 1 + self.line_offset, mark.column + 1)

    def refuse_extras(self, event: Any) -> None:
        place = self.place(event.start_mark)
        if isinstance(event, yaml.AliasEvent):
            raise _Refused(_alias(place, f"*{event.anchor}"))
        if event.anchor:
            raise _Refused(_alias(place, f"&{event.anchor}"))
        if event.tag:
            raise _Refused(
                problem(
                    "yaml-tag",
                    place,
                    "",
                    f"`{event.tag}` is a YAML tag; an entry holds plain words only.",
                    "Take away the word that begins with `!`, or put the whole value in quotes.",
                )
            )

    def node(self, event: yaml.Event, events: Iterator[yaml.Event], depth: int) -> Node:
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
                    "Put long readings in a file beside the entry and name it under `readings`.",
                )
            )
        if isinstance(event, yaml.ScalarEvent):
            return Scalar(
                event.value, self.place(event.start_mark), event.style in ("|", ">"), event.style in ("'", '"')
            )
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


def _alias(place: Place, mark: str) -> Problem:
    return problem(
        "yaml-anchor",
        place,
        "",
        f"`{mark}` is read by YAML as an anchor or alias; an entry may hold none.",
        f'If you meant the sign itself, put the value in quotes: `"{mark} …"`.',
    )


def compose(text: str, file: str, line_offset: int = 0) -> tuple[Node | None, tuple[Problem, ...]]:
    """Read one YAML document to nodes.

    `line_offset` is added to every line: how many lines of the file stand before `text`. Returns None for the
    node where the document is empty or cannot be read; then the problems say why.
    """
    composer = _Composer(file, line_offset)
    if len(text) > MAX_CHARACTERS:
        return None, (
            problem(
                "yaml-too-large",
                Place(file, line_offset + 1),
                "",
                f"The front matter is {len(text):,} characters long; the limit is {MAX_CHARACTERS:,}.",
                "Put long readings in a file beside the entry and name it under `readings`.",
            ),
        )
    unprintable = _UNPRINTABLE.search(text)
    if unprintable:
        return None, (_unprintable(text, unprintable.start(), composer),)
    node: Node | None = None
    try:
        events = iter(yaml.parse(text, Loader=yaml.CLoader))
        for event in events:
            if isinstance(event, yaml.DocumentStartEvent) and node is not None:
                raise _Refused(
                    problem(
                        "yaml-syntax",
                        composer.place(event.start_mark),
                        "",
                        "A second document begins here.",
                        "Keep one front matter between two lines of `---`.",
                    )
                )
            if isinstance(event, yaml.NodeEvent):
                node = composer.node(event, events, 1)
    except _Refused as refused:
        return None, (*composer.problems, refused.fault)
    except yaml.MarkedYAMLError as error:
        return None, (*composer.problems, _syntax(error, text, composer))
    except RecursionError:
        # The C parser has no depth limit of its own; ours is reached first, so this is a second fence.
        return None, (
            problem("yaml-too-large", Place(file, line_offset + 1), "", "Nested too deep to read.", "Write it flat."),
        )
    return node, tuple(composer.problems)


_UNPRINTABLE = re.compile("[^\t\n\r\x20-\x7e\x85\xa0-\ud7ff\ue000-\ufefe\uff00-\ufffd\U00010000-\U0010ffff]")
"""YAML 1.1 section 5.1: characters outside its printable set."""


def _unprintable(text: str, at: int, composer: _Composer) -> Problem:
    line = text.count("\n", 0, at)
    column = at - (text.rfind("\n", 0, at) + 1)
    return problem(
        "yaml-syntax",
        Place(composer.file, line + 1 + composer.line_offset, column + 1),
        "",
        f"A character that cannot be printed (U+{ord(text[at]):04X}) stands here.",
        "Delete it and type the word again; it may have come along when the text was pasted.",
    )


def _syntax(error: yaml.MarkedYAMLError, text: str, composer: _Composer) -> Problem:
    """Put libyaml's complaint in plain words, with the most likely mend for the line it points at."""
    mark = error.problem_mark or error.context_mark
    place = composer.place(mark)
    lines = text.split("\n")
    line = lines[mark.line] if mark is not None and mark.line < len(lines) else ""
    what = str(error.problem or error.context or "it cannot be read")
    message, help_ = _plain(what, line, lines[mark.line - 1] if mark is not None and mark.line else "")
    return problem("yaml-syntax", place, "", message, help_)


def _plain(what: str, line: str, before: str) -> tuple[str, str]:
    if "\t" in line[: len(line) - len(line.lstrip())] or ("cannot start any token" in what and "\t" in line):
        return "A tab stands where YAML wants spaces.", "Indent with spaces, two for each step."
    if "mapping values are not allowed" in what:
        return (
            "A colon followed by a space stands inside a value, so this reads as two keys in one line.",
            f"Put the value in quotes: `{_quoted(line if line.count(': ') > 1 else before or line)}`.",
        )
    if "could not find expected ':'" in what:
        return (
            "A key without its colon stands here or in the line above.",
            "Write `key: value`, with a space after the colon.",
        )
    if "cannot start any token" in what:
        return (
            "The value begins with a sign that YAML keeps for itself.",
            f"Put the value in quotes: `{_quoted(line)}`.",
        )
    if "quoted scalar" in what or "unexpected end of stream" in what:
        return (
            "A quotation mark was opened and never closed.",
            "Close it with the same mark, or take the first one away.",
        )
    if "did not find expected ',' or" in what or "flow" in what:
        return (
            "A list in brackets is not closed, or lacks a comma.",
            "Write `[hazel, birch]`, with commas and both brackets.",
        )
    if (
        "did not find expected key" in what
        or "block mapping" in what
        or "block collection" in what
        or "'-' indicator" in what
    ):
        return (
            "This line is not level with its neighbours.",
            "Begin it in the same column as the other keys of its group.",
        )
    return f"YAML cannot read this line ({what}).", "Compare the line with the example in the README."


def _quoted(line: str) -> str:
    key, colon, value = line.strip().partition(": ")
    inner = value.strip().strip('"').replace('"', "'")
    return f'{key}: "{inner}"' if colon else f'"{key}"'
