"""What goes with success: each recorded condition against the outcomes, within methods, whole firings shuffled.

Observational and small: a condition that goes with success need not bring it about. Every condition that was tried
is reported, and the chance of a false finding is held over all of them together.
"""

from __future__ import annotations

import hashlib
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import TypeAlias

import numpy as np

from builder.archive.effects import Effect, effect
from builder.archive.questions import Ask, ask_anew
from builder.archive.tallies import Tally
from builder.kept.digest import digest, plain_digest

SHUFFLES = 1999
"""Shuffles of the firings; p can then be as small as 1 in 2,000."""
WORD = ": "
"""Parts a condition from its word in a name: `clay.temper: chaff` is there or not, `clay.wall` is a number."""
FALSE_DISCOVERIES = 0.05
"""Share of false findings that is let pass among all findings (Benjamini and Hochberg 1995)."""


Values: TypeAlias = Sequence[float | None]
"""One condition of each firing as a number (1 and 0 for a word that is there or not); None where not recorded."""


@dataclass(frozen=True, slots=True)
class Fires:
    """Firings, as far as every condition is concerned."""

    methods: Sequence[str]
    """What each must share with others to be compared with them."""
    tallies: Sequence[Tally]
    """Their pieces; a firing of which none counts tells nothing."""


@dataclass(frozen=True, slots=True)
class Trials:
    """All that can be tried against success among some firings."""

    fires: Fires
    values: Mapping[str, Values]
    """By condition."""


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


def permutation_p(fires: Fires, values: Values, seed_words: str, shuffles: int = SHUFFLES) -> tuple[float, int]:
    """Chance of so strong an agreement by luck, and its direction.

    T = Σ over methods, Σ over firings with the condition recorded, of c (x − n p), x the successes of n pieces, those
    that could not be judged counted in part (`tallies`: or whoever forgets more would seem to fail more), p the
    method's own rate over those firings. Conditions are shuffled among the firings of a method;
    p = (1 + #|T*| ≥ |T|) / (shuffles + 1).
    """
    return _permuted(fires, [values], seed_words, shuffles)[0]


def _permuted(
    fires: Fires, together: Sequence[Values], seed_words: str, shuffles: int = SHUFFLES
) -> tuple[tuple[float, int], ...]:
    """Test conditions that the same firings recorded: they share their shuffles, which is what makes it quick."""
    count = len(together)
    observed, drawn = np.zeros(count), np.zeros((shuffles, count))
    spread = np.zeros(count, dtype=bool)
    chance = np.random.default_rng(int.from_bytes(hashlib.sha256(seed_words.encode()).digest()[:8], "big"))
    # Shape (firings, conditions).
    table = np.array([[value or 0.0 for value in values] for values in together], dtype=np.float64).T
    # One unit for all methods: how a condition is measured must not matter to the tolerance below.
    unit = np.abs(table).max(axis=0, initial=0.0)
    unit[unit == 0.0] = 1.0
    places: dict[str, list[int]] = {}
    for place, (value, tally) in enumerate(zip(together[0], fires.tallies, strict=True)):
        if value is not None and tally.pieces:
            places.setdefault(fires.methods[place], []).append(place)
    for _, told in sorted(places.items()):
        if len(told) < 2:
            continue
        values = np.ascontiguousarray(table[told])
        good = np.array([fires.tallies[place].good for place in told], dtype=np.float64)
        pieces = np.array([fires.tallies[place].pieces for place in told], dtype=np.float64)
        excess = good - pieces * good.sum() / pieces.sum()
        values -= values.mean(axis=0)
        values /= unit
        if np.abs(excess).max() <= 1e-12:
            continue
        spread |= values.any(axis=0)
        observed += excess @ values
        drawn += chance.permuted(np.broadcast_to(excess, (shuffles, len(told))), axis=1) @ values
    as_strong = (np.abs(drawn) >= np.abs(observed) - 1e-9).sum(axis=0)
    return tuple(
        ((1 + int(strong)) / (shuffles + 1), int(np.sign(total))) if told else (1.0, 0)
        for strong, total, told in zip(as_strong, observed, spread, strict=True)
    )


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


@dataclass(frozen=True, slots=True)
class ChanceQuestion:
    """How likely conditions that the same firings recorded agree so strongly by luck."""

    names: Sequence[str]
    trials: Trials
    seen: object

    def answer(self) -> tuple[tuple[float, int], ...]:
        """Shuffle; p and direction of each."""
        return _permuted(self.trials.fires, [self.trials.values[name] for name in self.names], self.names[0])


@dataclass(frozen=True, slots=True)
class Counted:
    """What is known of one condition without any chance."""

    firings: int
    missing: int
    effect: Effect | None


@dataclass(frozen=True, slots=True)
class CountQuestion:
    """How many firings recorded a condition, and how large its effect is."""

    name: str
    trials: Trials
    correlation: float
    seen: object

    def answer(self) -> Counted:
        """Count."""
        fires = self.trials.fires
        rows = zip(fires.methods, fires.tallies, self.trials.values[self.name], strict=True)
        counting = [row for row in rows if row[1].pieces]
        told = [(method, tally, value) for method, tally, value in counting if value is not None]
        size = effect(told, WORD not in self.name, self.correlation)
        return Counted(len(told), len(counting) - len(told), size)


def try_conditions(trials: Trials, correlation: float = 0.3, ask: Ask = ask_anew) -> tuple[Tried, ...]:
    """Try every condition, and hold the false findings over all of them; `correlation` is the archive's ρ.

    A condition is tried anew by `ask` where it, or how the pieces fared, is another.
    """
    names = sorted(trials.values)
    fared = digest(trials.fires.methods, trials.fires.tallies)
    written = {name: plain_digest(tuple(trials.values[name])) for name in names}
    chances = {
        alike[0]: ChanceQuestion(alike, trials, (fared, alike, [written[name] for name in alike]))
        for alike in _recorded_alike(trials.values)
    }
    counts = {
        name: CountQuestion(name, trials, correlation, (fared, name, written[name], correlation)) for name in names
    }
    tested: dict[str, tuple[float, int]] = {}
    for first, found in ask("chances", chances).items():
        tested.update(zip(chances[first].names, found, strict=True))
    counted = ask("conditions", counts)
    stands = false_discovery([tested[name][0] for name in names]) if names else ()
    return tuple(_tried(name, counted[name], tested[name], found) for name, found in zip(names, stands, strict=True))


def _recorded_alike(by_condition: Mapping[str, Values]) -> Iterable[list[str]]:
    """Put together the conditions that were recorded at the same firings, by name."""
    found: dict[tuple[bool, ...], list[str]] = {}
    for name in sorted(by_condition):
        found.setdefault(tuple(value is None for value in by_condition[name]), []).append(name)
    return found.values()


def _tried(name: str, counted: Counted, tested: tuple[float, int], found: bool) -> Tried:
    return Tried(name, counted.firings, counted.missing, tested[0], found, tested[1], counted.effect)
