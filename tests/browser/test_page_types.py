"""Every type of page on every screen: fits, reads without scripts, works by keyboard and by ear."""

from __future__ import annotations

import gzip
from pathlib import Path

import html5lib
import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Browser, Page

from tests.browser.conftest import ARGUMENTS, OpenPage, chromium_path
from tests.browser.page_types import FIRINGS, page_types, uri

SCREENS = {"phone": 360, "1280 at 200 %": 640, "tablet": 768, "desk": 1280, "A4 on paper": 718}
RULES = {
    "preload": False,  # it would read the style sheets by a request, which no browser allows from a folder
    "runOnly": {
        "type": "tag",
        "values": ["wcag2a", "wcag2aa", "wcag2aaa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"],
    },
}
"""All levels, and what is held to be good practice beyond them."""
MOST_BYTES = 60_000
"""A firing's page, compressed, without photos."""

_TOO_WIDE = "() => document.documentElement.scrollWidth - document.documentElement.clientWidth"


def test_every_page_fits_every_screen_light_and_dark_magnified_and_on_paper(
    open_page: OpenPage, site_dir: Path
) -> None:
    page = open_page(uri(site_dir, "index.html"))
    faults = []
    for address in page_types(site_dir):
        page.goto(uri(site_dir, address))
        for name, width in SCREENS.items():
            page.set_viewport_size({"width": width, "height": 800})
            page.emulate_media(media="print" if "paper" in name else "screen", color_scheme="dark")
            if page.evaluate(_TOO_WIDE) > 0:
                faults.append((address, name))
    assert not faults


def test_every_page_fits_with_letters_twice_as_large(browser: Browser, site_dir: Path) -> None:
    """By the reader's own setting of the browser, which media queries follow."""
    large = browser.browser_type.launch(
        executable_path=chromium_path(), args=[*ARGUMENTS, "--blink-settings=defaultFontSize=32"]
    )
    page = large.new_page()
    faults = []
    for address in page_types(site_dir):
        page.goto(uri(site_dir, address))
        assert page.evaluate("parseFloat(getComputedStyle(document.documentElement).fontSize)") == 32
        for width in (360, 1280):
            page.set_viewport_size({"width": width, "height": 800})
            if page.evaluate(_TOO_WIDE) > 0:
                faults.append((address, width))
    large.close()
    assert not faults


@pytest.mark.parametrize(("width", "scheme"), [(1280, "light"), (360, "dark")])
def test_axe_finds_nothing_at_any_level(open_page: OpenPage, site_dir: Path, width: int, scheme: str) -> None:
    page = open_page(uri(site_dir, "index.html"), width=width, scheme=scheme, bypass_csp=True)
    axe = Axe()
    faults = []
    for address in page_types(site_dir):
        page.goto(uri(site_dir, address))
        page.wait_for_timeout(100)
        for found in axe.run(page, options=RULES).response["violations"]:
            faults.append((address, found["id"], [node["target"] for node in found["nodes"]][:3]))
    assert not faults


def test_an_outside_parser_finds_no_fault_in_the_html(site_dir: Path) -> None:
    """html5lib, strict: it stops at the first error of syntax that the HTML standard names."""
    faults = []
    for address in page_types(site_dir):
        parser = html5lib.HTMLParser(strict=False)
        parser.parse((site_dir / address.partition("?")[0]).read_bytes(), transport_encoding="utf-8")
        faults += [(address, error) for error in parser.errors]
    assert not faults


def test_without_scripts_every_page_says_its_piece_and_shows_no_control_that_does_nothing(
    open_page: OpenPage, site_dir: Path
) -> None:
    page = open_page(uri(site_dir, "index.html"), scripts=False)
    faults = []
    for address in page_types(site_dir):
        page.goto(uri(site_dir, address))
        dead = [one.inner_text() for one in page.locator("main button:visible, header button:visible").all()]
        words = page.locator("main").inner_text()
        if dead or len(words) < 200:
            faults.append((address, dead, len(words)))
    assert not faults


_REACHABLE = """() => [...document.querySelectorAll(
    "a[href], button, input, select, textarea, summary, [tabindex='0']")]
  .filter((one) => !one.disabled && one.tabIndex >= 0 && one.checkVisibility({visibilityProperty: true}))
  .filter((one) => !(one.type === "radio" && !one.checked)).length"""
_FOCUSED = """() => {
  const one = document.activeElement;
  if (!one || one === document.body) return null;
  window.seen ??= new Set();
  const before = window.seen.size;
  window.seen.add(one);
  const look = getComputedStyle(one);
  const around = parseFloat(look.outlineWidth) > 0 && look.outlineStyle !== "none";
  const marked = around || look.boxShadow !== "none";
  return {fresh: window.seen.size > before, marked, tag: one.outerHTML.slice(0, 90)};
}"""


def _walk(page: Page) -> tuple[int, list[str]]:
    """Press Tab until the page is through; gives how many places had the focus, and those that did not show it."""
    unmarked: list[str] = []
    for count in range(2000):
        page.keyboard.press("Tab")
        focused = page.evaluate(_FOCUSED)
        if focused is None or not focused["fresh"]:
            return count, unmarked
        if not focused["marked"]:
            unmarked.append(focused["tag"])
    raise AssertionError("the keyboard never came to the end of the page")


@pytest.mark.parametrize(
    "address", ["index.html", FIRINGS[0], "compare.html?firings=5,6", "results.html", "words.html"]
)
def test_the_tab_key_reaches_everything_that_can_be_used_and_shows_where_it_is(
    open_page: OpenPage, site_dir: Path, address: str
) -> None:
    page = open_page(uri(site_dir, address))
    page.wait_for_timeout(200)
    expected = page.evaluate(_REACHABLE)
    reached, unmarked = _walk(page)
    assert unmarked == []
    assert reached >= expected


def test_nothing_moves_while_a_page_loads(open_page: OpenPage, site_dir: Path) -> None:
    """The browser's own measure of layout shift, with °F chosen, which rewrites numbers; 0.1 is where it turns bad."""
    page = open_page(uri(site_dir, "index.html"), width=360)
    page.evaluate("localStorage.setItem('ashbook.degrees', 'f')")
    shifts = {}
    for address in (*FIRINGS, "index.html", "firings/index.html"):
        page.goto(uri(site_dir, address))
        page.wait_for_timeout(300)
        shifts[address] = page.evaluate(
            """() => new Promise((told) => {
              let sum = 0;
              new PerformanceObserver((list) => { for (const one of list.getEntries()) sum += one.value; })
                .observe({type: "layout-shift", buffered: true});
              setTimeout(() => told(sum), 100);
            })"""
        )
    assert max(shifts.values()) < 0.02, shifts


def test_a_firings_page_is_small(site_dir: Path) -> None:
    pages = [path for path in (site_dir / "firings").glob("*.html") if path.name != "index.html"]
    sizes = {path.name: len(gzip.compress(path.read_bytes(), 6)) for path in pages}
    largest = max(sizes, key=lambda name: sizes[name])
    print(f"largest firing's page, compressed: {sizes[largest]} bytes, {largest}")
    assert sizes[largest] < MOST_BYTES
