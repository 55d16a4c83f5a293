"""Firings like this one: Gower's coefficient over what was recorded of both.

Every pair is compared, a block of rows at a time, so that memory grows with the number of firings and not with its
square.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from builder.workers import shared, spread

Floats = NDArray[np.float32]
Places = Sequence[int] | NDArray[np.intp]
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


Best = tuple[tuple[Alike, ...], ...]
"""For each firing those most like it, best first."""


@dataclass(frozen=True, slots=True)
class Likeness:
    """Which firings are most like which, with all that this hangs on: most of it holds where few firings are others."""

    firings: tuple[str, ...]
    """What stands for each firing: where that is the same, so are its traits. Empty where nothing does."""
    spans: Mapping[str, tuple[float, float]]
    """Least and greatest value of each trait that is a number, by which likeness is measured."""
    best: Best


def likeness(
    traits: Sequence[Mapping[str, Trait]],
    firings: tuple[str, ...] = (),
    before: Likeness | None = None,
    most: int = 3,
    jobs: int | None = 1,
) -> Likeness:
    """For each firing find the `most` firings most like it, best first; a large archive's over `jobs` processes.

    Likeness S = Σ w s / Σ w over the traits recorded of both: s = 1 − |x − y| / range for numbers, 1 or 0 for words,
    shared/either for sets of words. Source: Gower 1971, Biometrics 27:857.

    What was found `before` changes nothing but the time that it takes: a firing that was like none that is gone now has
    the best of those and the new ones.
    """
    count = len(traits)
    columns = {name: _Column.of([one.get(name) for one in traits]) for name in sorted({n for t in traits for n in t})}
    spans = {name: column.span for name, column in columns.items() if column.span is not None}
    if not columns:
        return Likeness(firings, spans, ((),) * count)
    held, new = _held(before, firings) if before is not None and before.spans == spans else ({}, [])
    rows = max(1, BLOCK_CELLS // count)
    if len(new) > rows:
        held = {}
    todo = [place for place in range(count) if place not in held]
    blocks = [todo[at : at + rows] for at in range(0, len(todo), rows)]
    looked = (one for found in spread(_block, blocks, jobs, (columns, most)) for one in found)
    found = dict(zip(todo, looked, strict=True))
    if held and new:
        found |= _beside_new(held, new, columns, most)
    usual = {name: [round(mean, 6) for mean in column.usual().tolist()] for name, column in columns.items()}
    best = tuple(_told(place, found.get(place, held.get(place, ())), usual) for place in range(count))
    return Likeness(firings, spans, best)


def _held(before: Likeness, firings: tuple[str, ...]) -> tuple[dict[int, tuple[Alike, ...]], list[int]]:
    """Return what was most like each firing, by place, where all of that is here still; and where the new ones are."""
    was = {one: place for place, one in enumerate(before.firings)}
    here = {was[one]: place for place, one in enumerate(firings) if one in was}
    if list(here) != sorted(here):  # of two that are equally like the earlier comes first
        return {}, []
    held = {
        place: tuple(replace(one, place=here[one.place]) for one in before.best[old])
        for old, place in here.items()
        if all(one.place in here for one in before.best[old])
    }
    return held, [place for place, one in enumerate(firings) if one not in was]


def _beside_new(
    held: Mapping[int, tuple[Alike, ...]], new: list[int], columns: Mapping[str, _Column], most: int
) -> dict[int, tuple[Alike, ...]]:
    """Return what is most like those firings to which a new one is at least as like as the last of the best so far."""
    likeness, weight = _compared(new, columns)
    edge = np.full(likeness.shape[1], np.inf)
    for place, best in held.items():
        edge[place] = best[-1].likeness if len(best) == most else 0.0
    found: dict[int, tuple[Alike, ...]] = {}
    for row, place in np.argwhere(likeness >= edge).tolist():
        near = _near(place, new[row], likeness[row, place], weight[row, place], columns)
        ordered = sorted((*found.get(place, held[place]), near), key=lambda one: (-one.likeness, one.place))
        found[place] = tuple(ordered[:most])
    return found


def _told(place: int, best: tuple[Alike, ...], usual: Mapping[str, Sequence[float]]) -> tuple[Alike, ...]:
    """Put those traits first in which most other firings do not agree."""
    return tuple(
        replace(one, shared=tuple(sorted(one.shared, key=lambda name: (usual[name][place], name)))) for one in best
    )


@dataclass(frozen=True, slots=True)
class _Column:
    """One trait of all firings, ready to be compared."""

    recorded: NDArray[np.bool_]
    span: tuple[float, float] | None
    """Least and greatest number; None for words."""
    numbers: Floats
    """Scaled to a range of 1, 0 where not recorded; none for words."""
    table: Floats
    """For words: shape (n, words), 1 where a firing has a word that another has too."""
    sizes: Floats
    """For words: how many each has."""
    kinds: NDArray[np.intp]
    """For words: which firings have the same."""

    @staticmethod
    def of(values: Sequence[Trait | None]) -> _Column:
        none = np.zeros(0, np.float32)
        recorded = np.array([isinstance(value, float) for value in values])
        if recorded.any():
            numbers = np.array([value if isinstance(value, float) else np.nan for value in values])
            low, high = float(np.nanmin(numbers)), float(np.nanmax(numbers))
            scaled = np.nan_to_num((numbers - low) / ((high - low) or 1.0)).astype(np.float32)
            return _Column(recorded, (low, high), scaled, none.reshape(0, 0), none, none.astype(np.intp))
        recorded = np.array([value is not None for value in values])
        sets = [_words(value) for value in values]
        common = Counter(word for one in sets for word in one)
        # A word that one firing alone has can agree with no other: it counts for the size, and needs no column.
        place = {word: at for at, word in enumerate(sorted(word for word in common if common[word] > 1))}
        table = np.zeros((len(values), len(place)), np.float32)
        for row, one in enumerate(sets):
            table[row, [place[word] for word in one if word in place]] = 1.0
        kinds: dict[frozenset[str], int] = {}
        own = np.array([kinds.setdefault(one, len(kinds)) for one in sets], np.intp)
        return _Column(recorded, None, none, table, np.array([len(one) for one in sets], np.float32), own)

    def scores(self, rows: Places, others: Places | slice = slice(None)) -> Floats:
        """Likeness of some firings to others, shape (rows, others); 0 where either is not recorded."""
        if self.span is not None:
            score = np.subtract.outer(self.numbers[rows], self.numbers[others])
            np.abs(score, out=score)
            np.subtract(np.float32(1), score, out=score)
            score *= self.recorded[others]
            score *= self.recorded[rows][:, None]
            return np.asarray(score, dtype=np.float32)
        shared = self.table[rows] @ self.table[others].T
        if self.single:
            return np.asarray(shared, dtype=np.float32)
        either = np.add.outer(self.sizes[rows], self.sizes[others])
        either -= shared
        np.maximum(either, np.float32(1), out=either)
        shared /= either
        return np.asarray(shared, dtype=np.float32)

    def usual(self) -> NDArray[np.float64]:
        """How usual agreement with each firing is: its mean score over the firings that recorded the trait."""
        count = max(int(self.recorded.sum()), 1)
        if self.span is not None:
            numbers = self.numbers.astype(np.float64)
            ordered = np.sort(numbers[self.recorded])
            below = np.concatenate(([0.0], np.cumsum(ordered)))
            place = np.searchsorted(ordered, numbers, "right")
            return np.asarray(1.0 - (numbers * (2 * place - count) + below[-1] - 2 * below[place]) / count)
        _, first = np.unique(self.kinds, return_index=True)
        firings = np.bincount(self.kinds[self.recorded], minlength=len(first)).astype(np.float64)
        rows = max(1, BLOCK_CELLS // len(first))
        blocks = [first[at : at + rows] for at in range(0, len(first), rows)]
        total = np.concatenate([self.scores(block, first) @ firings for block in blocks])
        return np.asarray(total[self.kinds] / count)

    @property
    def single(self) -> bool:
        """Whether every firing has one word at most, so that what is shared is the score already."""
        return bool(self.sizes.max(initial=0.0) <= 1)


def _words(value: Trait | None) -> frozenset[str]:
    if value is None:
        return frozenset()
    return value if isinstance(value, frozenset) else frozenset({str(value)})


def _compared(rows: Places, columns: Mapping[str, _Column]) -> tuple[Floats, Floats]:
    """Compare some firings with all: likeness (−1 where it cannot be told), and traits recorded of both."""
    recorded = np.stack([column.recorded for column in columns.values()], axis=1).astype(np.float32)
    weight = recorded[rows] @ recorded.T
    total = np.zeros(weight.shape, np.float32)
    for column in columns.values():
        total += column.scores(rows)
    likeness = np.where(weight >= LEAST_SHARED, total / np.maximum(weight, 1), np.float32(-1))
    likeness[np.arange(len(rows)), rows] = -1.0
    return likeness, weight


def _block(rows: list[int]) -> list[tuple[Alike, ...]]:
    """Find the firings most like each of some rows."""
    columns, most = shared()
    likeness, weight = _compared(rows, columns)
    return [
        tuple(
            _near(place, int(other), likeness[row, other], weight[row, other], columns)
            for other in _highest(likeness[row], most)
            if likeness[row, other] >= 0
        )
        for row, place in enumerate(rows)
    ]


def _highest(likeness: Floats, most: int) -> NDArray[np.intp]:
    """Find the places of the highest, best first, the earlier first where two are equal."""
    edge = np.partition(likeness, -most)[-most] if len(likeness) > most else -np.inf
    high = np.flatnonzero(likeness >= edge)
    return high[np.argsort(-likeness[high], kind="stable")[:most]]


def _near(place: int, other: int, likeness: np.float32, weight: np.float32, columns: Mapping[str, _Column]) -> Alike:
    agreeing = (
        name
        for name, column in columns.items()
        if column.recorded[place] and column.recorded[other] and _score(column, place, other) >= AGREES
    )
    return Alike(other, float(likeness), tuple(agreeing), int(weight))


def _score(column: _Column, place: int, other: int) -> float:
    if column.span is not None:
        return 1.0 - abs(float(column.numbers[place]) - float(column.numbers[other]))
    shared = float(column.table[place] @ column.table[other])
    return shared / max(float(column.sizes[place] + column.sizes[other]) - shared, 1.0)
