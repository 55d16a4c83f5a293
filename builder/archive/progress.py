"""A potter's progress: attempts at one ware in order, the rate so far, whether it rises, and what was changed."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from builder.archive.archive import Archive, Rate, Record, rate_over
from builder.archive.conditions import Fires, permutation_p
from builder.archive.tallies import Tally
from builder.base.quantity import Quantity
from builder.checks.firing import ConditionValue
from builder.settings import NOBODY

LEAST_ATTEMPTS = 5
"""Attempts with a judged piece that a trend needs: with four, even a perfect order comes by luck 1 time in 12."""


@dataclass(frozen=True, slots=True)
class Change:
    """A condition that differs from the attempt before; both were recorded."""

    path: str
    before: ConditionValue
    now: ConditionValue


@dataclass(frozen=True, slots=True)
class Attempt:
    """One attempt, and how things stood after it."""

    record: Record
    tally: Tally
    """The pieces of this attempt."""
    so_far: Rate
    """The rate over all attempts up to this one, whatever their methods."""
    changed: tuple[Change, ...]
    """What was done otherwise than at the attempt before, the weather left aside."""


@dataclass(frozen=True, slots=True)
class Progress:
    """All attempts of one potter at one ware."""

    potter: str
    ware: str
    attempts: tuple[Attempt, ...]
    p: float | None
    """Chance of so clear an order by luck; None with too few attempts to tell."""
    direction: int
    """+1: later attempts did better; −1: worse; 0: neither, or too few to tell."""


def progress(archive: Archive) -> Mapping[str, tuple[Progress, ...]]:
    """Return each potter's series: the wares that they lit a fire for twice or more; none of those without a name."""
    series: dict[tuple[str, str], list[Record]] = {}
    for record in archive.records:
        if record.firing.ware and record.firing.potter != NOBODY:
            series.setdefault((record.firing.potter, record.firing.ware.casefold()), []).append(record)
    found: dict[str, list[Progress]] = {}
    for (potter, _), records in series.items():
        if len(records) > 1:
            found.setdefault(potter, []).append(_series(potter, records, archive))
    return {potter: tuple(all_of) for potter, all_of in found.items()}


def trend(tallies: Sequence[Tally], seed_words: str) -> tuple[float | None, int]:
    """Tell whether success grew with the attempts: p and direction.

    T = Σ place (x − n p), whole attempts shuffled, so that pieces which shared a fire stay together.
    """
    if sum(one.judged > 0 for one in tallies) < LEAST_ATTEMPTS:
        return None, 0
    fires = Fires(("",) * len(tallies), tuple(tallies))
    return permutation_p(fires, [float(place) for place in range(len(tallies))], seed_words)


def changes(before: Record, now: Record) -> tuple[Change, ...]:
    """Return what was done otherwise: conditions recorded both times that differ, and the method."""
    earlier = before.firing.conditions
    method = [Change("method", before.firing.method, now.firing.method)]
    return (
        *(method if before.firing.method != now.firing.method else ()),
        *(
            Change(path, earlier[path], value)
            for path, value in now.firing.conditions.items()
            if path in earlier and not path.startswith("weather.") and not _same(earlier[path], value)
        ),
    )


def _same(before: ConditionValue, now: ConditionValue) -> bool:
    if isinstance(before, Quantity) and isinstance(now, Quantity):
        return abs(before.canonical - now.canonical) <= 1e-9 * max(1.0, abs(now.canonical))
    if isinstance(before, tuple) and isinstance(now, tuple):
        return {word.casefold() for word in before} == {word.casefold() for word in now}
    return str(before).casefold() == str(now).casefold()


def _series(potter: str, records: Sequence[Record], archive: Archive) -> Progress:
    tallies = [archive.tally(record) for record in records]
    attempts = tuple(
        Attempt(
            record,
            tallies[place],
            rate_over(tallies[: place + 1], archive),
            changes(records[place - 1], record) if place else (),
        )
        for place, record in enumerate(records)
    )
    ware = records[0].firing.ware or ""
    return Progress(potter, ware, attempts, *trend(tallies, f"{potter} {ware}"))
