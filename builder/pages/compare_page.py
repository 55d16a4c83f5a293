"""The comparing page: two to four firings laid over one another, drawn by a script from a file a firing."""

from __future__ import annotations

from builder.archive.archive import Archive
from builder.pages.compare_data import SHELF
from builder.pages.fragments import fill
from builder.publish.site import Page

MOST = 4
"""Firings that can be laid over one another: more cannot be told apart in grey."""
_SENTENCE = "Two to four firings laid over one another: their curves, what was done differently, and how far it shows."


def compare_page(archive: Archive) -> Page:
    """Make the comparing page."""
    page = "compare"
    lead = fill("compare.html", page, sentence=_SENTENCE, most=MOST, shelf=SHELF, total=len(archive.records))
    return Page(
        path=page,
        title="Compare",
        description=_SENTENCE,
        lead=lead,
        section="compare",
        kind="compare",
        scripts=("compare_chart.js", "compare_tables.js", "compare.js"),
        searched=False,
    )
