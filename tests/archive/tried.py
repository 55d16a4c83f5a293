"""Trials written a firing at a time, as a reader works them out."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import NamedTuple

from builder.archive.conditions import SHUFFLES, Fires, Trials, permutation_p
from builder.archive.tallies import Tally


class Trial(NamedTuple):
    """One firing, as far as one condition is concerned."""

    method: str
    tally: Tally
    value: float | None


def trials_of(by_condition: Mapping[str, Sequence[Trial]]) -> Trials:
    """Put together what was tried on the same firings."""
    first = next(iter(by_condition.values()))
    values = {name: tuple(one.value for one in found) for name, found in by_condition.items()}
    return Trials(_fires(first), values)


def chance_of(trials: Sequence[Trial], seed_words: str, shuffles: int = SHUFFLES) -> tuple[float, int]:
    """Chance of so strong an agreement by luck, and its direction."""
    return permutation_p(_fires(trials), [one.value for one in trials], seed_words, shuffles)


def _fires(trials: Sequence[Trial]) -> Fires:
    return Fires(tuple(one.method for one in trials), tuple(one.tally for one in trials))
