"""Keeping marks apart on a scale: what would stand on another mark goes one level up."""

from __future__ import annotations

from collections.abc import Iterable, Sequence


def levels(spans: Iterable[tuple[float, float]], gap: float, most: int) -> tuple[int, ...]:
    """Give each span (left, right), in order of its left end, the lowest level where it touches no other.

    With `most` levels full, it goes where the last mark ends soonest, and the two overlap.

    >>> levels([(0, 10), (5, 15), (12, 20)], 1, 4)
    (0, 1, 0)
    """
    ends: list[float] = []
    found = []
    for left, right in spans:
        free = next((level for level, end in enumerate(ends) if end + gap <= left), None)
        if free is None and len(ends) < most:
            ends.append(right)
            free = len(ends) - 1
        elif free is None:
            free = min(range(len(ends)), key=lambda level: ends[level])
        ends[free] = max(ends[free], right)
        found.append(free)
    return tuple(found)


def tick_step(span: float, most: int) -> float:
    """Choose a round step that puts at most `most` ticks on a scale.

    >>> tick_step(430, 6), tick_step(35, 6)
    (100, 10)
    """
    size = 1.0
    while True:
        for step in (1, 2, 5):
            if span / (step * size) <= most:
                return step * size if step * size < 1 else int(step * size)
        size *= 10


def runs(states: Sequence[int]) -> Iterable[tuple[int, int, int]]:
    """Give each run of equal states as state, first place, last place.

    >>> list(runs([0, 0, 1, 2, 2]))
    [(0, 0, 1), (1, 2, 2), (2, 3, 4)]
    """
    first = 0
    for place in range(1, len(states) + 1):
        if place == len(states) or states[place] != states[first]:
            yield states[first], first, place - 1
            first = place
