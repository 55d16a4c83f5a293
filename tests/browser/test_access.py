"""The log and the form for every hand and eye: axe finds nothing, targets are large, the order is that of the page."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest
from playwright.sync_api import Page

from tests.browser.conftest import OpenPage
from tests.browser.phone import begin, write_down

axe = pytest.importorskip("axe_playwright_python.sync_playwright")

_RULES = {"runOnly": ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"], "preload": False}


def a_burning_fire(page: Page) -> None:
    begin(page, probes="wall, ash")
    page.get_by_role("button", name="The main fire is lit").click()
    write_down(page, 735)
    page.get_by_role("button", name="Something else", exact=True).click()
    page.locator("[data-value]").first.click()
    page.locator("[data-lines] button").first.click()


def a_form_with_problems(page: Page) -> None:
    for fold in page.locator("details[data-folds]").all():
        fold.evaluate("(one) => { one.open = true; }")
    page.get_by_role("radio", name="In a table").check()
    page.get_by_label("Or paste the table here").fill("0:00 20 lit\n2:00 300\n5:00 700 flames")
    page.get_by_label("Wall", exact=True).fill("6,5")  # the help offers two values, each on a button
    page.get_by_role("button", name="Make the file").click()


STATES: dict[str, tuple[str, Callable[[Page], None]]] = {
    "a new log": ("fireside.html", lambda page: None),
    "a burning fire": ("fireside.html", a_burning_fire),
    "a form": ("write-up.html", lambda page: None),
    "a form with problems": ("write-up.html", a_form_with_problems),
}


@pytest.mark.parametrize("scheme", ["light", "dark"])
@pytest.mark.parametrize("state", STATES)
def test_axe_finds_nothing(open_page: OpenPage, site_dir: Path, state: str, scheme: str) -> None:
    address, act = STATES[state]
    page = open_page((site_dir / address).as_uri(), width=360, scheme=scheme)
    act(page)
    found = axe.Axe().run(page, context="main", options=_RULES)
    assert found.violations_count == 0, found.generate_report()


_SMALL = """() => [...document.querySelectorAll("button, .act, select, textarea, summary, input, .parts-line a")]
  .filter((one) => one.closest("main"))
  .filter((one) => one.offsetParent)
  .map((one) => (one.matches("[type=radio], [type=checkbox]") ? one.closest("label") : one))
  .map((one) => [one.tagName, one.textContent.trim().slice(0, 30), one.offsetWidth, one.offsetHeight])
  .filter(([, , width, height]) => width < 44 || height < 44)"""


@pytest.mark.parametrize("width", [320, 360, 1280])
@pytest.mark.parametrize("state", STATES)
def test_every_target_is_44_pixels_large_and_nothing_scrolls_sideways(
    open_page: OpenPage, site_dir: Path, state: str, width: int
) -> None:
    address, act = STATES[state]
    page = open_page((site_dir / address).as_uri(), width=width)
    act(page)
    assert page.evaluate(_SMALL) == []
    assert page.evaluate("document.documentElement.scrollWidth") <= width


def test_the_keyboard_goes_through_the_log_in_the_order_of_the_page(open_page: OpenPage, site_dir: Path) -> None:
    page = open_page((site_dir / "fireside.html").as_uri(), width=360)
    begin(page)
    said = []
    for _ in range(8):
        page.keyboard.press("Tab")
        said.append(
            page.evaluate("document.activeElement.getAttribute('aria-label') || document.activeElement.textContent")
        )
    assert said == [
        "The main fire is lit", "20 °C, type another number", "10 less", "1 less", "1 more", "10 more",
        "Write down 20 °C", "A minute earlier",
    ]  # fmt: skip
