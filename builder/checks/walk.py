"""The walk over an entry's fields: every value judged by its field, every problem kept, none raised."""

from __future__ import annotations

from collections.abc import Callable

from builder.base.located_yaml import Mapping, Node, Scalar, Sequence
from builder.base.quantity import Quantity
from builder.checks.dates import read_clock, read_date
from builder.checks.fault import Fault, either, shown
from builder.checks.files import read_file
from builder.checks.found import Group, Leaf, Value
from builder.checks.hidden import hidden_fault, tidy
from builder.checks.keys import entered
from builder.checks.limits import BOUNDS, MOST_ITEMS, MOST_WORDS
from builder.checks.review import Review
from builder.checks.rows import read_rows
from builder.checks.shape import Shape, Slot
from builder.checks.values import read_count, read_licence, read_munsell, read_quantity, read_text
from builder.checks.words import not_recorded, read_word
from builder.entries.fields import Field

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
        if not is_empty(node):
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


_WHOLES = {"": "entry", "pieces": "piece", "photos": "photo", "readings.probes": "probe"}


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
            review.report(_group_wanted(node, slot), node.place, path)
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
        review.report(_one_value_wanted(node, slot), node.place, path)


def _walk_list(node: Node, slot: Slot, shape: Shape, review: Review, path: str) -> tuple[Group, ...]:
    items: tuple[Node, ...] = node.items if isinstance(node, Sequence) else (node,)
    if not isinstance(node, Sequence):
        review.report(_list_wanted(node, slot), node.place, path)
    most = MOST_ITEMS[slot.path]
    if len(items) > most:
        message = f"`{slot.name}` has {len(items)} lines; {most} is the most."
        review.report(Fault("too-many", message, "Write alike ones in one line with `count`."), node.place, path)
        items = items[:most]
    groups = []
    for number, item in enumerate(items, 1):
        at = f"{path}[{number}]"
        if isinstance(item, Mapping):
            groups.append(walk_group(item, shape, review, at))
        elif isinstance(node, Sequence):
            review.report(_item_wanted(item, slot, shape), item.place, at)
    return tuple(groups)


def _walk_words(node: Node, slot: Slot, review: Review, path: str) -> tuple[str, ...]:
    """Judge a list of words; one word alone, or several with commas between them, are a list too."""
    if isinstance(node, Mapping):
        review.report(_one_value_wanted(node, slot), node.place, path)
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
            review.report(_one_value_wanted(part, slot), part.place, at)
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
        review.report_at(value, node, path)
        return None
    bounds = BOUNDS.get(slot.path)
    if bounds is not None and isinstance(value, Quantity | int):
        outside = bounds.judge(value)
        if outside is not None:
            review.report_at(outside, node, path)
    return value


def _word(text: str, slot: Slot, review: Review) -> str | Fault:
    listed = _listed(slot, review)
    if text in listed:
        return text
    if slot.field.words_from:
        people = review.settings.potters if slot.field.words_from == "potters" else review.settings.methods
        also = {entry.name.casefold(): key for key, entry in people.items()}
        return read_word(text, slot.name, listed, also, f" under `{slot.field.words_from}` in site_config.yml")
    return read_word(text, slot.name, listed, {}, "")


def _listed(slot: Slot, review: Review) -> tuple[str, ...]:
    """Return the words that a field takes: its own, and those that the settings hold or add."""
    field, settings = slot.field, review.settings
    if field.words_from:
        return tuple(settings.potters if field.words_from == "potters" else settings.methods)
    return (*field.words, *settings.words.get(slot.path, ())) if field.words else ()


def _count(text: str, slot: Slot, review: Review) -> int | Fault:
    return read_count(text, slot.name, int(BOUNDS[slot.path].low))


