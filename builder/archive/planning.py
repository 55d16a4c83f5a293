"""Planning: how many firings would tell two rates apart, and what to try next.

A suggestion is never more than that: it names where the least is known, and why.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from math import ceil, sqrt

import numpy as np

from builder.archive.conditions import WORD, Tried
from builder.archive.differences import Difference
from builder.archive.window import Finding, Window
from builder.entries.fields import CONDITIONS

Z_TWO_SIDED_5 = 1.959964
Z_POWER_80 = 0.8416212


def firings_needed(
    first: float, second: float, pieces: float, correlation: float, mean_size: float | None = None
) -> int:
    """Firings a method that tell rates `first` and `second` apart, at 5 % two-sided with a power of 80 %.

    `pieces` is the mean number of pieces a firing, `correlation` ρ how far they share their fire's luck, `mean_size`
    the size-weighted mean Σn²/Σn where firings differ in size (else `pieces`).

    n = [1.96 √(2p̄q̄) + 0.8416 √(p₁q₁ + p₂q₂)]² / (p₁ − p₂)², and M = ⌈n (1 + (m_A − 1)ρ) / k⌉.

    Holds for rates that differ; raises ValueError where they are equal. Source: the formula of R's `power.prop.test`,
    whose documentation prints n = 76.7 for 0.50 against 0.75 at a power of 90 %; in print in Fleiss, Levin and Paik
    2003, Statistical Methods for Rates and Proportions, 3rd ed., ch. 4 (from memory). Design effect: Kerry and Bland
    1998, BMJ 316:1455, D = 1 + (m − 1) r; after Kish 1965.

    >>> firings_needed(0.7, 0.9, pieces=2, correlation=0.1)
    34
    """
    if first == second:
        raise ValueError("equal rates cannot be told apart")
    effect = 1 + ((mean_size or pieces) - 1) * correlation
    return ceil(pieces_needed(first, second) * effect / pieces)


def pieces_needed(first: float, second: float, z_power: float = Z_POWER_80) -> float:
    """Pieces a method, each from a fire of its own, that tell two rates apart; `z_power` is 0.8416 for 80 %.

    The n of `firings_needed`; not rounded.

    >>> round(pieces_needed(0.50, 0.75, z_power=1.2815516), 1)
    76.7
    """
    mean = (first + second) / 2
    by_chance = Z_TWO_SIDED_5 * sqrt(2 * mean * (1 - mean))
    with_power = z_power * sqrt(first * (1 - first) + second * (1 - second))
    return ((by_chance + with_power) / (first - second)) ** 2


def weighted_size(sizes: Sequence[int]) -> float:
    """Size-weighted mean of the pieces a firing, Σn²/Σn: what the design effect stands on. At least one size."""
    return sum(size * size for size in sizes) / sum(sizes)


MOST_FIRINGS = 200
"""More firings a method than this are said to be out of reach, not counted out."""
HINT = 0.2
"""A condition with a larger p than this gives no hint to follow: a rule."""
BEYOND_C = 20.0
"""How far beyond the temperatures tried a suggestion goes at most, °C: a small step, since nobody has seen it."""


@dataclass(frozen=True, slots=True)
class Telling:
    """How many firings it would take to tell a pair of methods apart, were their rates what they now seem."""

    difference: Difference
    firings: int | None
    """Firings of either method in all; None where their rates are so close that it is out of reach."""


@dataclass(frozen=True, slots=True)
class NextTemperature:
    """A temperature to try next with one method or ware."""

    peak_c: float
    side: str
    """`low` or `high`: at which end of the window the least is known."""
    between_c: tuple[float | None, float | None]
    """Where that end may lie; None where it is open."""


@dataclass(frozen=True, slots=True)
class NextCondition:
    """The one condition whose part is most worth finding out."""

    tried: Tried
    firings: int | None
    """Firings on either side that would tell, were the difference what it now seems; None if out of reach."""


def firings_to_tell(
    pairs: Iterable[Difference], pieces_by_method: Mapping[str, Sequence[int]], correlation: float
) -> tuple[Telling, ...]:
    """Say for each pair that is not told apart how many firings a method would; at the pair's own sizes of firings."""
    found = []
    for pair in pairs:
        if not pair.told_apart:
            sizes = [size for one in (pair.first, pair.second) for size in pieces_by_method[one.method]]
            found.append(Telling(pair, _reachable(pair.first.rate, pair.second.rate, sizes, correlation)))
    return tuple(found)


def next_temperature(window: Window) -> NextTemperature | None:
    """Suggest the peak at which the window is least known: where half of the curves say it works, at the wider end.

    None without a fit. With an open end, a small step beyond what was tried.
    """
    if not window.grid_c.size or window.tried_c is None or window.finding is Finding.NONE:
        return None
    coolest, hottest = window.tried_c
    middle = int(np.argmax(window.works))
    sides = {
        "low": (window.grid_c[: middle + 1], window.works[: middle + 1]),
        "high": (window.grid_c[middle:], window.works[middle:]),
    }
    # The side where the share of curves lingers longest between the two certainties is known least.
    doubt = {side: float(np.minimum(works, 1 - works).sum()) for side, (_, works) in sides.items()}
    side = max(doubt, key=lambda one: doubt[one])
    temperatures, works = sides[side]
    least = float(temperatures[int(np.argmin(np.abs(works - 0.5)))])
    end = window.low if side == "low" else window.high
    between = (None, None) if end is None else (end.low_c, end.high_c)
    return NextTemperature(min(max(least, coolest - BEYOND_C), hottest + BEYOND_C), side, between)


def next_condition(tried: Iterable[Tried], pieces: Sequence[int], correlation: float) -> NextCondition | None:
    """Suggest the condition with the strongest hint that does not yet stand, of those that a potter can choose."""
    hints = [
        one for one in tried if not one.found and one.p <= HINT and one.effect is not None and _chosen(one.condition)
    ]
    if not hints:
        return None
    best = min(hints, key=lambda one: (one.p, one.condition))
    effect = best.effect
    reach = None if effect is None else _reachable(effect.having.rate, effect.lacking.rate, pieces, correlation)
    return NextCondition(best, reach)


def _chosen(condition: str) -> bool:
    """Tell what a potter sets from what the day and the fire bring."""
    path = condition.split(WORD)[0]
    return path in CONDITIONS and not path.startswith("weather.")


def _reachable(first: float | None, second: float | None, sizes: Sequence[int], correlation: float) -> int | None:
    if first is None or second is None or not sizes or abs(first - second) < 1e-9:
        return None
    needed = firings_needed(first, second, sum(sizes) / len(sizes), correlation, weighted_size(sizes))
    return needed if needed <= MOST_FIRINGS else None
