"""Write an entry's text: values quoted where YAML needs it, the other fields as comments to fill in."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import TypeAlias

from builder.entries.fields import FIELDS, Field

Value: TypeAlias = "str | Sequence[Value] | Mapping[str, Value]"
"""What a field holds: words, a list, or fields inside."""

_PLAIN = re.compile(r"[^\W_][\w .,()/°%–-]*\Z")


@dataclass(frozen=True, slots=True)
class FirstLines:
    """What a new entry says at once."""

    title: str
    date: str
    potter: str
    method: str
    pieces: tuple[tuple[str, str], ...]
    """Name and survival of each piece."""
    place: str = ""
    ware: str = ""
    readings: tuple[str, ...] = ()
    """Lines under `readings:`, indented by two spaces."""


def entry_text(first: FirstLines) -> str:
    """Write a whole entry that holds what is known and offers the rest as comments."""
    lines = ["---"]
    for name in ("title", "date", "potter", "method", "place", "ware"):
        value = getattr(first, name)
        if value:
            lines.append(f"{name}: {yaml_words(value)}")
    if first.readings:
        lines += ["readings:", *first.readings]
    lines.append("pieces:")
    for piece, survival in first.pieces:
        lines += [f"  - name: {yaml_words(piece)}", f"    survival: {yaml_words(survival)}"]
        lines += [f"    # {field.name}: {field.example}" for field in _offered_of_a_piece()]
    said = {name for name in ("place", "ware", "readings") if getattr(first, name)}
    lines += ["", "# More to write down: take away the `# ` before a line and put your own words.", *offers(said)]
    return "\n".join([*lines, "---", "", ""])


def nested_text(values: Mapping[str, Value], story: str = "", comment: str = "") -> str:
    """Write a whole entry that holds these values, in the order of the page of fields, and nothing else."""
    said = [f"# {line}" for line in comment.splitlines()]
    return "\n".join(["---", *said, *_group_lines(values, FIELDS, ""), "---", story.strip(), ""])


def _group_lines(values: Mapping[str, Value], fields: Sequence[Field], indent: str) -> list[str]:
    known = [field for field in fields if field.name in values]
    if len(known) < len(values):
        names = {field.name for field in known}
        known += [Field(name, "text", "") for name in values if name not in names]
    return [line for field in known for line in _field_lines(field.name, values[field.name], field, indent)]


def _field_lines(name: str, value: Value, field: Field, indent: str) -> list[str]:
    deeper = f"{indent}  "
    if isinstance(value, str):
        if field.kind == "rows":
            return [f"{indent}{name}: |", *(f"{deeper}{line}" for line in value.splitlines())]
        return [f"{indent}{name}: {yaml_words(value)}"]
    if isinstance(value, Mapping):
        return [f"{indent}{name}:", *_group_lines(value, field.fields, deeper)]
    return [f"{indent}{name}:", *(line for item in value for line in _item_lines(item, field, deeper))]


def _item_lines(item: Value, field: Field, indent: str) -> list[str]:
    if isinstance(item, str):
        return [f"{indent}- {yaml_words(item)}"]
    if isinstance(item, Mapping):
        first, *others = _group_lines(item, field.fields, f"{indent}  ")
        return [f"{indent}- {first.lstrip()}", *others]
    raise TypeError("an entry has no list of lists")


def _offered_of_a_piece() -> Iterator[Field]:
    pieces = next(field for field in FIELDS if field.name == "pieces")
    return (field for field in pieces.fields if field.name in ("carbon", "paint", "ring"))


def offers(said: Iterable[str]) -> Iterator[str]:
    """Yield a comment for each field that may be filled in and is not among those `said` already."""
    skipped = {*said, "pieces", "readings", *(field.name for field in FIELDS if field.required)}
    for field in FIELDS:
        if field.name in skipped:
            continue
        if field.kind == "group":
            inside = ", ".join(f"{inner.name}: {_in_flow(inner.example)}" for inner in field.fields)
            yield f"# {field.name}: {{{inside}}}"
        elif field.kind == "list":
            inside = ", ".join(f"{inner.name}: {_in_flow(inner.example)}" for inner in field.fields)
            yield f"# {field.name}: [{{{inside}}}]"
        else:
            yield f"# {field.name}: {field.example}"


def _in_flow(example: str) -> str:
    """Write an example inside braces, where commas and brackets part the values."""
    return example if example.startswith("[") or not re.search(r"[,{}\[\]:#]", example) else quoted(example)


def yaml_words(text: str) -> str:
    """Write words as YAML: plain where that is certain to be read back the same, else in double quotes."""
    plain = _PLAIN.match(text) and not text.endswith(" ") and text.casefold() != "null"
    return text if plain else quoted(text)


def quoted(text: str) -> str:
    """Write words in YAML's double quotes."""
    escaped = text.replace("\\", "\\\\").replace('"', '\\"')
    return '"' + "".join(letter if letter.isprintable() else f"\\U{ord(letter):08x}" for letter in escaped) + '"'
