"""The long form of the attacks: every one in every single place, read in the built bytes and opened in Chromium.

Most places are many in one large archive. Of some an archive has one only (the group's name, say): for these a small
archive is built for each attack. Pages that only repeat a word that other pages show (materials, places) are opened as
often as there are words, and read all.
"""

from __future__ import annotations

import shutil
from dataclasses import dataclass, field
from pathlib import Path

from playwright.sync_api import Browser, Page, sync_playwright

from tests.trust.attacks import ATTACKS
from tests.trust.built_bytes import look_through
from tests.trust.hostile_archive import LONG, Shape, attacking, attacks_for
from tests.trust.opening import html_pages, open_all
from tests.trust.rotation import built, slots_of
from tests.trust.row import Row

TINY = Shape(entries=1, pieces=1, photos=0, potters=1, refused=1, strays=0)
_SHOWN_ON = ("about.html", "firings/2026-01-01-fire-0.html", "index.html", "methods/method-0.html", "write-up.html")
"""Pages of a tiny archive that show what the group says of itself, each in another way."""
_REPEATED = ("materials/", "places/")


@dataclass(slots=True)
class Opened:
    """What was opened and read."""

    pairs: set[tuple[str, str]] = field(default_factory=set)
    """Places with the attacks that stood in them."""
    opened: int = 0
    read: int = 0
    size: int = 0
    faults: list[str] = field(default_factory=list)


def attacks_opened(seconds: float, folder: Path) -> Row:
    """Build, read and open all of it; it takes as long as it takes."""
    path = next((found for name in ("chromium", "google-chrome") if (found := shutil.which(name))), None)
    what = "attacks in places: read in the bytes, opened in Chromium"
    if path is None:
        return Row(what, 0, ("there is no Chromium on this machine",))
    result = Opened()
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=path, args=["--no-sandbox"])
        _one_large(folder / "large", browser, result)
        for number in range(len(ATTACKS)):
            _one_tiny(folder / "tiny", number, browser, result)
        browser.close()
    wanted = {(path, text) for path, _ in _all_slots() for text in attacks_for(path)}
    result.faults += [f"never tried: {text!r} in {path}" for path, text in sorted(wanted - result.pairs)]
    good = (
        f"nothing ran, nothing loaded, nothing but words; {len(ATTACKS)} attacks, each in every one of "
        f"{len({path for path, _ in wanted})} places that takes it; {result.read:,} pages read, "
        f"{result.opened:,} of them opened"
    )
    return Row(what, len(result.pairs), tuple(result.faults), good)


def _all_slots() -> list[tuple[str, int]]:
    return [slot for slots in slots_of(LONG).values() for slot in slots]


def _one_large(folder: Path, browser: Browser, result: Opened) -> None:
    def said(path: str, number: int) -> str:
        text = attacking(path, number)
        result.pairs.add((path, text))
        return text

    site = built(folder, LONG, said)
    _read(site, result)
    pages = html_pages(site)
    repeated = [one for one in pages if one.startswith(_REPEATED)]
    every = max(1, len(repeated) // len(ATTACKS))
    _open(browser, site, [one for one in pages if one not in set(repeated)] + repeated[::every], result)
    shutil.rmtree(folder)


def _one_tiny(folder: Path, number: int, browser: Browser, result: Opened) -> None:
    def said(path: str, at: int) -> str:
        text = attacking(path, number + at)
        result.pairs.add((path, text))
        return text

    site = built(folder, TINY, said)
    _read(site, result)
    _open(browser, site, list(_SHOWN_ON), result)
    shutil.rmtree(site)  # what is kept between builds stays: only what hangs on the words is made anew


def _read(site: Path, result: Opened) -> None:
    seen = look_through(site)
    result.read += seen.pages
    result.size += seen.size
    result.faults += seen.faults


def _open(browser: Browser, site: Path, pages: list[str], result: Opened) -> None:
    page = browser.new_page()
    _listen(page, result.faults)
    opened = open_all(page, site, pages)
    page.close()
    result.opened += opened.pages
    result.faults += opened.faults


def _listen(page: Page, faults: list[str]) -> None:
    """Take down every request to elsewhere, and every breach of the policy, which the console tells."""
    page.on(
        "request", lambda request: None if request.url.startswith(("file:", "data:")) else faults.append(request.url)
    )
    page.on("console", lambda line: faults.append(line.text) if line.type == "error" else None)
