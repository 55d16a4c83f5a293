"""The fields made ready for looking up: which keys a group may hold, and where a misplaced key belongs."""

from __future__ import annotations

from dataclasses import dataclass

from builder.entries.fields import FIELDS, Field, walk


@dataclass(frozen=True, slots=True, eq=False)
class Slot:
    """One field and where it stands among the others."""

    field: Field
    path: str
    """Dotted path without numbers: `pieces.weighed.dry`."""
    inside: Shape | None
    """For a group or a list: the fields inside."""

    @property
    def name(self) -> str:
        """The field's key."""
        return self.field.name


@dataclass(frozen=True, slots=True, eq=False)
class Shape:
    """The fields of one group."""

    path: str
    """Dotted path of the group; empty for the whole entry."""
    slots: dict[str, Slot]
    required: tuple[Slot, ...]


def shape_of(fields: tuple[Field, ...], path: str = "") -> Shape:
    """Make the fields of one group ready for looking up."""
    slots = {}
    for field in fields:
        inner = f"{path}.{field.name}" if path else field.name
        slots[field.name] = Slot(field, inner, shape_of(field.fields, inner) if field.fields else None)
    return Shape(path, slots, tuple(slot for slot in slots.values() if slot.field.required))


ENTRY = shape_of(FIELDS)
"""The shape of a whole entry."""

PLACES_OF: dict[str, tuple[str, ...]] = {}
"""Every key with the dotted paths at which it may stand."""
for _path, _field in walk():
    PLACES_OF[_field.name] = (*PLACES_OF.get(_field.name, ()), _path)
