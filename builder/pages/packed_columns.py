"""Columns of thousands of numbers or words, written so that a script reads them in a moment.

A browser takes ten thousand numbers apart one by one where they stand in a list; in one long word they cost nothing
until they are asked for. `theme/scripts/firings_columns.js` reads what is written here.
"""

from __future__ import annotations

from collections.abc import Hashable, Iterable, Sequence
from typing import TypeVar

DIGITS = "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz-_"
"""The 64 letters that stand for numbers: none that a script or a page could take for anything else."""

_One = TypeVar("_One", bound=Hashable)


def packed_numbers(numbers: Sequence[int | None]) -> str:
    """Write whole numbers as `letters each:least:letters`; nothing known is 0, the least number 1, and so on.

    >>> packed_numbers([7, None, 9, 8]), packed_numbers([100, 200])
    ('1:7:1032', '2:100:011b')
    """
    known = [number for number in numbers if number is not None]
    least, most = min(known, default=0), max(known, default=0)
    width = 1
    while len(DIGITS) ** width < most - least + 2:
        width += 1
    spelt = {number: _spelt(number - least + 1, width) for number in set(known)}
    unknown = DIGITS[0] * width
    return f"{width}:{least}:{''.join(unknown if number is None else spelt[number] for number in numbers)}"


def _spelt(number: int, width: int) -> str:
    letters = ""
    for _ in range(width):
        number, last = divmod(number, len(DIGITS))
        letters = DIGITS[last] + letters
    return letters


def packed_words(words: Sequence[_One]) -> dict[str, object]:
    """Write one word a row: each different one once, and which it is by row."""
    places = {word: place for place, word in enumerate(dict.fromkeys(words))}
    return {"words": list(places), "rows": packed_numbers([places[word] for word in words])}


def packed_sets(sets: Sequence[tuple[_One, ...]], words: Iterable[_One] = ()) -> dict[str, object]:
    """Write several words a row: each different word once (`words` first), each different set once, and which by row.

    >>> packed_sets([("hazel", "birch"), (), ("birch",)])
    {'words': ['hazel', 'birch'], 'sets': [[0, 1], [], [1]], 'rows': '1:0:123'}
    """
    places = {word: place for place, word in enumerate(dict.fromkeys([*words, *(one for row in sets for one in row)]))}
    different = {row: place for place, row in enumerate(dict.fromkeys(sets))}
    return {
        "words": list(places),
        "sets": [[places[word] for word in row] for row in different],
        "rows": packed_numbers([different[row] for row in sets]),
    }
