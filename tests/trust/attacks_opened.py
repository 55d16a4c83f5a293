"""The long form of the attacks: every one in every single place, read in the built bytes and opened in Chromium.

Most places are many in one large archive. Of some an archive has one only (the group's name, say): for these a small
archive is built for each attack. Pages that only repeat a word that other pages show (materials, places) are opened as
often as there are words, and read all.
"""

from __future__ import annotations

import shutil
import time
from collections.abc import Callable
from dataclasses import dataclass, field
from pathlib import Path

from playwright.sync_api import Browser, Page, sync_playwright

from tests.trust.attacks import ATTACKS
from tests.trust.built_bytes import look_through
from tests.trust.hostile_archive import LONG, METHODS, OF_THE_GROUP, Shape, attacking, attacks_for
from tests.trust.opening import html_pages, open_all
from tests.trust.rotation import built, slots_of
from tests.trust.row import Row

TINY = Shape(entries=1, pieces=1, photos=0, potters=1, refused=1, strays=0)
SINGLE = frozenset(
    {*(f"settings.{name}" for name in (*OF_THE_GROUP, "rule", "method.name", "method.summary")), "prose"}
)
"""Places of which an archive has one or few."""
_SHOWN_ON = ("index.html", "about.html")
"""Pages of a tiny archive that show what the group says of itself, each in another way."""
_REPEATED = ("materials/", "places/")
_SOME = 8
"""Of pages that only repeat a word which other pages show, one in so many is opened; all are read."""
_PATIENCE = 3.0
"""How much longer than its time this may take: a machine that is busy elsewhere opens less, and the row says so."""


@dataclass(slots=True)
class Opened:
    """What was opened and read."""

    until: float
    """When there is no more time to open anything."""
    pairs: set[tuple[str, str]] = field(default_factory=set)
    """Places with the attacks that stood in them."""
    opened: int = 0
    not_opened: int = 0
    """Pages that were to be opened when the time was over; they were read."""
    read: int = 0
    faults: list[str] = field(default_factory=list)


def attacks_where_there_are_many(seconds: float, folder: Path) -> Row:
    """Put every attack into every place that an archive has many of, in one large archive."""
    what = "attacks in places of entries, logs, photos, potters: read in the bytes, opened in Chromium"
    return _row(what, seconds, lambda browser, result: _one_large(folder / "large", browser, result), single=False)


def attacks_where_there_is_one(seconds: float, folder: Path) -> Row:
    """Put every attack into every place that an archive has one of, in as many small archives."""

    def try_all(browser: Browser, result: Opened) -> None:
        for number in range(len(ATTACKS)):
            _one_tiny(folder / "tiny", number, browser, result)

    return _row("attacks in what the group says of itself: the same", seconds, try_all, single=True)


def _row(what: str, seconds: float, try_all: Callable[[Browser, Opened], None], single: bool) -> Row:
    """Build and read all of it, and open what there is time for: on a machine with two free cores, all."""
    path = next((found for name in ("chromium", "google-chrome") if (found := shutil.which(name))), None)
    if path is None:
        return Row(what, 0, ("there is no Chromium on this machine",))
    result = Opened(until=time.monotonic() + _PATIENCE * seconds)
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=path, args=["--no-sandbox"])
        try_all(browser, result)
        browser.close()
    places = {path for slots in slots_of(LONG).values() for path, _ in slots if (path in SINGLE) is single}
    wanted = {(path, text) for path in places for text in attacks_for(path)}
    result.faults += [f"never tried: {text!r} in {path}" for path, text in sorted(wanted - result.pairs)]
    good = (
        f"nothing ran, nothing loaded, nothing but words; {len(ATTACKS)} attacks, each in every one of {len(places)} "
        f"places that takes it; {result.read:,} pages read, {result.opened:,} of them opened"
    ) + (f", {result.not_opened:,} more left when the time was over" if result.not_opened else "")
    return Row(what, len(wanted & result.pairs), tuple(result.faults), good)


def _one_large(folder: Path, browser: Browser, result: Opened) -> None:
    def said(path: str, number: int) -> str:
        text = attacking(path, number)
        result.pairs.add((path, text))
        return text

    site = built(folder, LONG, said)
    _read(site, result)
    pages = html_pages(site)
    repeated = [one for one in pages if one.startswith(_REPEATED)]
    _open(browser, site, [one for one in pages if one not in set(repeated)] + repeated[::_SOME], result)
    shutil.rmtree(folder)


def _one_tiny(folder: Path, number: int, browser: Browser, result: Opened) -> None:
    def said(path: str, at: int) -> str:
        text = attacking(path, number + at)
        result.pairs.add((path, text))
        return text

    site = built(folder, TINY, said)
    _read(site, result)
    _open(browser, site, [*_SHOWN_ON, *["methods/index.html"] * (number % METHODS == 0)], result)
    shutil.rmtree(site)  # what is kept between builds stays: only what hangs on the words is made anew


def _read(site: Path, result: Opened) -> None:
    seen = look_through(site)
    result.read += seen.pages
    result.faults += seen.faults


def _open(browser: Browser, site: Path, pages: list[str], result: Opened) -> None:
    page = browser.new_page()
    _listen(page, result.faults)
    for at in range(0, len(pages), _SOME):
        if time.monotonic() > result.until:
            result.not_opened += len(pages) - at
            break
        opened = open_all(page, site, pages[at : at + _SOME], prepared=at > 0)
        result.opened += opened.pages
        result.faults += opened.faults
    page.close()


def _listen(page: Page, faults: list[str]) -> None:
    """Take down every request to elsewhere, and every breach of the policy, which the console tells."""
    page.on(
        "request", lambda request: None if request.url.startswith(("file:", "data:")) else faults.append(request.url)
    )
    page.on("console", lambda line: faults.append(line.text) if line.type == "error" else None)
