"""What goes with success: each recorded condition against the outcomes, within methods, whole firings shuffled.

Observational and small: a condition that goes with success need not bring it about. Every condition that was tried
is reported, and the chance of a false finding is held over all of them together.
"""

from __future__ import annotations

import hashlib
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import numpy as np

from builder.archive.effects import Effect, effect
from builder.archive.tallies import Tally

SHUFFLES = 1999
"""Shuffles of the firings; p can then be as small as 1 in 2,000."""
WORD = ": "
"""Parts a condition from its word in a name: `clay.temper: chaff` is there or not, `clay.wall` is a number."""
FALSE_DISCOVERIES = 0.05
"""Share of false findings that is let pass among all findings (Benjamini and Hochberg 1995)."""


@dataclass(frozen=True, slots=True)
class Trial:
    """One firing, as far as one condition is concerned."""

    method: str
    tally: Tally
    """Its pieces; a firing of which none counts tells nothing."""
    value: float | None
    """The condition as a number (1 and 0 for a word that is there or not); None where it was not recorded."""


@dataclass(frozen=True, slots=True)
class Tried:
    """One condition that was tried against success."""

    condition: str
    firings: int
    """Firings that recorded it and had a piece that counts."""
    missing: int
    """Firings with a piece that counts that did not record it."""
    p: float
    """Chance of so strong an agreement had the condition nothing to do with success; 1 where it cannot be tried."""
    found: bool
    """Whether it stands after all that was tried."""
    direction: int
    """+1: more of it goes with success; −1: with failure; 0: cannot be tried."""
    effect: Effect | None = None
    """How large it may be; None where no method has firings of both kinds."""


def permutation_p(trials: Sequence[Trial], seed_words: str, shuffles: int = SHUFFLES) -> tuple[float, int]:
    """Chance of so strong an agreement by luck, and its direction.

    T = Σ over methods, Σ over firings with the condition recorded, of c (x − n p), x the successes of n pieces, those
    that could not be judged counted in part (`tallies`: or whoever forgets more would seem to fail more), p the
    method's own rate over those firings. Conditions are shuffled among the firings of a method;
    p = (1 + #|T*| ≥ |T|) / (shuffles + 1).
    """
    return _permuted([trials], seed_words, shuffles)[0]


def _permuted(together: Sequence[Sequence[Trial]], seed_words: str, shuffles: int) -> list[tuple[float, int]]:
    """Test conditions that the same firings recorded: they share their shuffles, which is what makes it quick."""
    first = together[0]
    count = len(together)
    observed, drawn = np.zeros(count), np.zeros((shuffles, count))
    spread = np.zeros(count, dtype=bool)
    chance = np.random.default_rng(int.from_bytes(hashlib.sha256(seed_words.encode()).digest()[:8], "big"))
    # One unit for all methods: how a condition is measured must not matter to the tolerance below.
    unit = np.array([max((abs(one.value or 0.0) for one in trials), default=0.0) or 1.0 for trials in together])
    places: dict[str, list[int]] = {}
    for place, trial in enumerate(first):
        if trial.value is not None and trial.tally.pieces:
            places.setdefault(trial.method, []).append(place)
    for _, told in sorted(places.items()):
        if len(told) < 2:
            continue
        values = np.array([[trials[place].value for trials in together] for place in told], dtype=np.float64)
        good = np.array([first[place].tally.good for place in told], dtype=np.float64)
        pieces = np.array([first[place].tally.pieces for place in told], dtype=np.float64)
        excess = good - pieces * good.sum() / pieces.sum()
        values -= values.mean(axis=0)
        values /= unit
        if np.abs(excess).max() <= 1e-12:
            continue
        spread |= values.any(axis=0)
        observed += excess @ values
        drawn += chance.permuted(np.broadcast_to(excess, (shuffles, len(told))), axis=1) @ values
    as_strong = (np.abs(drawn) >= np.abs(observed) - 1e-9).sum(axis=0)
    return [
        ((1 + int(strong)) / (shuffles + 1), int(np.sign(total))) if told else (1.0, 0)
        for strong, total, told in zip(as_strong, observed, spread, strict=True)
    ]


def false_discovery(p_values: Sequence[float], share: float = FALSE_DISCOVERIES) -> tuple[bool, ...]:
    """Tell which of several tests stand when at most `share` of the findings may be false.

    Source: Benjamini and Hochberg 1995, Journal of the Royal Statistical Society B 57:289.

    >>> false_discovery([0.01, 0.04, 0.03, 0.9])
    (True, False, False, False)
    """
    ordered = sorted(p_values)
    passing = [p for rank, p in enumerate(ordered, 1) if p <= share * rank / len(ordered)]
    limit = max(passing, default=-1.0)
    return tuple(p <= limit for p in p_values)


def try_conditions(by_condition: Mapping[str, Sequence[Trial]], correlation: float = 0.3) -> tuple[Tried, ...]:
    """Try every condition, and hold the false findings over all of them; `correlation` is the archive's ρ."""
    names = sorted(by_condition)
    tested: dict[str, tuple[float, int]] = {}
    for alike in _recorded_alike(by_condition).values():
        tested.update(zip(alike, _permuted([by_condition[name] for name in alike], alike[0], SHUFFLES), strict=True))
    stands = false_discovery([tested[name][0] for name in names]) if names else ()
    return tuple(
        _tried(name, by_condition[name], *tested[name], found, correlation)
        for name, found in zip(names, stands, strict=True)
    )


def _recorded_alike(by_condition: Mapping[str, Sequence[Trial]]) -> dict[tuple[object, ...], list[str]]:
    """Put together the conditions that were recorded at the same firings, by name."""
    found: dict[tuple[object, ...], list[str]] = {}
    for name in sorted(by_condition):
        key = tuple((one.method, one.tally, one.value is None) for one in by_condition[name])
        found.setdefault(key, []).append(name)
    return found


def _tried(name: str, trials: Sequence[Trial], p: float, direction: int, found: bool, correlation: float) -> Tried:
    counting = [trial for trial in trials if trial.tally.pieces]
    told = [(one.method, one.tally, one.value) for one in counting if one.value is not None]
    size = effect(told, WORD not in name, correlation)
    return Tried(name, len(told), len(counting) - len(told), p, found, direction, size)
