"""How large the effect of a condition may be: success with it less success without, within methods.

Only methods count that have firings of both kinds; their differences are put together with the weights of Mantel and
Haenszel, so that a condition which only one method knows does not stand for that method.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from builder.archive.clusters import design_effect
from builder.archive.differences import hybrid_interval
from builder.archive.proportions import agresti_coull
from builder.archive.tallies import Tally


@dataclass(frozen=True, slots=True)
class Side:
    """The firings with a condition, or those without."""

    firings: int
    """Firings with a judged piece."""
    pieces: int
    """Judged pieces."""
    successes: int
    rate: float
    """Success with the methods weighed, pieces that could not be judged counted in part (`tallies`)."""
    low: float
    high: float


@dataclass(frozen=True, slots=True)
class Effect:
    """Success with a condition less success without."""

    split: float | None
    """For a number: the middle value at and above which a firing counts as "with"; None for a word."""
    having: Side
    lacking: Side
    difference: float
    low: float
    high: float


def effect(told: Iterable[tuple[str, Tally, float]], number: bool, correlation: float) -> Effect | None:
    """Return the effect of a condition; None where no method has firings of both kinds.

    `told` holds method, pieces and value of each firing that recorded the condition; a `number` is split at its middle
    value, a word is 1 where it is there and 0 where it is not. `correlation` is ρ.

    Weights n₁n₀/(n₁+n₀) over methods (Mantel and Haenszel 1959, Journal of the National Cancer Institute 22:719),
    each side's limits after Agresti and Coull on (Σw)²/Σ(w² deff/n) pieces, and Newcombe's hybrid interval on them.
    """
    firings = list(told)
    split = _middle([value for _, _, value in firings]) if number else None
    if number and split is None:
        return None
    parted: dict[str, tuple[list[Tally], list[Tally]]] = {}
    for method, tally, value in firings:
        has = value >= split if split is not None else value > 0
        parted.setdefault(method, ([], []))[0 if has else 1].append(tally)
    both = [pair for pair in parted.values() if _judged(pair[0]) and _judged(pair[1])]
    if not both:
        return None
    weights = [_weight(_judged(having), _judged(lacking)) for having, lacking in both]
    having = _side([pair[0] for pair in both], weights, correlation)
    lacking = _side([pair[1] for pair in both], weights, correlation)
    d, low, high = hybrid_interval(_limits(having), _limits(lacking))
    return Effect(split, having, lacking, d, low, high)


def _middle(values: Sequence[float]) -> float | None:
    """The value that parts the firings most evenly into below, and at or above; None where all are equal."""
    ordered = sorted(values)
    half = len(ordered) / 2
    below: dict[float, int] = {}
    for place, value in enumerate(ordered):
        below.setdefault(value, place)
    return min((edge for edge in below if below[edge]), key=lambda edge: abs(below[edge] - half), default=None)


def _weight(having: int, lacking: int) -> float:
    return having * lacking / (having + lacking)


def _judged(tallies: Sequence[Tally]) -> int:
    return sum(one.judged for one in tallies)


def _side(methods: Sequence[Sequence[Tally]], weights: Sequence[float], correlation: float) -> Side:
    total, rate, spread = sum(weights), 0.0, 0.0
    for tallies, weight in zip(methods, weights, strict=True):
        judged = [one.count for one in tallies if one.judged]
        rate += weight / total * sum(one.good for one in tallies) / sum(one.pieces for one in tallies)
        spread += (weight / total) ** 2 * design_effect(judged, correlation) / _judged(tallies)
    rate = min(1.0, max(0.0, rate))
    low, high = agresti_coull(rate, 1 / spread)
    every = [one for tallies in methods for one in tallies if one.judged]
    return Side(len(every), _judged(every), sum(one.successes for one in every), rate, low, high)


def _limits(side: Side) -> tuple[float, float, float]:
    return side.rate, side.low, side.high
