"""Firings like this one: Gower's coefficient over what was recorded of both.

Every pair is compared, a block of rows at a time, so that memory grows with the number of firings and not with its
square.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from builder.workers import shared, spread

Floats = NDArray[np.float32]
Trait = float | str | frozenset[str]
"""A number, a word, or a set of words; a trait that was not recorded is absent."""

LEAST_SHARED = 4
"""Traits that two firings must both have recorded before they can be called alike."""
AGREES = 0.9
"""From this score on two firings are said to agree in a trait."""
BLOCK_CELLS = 200_000
"""Pairs compared at a time: so few that they stay in the processor's own memory, whatever the archive's size."""


@dataclass(frozen=True, slots=True)
class Alike:
    """A firing that is like another, and in what."""

    place: int
    """Its place in the sequence that was compared."""
    likeness: float
    """Gower's coefficient: 1 alike in everything recorded of both, 0 in nothing."""
    shared: tuple[str, ...]
    """The traits in which they agree, those first in which few other firings do."""
    compared: int = 0
    """Traits recorded of both."""


def most_alike(
    traits: Sequence[Mapping[str, Trait]], most: int = 3, jobs: int | None = 1
) -> tuple[tuple[Alike, ...], ...]:
    """For each firing the `most` firings most like it, best first; a large archive's over `jobs` processes.

    Likeness S = Σ w s / Σ w over the traits recorded of both: s = 1 − |x − y| / range for numbers, 1 or 0 for words,
    shared/either for sets of words. Source: Gower 1971, Biometrics 27:857.
    """
    count = len(traits)
    columns = {name: _Column.of([one.get(name) for one in traits]) for name in sorted({n for t in traits for n in t})}
    if not columns:
        return ((),) * count
    rows = max(1, BLOCK_CELLS // count)
    blocks = [slice(start, min(start + rows, count)) for start in range(0, count, rows)]
    return tuple(one for found in spread(_block, blocks, jobs, (columns, count, most)) for one in found)


@dataclass(frozen=True, slots=True)
class _Column:
    """One trait of all firings, ready to be compared."""

    recorded: NDArray[np.bool_]
    numbers: Floats | None
    """Scaled to a range of 1, 0 where not recorded; None for words."""
    table: Floats
    """For words: shape (n, words), 1 where a firing has a word that another has too."""
    sizes: Floats
    """For words: how many each has."""

    @staticmethod
    def of(values: Sequence[Trait | None]) -> _Column:
        recorded = np.array([value is not None for value in values])
        if any(isinstance(value, float) for value in values):
            recorded = np.array([isinstance(value, float) for value in values])
            numbers = np.array([value if isinstance(value, float) else np.nan for value in values])
            low, high = float(np.nanmin(numbers)), float(np.nanmax(numbers))
            scaled = np.nan_to_num((numbers - low) / ((high - low) or 1.0)).astype(np.float32)
            return _Column(recorded, scaled, np.zeros((0, 0), np.float32), np.zeros(0, np.float32))
        sets = [_words(value) for value in values]
        common = Counter(word for one in sets for word in one)
        # A word that one firing alone has can agree with no other: it counts for the size, and needs no column.
        place = {word: at for at, word in enumerate(sorted(word for word in common if common[word] > 1))}
        table = np.zeros((len(values), len(place)), np.float32)
        for row, one in enumerate(sets):
            table[row, [place[word] for word in one if word in place]] = 1.0
        return _Column(recorded, None, table, np.array([len(one) for one in sets], np.float32))

    def scores(self, rows: slice) -> Floats:
        """Likeness of some firings to all, shape (rows, n); 0 where either is not recorded."""
        if self.numbers is not None:
            score = np.subtract.outer(self.numbers[rows], self.numbers)
            np.abs(score, out=score)
            np.subtract(np.float32(1), score, out=score)
            score *= self.recorded
            score *= self.recorded[rows, None]
            return np.asarray(score, dtype=np.float32)
        shared = self.table[rows] @ self.table.T
        if self.single:
            return np.asarray(shared, dtype=np.float32)
        either = np.add.outer(self.sizes[rows], self.sizes)
        either -= shared
        np.maximum(either, np.float32(1), out=either)
        shared /= either
        return np.asarray(shared, dtype=np.float32)

    @property
    def single(self) -> bool:
        """Whether every firing has one word at most, so that what is shared is the score already."""
        return bool(self.sizes.max(initial=0.0) <= 1)


def _words(value: Trait | None) -> frozenset[str]:
    if value is None:
        return frozenset()
    return value if isinstance(value, frozenset) else frozenset({str(value)})


def _block(rows: slice) -> list[tuple[Alike, ...]]:
    """Find the firings most like each of some rows."""
    columns, count, most = shared()
    here = rows.stop - rows.start
    total = np.zeros((here, count), np.float32)
    recorded = np.stack([column.recorded for column in columns.values()], axis=1).astype(np.float32)
    weight = recorded[rows] @ recorded.T
    usual: dict[str, Floats] = {}
    for name, column in columns.items():
        score = column.scores(rows)
        total += score
        # How usual agreement is in this trait: its mean score over the firings that recorded it.
        usual[name] = score.sum(axis=1) / max(int(column.recorded.sum()), 1)
    likeness = np.where(weight >= LEAST_SHARED, total / np.maximum(weight, 1), np.float32(-1))
    likeness[np.arange(here), np.arange(rows.start, rows.stop)] = -1.0
    return [
        _best(
            likeness[row],
            weight[row],
            rows.start + row,
            {name: float(one[row]) for name, one in usual.items()},
            columns,
            most,
        )
        for row in range(here)
    ]


def _best(
    likeness: Floats, weight: Floats, place: int, usual: Mapping[str, float], columns: Mapping[str, _Column], most: int
) -> tuple[Alike, ...]:
    order = _highest(likeness, most)
    return tuple(
        Alike(int(other), float(likeness[other]), _agreeing(place, int(other), usual, columns), int(weight[other]))
        for other in order
        if likeness[other] >= 0
    )


def _highest(likeness: Floats, most: int) -> NDArray[np.intp]:
    """Find the places of the highest, best first, the earlier first where two are equal."""
    edge = np.partition(likeness, -most)[-most] if len(likeness) > most else -np.inf
    high = np.flatnonzero(likeness >= edge)
    return high[np.argsort(-likeness[high], kind="stable")[:most]]


def _agreeing(place: int, other: int, usual: Mapping[str, float], columns: Mapping[str, _Column]) -> tuple[str, ...]:
    """Name the traits that agree, those first in which most other firings do not."""
    found = []
    for name, column in columns.items():
        if column.recorded[place] and column.recorded[other] and _score(column, place, other) >= AGREES:
            found.append((round(usual[name], 6), name))
    return tuple(name for _, name in sorted(found))


def _score(column: _Column, place: int, other: int) -> float:
    if column.numbers is not None:
        return 1.0 - abs(float(column.numbers[place]) - float(column.numbers[other]))
    shared = float(column.table[place] @ column.table[other])
    return shared / max(float(column.sizes[place] + column.sizes[other]) - shared, 1.0)
