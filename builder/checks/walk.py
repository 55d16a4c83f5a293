"""The walk over an entry's fields: every value judged by its field, every problem kept, none raised."""

from __future__ import annotations

from collections.abc import Callable

from builder.base.located_yaml import Mapping, Node, Scalar, Sequence
from builder.base.quantity import Quantity
from builder.checks.dates import read_clock, read_date
from builder.checks.fault import Fault, shown
from builder.checks.files import read_file
from builder.checks.found import Group, Leaf, Value
from builder.checks.hidden import hidden_fault, tidy
from builder.checks.keys import entered
from builder.checks.limits import BOUNDS, MOST_ITEMS, MOST_WORDS
from builder.checks.places import read_place
from builder.checks.review import Review
from builder.checks.rows import read_rows
from builder.checks.shape import Shape, Slot
from builder.checks.values import read_count, read_licence, read_munsell, read_quantity, read_text
from builder.checks.words import not_recorded, read_word
from builder.checks.wrong_shapes import group_wanted, item_wanted, list_wanted, one_value_wanted
from builder.settings import NOBODY

_EMPTY = frozenset({"", "~", "null", "Null", "NULL"})
"""What YAML writes for nothing at all."""


def is_empty(node: Node) -> bool:
    """Tell whether nothing was written: a key with nothing after it, or YAML's own words for that."""
    if isinstance(node, Scalar):
        return not node.text.strip() or (node.text in _EMPTY and not node.quoted)
    return not node.items


def walk_group(mapping: Mapping, shape: Shape, review: Review, path: str = "") -> Group:
    """Judge every field of one group, and say which required ones are missing."""
    group = Group(mapping.place, path)
    for slot, key, node in entered(mapping, shape, review, path):
        at = f"{path}.{slot.name}" if path else slot.name
        if isinstance(node, Scalar) and node.broken:
            group.seen[slot.name] = node.place
        elif not is_empty(node):
            group.seen[slot.name] = node.place
            _judge(node, slot, review, at, group)
        elif slot.field.required:
            group.seen[slot.name] = key.place
            message = f"`{slot.name}` has nothing after its colon, and every {_whole(shape)} needs it."
            review.report(Fault("required-field", message, _required_help(slot, review)), key.place, at)
    for slot in shape.required:
        if slot.name not in group.seen:
            at = f"{path}.{slot.name}" if path else slot.name
            message = f"`{slot.name}` is missing, and every {_whole(shape)} needs it."
            review.report(Fault("required-field", message, _required_help(slot, review)), mapping.place, at)
    return group


_WHOLES = {"": "entry", "pieces": "piece", "photos": "photo", "readings.probes": "probe",
           "readings.probes.calibrated": "point of a calibration"}  # fmt: skip


def _whole(shape: Shape) -> str:
    return _WHOLES.get(shape.path) or f"group `{shape.path.rpartition('.')[2]}`"


def _required_help(slot: Slot, review: Review) -> str:
    listed = _listed(slot, review)
    if slot.path == "pieces":
        return "Add `pieces:` and under it, for each piece, a line like `- {name: jar, survival: sound}`."
    if listed:
        return f"Write `{slot.name}:` and one of {', '.join(listed[:12])}."
    return f"Write it like `{slot.name}: {slot.field.example}`."


def _judge(node: Node, slot: Slot, review: Review, path: str, group: Group) -> None:
    """Judge one field by its shape, and put what is sound into the group."""
    kind = slot.field.kind
    if kind == "group" and slot.inside is not None:
        if isinstance(node, Mapping):
            group.groups[slot.name] = walk_group(node, slot.inside, review, path)
        else:
            review.report(group_wanted(node, slot), node.place, path)
    elif kind == "list" and slot.inside is not None:
        group.lists[slot.name] = _walk_list(node, slot, slot.inside, review, path)
    elif kind == "words" or slot.field.many:
        words = _walk_words(node, slot, review, path)
        if words:
            group.leaves[slot.name] = Leaf(words, node.place, path)
    elif kind == "rows":
        rows = read_rows(node, review)
        if isinstance(rows, Fault):
            review.report(rows, node.place, path)
        else:
            group.leaves[slot.name] = Leaf(rows, node.place, path)
    elif isinstance(node, Scalar):
        value = _judge_value(node, slot, review, path)
        if value is not None:
            group.leaves[slot.name] = Leaf(value, node.place, path)
    else:
        review.report(one_value_wanted(node, slot), node.place, path)


def _walk_list(node: Node, slot: Slot, shape: Shape, review: Review, path: str) -> tuple[Group, ...]:
    items: tuple[Node, ...] = node.items if isinstance(node, Sequence) else (node,)
    if not isinstance(node, Sequence):
        review.report(list_wanted(node, slot, review), node.place, path)
    most = MOST_ITEMS[slot.path]
    if len(items) > most:
        message = f"`{slot.name}` has {len(items)} lines; {most} is the most."
        mend = "Write alike ones in one line with `count`." if slot.path == "pieces" else "Keep those that tell most."
        review.report(Fault("too-many", message, mend), node.place, path)
        items = items[:most]
    groups = []
    for number, item in enumerate(items, 1):
        at = f"{path}[{number}]"
        if isinstance(item, Mapping):
            groups.append(walk_group(item, shape, review, at))
        elif isinstance(node, Sequence):
            review.report(item_wanted(item, slot, shape, is_empty(item)), item.place, at)
    return tuple(groups)


