"""How many more firings it would take to tell two methods apart."""

from __future__ import annotations

from collections.abc import Sequence
from math import ceil, sqrt

Z_TWO_SIDED_5 = 1.959964
Z_POWER_80 = 0.8416212


def firings_needed(
    first: float, second: float, pieces: float, correlation: float, mean_size: float | None = None
) -> int:
    """Firings a method that tell rates `first` and `second` apart, at 5 % two-sided with a power of 80 %.

    `pieces` is the mean number of pieces a firing, `correlation` ρ how far they share their fire's luck, `mean_size`
    the size-weighted mean Σn²/Σn where firings differ in size (else `pieces`).

    n = [1.96 √(2p̄q̄) + 0.8416 √(p₁q₁ + p₂q₂)]² / (p₁ − p₂)², and M = ⌈n (1 + (m_A − 1)ρ) / k⌉.

    Holds for rates that differ; raises ValueError where they are equal. Source: Fleiss, Levin and Paik 2003,
    Statistical Methods for Rates and Proportions, 3rd ed., ch. 4 (from memory); design effect of Kish 1965.

    >>> firings_needed(0.7, 0.9, pieces=2, correlation=0.1)
    34
    """
    if first == second:
        raise ValueError("equal rates cannot be told apart")
    mean = (first + second) / 2
    by_chance = Z_TWO_SIDED_5 * sqrt(2 * mean * (1 - mean))
    with_power = Z_POWER_80 * sqrt(first * (1 - first) + second * (1 - second))
    independent = ((by_chance + with_power) / (first - second)) ** 2
    return ceil(independent * (1 + ((mean_size or pieces) - 1) * correlation) / pieces)


def weighted_size(sizes: Sequence[int]) -> float:
    """Size-weighted mean of the pieces a firing, Σn²/Σn: what the design effect stands on. At least one size."""
    return sum(size * size for size in sizes) / sum(sizes)
