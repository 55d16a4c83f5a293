"""What was recorded of a firing, as numbers and words that can be compared with other firings."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence

from builder.archive.archive import Archive, Record
from builder.archive.conditions import WORD, Fires, Trials, Values
from builder.archive.likeness import Trait
from builder.base.quantity import Quantity
from builder.entries.fields import CONDITIONS

FIGURES = ("peak_c", "time_to_peak_min", "fastest_rise_c_per_min", "soak_min")
"""Figures by which firings are alike, beside their conditions."""
HEAT_HABITS = ("steam_rise_c_per_min", "fastest_rise_c_per_min", "cooling_rate_c_per_min")
"""Figures that are tried against success like conditions; the peak has the working window instead."""
LEAST_WITH = 3
"""Firings with, and firings without a word before that word is tried as a condition."""


def traits(record: Record) -> dict[str, Trait]:
    """Return all by which a firing can be like another; what was not recorded is absent."""
    found: dict[str, Trait] = {"method": record.firing.method}
    if record.firing.ware:
        found["ware"] = record.firing.ware.casefold()
    for path, value in record.firing.conditions.items():
        found[path] = _trait(value)
    for name in FIGURES:
        figure = record.figure(name)
        if figure is not None and figure.value is not None:
            found[name] = float(figure.value)
    return found


def _trait(value: str | tuple[str, ...] | Quantity | int) -> Trait:
    if isinstance(value, Quantity):
        return float(value.canonical)
    if isinstance(value, int):
        return float(value)
    if isinstance(value, tuple):
        return frozenset(word.casefold() for word in value)
    return value.casefold()


def trials(archive: Archive) -> Trials:
    """Return everything that can be tried against success: numbers as they are, each frequent word as there or not.

    A word's name is `path: word`. Missing values stay missing.
    """
    records = archive.records
    fires = Fires(tuple(map(compared_within, records)), tuple(map(archive.tally, records)))
    return Trials(fires, dict(_columns(records, [traits(record) for record in records])))


def compared_within(record: Record) -> str:
    """Return what firings must share to be compared: the method, and in an archive of several groups the group.

    Groups differ in much that nobody wrote down; without this, whatever one group alone does would seem to go with how
    that group fares.
    """
    firing = record.firing
    return f"{firing.method} {firing.source}" if firing.source else firing.method


def _columns(records: Sequence[Record], recorded: Sequence[Mapping[str, Trait]]) -> Iterator[tuple[str, Values]]:
    for path in CONDITIONS:
        values = [one.get(path) for one in recorded]
        if any(isinstance(value, float) for value in values):
            yield path, tuple(value if isinstance(value, float) else None for value in values)
        else:
            yield from _words(path, values)
    for name in HEAT_HABITS:
        figures = [record.figure(name) for record in records]
        measured = tuple(None if figure is None else figure.value for figure in figures)
        if any(value is not None for value in measured):
            yield name, measured


def _words(path: str, values: Sequence[Trait | None]) -> Iterator[tuple[str, Values]]:
    sets = [
        None if value is None else value if isinstance(value, frozenset) else frozenset({str(value)})
        for value in values
    ]
    told = [one for one in sets if one is not None]
    having = Counter(word for one in told for word in one)
    for word in sorted(having):
        if LEAST_WITH <= having[word] <= len(told) - LEAST_WITH:
            yield f"{path}{WORD}{word}", tuple(None if one is None else float(word in one) for one in sets)
