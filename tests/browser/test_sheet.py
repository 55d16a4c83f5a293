"""The sheet for the fire on paper: one side of A4, with room for methods that a group may have."""

from __future__ import annotations

import re
from pathlib import Path

from tests.browser.conftest import OpenPage


def test_it_stands_on_one_side_of_a4(open_page: OpenPage, site_dir: Path) -> None:
    page = open_page((site_dir / "before-you-light.html").as_uri())
    assert len(re.findall(rb"/Type\s*/Page\b", page.pdf(format="A4"))) == 1


def test_its_last_line_is_on_paper_and_what_needs_a_screen_is_not(open_page: OpenPage, site_dir: Path) -> None:
    page = open_page((site_dir / "before-you-light.html").as_uri())
    page.emulate_media(media="print")
    assert page.locator(".sheet-last").is_visible()
    assert not page.locator(".print-page").is_visible()
    assert page.locator(".ready .box").first.is_visible()


def test_without_scripts_there_is_no_button_that_does_nothing(open_page: OpenPage, site_dir: Path) -> None:
    page = open_page((site_dir / "before-you-light.html").as_uri(), scripts=False)
    assert not page.locator(".print-page").is_visible()
