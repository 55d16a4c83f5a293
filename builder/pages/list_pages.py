"""The list of all firings: whole without scripts, picked and sorted with one."""

from __future__ import annotations

from itertools import groupby

from markupsafe import Markup

from builder.archive.archive import Archive
from builder.charts.marks import pot_mark
from builder.entries.fields import SURVIVAL
from builder.pages.facets import facets
from builder.pages.firing_lines import firing_line
from builder.pages.fragments import fill
from builder.pages.numbers import counted, in_words
from builder.publish.site import Page
from builder.settings import Settings

_SCRIPTS = (
    "elements.js",
    "file_saving.js",
    "firings_rows.js",
    "firings_heat.js",
    "firings_csv.js",
    "firings.js",
    "compare_pick.js",
)


def firings_page(archive: Archive, settings: Settings) -> Page:
    """Make the list of all firings, newest first, a heading a year."""
    newest_first = [firing_line(record, settings) for record in reversed(archive.records)]
    years = [(year, list(lines)) for year, lines in groupby(newest_first, key=lambda line: line.date.year)]
    page = "firings/index"
    sentence = firings_sentence(archive)
    legend = [(word, Markup(pot_mark(word, "yes" if word == "sound" else "no"))) for word in SURVIVAL]  # noqa: S704
    lead = fill(
        "firings.html",
        page,
        sentence=sentence,
        years=years,
        total=len(newest_first),
        facets=facets(archive, settings),
        legend=legend,
        any_peak=any(line.peak for line in newest_first),
        site=settings.group.url,
    )
    return Page(
        path=page,
        title="Firings",
        description=sentence,
        lead=lead,
        section="firings",
        kind="firings",
        scripts=_SCRIPTS,
        searched=False,
    )


def firings_sentence(archive: Archive) -> str:
    """Say how many firings there are, by how many potters, and since when."""
    if not archive.records:
        return "No firing has been written up yet."
    potters = {record.firing.potter for record in archive.records}
    first, last = archive.records[0].firing.date.year, archive.records[-1].firing.date.year
    span = f"in {first}" if first == last else f"from {first} to {last}"
    firings = f"{in_words(len(archive.records))} {'firing' if len(archive.records) == 1 else 'firings'}"
    return f"{firings.capitalize()} by {counted(len(potters), 'potter')}, {span}, newest first."
