"""Values that passed, each with where it was written: what the walk hands to the checks between fields."""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import date
from typing import TypeAlias

from builder.base.problem import Place
from builder.base.quantity import Quantity


@dataclass(frozen=True, slots=True)
class Rows:
    """Readings written into the entry."""

    rows: tuple[tuple[int, str], ...]
    """Line of the entry and text, a row each."""
    column: int
    """Column of the entry at which the rows begin."""


Value: TypeAlias = str | int | date | Quantity | tuple[str, ...] | Rows


@dataclass(frozen=True, slots=True)
class Leaf:
    """One sound value."""

    value: Value
    place: Place
    path: str


@dataclass(frozen=True, slots=True)
class Group:
    """The sound values of one group; a field that is absent, empty or refused has none."""

    place: Place
    path: str
    """Dotted path, empty for the whole entry."""
    leaves: dict[str, Leaf] = field(default_factory=dict)
    groups: dict[str, Group] = field(default_factory=dict)
    lists: dict[str, tuple[Group, ...]] = field(default_factory=dict)
    seen: dict[str, Place] = field(default_factory=dict)
    """Every field that was written at all, sound or not, with the place of its value."""

    def text(self, name: str) -> str | None:
        """Return a text, or None where there is none."""
        leaf = self.leaves.get(name)
        return leaf.value if leaf is not None and isinstance(leaf.value, str) else None

    def words(self, name: str) -> tuple[str, ...]:
        """Return a list of words, empty where there is none."""
        leaf = self.leaves.get(name)
        return leaf.value if leaf is not None and isinstance(leaf.value, tuple) else ()

    def quantity(self, name: str) -> Quantity | None:
        """Return a quantity, or None where there is none."""
        leaf = self.leaves.get(name)
        return leaf.value if leaf is not None and isinstance(leaf.value, Quantity) else None

    def count(self, name: str) -> int | None:
        """Return a count, or None where there is none."""
        leaf = self.leaves.get(name)
        return leaf.value if leaf is not None and isinstance(leaf.value, int) else None

    def day(self, name: str) -> date | None:
        """Return a day, or None where there is none."""
        leaf = self.leaves.get(name)
        return leaf.value if leaf is not None and isinstance(leaf.value, date) else None

    def rows(self, name: str) -> Rows | None:
        """Return readings written into the entry, or None where there are none."""
        leaf = self.leaves.get(name)
        return leaf.value if leaf is not None and isinstance(leaf.value, Rows) else None

    def inside(self, name: str) -> Group | None:
        """Return a group inside this one, or None where there is none."""
        return self.groups.get(name)

    def items(self, name: str) -> tuple[Group, ...]:
        """Return the groups of a list, empty where there is none."""
        return self.lists.get(name, ())

    def at(self, name: str) -> Place:
        """Return where a field was written; the group's own place where it was not."""
        return self.seen.get(name, self.place)

    def deepest(self, path: str) -> Place:
        """Return where the field of a dotted path was written, or the group nearest around it."""
        name, _, rest = path.partition(".")
        name, _, number = name.partition("[")
        items = self.items(name)
        index = int(number.rstrip("]") or 0) - 1 if number else -1
        inner = items[index] if 0 <= index < len(items) else self.inside(name)
        return inner.deepest(rest) if inner is not None and rest else self.at(name)

    def path_of(self, name: str) -> str:
        """Return a field's dotted path."""
        return f"{self.path}.{name}" if self.path else name
