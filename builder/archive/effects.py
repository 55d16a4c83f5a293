"""How large the effect of a condition may be: success with it less success without, within methods.

Only methods count that have firings of both kinds; their differences are put together with the weights of Mantel and
Haenszel, so that a condition which only one method knows does not stand for that method.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from builder.archive.clusters import FiringCount, design_effect
from builder.archive.differences import hybrid_interval
from builder.archive.proportions import agresti_coull


@dataclass(frozen=True, slots=True)
class Side:
    """The firings with a condition, or those without."""

    firings: int
    pieces: int
    """Judged pieces."""
    successes: int
    rate: float
    """Success with the methods weighed; the plain rate where one method counts alone."""
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


def effect(told: Iterable[tuple[str, FiringCount, float]], number: bool, correlation: float) -> Effect | None:
    """Return the effect of a condition; None where no method has firings of both kinds.

    `told` holds method, (successes, judged pieces) and value of each firing that recorded the condition; a `number`
    is split at its middle value, a word is 1 where it is there and 0 where it is not. `correlation` is ρ.

    Weights n₁n₀/(n₁+n₀) over methods (Mantel and Haenszel 1959, Journal of the National Cancer Institute 22:719),
    each side's limits after Agresti and Coull on (Σw)²/Σ(w² deff/n) pieces, and Newcombe's hybrid interval on them.
    """
    firings = list(told)
    split = _middle([value for _, _, value in firings]) if number else None
    if number and split is None:
        return None
    parted: dict[str, tuple[list[FiringCount], list[FiringCount]]] = {}
    for method, count, value in firings:
        has = value >= split if split is not None else value > 0
        parted.setdefault(method, ([], []))[0 if has else 1].append(count)
    both = [pair for pair in parted.values() if pair[0] and pair[1]]
    if not both:
        return None
    weights = [_weight(_pieces(having), _pieces(lacking)) for having, lacking in both]
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


def _pieces(counts: Sequence[FiringCount]) -> int:
    return sum(pieces for _, pieces in counts)


def _side(methods: Sequence[Sequence[FiringCount]], weights: Sequence[float], correlation: float) -> Side:
    total, rate, spread = sum(weights), 0.0, 0.0
    for counts, weight in zip(methods, weights, strict=True):
        pieces = _pieces(counts)
        rate += weight / total * sum(hit for hit, _ in counts) / pieces
        spread += (weight / total) ** 2 * design_effect(counts, correlation) / pieces
    rate = min(1.0, max(0.0, rate))
    low, high = agresti_coull(rate, 1 / spread)
    return Side(
        sum(len(counts) for counts in methods),
        sum(_pieces(counts) for counts in methods),
        sum(hit for counts in methods for hit, _ in counts),
        rate,
        low,
        high,
    )


def _limits(side: Side) -> tuple[float, float, float]:
    return side.rate, side.low, side.high
