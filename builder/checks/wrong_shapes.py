"""What to say where a list, a group or one value is wanted and something else is written."""

from __future__ import annotations

from builder.base.located_yaml import Mapping, Node, Scalar, Sequence
from builder.base.quantity import Quantity
from builder.checks.fault import Fault, either, shown
from builder.checks.files import kind_fault
from builder.checks.review import Review
from builder.checks.shape import Shape, Slot
from builder.checks.values import read_quantity
from builder.entries.fields import Field


def group_wanted(node: Node, slot: Slot) -> Fault:
    """Say that a group of fields is wanted where something else is written."""
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
    """Tell whether a lone value is a quantity or a file that the field would take."""
    if field.kind == "file":
        return kind_fault(text.strip(), pictures=False) is None
    return field.kind == "quantity" and isinstance(read_quantity(text, field.name, field.quantity, {}), Quantity)


def list_wanted(node: Node, slot: Slot, review: Review) -> Fault:
    """Say that a list is wanted where one of its items, or words, are written."""
    message = f"`{slot.name}` is a list, because there can be several, and no hyphen begins the first."
    first = slot.field.fields[0]
    if isinstance(node, Mapping) and node.items:
        if review.line(node.place)[(node.place.column or 1) - 1 :].startswith("{"):
            written = review.line(node.place)[(node.place.column or 1) - 1 :].rstrip()
            return Fault("list-wanted", message, f"Write it after a hyphen, on a line of its own: `- {written}`.")
        key, value = node.items[0]
        told = f"{key.text}: {value.text}" if isinstance(value, Scalar) else f"{key.text}:"
        return Fault("list-wanted", message, f"Write `- {told}`, with the other lines level with `{key.text}`.")
    return Fault("list-wanted", message, f"Write `- {{{first.name}: {first.example}, …}}`, a line for each.")


def item_wanted(item: Node, slot: Slot, shape: Shape, empty: bool) -> Fault:
    """Say that an item of a list must be a group of fields."""
    needed = ", ".join(f"{need.name}: {need.field.example}" for need in shape.required)
    if empty:
        return Fault(
            "group-wanted", "This item of the list is empty.", f"Take the hyphen away, or write `- {{{needed}}}`."
        )
    told = shown(item.text) if isinstance(item, Scalar) else "a list in the list"
    message = f"Each of `{slot.name}` has fields with a key each, and {told} stands alone."
    if isinstance(item, Scalar) and shape.required and shape.required[0].field.kind == "text":
        needed = needed.replace(shape.required[0].field.example, item.text.strip(), 1)
    return Fault("group-wanted", message, f"Write `- {{{needed}}}`.")


def one_value_wanted(node: Node, slot: Slot) -> Fault:
    """Say that one value is wanted where a list or a group is written."""
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
