"""A site with every attack in each kind of place, opened in a real browser: nothing runs, nothing loads.

Every page's bytes are looked through elsewhere (`tests/trust/test_attacks.py`); here those are opened that hold most,
and of the many small ones a share that changes from day to day.
"""

from __future__ import annotations

from pathlib import Path

import pytest
from playwright.sync_api import Browser

from builder.checks.hidden import tidy
from tests.browser.conftest import Guard
from tests.trust.attacks import ATTACKS
from tests.trust.opening import Opened, html_pages, open_all
from tests.trust.rotation import SMALL, built, round_of_today, turning

SHARE = 8
"""Of the pages of materials, places and years one in so many is opened."""


@pytest.fixture(scope="module")
def hostile(browser: Browser, tmp_path_factory: pytest.TempPathFactory) -> tuple[Opened, Guard]:
    today = round_of_today()
    site = built(tmp_path_factory.mktemp("hostile") / "archive", SMALL, turning(SMALL, today))
    page = browser.new_page()
    guard = Guard()
    guard.watch(page)
    opened = open_all(page, site, _chosen(html_pages(site), today))
    page.close()
    return opened, guard


def _chosen(pages: list[str], today: int) -> list[str]:
    many = [page for page in pages if page.startswith(("materials/", "places/", "years/", "potters/"))]
    left = {page for at, page in enumerate(many) if (at + today) % SHARE}
    return [page for page in pages if page not in left]


def test_nothing_runs_and_nothing_goes_elsewhere(hostile: tuple[Opened, Guard]) -> None:
    opened, guard = hostile
    assert len(ATTACKS) >= 150
    assert opened.pages > 60
    assert opened.faults == [], f"ASHBOOK_ROUND={round_of_today()}"
    guard.check()


def test_the_words_of_an_attack_are_shown_as_they_were_written(hostile: tuple[Opened, Guard]) -> None:
    words = turning(SMALL, round_of_today())
    pages = {page: text for page, text in hostile[0].words.items() if page.startswith("firings/2026-")}
    assert len(pages) == SMALL.entries
    for page, text in pages.items():
        number = int(page.removesuffix(".html").rpartition("-")[2])
        wanted = [words("title", number)]
        wanted += [words("photos.caption", number * SMALL.photos + at) for at in range(SMALL.photos)]
        wanted += [words("pieces.name", number * SMALL.pieces + at) for at in range(SMALL.pieces)]
        assert [one for one in map(tidy, wanted) if one not in text] == []


@pytest.mark.parametrize("text", ["<script>ran()</script>", "<img src=x onerror=ran()>", "<a href=javascript:ran()>"])
def test_an_attack_that_gets_through_would_be_seen(browser: Browser, tmp_path: Path, text: str) -> None:
    (tmp_path / "page.html").write_text(f"<!doctype html><title>x</title><main>{text}</main>", encoding="utf-8")
    page = browser.new_page()
    faults = open_all(page, tmp_path, ["page.html"]).faults
    page.close()
    assert [fault for fault in faults if "something ran" in fault or "javascript:" in fault or "onerror" in fault]
    assert [fault for fault in faults if "policy" in fault]
