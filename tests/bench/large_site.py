"""A site as large as is wished for the benchmark of the reader's side, without measuring every firing of it.

A hundred firings are made up and measured as in any build. The archive then has them again and again under other names,
titles, days and potters: its list, its columns and its search are as large as they would be, in minutes.
"""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta
from functools import cache
from pathlib import Path

from builder.archive.archive import Archive, Record, gather
from builder.archive.parcels import Measured
from builder.entries.find import find_entries
from builder.examine import examine
from builder.pages.compare_data import SHELF, firing_data, firing_data_file, shelf_data
from builder.pages.compare_page import compare_page
from builder.pages.list_columns import list_files, listed_firings
from builder.pages.list_pages import firings_page, numbered_pages
from builder.publish.publish import publish
from builder.publish.site import Page
from builder.settings import Settings
from builder.settings_file import load_settings
from tests.bench.archive_maker import make_archive
from tests.bench.search import pages
from tests.pages.every_page import made, made_files
from tests.publish.small_site import small_site

MEASURED = 100
COMPARED = 2
"""Firings that can be laid over one another: the newest."""
_FIRST_DAY = date(2000, 3, 1)


def publish_large_site(firings: int, folder: Path) -> Path:
    """Publish a site of so many firings: their list, their pages with prose only, the comparing page, the search."""
    settings, measured = _measured(folder / "archive")
    archive = _archive(firings, settings, measured)
    site = small_site(0)
    columns = listed_firings(archive, settings)
    numbered = made(numbered_pages(archive, settings))
    listed = (firings_page(archive, settings, columns), *numbered, compare_page(archive))
    others = [one for one in site.pages if one.path not in {page.path for page in listed}]
    files = {SHELF: shelf_data(), **made_files(list_files(archive, settings, columns))}
    files |= {firing_data_file(one.firing.slug): firing_data(one, settings) for one in archive.records[-COMPARED:]}
    whole = replace(site, pages=(*others, *listed, *_entries(archive)), files={**site.files, **files})
    publish(whole, folder / f"site-{firings}", folder / f"work-{firings}")
    return folder / f"site-{firings}"


@cache
def _measured(folder: Path) -> tuple[Settings, tuple[Measured, ...]]:
    make_archive(folder, MEASURED)
    settings, _ = load_settings(folder)
    assert settings is not None
    entries, _ = find_entries(folder)
    found = (examine(entry, settings).measured for entry in entries)
    return settings, tuple(one for one in found if one is not None)


def _archive(firings: int, settings: Settings, measured: tuple[Measured, ...]) -> Archive:
    return gather([_record(number, settings, measured) for number in range(1, firings + 1)], settings)


def _record(number: int, settings: Settings, measured: tuple[Measured, ...]) -> Record:
    """Give a measured firing another name, title, day and potter; what it was made of stays, so that its pots do."""
    one = measured[number % len(measured)]
    day = _FIRST_DAY + timedelta(days=number)
    potter = list(settings.potters)[number * 7 % len(settings.potters)]
    title = f"{one.firing.title.partition(',')[2].strip().capitalize()}, fire {number}"
    firing = replace(one.firing, slug=f"{day}-fire-{number}", title=title, date=day, potter=potter, photos=())
    return Record(number, firing, one.curves, one.heat, one.pieces)


def _entries(archive: Archive) -> list[Page]:
    """Write a page of 220 words a firing, in a vocabulary like a language's."""
    prose = pages(len(archive.records))
    firings = [one.firing for one in archive.records]
    return [
        replace(page, path=f"firings/{firing.slug}", title=firing.title)
        for page, firing in zip(prose, firings, strict=True)
    ]
