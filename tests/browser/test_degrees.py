"""°C or °F by the reader's choice: what a reader sees, held against the exports, which are always in °C."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from playwright.sync_api import Page, expect

from tests.browser.conftest import OpenPage
from tests.browser.exported import firings, number
from tests.browser.page_types import FIRINGS, page_types, uri

KINDS = {
    "start_c": (1.8, 32),
    "peak_c": (1.8, 32),
    "equivalent_1h_c": (1.8, 32),
    "heating_rate_c_per_min": (1.8, 0),
    "cooling_rate_c_per_min": (1.8, 0),
    "short_c": (1.8, 0),
    "wall_lag_c": (1.8, 0),
    "over_c_min": (1.8, 0),
}
"""From the definition of the scale: a temperature turns by 9/5 and 32, a difference, a rate or an area by 9/5 alone."""


def choose_fahrenheit(page: Page) -> None:
    page.get_by_role("button", name="Temperatures in °F").click()


def first_number(words: str) -> tuple[float, int]:
    """The first number in some words, and its digits after the point."""
    found = re.search(r"[−-]?[\d,]+(?:\.(\d+))?", words)
    assert found, words
    return float(found[0].replace(",", "").replace("−", "-")), len(found[1] or "")


@pytest.mark.parametrize("address", FIRINGS[:2])
def test_every_kind_of_figure_turns_by_its_own_rule(open_page: OpenPage, site_dir: Path, address: str) -> None:
    page = open_page(uri(site_dir, address))
    choose_fahrenheit(page)
    row = firings(site_dir)[Path(address).stem]
    held = 0
    for kind, (times, plus) in KINDS.items():
        celsius = number(row[kind])
        if celsius is None:
            continue
        cell = page.locator(f'.figures tr:has(a[href$="#{kind}"]) td').first.inner_text()
        shown, decimals = first_number(cell)
        assert "°F" in cell
        # The export is rounded to a tenth itself, so the last digit shown may differ by one.
        assert shown == pytest.approx(celsius * times + plus, abs=0.5 * 10**-decimals + 0.1), kind
        held += 1
    assert held >= 5


def test_the_chart_gets_a_scale_of_round_degrees_and_its_words_turn(open_page: OpenPage, site_dir: Path) -> None:
    page = open_page(uri(site_dir, FIRINGS[0]))
    chart = page.locator(".chart-curve .chart-wide")
    expect(chart.locator("text", has_text=re.compile("^1000$"))).to_be_visible()
    expect(chart.locator("text", has_text=re.compile("^1600$"))).to_be_hidden()
    choose_fahrenheit(page)
    for words in ("400", "800", "1200", "1600", "°F"):
        expect(chart.locator(".chart-number text:visible", has_text=re.compile(f"^{words}$"))).to_have_count(1)
    expect(chart.locator("text", has_text=re.compile("^1000$"))).to_be_hidden()
    peak = number(firings(site_dir)[Path(FIRINGS[0]).stem]["peak_c"])
    assert peak is not None
    expect(chart).to_contain_text(f"hottest, {peak * 1.8 + 32:.0f} °F")
    said = chart.locator("desc").text_content() or ""
    assert "°F" in said
    assert "°C" not in said


def test_the_choice_is_remembered_from_page_to_page_and_can_be_taken_back(open_page: OpenPage, site_dir: Path) -> None:
    page = open_page(uri(site_dir, FIRINGS[0]))
    built = page.locator("main").inner_text()
    choose_fahrenheit(page)
    turned = page.locator("main").inner_text()
    assert turned != built
    page.goto(uri(site_dir, "methods/open-fire.html"))
    expect(page.locator(".method-facts")).to_contain_text("1220 to 1472 °F")  # 660 and 800 °C, worked by hand
    page.goto(uri(site_dir, FIRINGS[0]))
    assert page.locator("main").inner_text() == turned
    page.get_by_role("button", name="Temperatures in °C").click()
    assert page.locator("main").inner_text() == built


def test_what_a_potter_wrote_stays_as_written(open_page: OpenPage, site_dir: Path) -> None:
    """Readings keep their own unit beside the turned number, and words in a story are left alone."""
    page = open_page(uri(site_dir, "firings/2024-06-08-four-bowls-three-probes.html"))
    story = page.locator(".story .text").inner_text()
    as_read = page.locator(".readings .written").all_text_contents()
    choose_fahrenheit(page)
    assert page.locator(".story .text").inner_text() == story
    assert page.locator(".readings .written").all_text_contents() == as_read


_LEFT = """() => {
  const found = [];
  const walker = document.createTreeWalker(document.querySelector("main"), NodeFilter.SHOW_TEXT);
  while (walker.nextNode()) {
    const node = walker.currentNode;
    const written = node.parentElement.closest(".in-c, .in-f, .written, code, pre, .story, .prose");
    if (!written && /\\d[\\s\\u00a0]°C/.test(node.data)) found.push(node.data.trim());
  }
  return found;
}"""
NOT_OF_FIRES = ("fields.html", "problems.html", "figures.html", "data.html", "write-up.html")
"""Pages that say how to write an entry, and how the program itself reckons, which is in °C."""


def test_no_temperature_of_the_programs_own_words_is_left_in_celsius(open_page: OpenPage, site_dir: Path) -> None:
    page = open_page(uri(site_dir, "index.html"))
    page.evaluate("localStorage.setItem('ashbook.degrees', 'f')")
    left = {}
    for address in page_types(site_dir):
        if address in NOT_OF_FIRES:
            continue
        page.goto(uri(site_dir, address))
        page.wait_for_timeout(100)
        if found := page.evaluate(_LEFT):
            left[address] = found[:4]
    assert not left


def test_without_scripts_there_is_no_switch_and_degrees_are_celsius(open_page: OpenPage, site_dir: Path) -> None:
    page = open_page(uri(site_dir, FIRINGS[0]), scripts=False)
    expect(page.locator(".degrees-switch")).to_be_hidden()
    expect(page.locator(".chart-wide text:visible", has_text=re.compile("°F"))).to_have_count(0)
