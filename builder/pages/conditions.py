"""The conditions of a firing as its page's margin shows them: what was recorded, and what was not."""

from __future__ import annotations

from dataclasses import dataclass

from markupsafe import Markup, escape

from builder.base.quantity import Quantity
from builder.checks.firing import ConditionValue, Firing
from builder.entries.fields import FIELDS
from builder.pages.addresses import material_page, page_file, relative
from builder.pages.marked_numbers import marked_quantity
from builder.pages.words_page import Hints

MATERIALS = ("clay.body", "clay.temper", "surface.slip", "surface.paint", "fuel.wood")
"""The conditions whose words are materials, by dotted path; each word of each has a page."""

_GROUPS = tuple(
    (group.heading, tuple((f"{group.name}.{field.name}", field.heading, field.condition) for field in group.fields))
    for group in FIELDS
)
"""Groups of fields by heading; of each field its dotted path, its heading, and whether firings are compared by it."""


@dataclass(frozen=True, slots=True)
class ConditionGroup:
    """One group of fields, with those that were recorded."""

    heading: str
    rows: tuple[tuple[Markup | str, Markup], ...]
    """Label and value; a label that is a word of the trade is a hint."""


def condition_groups(firing: Firing, page: str, hints: Hints) -> tuple[ConditionGroup, ...]:
    """Return the recorded conditions for a page, grouped and ordered as the fields are; empty groups are left away."""
    groups = []
    for heading, fields in _GROUPS:
        rows = tuple(
            [
                (hints.label(path, label), _shown(firing, path, page))
                for path, label, _ in fields
                if path in firing.conditions
            ]
        )
        if rows:
            groups.append(ConditionGroup(heading, rows))
    return tuple(groups)


def missing_conditions(firing: Firing) -> tuple[str, ...]:
    """Name the conditions that nobody wrote down, in lower case for a sentence; a group without any by its own name."""
    missing: list[str] = []
    for group, fields in _GROUPS:
        asked = [(path, label) for path, label, compared in fields if compared]
        unknown = [label for path, label in asked if path not in firing.conditions]
        missing += [f"all of {group.lower()}"] if len(asked) > 1 and len(unknown) == len(asked) else unknown
    return tuple(heading[0].lower() + heading[1:] for heading in missing)


def condition_value(value: ConditionValue, written: bool = True) -> Markup:
    """Write one recorded condition in HTML; `written` puts beside a temperature how it was written."""
    if isinstance(value, Quantity):
        return marked_quantity(value, written)
    return escape(", ".join(value) if isinstance(value, tuple) else str(value))


def _shown(firing: Firing, path: str, page: str) -> Markup:
    """Write one condition; the words of a material lead to their pages."""
    if path not in MATERIALS:
        return condition_value(firing.conditions[path])
    return Markup(", ").join(_link(page, path, word) for word in condition_words(firing, path))


def _link(page: str, path: str, word: str) -> Markup:
    address = relative(page, page_file(material_page(path, word)))
    return Markup(f'<a href="{address}">{escape(word)}</a>')  # noqa: S704 - an address of our own, an escaped word


def condition_words(firing: Firing, path: str) -> tuple[str, ...]:
    """Return a condition recorded in words as a tuple of words, for tags and facets; empty where not recorded."""
    value = firing.conditions.get(path)
    if isinstance(value, str):
        return (value,)
    return value if isinstance(value, tuple) else ()
