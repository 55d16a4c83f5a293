"""Small firings for the tests of circumstances and advice, all invented."""

from __future__ import annotations

from datetime import date

from builder.base.quantity import Quantity, parse_quantity
from builder.checks.firing import ConditionValue, Firing, Piece, Weighed
from builder.entries.fields import CONDITIONS
from builder.heat.figures import Figure, FiringHeat, ProbeHeat

SOUND = (Piece("jar", "sound"),)


def quantity(text: str, kind: str) -> Quantity:
    """Read a quantity that is sound."""
    found = parse_quantity(text, kind)
    assert isinstance(found, Quantity), found
    return found


def firing(pieces: tuple[Piece, ...] = SOUND, /, **conditions: str | int | tuple[str, ...]) -> Firing:
    """Make a firing of conditions whose paths are written with two underscores: `weather__wind="8 km/h"`."""
    read: dict[str, ConditionValue] = {}
    for name, value in conditions.items():
        path = name.replace("__", ".")
        field = CONDITIONS[path]
        read[path] = quantity(value, field.quantity) if field.quantity and isinstance(value, str) else value
    return Firing(
        slug="2026-05-02-jar",
        file="content/firings/2026-05-02-jar/entry.md",
        title="A jar",
        date=date(2026, 5, 2),
        potter="wren",
        method="open-fire",
        pieces=pieces,
        story="",
        conditions=read,
    )


def heat(at_least: bool = False, **figures: float) -> FiringHeat:
    """Make the figures of one probe."""
    found = {name: Figure(value, at_least=at_least and name == "peak_c") for name, value in figures.items()}
    return FiringHeat((ProbeHeat("wall", found),), 0)


def weighed(dry: str, soaked: str, count: int = 1) -> Piece:
    """Make pieces that were weighed dry and soaked."""
    return Piece("jar", "sound", count=count, weighed=Weighed(quantity(dry, "mass"), quantity(soaked, "mass")))
