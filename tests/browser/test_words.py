"""A word's meaning: shown by pointer and by keyboard, put away by Escape, a link where there are no scripts."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from playwright.sync_api import expect

from builder.fire.words import WORDS
from tests.browser.conftest import OpenPage


@pytest.fixture
def entry(site_dir: Path) -> str:
    """Address, from a folder, of an entry whose clay body and temper are recorded."""
    pages = sorted((site_dir / "firings").glob("2*.html"))
    return next(page.as_uri() for page in pages if 'aria-describedby="word-temper"' in page.read_text(encoding="utf-8"))


def test_the_pointer_shows_a_meaning_which_stays_while_the_pointer_is_on_it(open_page: OpenPage, entry: str) -> None:
    page = open_page(entry)
    page.locator('a[aria-describedby="word-temper"]').first.hover()
    note = page.locator(".hint-note")
    expect(note).to_be_visible()
    assert WORDS["temper"].meaning in note.inner_text()
    note.hover()
    page.wait_for_timeout(600)
    expect(note).to_be_visible()
    page.mouse.move(2, 2)
    expect(note).to_be_hidden()


def test_the_keyboard_shows_a_meaning_and_escape_puts_it_away(open_page: OpenPage, entry: str) -> None:
    page = open_page(entry)
    link = page.locator('a[aria-describedby="word-temper"]').first
    link.evaluate("element => element.focus({focusVisible: true})")
    expect(page.locator(".hint-note")).to_be_visible()
    page.keyboard.press("Escape")
    expect(page.locator(".hint-note")).to_be_hidden()
    expect(link).to_be_focused()


@pytest.mark.parametrize("width", [360, 1280])
def test_a_meaning_stays_within_the_page(open_page: OpenPage, entry: str, width: int) -> None:
    page = open_page(entry, width=width)
    for link in page.locator("a.hint").all():
        link.evaluate("element => element.focus({focusVisible: true})")
        box = page.locator(".hint-note").bounding_box()
        assert box is not None
        assert box["x"] >= 0
        assert box["x"] + box["width"] <= width
    assert page.evaluate("document.documentElement.scrollWidth") <= width


def test_what_reads_aloud_finds_the_meaning_in_the_page(open_page: OpenPage, entry: str) -> None:
    page = open_page(entry)
    link = page.locator('a[aria-describedby="word-temper"]').first
    expect(link).to_have_accessible_description(re.compile("Grains or plant matter"))


def test_without_scripts_a_hint_leads_to_the_word(open_page: OpenPage, entry: str) -> None:
    page = open_page(entry, scripts=False)
    page.locator('a[aria-describedby="word-temper"]').first.click()
    assert page.url.endswith("words.html#temper")
    expect(page.locator("#temper")).to_contain_text(WORDS["temper"].meaning)


@pytest.mark.parametrize("address", ["results.html", "methods/open-fire.html", "materials/index.html"])
def test_pages_that_count_explain_their_words_by_pointer_and_by_keyboard(
    open_page: OpenPage, site_dir: Path, address: str
) -> None:
    page = open_page((site_dir / address).as_uri())
    link = page.locator('a.hint[aria-describedby="word-interval"]').first
    note = page.locator(".hint-note")
    link.hover()
    expect(note).to_contain_text(WORDS["interval"].meaning)
    page.mouse.move(2, 2)
    expect(note).to_be_hidden()
    link.evaluate("element => element.focus({focusVisible: true})")
    expect(note).to_contain_text(WORDS["interval"].meaning)
    page.keyboard.press("Escape")
    expect(note).to_be_hidden()
