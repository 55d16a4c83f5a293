"""The list of all firings: the newest on its first page, the others on numbered pages; a script picks and sorts them.

Firings are put on pages by their number, counted from the oldest: a new firing changes the first page alone, and the
address of a full page stays what it is.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import partial
from itertools import groupby

from markupsafe import Markup

from builder.archive.archive import Archive, Record
from builder.charts.marks import pot_mark
from builder.entries.fields import SURVIVAL
from builder.pages.drafts import Draft, lines_of
from builder.pages.facets import facets
from builder.pages.firing_lines import firing_line
from builder.pages.fragments import fill
from builder.pages.list_columns import COLUMNS, ListedFiring
from builder.pages.numbers import day, in_words
from builder.pages.sentences import potters_counted
from builder.publish.site import Page
from builder.settings import Settings

PAGE_FIRINGS = 30
"""Firings on a numbered page; the first page has so many or up to twice as many, all of a small archive."""
_INDEX = "firings/index"
_ALL_PAGES = "firings/numbers"
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
    """`1 to 30`."""
    span: str
    """`2019 to 2021`."""


def firings_page(archive: Archive, settings: Settings, listed: Sequence[ListedFiring]) -> Page:
    """Make the first page of the list: the newest firings, a heading a year, and all by which they are picked."""
    sentence = firings_sentence(archive)
    lead = fill(
        "firings.html",
        _INDEX,
        sentence=sentence,
        years=_years(_newest(archive), settings),
        total=len(archive.records),
        facets=facets([one.facets for one in listed], settings),
        legend=_legend(),
        any_peak=any(one.peak_tenths is not None for one in listed),
        site=settings.group.url,
        columns=COLUMNS,
        batch=2 * PAGE_FIRINGS,
        older=next(reversed(_numbered(archive)), None),
        all_pages=_ALL_PAGES,
    )
    return _page(_INDEX, "Firings", sentence, lead, _SCRIPTS)


def numbered_pages(archive: Archive, settings: Settings) -> tuple[Draft, ...]:
    """Draft the pages of the firings before the newest, and one that names them all; none in a small archive."""
    numbered = _numbered(archive)
    if not numbered:
        return ()
    newest = replace(_named(_newest(archive)), page=_INDEX)
    drafts = (_numbered_draft(at, numbered, archive, settings) for at in range(len(numbered)))
    return _all_pages_draft((newest, *reversed(numbered)), len(archive.records)), *drafts


def firings_sentence(archive: Archive) -> str:
    """Say how many firings there are, by how many potters, and since when."""
    if not archive.records:
        return "No firing has been written up yet."
    first, last = archive.records[0].firing.date.year, archive.records[-1].firing.date.year
    span = f"in {first}" if first == last else f"from {first} to {last}"
    firings = f"{in_words(len(archive.records))} {'firing' if len(archive.records) == 1 else 'firings'}"
    return f"{firings.capitalize()} by {potters_counted(archive.records)}, {span}, newest first."


def _numbered_draft(at: int, numbered: Sequence[NumberedPage], archive: Archive, settings: Settings) -> Draft:
    records = archive.records[at * PAGE_FIRINGS : (at + 1) * PAGE_FIRINGS]
    newer = numbered[at + 1] if at + 1 < len(numbered) else None
    older = numbered[at - 1] if at else None
    make = partial(_numbered_page, numbered[at], newer, older, records, settings)
    return Draft(numbered[at].page, (newer, older, lines_of(records)), make)


def _numbered_page(
    own: NumberedPage,
    newer: NumberedPage | None,
    older: NumberedPage | None,
    records: Sequence[Record],
    settings: Settings,
) -> Page:
    first, last = (day(one.firing.date) for one in (records[0], records[-1]))
    span = f"On {first}" if first == last else f"From {first} to {last}, newest first"
    lead = fill(
        "firings_numbered.html",
        own.page,
        own=own,
        sentence=f"{span}.",
        years=_years(records, settings),
        legend=_legend(),
        newer=newer,
        older=older,
        all_pages=_ALL_PAGES,
    )
    title = f"Firings {own.words}"
    return _page(own.page, title, f"{title}. {span}.", lead, ("compare_pick.js",))


def _all_pages_draft(pages: Sequence[NumberedPage], firings: int) -> Draft:
    return Draft(_ALL_PAGES, (pages, firings), partial(_all_pages, pages, firings))


def _all_pages(pages: Sequence[NumberedPage], firings: int) -> Page:
    """Name every page of the list, the newest firings first."""
    sentence = f"{in_words(firings).capitalize()} firings, page by page, newest first."
    lead = fill("firings_pages.html", _ALL_PAGES, sentence=sentence, numbered=pages)
    return _page(_ALL_PAGES, "All firings by number", sentence, lead)


def _page(path: str, title: str, sentence: str, lead: str, scripts: tuple[str, ...] = ()) -> Page:
    return Page(
        path=path,
        title=title,
        description=sentence,
        lead=lead,
        section="firings",
        kind="firings",
        scripts=scripts,
        searched=False,
    )


def _numbered(archive: Archive) -> tuple[NumberedPage, ...]:
    """Name the numbered pages, the oldest first: all full pages but one, which the first page shows."""
    full = len(archive.records) // PAGE_FIRINGS - 1
    return tuple(_named(archive.records[at * PAGE_FIRINGS : (at + 1) * PAGE_FIRINGS]) for at in range(full))


def _named(records: Sequence[Record]) -> NumberedPage:
    first, last = records[0], records[-1]
    years = (first.date.year, last.date.year)
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
