"""Readings as a checked entry hands them on, for the tests of this room."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date

from builder.base.quantity import Quantity
from builder.checks.firing import Firing, Probe, RawReadings


def rows_of(
    rows: Sequence[str],
    probes: Sequence[Probe] = (Probe("wall"),),
    time: str | None = "elapsed",
    lit: Quantity | None = None,
) -> RawReadings:
    """Return inline readings whose rows begin in line 20, column 5 of the entry."""
    numbered = tuple(enumerate(rows, 20))
    return RawReadings(time, lit, tuple(probes), probes[0].name, numbered, rows_column=5)


def file_of(
    file: str,
    probes: Sequence[Probe],
    time: str | None = None,
    time_column: str | None = None,
    lit: Quantity | None = None,
) -> RawReadings:
    """Return readings that stand in a file."""
    return RawReadings(time, lit, tuple(probes), probes[0].name, file=file, time_column=time_column)


def firing_of(readings: RawReadings | None) -> Firing:
    """Return a firing with these readings and nothing else of note."""
    return Firing(
        "2026-05-02-jar", "content/firings/2026-05-02-jar/entry.md", "Jar", date(2026, 5, 2), "wren", "open-fire",
        (), "", readings=readings,
    )  # fmt: skip


def minutes(value: float, raw: str) -> Quantity:
    """Return a moment of lighting."""
    return Quantity(raw, "time", value, "min", value, value, value)