READERS: dict[str, Callable[[str, Slot, Review], Value | Fault]] = {
    "text": lambda text, slot, review: read_text(text, slot.path),
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


def _group_wanted(node: Node, slot: Slot) -> Fault:
    fields = slot.field.fields
    example = f"`{slot.name}: {{{fields[0].name}: {fields[0].example}}}`"
    if isinstance(node, Sequence):
        message = f"`{slot.name}` holds fields with a key each, and a list is written here."
        return Fault("group-wanted", message, f"Take the hyphens or brackets away, as in {example}.")
    text = node.text if isinstance(node, Scalar) else ""
    name, colon, rest = text.partition(":")
    if colon and name.strip() in {field.name for field in fields} and rest and not rest.startswith(" "):
        message = f"There is no space after the colon of `{name.strip()}`, so YAML takes all of it for one value."
        return Fault("key-colon", message, f"Write `{name.strip()}: {rest.strip()}`.")
    message = f"`{slot.name}` holds fields with a key each, and {shown(text)} stands alone."
    like = next((field for field in fields if _could_be(text, field)), None)
    if like is not None:
        return Fault("group-wanted", message, f"Write `{slot.name}: {{{like.name}: {text.strip()}}}`.")
    return Fault("group-wanted", message, f"Write it like {example}.")


def _could_be(text: str, field: Field) -> bool:
    """Tell whether a lone value is a quantity that the field would take."""
    return field.kind == "quantity" and isinstance(read_quantity(text, field.name, field.quantity, {}), Quantity)


def _list_wanted(node: Node, slot: Slot) -> Fault:
    message = f"`{slot.name}` is a list, because there can be several, and no hyphen begins the first."
    first = slot.field.fields[0]
    if isinstance(node, Mapping) and node.items:
        key, value = node.items[0]
        told = f"{key.text}: {value.text}" if isinstance(value, Scalar) else f"{key.text}:"
        return Fault("list-wanted", message, f"Write `- {told}`, with the other lines level with `{key.text}`.")
    return Fault("list-wanted", message, f"Write `- {{{first.name}: {first.example}, …}}`, a line for each.")


def _item_wanted(item: Node, slot: Slot, shape: Shape) -> Fault:
    needed = ", ".join(f"{need.name}: {need.field.example}" for need in shape.required)
    if is_empty(item):
        return Fault(
            "group-wanted", "This item of the list is empty.", f"Take the hyphen away, or write `- {{{needed}}}`."
        )
    told = shown(item.text) if isinstance(item, Scalar) else "a list in the list"
    message = f"Each of `{slot.name}` has fields with a key each, and {told} stands alone."
    if isinstance(item, Scalar) and shape.required and shape.required[0].field.kind == "text":
        needed = needed.replace(shape.required[0].field.example, item.text.strip(), 1)
    return Fault("group-wanted", message, f"Write `- {{{needed}}}`.")


def _one_value_wanted(node: Node, slot: Slot) -> Fault:
    written = "a list" if isinstance(node, Sequence) else "a group of keys"
    firsts = [item for item in node.items if isinstance(item, Scalar)] if isinstance(node, Sequence) else []
    message = f"`{slot.name}` holds one value, and {written} is written here."
    if slot.field.kind == "text" and len(firsts) > 1:
        together = ", ".join(item.text for item in firsts)
        return Fault("one-value-wanted", message, f"Write it as words: `{slot.name}: {together}`.")
    if firsts:
        choice = either([item.text for item in firsts[:4]])
        return Fault("one-value-wanted", message, f"Keep one, without brackets or hyphen: {choice}.")
    if isinstance(node, Mapping):
        key, value = node.items[0]
        if isinstance(value, Scalar) and slot.field.kind == "text":
            return Fault(
                "one-value-wanted",
                f"{message[:-1]}: a colon made one.",
                f'Put it in quotes: `{slot.name}: "{key.text}: {value.text}"`.',
            )
    return Fault("one-value-wanted", message, f"Write it like `{slot.name}: {slot.field.example}`.")
