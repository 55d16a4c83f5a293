"""Where a firing comes from: its group, and where that group published it."""

from __future__ import annotations

from builder.checks.firing import Firing
from builder.exports.published_entry import ENTRIES, PUBLISHED_ENTRY
from builder.settings import Settings


def published_at(firing: Firing, settings: Settings) -> str:
    """Return the address of a firing's page in its own group's site; empty for this archive's own, and where none is
    known."""
    address = settings.group_of(firing.source).address if firing.source else ""
    return f"{address}firings/{firing.own_name}.html" if address else ""


def entry_file(firing: Firing) -> str:
    """Return where a firing's published entry lies, from the data folder; empty where another group publishes it."""
    return "" if firing.source else f"{ENTRIES}/{firing.slug}/{PUBLISHED_ENTRY}"
