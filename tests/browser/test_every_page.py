"""Every page of the demo archive, opened in a real browser under the guard."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest
from playwright.sync_api import expect

from tests.browser.conftest import OpenPage


def _addresses(site: Path) -> list[str]:
    return sorted(path.relative_to(site).as_posix() for path in site.rglob("*.html"))


_LOOK = """() => ({
  width: document.documentElement.scrollWidth,
  headings: document.querySelectorAll("h1").length,
  ids: [...document.querySelectorAll("[id]")].map((one) => one.id),
})"""


@pytest.mark.parametrize("width", [360, 1280])
def test_every_page_fits_the_screen_and_keeps_the_policy_with_one_heading_and_no_doubled_id(
    open_page: OpenPage, site_dir: Path, width: int
) -> None:
    page = open_page((site_dir / "index.html").as_uri(), width=width)
    faults = []
    for address in _addresses(site_dir):
        if address == "404.html":  # its links hold on a host only
            continue
        page.goto((site_dir / address).as_uri())
        seen = page.evaluate(_LOOK)
        doubled = sorted({name for name in seen["ids"] if seen["ids"].count(name) > 1})
        if seen["width"] > width or seen["headings"] != 1 or doubled:
            faults.append((address, seen["width"], seen["headings"], doubled))
    assert not faults


def test_the_demo_is_searched_from_a_host_and_from_a_folder(
    open_page: OpenPage, site_dir: Path, serve: Callable[[Path], str]
) -> None:
    for root in (serve(site_dir), site_dir.as_uri() + "/"):
        page = open_page(root + "index.html")
        page.get_by_role("searchbox").fill("jar")
        expect(page.get_by_role("status")).to_contain_text("with “jar”")
        page.locator(".search-results a").first.click()
        expect(page.locator("main")).to_contain_text("jar")
