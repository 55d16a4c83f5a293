"""Firings laid over one another, as a reader sees them: held against the exports, opened from a folder and a host."""

from __future__ import annotations

import re
from collections.abc import Callable
from pathlib import Path
from urllib.parse import parse_qs, urlsplit

import pytest
from playwright.sync_api import Page, expect

from tests.browser.conftest import OpenPage
from tests.browser.exported import firings, number

ONE, OTHER, UNREAD = "2024-05-25-pale-jar-second", "2024-08-24-rained-off", "2024-11-16-november"


def numbers(site: Path, *slugs: str) -> str:
    rows = firings(site)
    return ",".join(rows[slug]["number"] for slug in slugs)


def compare(open_page: OpenPage, site: Path, query: str = "", **options: object) -> Page:
    page = open_page((site / "compare.html").as_uri() + (f"?{query}" if query else ""), **options)
    expect(page.locator("[data-compare]")).to_be_visible()
    return page


def cells(page: Page, part: str, heading: str) -> list[str]:
    row = page.locator(f"[data-{part}] tr", has=page.locator("th", has_text=re.compile(f"^{re.escape(heading)}$")))
    return row.locator("td").all_inner_texts()


@pytest.fixture
def two(open_page: OpenPage, site_dir: Path) -> Page:
    return compare(open_page, site_dir, f"firings={numbers(site_dir, ONE, OTHER)}")


def test_an_address_opens_its_firings_each_with_its_number_and_a_line_form_of_its_own(
    two: Page, site_dir: Path
) -> None:
    rows = firings(site_dir)
    expect(two.locator("[data-chosen] a")).to_have_text(
        [f"{rows[slug]['number']} {rows[slug]['title']}" for slug in (ONE, OTHER)]
    )
    expect(two.locator(".compare-number")).to_have_text([rows[ONE]["number"], rows[OTHER]["number"]])
    dashes = [
        two.locator(f"[data-chart] .compare-line-{form}").evaluate("line => getComputedStyle(line).strokeDasharray")
        for form in (1, 2)
    ]
    assert len(set(dashes)) == 2
    said = two.locator("[data-said]")
    expect(said).to_contain_text(f"Firings {rows[ONE]['number']} and {rows[OTHER]['number']} are laid over one another")
    assert said.get_attribute("role") == "status"


def test_names_and_numbers_lead_to_the_same_firings(open_page: OpenPage, site_dir: Path) -> None:
    """A number may shift when an older firing is added; an address with names stays true."""
    page = compare(open_page, site_dir, f"firings={ONE},{numbers(site_dir, OTHER)}")
    rows = firings(site_dir)
    expect(page.locator(".compare-number")).to_have_text([rows[ONE]["number"], rows[OTHER]["number"]])


def test_figures_are_those_of_the_exports_and_told_apart_where_their_intervals_do_not_meet(
    two: Page, site_dir: Path
) -> None:
    rows = firings(site_dir)
    held = 0
    for heading, column in (("Hottest", "peak_c"), ("Overall rise", "heating_rate_c_per_min"), ("Soak", "soak_min")):
        shown = cells(two, "figures", heading)
        for slug, cell in zip((ONE, OTHER), shown[:2], strict=True):
            value = number(rows[slug][column])
            assert value is not None
            found = re.match(r"[\d.]+", cell)
            assert found
            assert float(found[0]) == pytest.approx(value, abs=0.55)
        ends = [[number(rows[slug][f"{column}_{end}"]) or 0.0 for end in ("low", "high")] for slug in (ONE, OTHER)]
        apart = ends[0][1] < ends[1][0] or ends[1][1] < ends[0][0]
        assert bool(shown[2]) == apart
        held += apart
    assert held


def test_conditions_that_differ_stand_first_and_what_nobody_recorded_is_said(two: Page, site_dir: Path) -> None:
    rows = firings(site_dir)
    body = two.locator("[data-conditions] tbody").first
    expect(body.locator(".group")).to_have_text("Different")
    assert rows[ONE]["fuel_wood"] != rows[OTHER]["fuel_wood"]
    expect(body).to_contain_text("Fuel: wood")
    alike = two.locator(".compare-alike").inner_text()
    assert rows[ONE]["surface_slip"] == rows[OTHER]["surface_slip"] == "white"
    assert "Surface: slip white" in alike
    assert "not recorded" in two.locator("[data-conditions]").inner_text()


def _columns_of_peaks(page: Page) -> list[float]:
    lines = page.locator("[data-chart] .compare-line").all()
    return [
        line.evaluate(
            """line => {
              const pairs = line.getAttribute("d").match(/[\\d.-]+ [\\d.-]+/g);
              const points = pairs.map((one) => one.split(" ").map(Number));
              return points.reduce((best, point) => point[1] < best[1] ? point : best)[0];
            }"""
        )
        for line in lines
    ]


