"""The columns of the recorded conditions, made from the one definition of the fields."""

from __future__ import annotations

from dataclasses import dataclass

from builder.base.quantity import Quantity
from builder.checks.firing import ConditionValue
from builder.entries.fields import CONDITIONS, Field
from builder.exports.tables import Column, Value
from builder.settings import Settings


@dataclass(frozen=True, slots=True)
class _Unit:
    """How a kind of quantity is given in the tables."""

    suffix: str
    """What the column's name ends in."""
    unit: str
    per: float = 1.0
    """How many of the program's own unit make one of this."""


_UNITS = {
    "temperature": _Unit("c", "°C"),
    "temperature_step": _Unit("c", "°C"),
    "time": _Unit("min", "min"),
    "length": _Unit("mm", "mm"),
    "mass": _Unit("kg", "kg"),
    "share": _Unit("pct", "%"),
    "speed": _Unit("km_h", "km/h"),
}
"""By kind of quantity."""
_DAYS = _Unit("days", "d", 24.0 * 60.0)
_BY_FIELD = {"clay.dried": _DAYS}
"""By field, where its kind's unit would give unwieldy numbers: ware dries for days."""

_BETWEEN_WORDS = "; "
_DECIMALS = 3


def condition_columns(settings: Settings) -> tuple[Column, ...]:
    """Return a column for each condition: its dotted path with `_` for the points, and its unit at the end."""
    return tuple(_column(path, field, settings) for path, field in CONDITIONS.items())


def condition_cells(conditions: dict[str, ConditionValue]) -> tuple[Value, ...]:
    """Return a firing's conditions in the order of the columns."""
    return tuple(_cell(path, conditions.get(path)) for path in CONDITIONS)


def _column(path: str, field: Field, settings: Settings) -> Column:
    name = path.replace(".", "_")
    if field.kind == "quantity":
        unit = _BY_FIELD.get(path) or _UNITS[field.quantity]
        meaning = f"{field.meaning} The middle, where a range was written."
        return Column(f"{name}_{unit.suffix}", "number", field.heading, meaning, unit.unit, _DECIMALS)
    if field.kind == "count":
        return Column(name, "integer", field.heading, field.meaning)
    meaning = f"{field.meaning} Several are joined by a semicolon." if field.kind == "words" else field.meaning
    return Column(name, "string", field.heading, meaning, words=_words(path, field, settings))


def _words(path: str, field: Field, settings: Settings) -> tuple[str, ...]:
    """Return the fixed list of a field with what the group added to it; empty where its words are free."""
    return (*field.words, *settings.words.get(path, ())) if field.words else ()


def _cell(path: str, value: ConditionValue | None) -> Value:
    if isinstance(value, Quantity):
        unit = _BY_FIELD.get(path)
        return value.canonical / unit.per if unit else value.canonical
    return _BETWEEN_WORDS.join(value) if isinstance(value, tuple) else value
