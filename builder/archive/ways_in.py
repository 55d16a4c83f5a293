"""Ways into the archive beside methods and potters: the words recorded for one condition, the places, the years."""

from __future__ import annotations

import unicodedata
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass

from builder.archive.archive import Archive, Rate, Record, rate_over
from builder.archive.tallies import Tally


@dataclass(frozen=True, slots=True)
class WayIn:
    """One word with the firings that recorded it."""

    word: str
    """As it was written first; `folded` tells which words are the same."""
    records: tuple[Record, ...]
    rate: Rate
    """Success over these firings, each piece judged by its own method."""
    by_method: tuple[Rate, ...]
    """The same, method by method, in the order of the settings; nothing is ordered by its rate."""


def folded(word: str) -> str:
    """Return the form in which two spellings of one word are equal: capitals and runs of spaces do not count.

    >>> folded("Crushed  Sherd") == folded("crushed sherd")
    True
    """
    return " ".join(unicodedata.normalize("NFKC", word).casefold().split())


def ways_in(
    archive: Archive, words: Callable[[Record], Iterable[str]], methods: Sequence[str]
) -> tuple[tuple[WayIn, ...], int]:
    """Return a way in for each word that `words` finds in a firing, by alphabet, and how many firings record none.

    `methods` are the keys of all methods, in the order of the settings.
    """
    spelt: dict[str, str] = {}
    found: dict[str, list[tuple[Record, Tally]]] = {}
    missing = 0
    for record in archive.records:
        told = {folded(word): word for word in words(record)}
        missing += not told
        tally = archive.tally(record)
        for key, word in told.items():
            spelt.setdefault(key, word)
            found.setdefault(key, []).append((record, tally))
    return tuple(_way_in(spelt[key], found[key], archive, methods) for key in sorted(found)), missing


def _way_in(word: str, found: Sequence[tuple[Record, Tally]], archive: Archive, methods: Sequence[str]) -> WayIn:
    parts: dict[str, list[Tally]] = {key: [] for key in methods}
    for record, tally in found:
        parts[record.firing.method].append(tally)
    by_method = tuple(rate_over(part, archive, key) for key, part in parts.items() if part)
    rate = rate_over([tally for _, tally in found], archive)
    return WayIn(word, tuple(record for record, _ in found), rate, by_method)
