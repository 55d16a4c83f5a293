"""The comparing page: two to four firings laid over one another, drawn by a script from a file a firing."""

from __future__ import annotations

from builder.archive.archive import Archive
from builder.pages.compare_data import SHELF
from builder.pages.fragments import fill
from builder.pages.list_columns import COLUMNS
from builder.publish.site import Page

MOST = 4
"""Firings that can be laid over one another: more cannot be told apart in grey."""
_SENTENCE = "Two to four firings laid over one another: their curves, what was done differently, and how far it shows."
_SCRIPTS = (
    "script_files.js",
    "firings_columns.js",
    "firings_words.js",
    "compare_chart.js",
    "compare_tables.js",
    "compare.js",
)


def compare_page(archive: Archive) -> Page:
    """Make the comparing page."""
    page = "compare"
    total = len(archive.records)
    lead = fill("compare.html", page, sentence=_SENTENCE, most=MOST, shelf=SHELF, columns=COLUMNS, total=total)
    return Page(
        path=page,
        title="Compare",
        description=_SENTENCE,
        lead=lead,
        section="compare",
        kind="compare",
        scripts=_SCRIPTS,
        searched=False,
    )