def _walk_words(node: Node, slot: Slot, review: Review, path: str) -> tuple[str, ...]:
    """Judge a list of words; one word alone, or several with commas between them, are a list too."""
    if isinstance(node, Mapping):
        review.report(one_value_wanted(node, slot), node.place, path)
        return ()
    parts: tuple[Node, ...]
    if isinstance(node, Scalar):
        parts = (node,) if node.quoted or "," not in node.text else _split_commas(node)
    else:
        parts = node.items
    words: dict[str, str] = {}
    for number, part in enumerate(parts, 1):
        at = f"{path}[{number}]" if isinstance(node, Sequence) else path
        if not isinstance(part, Scalar):
            review.report(one_value_wanted(part, slot), part.place, at)
        elif not is_empty(part):
            word = _judge_value(part, slot, review, at)
            if isinstance(word, str):
                words.setdefault(word.casefold(), word)
    if len(words) > MOST_WORDS:
        message = f"`{slot.name}` has {len(words)} words; {MOST_WORDS} is the most."
        review.report(
            Fault("too-many", message, "Name the main ones, and tell the rest in the story."), node.place, path
        )
        return ()
    return tuple(words.values())


def _split_commas(node: Scalar) -> tuple[Scalar, ...]:
    return tuple(Scalar(word.strip(), node.place) for word in node.text.split(","))


def _judge_value(node: Scalar, slot: Slot, review: Review, path: str) -> Value | None:
    """Judge one value by its field; None where it was refused (the problem is kept)."""
    fault = hidden_fault(node.text)
    value: Value | Fault
    if fault is None:
        text = tidy(node.text)
        field = slot.field
        if field.kind not in ("text", "words") or field.condition:
            fault = not_recorded(text, field.name)
        value = fault if fault is not None else READERS[field.kind](text, slot, review)
    else:
        value = fault
    if isinstance(value, Fault):
        review.report_at(_curly_quotes(node, slot) or value, node, path)
        return None
    bounds = BOUNDS.get(slot.path)
    if bounds is not None and isinstance(value, Quantity | int):
        outside = bounds.judge(value)
        if outside is not None:
            review.report_at(outside, node, path)
            return None if outside.code == "impossible" else value
    return value


def _curly_quotes(node: Scalar, slot: Slot) -> Fault | None:
    """Tell of quotation marks that a phone has bent: to YAML they are letters of the value."""
    text = node.text.strip()
    if len(text) < 2 or text[0] not in "“”„«‘’‚" or text[-1] not in "“”„»‘’‚" or slot.field.kind == "text":
        return None
    message = f"The quotation marks around {shown(text)} are curly ones, which YAML takes for letters."
    return Fault("curly-quotes", message, f"Write `{text[1:-1].strip()}` without them.")


def _word(text: str, slot: Slot, review: Review) -> str | Fault:
    listed = _listed(slot, review)
    if text in listed:
        return text
    source = slot.field.words_from
    if not source:
        return read_word(text, listed, f"a word for `{slot.name}`")
    named = review.settings.potters if source == "potters" else review.settings.methods
    if source == "potters" and _folded(text) in map(_folded, review.settings.unnamed):
        return NOBODY
    names = {entry.name: key for key, entry in named.items()}
    return read_word(text, listed, f"one of the {source} in site_config.yml", names)


def _folded(text: str) -> str:
    return " ".join(text.casefold().split())


def _listed(slot: Slot, review: Review) -> tuple[str, ...]:
    """Return the words that a field takes: its own, and those that the settings hold or add."""
    field, settings = slot.field, review.settings
    if field.words_from:
        return tuple(settings.potters if field.words_from == "potters" else settings.methods)
    return (*field.words, *settings.words.get(slot.path, ())) if field.words else ()


def _count(text: str, slot: Slot, review: Review) -> int | Fault:
    return read_count(text, slot.name, slot.field.least)


def _text(text: str, slot: Slot, review: Review) -> str | Fault:
    taken = read_text(text, slot.path)
    exact = slot.path == "place" and isinstance(taken, str)
    return read_place(text, review.settings.place_decimals) if exact else taken


READERS: dict[str, Callable[[str, Slot, Review], Value | Fault]] = {
    "text": _text,
    "words": lambda text, slot, review: read_text(text, slot.path),
    "date": lambda text, slot, review: read_date(text),
    "clock": lambda text, slot, review: read_clock(text),
    "count": _count,
    "quantity": lambda text, slot, review: read_quantity(text, slot.name, slot.field.quantity, review.settings.units),
    "word": _word,
    "munsell": lambda text, slot, review: read_munsell(text),
    "licence": lambda text, slot, review: read_licence(text),
    "file": read_file,
}
"""For each kind of field that holds one value, what reads it."""
