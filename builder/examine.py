"""One entry through all its stages: read, checked, measured, its pieces judged."""

from __future__ import annotations

import unicodedata
from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from builder.base.problem import Problem, has_errors
from builder.checks.check import Checked, check_entry
from builder.checks.firing import Firing
from builder.entries.find import EntryFile
from builder.heat.figures import FiringHeat
from builder.heat.firing_heat import measure
from builder.readings.curve import FiringCurves
from builder.readings.read import read_curves
from builder.settings import Settings
from builder.ware.outcome import JudgedPiece, judge
from builder.workers import shared, spread


@dataclass(frozen=True, slots=True)
class Measured:
    """What one firing gives by itself."""

    firing: Firing
    curves: FiringCurves
    heat: FiringHeat
    pieces: tuple[JudgedPiece, ...]


@dataclass(frozen=True, slots=True)
class Examined:
    """One entry, with all that is wrong with it, and what it gives where nothing stands in the way."""

    entry: EntryFile
    problems: tuple[Problem, ...]
    measured: Measured | None
    """None where the entry has an error."""


def examine_all(entries: Iterable[EntryFile], settings: Settings, jobs: int | None = None) -> Iterator[Examined]:
    """Examine entries in their order, over the machine's cores."""
    yield from spread(_examine, entries, jobs, settings)


def check_all(
    entries: Iterable[EntryFile], settings: Settings, jobs: int | None = None
) -> Iterator[tuple[Problem, ...]]:
    """Yield the problems of each entry, its readings included, without working out any figures."""
    yield from spread(_check, entries, jobs, settings)


def examine(entry: EntryFile, settings: Settings) -> Examined:
    """Examine one entry."""
    firing, curves, problems = _read(entry, settings)
    if firing is None or curves is None:
        return Examined(entry, problems, None)
    method = settings.methods[firing.method]
    heat = measure(firing, curves, method, settings.heat)
    pieces = tuple(judge(piece, method, firing.painted) for piece in firing.pieces)
    return Examined(entry, problems, Measured(firing, curves, heat, pieces))


def _read(entry: EntryFile, settings: Settings) -> tuple[Firing | None, FiringCurves | None, tuple[Problem, ...]]:
    checked = check_entry(entry, settings)
    if checked.firing is None:
        return None, None, (*checked.problems, *_problems_of_readings(checked, entry))
    curves, more = read_curves(checked.firing, entry.folder)
    problems = (*checked.problems, *checked.placed(more))
    return checked.firing, None if has_errors(more) else curves, problems


def _problems_of_readings(checked: Checked, entry: EntryFile) -> tuple[Problem, ...]:
    """Look at the readings of an entry that has an error elsewhere, so that one run finds all of them."""
    return () if checked.readings_of is None else checked.placed(read_curves(checked.readings_of, entry.folder)[1])


def _examine(entry: EntryFile) -> Examined:
    return examine(entry, shared())


def _check(entry: EntryFile) -> tuple[Problem, ...]:
    return _read(entry, shared())[2]


def in_order(measured: Iterable[Measured]) -> list[Measured]:
    """Order firings by date, then by address: the order in which the archive numbers them."""
    return sorted(measured, key=lambda one: (one.firing.date, unicodedata.normalize("NFC", one.firing.slug)))
