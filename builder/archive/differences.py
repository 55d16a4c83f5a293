"""How far two success rates differ, and what the difference may be."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import combinations
from math import sqrt

from builder.archive.archive import Rate

CALCULATION = "Newcombe's hybrid interval on the limits of the two rates"


@dataclass(frozen=True, slots=True)
class Difference:
    """The rate of one method less that of another."""

    first: Rate
    second: Rate
    difference: float
    low: float
    high: float
    calculation: str = CALCULATION

    @property
    def told_apart(self) -> bool:
        """Whether the interval leaves out no difference at all."""
        return self.low > 0 or self.high < 0


def hybrid_interval(
    first: tuple[float, float, float], second: tuple[float, float, float]
) -> tuple[float, float, float]:
    """Difference of two rates, each given with its limits (rate, low, high), with the hybrid interval.

    L = d − √((p₁−l₁)² + (u₂−p₂)²), U = d + √((u₁−p₁)² + (p₂−l₂)²).

    Source: Newcombe 1998, Statistics in Medicine 17:873, method 10, there with Wilson's limits.

    >>> d, low, high = hybrid_interval((0.8, 0.6915, 0.8769), (0.6, 0.4904, 0.7004))
    >>> round(d, 2), round(low, 2), round(high, 2)
    (0.2, 0.05, 0.33)
    """
    (p1, l1, u1), (p2, l2, u2) = first, second
    d = p1 - p2
    return d, d - sqrt((p1 - l1) ** 2 + (u2 - p2) ** 2), d + sqrt((u1 - p1) ** 2 + (p2 - l2) ** 2)


def differences(rates: Sequence[Rate]) -> tuple[Difference, ...]:
    """Compare each pair of rates of the same outcome; pairs with a rate that nobody knows are left out."""
    return tuple(
        Difference(first, second, *hybrid_interval(_limits(first), _limits(second)))
        for first, second in combinations([rate for rate in rates if rate.rate is not None], 2)
        if first.outcome == second.outcome
    )


def _limits(rate: Rate) -> tuple[float, float, float]:
    # A rate that is known has its limits; the fallbacks only say so to the type checker.
    return rate.rate or 0.0, rate.low or 0.0, 1.0 if rate.high is None else rate.high
