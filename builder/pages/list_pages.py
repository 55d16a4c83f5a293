"""The list of all firings: the newest on its first page, the others on numbered pages; a script picks and sorts them.

Firings are put on pages by their number, counted from the oldest: a new firing changes the first page alone, and the
address of a full page stays what it is.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import groupby

from markupsafe import Markup

from builder.archive.archive import Archive, Record
from builder.charts.marks import pot_mark
from builder.entries.fields import SURVIVAL
from builder.pages.facets import facet_words, facets
from builder.pages.firing_lines import firing_line
from builder.pages.fragments import fill
from builder.pages.list_columns import COLUMNS
from builder.pages.numbers import in_words
from builder.pages.sentences import potters_counted
from builder.publish.site import Page
from builder.settings import Settings

PAGE_FIRINGS = 60
"""Firings on a numbered page; the first page has so many or up to twice as many, all of a small archive."""
_INDEX = "firings/index"
_SCRIPTS = (
    "elements.js",
    "file_saving.js",
    "script_files.js",
    "firings_columns.js",
    "firings_words.js",
    "firings_heat.js",
    "firings_picking.js",
    "firings_rows.js",
    "firings_curves.js",
    "firings_list.js",
    "firings_csv.js",
    "firings.js",
    "compare_pick.js",
)


@dataclass(frozen=True, slots=True)
class NumberedPage:
    """One of the pages that hold the firings before the newest."""

    page: str
    words: str
    """`1 to 60`."""
    span: str
    """`2019 to 2021`."""


def firings_page(archive: Archive, settings: Settings) -> Page:
    """Make the first page of the list: the newest firings, a heading a year, and all by which they are picked."""
    told = [facet_words(record, settings) for record in archive.records]
    sentence = firings_sentence(archive)
    lead = fill(
        "firings.html",
        _INDEX,
        sentence=sentence,
        years=_years(_newest(archive), settings),
        total=len(archive.records),
        facets=facets(told, settings),
        legend=_legend(),
        any_peak=any(_has_peak(record) for record in archive.records),
        site=settings.group.url,
        columns=COLUMNS,
        batch=2 * PAGE_FIRINGS,
        numbered=_numbered(archive)[::-1],
    )
    return Page(
        path=_INDEX,
        title="Firings",
        description=sentence,
        lead=lead,
        section="firings",
        kind="firings",
        scripts=_SCRIPTS,
        searched=False,
    )


def numbered_pages(archive: Archive, settings: Settings) -> tuple[Page, ...]:
    """Make the pages of the firings before the newest, the oldest first; none in a small archive."""
    numbered = _numbered(archive)
    return tuple(_numbered_page(at, numbered, archive, settings) for at in range(len(numbered)))


def firings_sentence(archive: Archive) -> str:
    """Say how many firings there are, by how many potters, and since when."""
    if not archive.records:
        return "No firing has been written up yet."
    first, last = archive.records[0].firing.date.year, archive.records[-1].firing.date.year
    span = f"in {first}" if first == last else f"from {first} to {last}"
    firings = f"{in_words(len(archive.records))} {'firing' if len(archive.records) == 1 else 'firings'}"
    return f"{firings.capitalize()} by {potters_counted(archive.records)}, {span}, newest first."


def _numbered_page(at: int, numbered: Sequence[NumberedPage], archive: Archive, settings: Settings) -> Page:
    records = archive.records[at * PAGE_FIRINGS : (at + 1) * PAGE_FIRINGS]
    own = numbered[at]
    sentence = f"Firings {own.words} by number, {own.span}, newest first."
    lead = fill(
        "firings_numbered.html",
        own.page,
        own=own,
        sentence=sentence,
        years=_years(records, settings),
        legend=_legend(),
        newer=numbered[at + 1] if at + 1 < len(numbered) else None,
        older=numbered[at - 1] if at else None,
    )
    return Page(
        path=own.page,
        title=f"Firings {own.words}",
        description=sentence,
        lead=lead,
        section="firings",
        kind="firings",
        scripts=("compare_pick.js",),
        searched=False,
    )


def _numbered(archive: Archive) -> tuple[NumberedPage, ...]:
    """Name the numbered pages, the oldest first: all full pages but one, which the first page shows."""
    full = len(archive.records) // PAGE_FIRINGS - 1
    return tuple(_named(archive.records[at * PAGE_FIRINGS : (at + 1) * PAGE_FIRINGS]) for at in range(full))


def _named(records: Sequence[Record]) -> NumberedPage:
    first, last = records[0], records[-1]
    years = (first.firing.date.year, last.firing.date.year)
    span = str(years[0]) if years[0] == years[1] else f"{years[0]} to {years[1]}"
    return NumberedPage(f"firings/numbers-{first.number}-{last.number}", f"{first.number} to {last.number}", span)


def _newest(archive: Archive) -> Sequence[Record]:
    return archive.records[len(_numbered(archive)) * PAGE_FIRINGS :]


def _years(records: Sequence[Record], settings: Settings) -> list[tuple[int, list[object]]]:
    """Make lines of firings, the newest first, by year."""
    lines = [firing_line(record, settings) for record in reversed(records)]
    return [(year, list(found)) for year, found in groupby(lines, key=lambda line: line.date.year)]


def _legend() -> list[tuple[str, Markup]]:
    return [(word, Markup(pot_mark(word, "yes" if word == "sound" else "no"))) for word in SURVIVAL]  # noqa: S704


def _has_peak(record: Record) -> bool:
    peak = record.heat.ware_figures.get("peak_c")
    return peak is not None and peak.value is not None
