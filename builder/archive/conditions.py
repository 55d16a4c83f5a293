"""What goes with success: each recorded condition against the outcomes, within methods, whole firings shuffled.

Observational and small: a condition that goes with success need not bring it about. Every condition that was tried
is reported, and the chance of a false finding is held over all of them together.
"""

from __future__ import annotations

import hashlib
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]

SHUFFLES = 1999
"""Shuffles of the firings; p can then be as small as 1 in 2,000."""
FALSE_DISCOVERIES = 0.05
"""Share of false findings that is let pass among all findings (Benjamini and Hochberg 1995)."""


@dataclass(frozen=True, slots=True)
class Trial:
    """One firing, as far as one condition is concerned."""

    method: str
    successes: int
    judged: int
    """Judged pieces; firings without any tell nothing."""
    value: float | None
    """The condition as a number (1 and 0 for a word that is there or not); None where it was not recorded."""


@dataclass(frozen=True, slots=True)
class Tried:
    """One condition that was tried against success."""

    condition: str
    firings: int
    """Firings that recorded it and had a judged piece."""
    missing: int
    """Firings with a judged piece that did not record it."""
    p: float
    """Chance of so strong an agreement had the condition nothing to do with success; 1 where it cannot be tried."""
    found: bool
    """Whether it stands after all that was tried."""
    direction: int
    """+1: more of it goes with success; −1: with failure; 0: cannot be tried."""


def permutation_p(trials: Sequence[Trial], seed_words: str, shuffles: int = SHUFFLES) -> tuple[float, int]:
    """Chance of so strong an agreement by luck, and its direction.

    T = Σ over methods, Σ over firings with the condition recorded, of c (x − n p), p the method's own rate over those
    firings. Conditions are shuffled among the firings of a method; p = (1 + #|T*| ≥ |T|) / (shuffles + 1).
    """
    observed, drawn, spread = 0.0, np.zeros(shuffles), False
    chance = np.random.default_rng(int.from_bytes(hashlib.sha256(seed_words.encode()).digest()[:8], "big"))
    for method in sorted({trial.method for trial in trials}):
        told = [trial for trial in trials if trial.method == method and trial.value is not None and trial.judged]
        if len(told) < 2:
            continue
        value = np.array([trial.value for trial in told], dtype=np.float64)
        good = np.array([trial.successes for trial in told], dtype=np.float64)
        judged = np.array([trial.judged for trial in told], dtype=np.float64)
        excess = good - judged * good.sum() / judged.sum()
        value = value - value.mean()
        spread = spread or bool(value.any() and np.abs(excess).max() > 1e-12)
        observed += float(value @ excess)
        order = chance.permuted(np.tile(np.arange(len(told)), (shuffles, 1)), axis=1)
        drawn += value[order] @ excess
    if not spread:
        return 1.0, 0
    as_strong = int((np.abs(drawn) >= abs(observed) - 1e-9).sum())
    return (1 + as_strong) / (shuffles + 1), int(np.sign(observed))


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


def try_conditions(by_condition: Mapping[str, Sequence[Trial]]) -> tuple[Tried, ...]:
    """Try every condition, and hold the false findings over all of them."""
    names = sorted(by_condition)
    tested = [permutation_p(by_condition[name], name) for name in names]
    stands = false_discovery([p for p, _ in tested]) if tested else ()
    return tuple(
        Tried(
            name,
            sum(trial.value is not None and trial.judged > 0 for trial in by_condition[name]),
            sum(trial.value is None and trial.judged > 0 for trial in by_condition[name]),
            p,
            found,
            direction,
        )
        for name, (p, direction), found in zip(names, tested, stands, strict=True)
    )
