"""Photos as large as the window: by keyboard, and the focus comes back."""

from __future__ import annotations

from pathlib import Path

import pytest
from playwright.sync_api import Page, expect

from tests.browser.conftest import OpenPage


def _with_photos(site: Path, least: int) -> Path:
    pages = sorted((site / "firings").glob("*.html"))
    return next(path for path in pages if path.read_text("utf-8").count('class="photo-open"') >= least)


@pytest.fixture
def page(open_page: OpenPage, site_dir: Path) -> Page:
    """A firing with a photo, opened from its folder."""
    return open_page(_with_photos(site_dir, 1).as_uri(), width=360)


def test_every_photo_has_words_a_size_and_waits_until_it_is_needed(page: Page) -> None:
    for photo in page.locator(".photo img").all():
        assert photo.get_attribute("alt")
        assert int(photo.get_attribute("width") or 0) > 0
        assert int(photo.get_attribute("height") or 0) > 0
        assert photo.get_attribute("loading") == "lazy"
        assert "480w" in (photo.get_attribute("srcset") or "")


def test_enter_opens_a_photo_escape_closes_it_and_the_focus_returns(page: Page) -> None:
    link = page.locator("a.photo-open").first
    link.focus()
    page.keyboard.press("Enter")
    dialog = page.get_by_role("dialog")
    expect(dialog).to_be_visible()
    expect(dialog.locator("img")).to_have_attribute("alt", link.locator("img").get_attribute("alt") or "")
    box, window = dialog.locator("img").bounding_box(), page.viewport_size
    assert box is not None
    assert window is not None
    assert box["width"] <= window["width"]
    assert box["height"] <= window["height"]
    page.keyboard.press("Tab")
    assert page.evaluate(
        "document.activeElement.closest('dialog') !== null || document.activeElement === document.body"
    )
    page.keyboard.press("Escape")
    expect(dialog).to_have_count(0)
    expect(link).to_be_focused()


def test_without_scripts_the_photo_itself_opens(open_page: OpenPage, site_dir: Path) -> None:
    page = open_page(_with_photos(site_dir, 1).as_uri(), scripts=False)
    address = page.locator("a.photo-open").first.get_attribute("href") or ""
    assert (Path(page.url.removeprefix("file://")).parent / address).is_file()
