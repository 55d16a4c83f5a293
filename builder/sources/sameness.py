"""One fire that came from two archives: shown and counted once, or the rates would take it for two."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import replace
from datetime import date

from builder.base.codes import problem
from builder.base.problem import Place, Problem
from builder.checks.fault import shown
from builder.checks.firing import Firing
from builder.kept.digest import digest
from builder.readings.curve import FiringCurves


def told_twice(firings: Iterable[tuple[Firing, FiringCurves]]) -> Iterator[Problem]:
    """Yield a problem for each firing of a source that is word for word one of those before it.

    Day, title, conditions, pieces and readings are compared; who wrote it up, and with what story, is not.
    """
    by_day: dict[tuple[date, str], list[tuple[Firing, FiringCurves]]] = {}
    for firing, curves in firings:
        alike = by_day.setdefault((firing.date, firing.title), [])
        other = next((found for found, read in alike if _same(firing, curves, found, read)), None)
        if firing.source and other is not None:
            message = f"This fire is in this archive already, word for word, as {shown(other.file)}."
            help_ = "It is shown and counted once. Nothing need be done, or leave one of the two sources out."
            yield problem("source-firing-twice", Place(firing.file), "", message, help_)
        else:
            alike.append((firing, curves))


def _same(firing: Firing, curves: FiringCurves, other: Firing, read: FiringCurves) -> bool:
    return firing.source != other.source and _told(firing, curves) == _told(other, read)


def _told(firing: Firing, curves: FiringCurves) -> str:
    bare = replace(
        firing, slug="", file="", source="", potter="", helpers=(), method="", story="", licence=None, place=None,
        photos=(), readings=None,
    )  # fmt: skip
    read = tuple((curve.unit, curve.as_read, tuple(curve.minutes.tolist())) for curve in curves.curves)
    return digest(bare, read)
