"""Pages and files that are not made yet, each with all that decides what it will be.

Whoever keeps what was made asks what decides: what a page shows and its draft does not tell of would stay as it was.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass

from builder.archive.archive import Archive, Record
from builder.publish.site import Page


@dataclass(frozen=True, slots=True)
class Draft:
    """A page or a file before it is made."""

    address: str
    """A page's path or a file's address, from the site's root."""
    seen: object
    """All that decides what it will be, beside the settings and the program; it has a digest."""
    make: Callable[[], Page | bytes]
    """What other processes can be handed: a function of a module with all that it takes."""


def lines_of(records: Iterable[Record]) -> tuple[str, ...]:
    """Return what decides everything that a page can show of some firings, but for their stories."""
    return tuple(f"{record.number} {record.outline}" for record in records)


def rates_of(archive: Archive) -> tuple[object, ...]:
    """Return what decides the rate over some firings beside those firings: what all of them say of pieces alike."""
    return archive.correlation, archive.correlation_firings, archive.shares
