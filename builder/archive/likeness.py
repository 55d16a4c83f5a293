"""Firings like this one: Gower's coefficient over what was recorded of both."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]
Trait = float | str | frozenset[str]
"""A number, a word, or a set of words; a trait that was not recorded is absent."""

LEAST_SHARED = 4
"""Traits that two firings must both have recorded before they can be called alike."""


@dataclass(frozen=True, slots=True)
class Alike:
    """A firing that is like another, and in what."""

    place: int
    """Its place in the sequence that was compared."""
    likeness: float
    """Gower's coefficient: 1 alike in everything recorded of both, 0 in nothing."""
    shared: tuple[str, ...]
    """The traits in which they agree most, most telling first."""


def most_alike(traits: Sequence[Mapping[str, Trait]], most: int = 3) -> tuple[tuple[Alike, ...], ...]:
    """For each firing the `most` firings most like it, best first.

    Likeness S = Σ w s / Σ w over the traits recorded of both: s = 1 − |x − y| / range for numbers, 1 or 0 for words,
    shared/either for sets of words. Source: Gower 1971, Biometrics 27:857.
    """
    count = len(traits)
    names = sorted({name for one in traits for name in one})
    total, weight = np.zeros((count, count)), np.zeros((count, count))
    scores = {}
    for name in names:
        score, both = _compare([one.get(name) for one in traits])
        scores[name] = score
        total += np.where(both, score, 0.0)
        weight += both
    known = weight >= LEAST_SHARED
    likeness = np.where(known, total / np.maximum(weight, 1), -1.0)
    np.fill_diagonal(likeness, -1.0)
    return tuple(_best(likeness[place], place, scores, traits, most) for place in range(count))


def _best(
    likeness: Floats, place: int, scores: Mapping[str, Floats], traits: Sequence[Mapping[str, Trait]], most: int
) -> tuple[Alike, ...]:
    order = np.lexsort((np.arange(len(likeness)), -likeness))[:most]
    return tuple(
        Alike(int(other), float(likeness[other]), _agreeing(place, int(other), scores, traits))
        for other in order
        if likeness[other] >= 0
    )


def _agreeing(
    place: int, other: int, scores: Mapping[str, Floats], traits: Sequence[Mapping[str, Trait]]
) -> tuple[str, ...]:
    """Name the traits that agree, those first in which most other firings do not."""
    found = []
    for name, score in scores.items():
        if name in traits[place] and name in traits[other] and score[place, other] >= 0.9:
            rarity = 1.0 - float(np.nanmean(score[place])) if np.isfinite(score[place]).any() else 0.0
            found.append((-rarity, name))
    return tuple(name for _, name in sorted(found))


def _compare(values: Sequence[Trait | None]) -> tuple[Floats, NDArray[np.bool_]]:
    """Likeness in one trait, shape (n, n), NaN where either is not recorded; and where both are."""
    recorded = np.array([value is not None for value in values])
    both = recorded[:, None] & recorded[None, :]
    if any(isinstance(value, float) for value in values):
        numbers = np.array([value if isinstance(value, float) else np.nan for value in values])
        span = float(np.nanmax(numbers) - np.nanmin(numbers))
        apart = np.abs(numbers[:, None] - numbers[None, :])
        score = 1.0 - apart / span if span else np.where(both, 1.0, np.nan)
    else:
        sets = [value if isinstance(value, frozenset) else frozenset({value}) for value in values]
        vocabulary = {word: at for at, word in enumerate(sorted({str(word) for one in sets for word in one}))}
        table = np.zeros((len(values), len(vocabulary)))
        for row, one in enumerate(sets):
            table[row, [vocabulary[str(word)] for word in one]] = 1.0
        common = table @ table.T
        size = table.sum(axis=1)
        either = size[:, None] + size[None, :] - common
        score = common / np.maximum(either, 1.0)
    return np.where(both, score, np.nan), both
