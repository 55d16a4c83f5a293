"""A site whose every contributed word is an attack, opened in a real browser: nothing runs, nothing loads."""

from __future__ import annotations

from pathlib import Path

import pytest
from playwright.sync_api import Browser

from builder.build import Options, build
from tests.browser.conftest import Guard
from tests.trust.attacks import ATTACKS
from tests.trust.hostile_archive import PIECES, Words, attacking, attacks_for, tame, write_hostile_archive
from tests.trust.opening import Opened, html_pages, open_all

ENTRIES = 5


def _built(folder: Path, words: Words) -> Path:
    project = write_hostile_archive(folder, ENTRIES, words)
    assert build(Options(project, project / "site")).published == ENTRIES
    return project / "site"


def _still_shapes(browser: Browser, site: Path) -> set[str]:
    """Return every kind of element of a site before any script of its own has added to it."""
    context = browser.new_context(java_script_enabled=False)
    shapes = open_all(context.new_page(), site, html_pages(site)).shapes
    context.close()
    return shapes


@pytest.fixture(scope="module")
def site(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return _built(tmp_path_factory.mktemp("hostile") / "archive", attacking)


@pytest.fixture(scope="module")
def hostile(browser: Browser, site: Path) -> tuple[Opened, Guard]:
    page = browser.new_page()
    guard = Guard()
    guard.watch(page)
    opened = open_all(page, site, html_pages(site))
    page.close()
    return opened, guard


def test_nothing_runs_and_nothing_goes_elsewhere(hostile: tuple[Opened, Guard]) -> None:
    opened, guard = hostile
    assert len(ATTACKS) >= 150
    assert opened.pages > 25
    assert opened.faults == []
    guard.check()


def test_attacks_make_no_element_that_harmless_words_do_not_make(site: Path, browser: Browser, tmp_path: Path) -> None:
    usual = _still_shapes(browser, _built(tmp_path / "archive", tame))
    markdown = {f"prose {tag}" for tag in "a blockquote br code em h2 h3 h4 h5 h6 hr li ol p pre strong ul".split()}
    assert _still_shapes(browser, site) - usual <= markdown
    assert len(usual) > 100


def test_the_words_of_an_attack_are_read_as_they_were_written(hostile: tuple[Opened, Guard]) -> None:
    pages = [words for address, words in hostile[0].words.items() if address.startswith("firings/2026-")]
    names = attacks_for("pieces.name")
    assert len(pages) == ENTRIES
    for number, words in enumerate(pages):
        wanted = {attacking("title", number), attacking("photos.caption", number)}
        wanted |= {names[(number + PIECES * number + at) % len(names)] for at in range(PIECES)}
        assert [one for one in wanted if one not in words] == []


@pytest.mark.parametrize("text", ["<script>ran()</script>", "<img src=x onerror=ran()>", "<a href=javascript:ran()>"])
def test_an_attack_that_gets_through_would_be_seen(browser: Browser, tmp_path: Path, text: str) -> None:
    (tmp_path / "page.html").write_text(f"<!doctype html><title>x</title><main>{text}</main>", encoding="utf-8")
    page = browser.new_page()
    faults = open_all(page, tmp_path, ["page.html"]).faults
    page.close()
    assert [fault for fault in faults if "something ran" in fault or "javascript:" in fault or "onerror" in fault]
    assert [fault for fault in faults if "policy" in fault]