def test_from_the_hottest_reading_both_peaks_stand_over_each_other(two: Page) -> None:
    two.get_by_label("the hottest reading").check()
    expect(two).to_have_url(re.compile("from=hottest$"))
    one, other = _columns_of_peaks(two)
    assert one == pytest.approx(other, abs=0.2)


def test_a_firing_without_a_clock_or_without_readings_is_left_out_in_words(open_page: OpenPage, site_dir: Path) -> None:
    page = compare(open_page, site_dir, f"firings={numbers(site_dir, ONE, UNREAD)}&from=clock")
    caption = page.locator("[data-caption]")
    expect(caption).to_contain_text(f"Nobody wrote down a temperature at {numbers(site_dir, UNREAD)}")
    expect(page.locator("[data-chart] .compare-line")).to_have_count(1)
    expect(page.locator("[data-chart]")).to_contain_text(re.compile(r"\d+:\d\d"))


def test_firings_are_chosen_and_taken_away_by_keyboard_and_the_address_keeps_them(
    open_page: OpenPage, site_dir: Path
) -> None:
    page = compare(open_page, site_dir)
    rows = firings(site_dir)
    field = page.get_by_label("Add a firing")
    for slug in (ONE, OTHER):
        field.focus()
        page.keyboard.type(rows[slug]["title"])
        page.keyboard.press("Enter")
        expect(field).to_have_value("")
    assert parse_qs(urlsplit(page.url).query)["firings"] == [f"{ONE},{OTHER}"]
    expect(page.locator("[data-chart] .compare-line")).to_have_count(2)
    page.get_by_role("button", name=f"Take firing {rows[ONE]['number']} away").press("Enter")
    expect(page.locator("[data-chart] .compare-line")).to_have_count(1)
    expect(field).to_be_focused()
    assert parse_qs(urlsplit(page.url).query)["firings"] == [OTHER]


def test_four_are_the_most_and_a_name_that_nobody_has_is_said(open_page: OpenPage, site_dir: Path) -> None:
    page = compare(open_page, site_dir, "firings=1,2,3,4,5")
    expect(page.locator("[data-chosen] li")).to_have_count(4)
    expect(page.get_by_label("Add a firing")).to_be_hidden()
    page = compare(open_page, site_dir, "firings=5,%3Cimg%20src%3Dx%3E")
    expect(page.locator("[data-said]")).to_contain_text("No firing here is called <img src=x>")
    expect(page.locator("[data-compare] img")).to_have_count(0)


def test_ticked_in_the_list_they_are_laid_over_one_another(open_page: OpenPage, site_dir: Path) -> None:
    page = open_page((site_dir / "firings" / "index.html").as_uri())
    rows = firings(site_dir)
    for slug in (ONE, OTHER):
        page.get_by_label(f"Compare firing {rows[slug]['number']}", exact=True).check()
    link = page.get_by_role("link", name="Lay them over one another")
    assert (link.get_attribute("href") or "").endswith(f"compare.html?firings={ONE},{OTHER}")
    link.click()
    expect(page.locator(".compare-number")).to_have_text([rows[ONE]["number"], rows[OTHER]["number"]])


def test_a_firings_page_leads_to_it(open_page: OpenPage, site_dir: Path) -> None:
    page = open_page((site_dir / "firings" / f"{ONE}.html").as_uri())
    page.get_by_role("link", name="Compare with other firings").click()
    expect(page.locator("[data-said]")).to_contain_text(f"lay over firing {numbers(site_dir, ONE)}")


def test_it_works_from_a_host_too_and_in_fahrenheit(
    open_page: OpenPage, site_dir: Path, serve: Callable[[Path], str]
) -> None:
    page = open_page(f"{serve(site_dir)}compare.html?firings={numbers(site_dir, ONE, OTHER)}", width=360)
    page.get_by_role("button", name="Temperatures in °F").click()
    peak = number(firings(site_dir)[ONE]["peak_c"])
    assert peak is not None
    assert cells(page, "figures", "Hottest")[0].startswith(f"{peak * 1.8 + 32:.0f}")
    expect(page.locator("[data-chart] text", has_text=re.compile("^1600$"))).to_be_visible()


def test_without_scripts_it_says_where_the_data_is(open_page: OpenPage, site_dir: Path) -> None:
    page = open_page((site_dir / "compare.html").as_uri(), scripts=False)
    expect(page.locator("[data-compare-plain]")).to_contain_text("firings.csv")
    expect(page.locator("[data-compare]")).to_be_hidden()
