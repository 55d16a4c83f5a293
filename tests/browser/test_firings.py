"""The list of firings in a real browser: picking, sorting, counting, and what was asked kept in the address."""

from __future__ import annotations

import re
from pathlib import Path
from urllib.parse import parse_qs, urlsplit

import pytest
from playwright.sync_api import Page, expect

from tests.browser.conftest import OpenPage
from tests.browser.exported import firings as exported
from tests.browser.exported import number

LINES = ".firing-line:visible"


@pytest.fixture
def firings(open_page: OpenPage, site_dir: Path) -> Page:
    """The list, opened from a folder."""
    return open_page((site_dir / "firings" / "index.html").as_uri())


def number_shown(page: Page) -> int:
    return page.locator(LINES).count()


def titles(page: Page) -> list[str]:
    return page.locator(f"{LINES} h3").all_inner_texts()


def pick(page: Page, facet: str, value: str) -> None:
    page.locator(f'input[name="{facet}"][value="{value}"]').check()


def test_without_scripts_every_firing_is_there_and_no_form_that_would_do_nothing(
    open_page: OpenPage, site_dir: Path
) -> None:
    page = open_page((site_dir / "firings" / "index.html").as_uri(), scripts=False)
    entries = [path for path in (site_dir / "firings").glob("*.html") if path.name != "index.html"]
    assert number_shown(page) == len(entries)
    expect(page.locator("[data-firings-form]")).to_be_hidden()


def test_values_of_one_facet_add_up_and_facets_narrow_each_other(firings: Page) -> None:
    """Or within a facet, and between them: the counts beside the boxes say beforehand what will be left."""
    counts = {
        box: int(firings.locator(f'label:has(input[name="method"][value="{box}"]) [data-count]').inner_text())
        for box in ("trench", "built-kiln")
    }
    pick(firings, "method", "trench")
    assert number_shown(firings) == counts["trench"]
    pick(firings, "method", "built-kiln")
    assert number_shown(firings) == counts["trench"] + counts["built-kiln"]
    left = int(firings.locator('label:has(input[name="outcome"][value="broken"]) [data-count]').inner_text())
    pick(firings, "outcome", "broken")
    assert number_shown(firings) == left < counts["trench"] + counts["built-kiln"]


def test_what_was_asked_is_in_the_address_and_comes_back_from_it(firings: Page) -> None:
    pick(firings, "method", "trench")
    firings.get_by_label("Words").fill("cooking")
    firings.get_by_label("Order").select_option("hottest")
    expect(firings).to_have_url(re.compile("q=cooking&sort=hottest$"))
    asked = parse_qs(urlsplit(firings.url).query)
    assert asked == {"method": ["trench"], "q": ["cooking"], "sort": ["hottest"]}
    before = titles(firings)
    assert before
    firings.reload()
    assert titles(firings) == before
    assert firings.locator('input[name="method"][value="trench"]').is_checked()


def test_not_recorded_is_a_value_like_any_other(firings: Page, site_dir: Path) -> None:
    expected = int(firings.locator('label:has(input[name="hottest"][value=""]) [data-count]').inner_text())
    pick(firings, "hottest", "")
    known = exported(site_dir)
    slugs = [box.get_attribute("value") or "" for box in firings.locator(f"{LINES} .pick input").all()]
    assert len(slugs) == expected > 0
    assert {known[slug]["window_min"] for slug in slugs} == {""}
    assert "hottest not recorded" in firings.locator("[data-firings-sentence]").inner_text()


def test_wares_and_places_are_picked_with_their_counts(firings: Page, site_dir: Path) -> None:
    rows = list(exported(site_dir).values())
    for facet, value in (("place", "Cold Hythe"), ("ware", "")):
        firings.locator(f'[data-facet="{facet}"] > summary').click()
        box = f'input[name="{facet}"][value="{value.casefold()}"]'
        expected = sum(row[facet] == value for row in rows)
        assert int(firings.locator(f"label:has({box}) [data-count]").inner_text()) == expected > 0
        pick(firings, facet, value.casefold())
        assert number_shown(firings) == expected
        firings.locator(box).uncheck()


def test_a_range_of_heat_leaves_out_the_unknown_and_says_so(firings: Page, site_dir: Path) -> None:
    """Which firings are in it, and how many have no hottest reading, is known from firings.csv."""
    peaks = [number(row["peak_c"]) for row in exported(site_dir).values()]
    within = sum(peak is not None and 650 <= round(peak) <= 750 for peak in peaks)
    unknown = peaks.count(None)
    assert 0 < within < len(peaks)
    assert unknown > 1
    firings.get_by_label("From", exact=True).fill("650")
    firings.get_by_label("to", exact=True).fill("750")
    expect(firings).to_have_url(re.compile(r"\?from=650&to=750$"))
    assert number_shown(firings) == within
    said = firings.locator("[data-firings-sentence]")
    expect(said).to_contain_text(
        f"{within} of {len(peaks)} firings: hottest from 650 to 750 °C."
        f" {unknown} more have no hottest reading and are left out."
    )
    firings.reload()
    assert number_shown(firings) == within
    firings.get_by_role("button", name="See them all").click()
    assert number_shown(firings) == len(peaks)
    assert firings.get_by_label("From", exact=True).input_value() == ""


def test_a_range_asked_in_fahrenheit_stays_as_it_was_typed(firings: Page, site_dir: Path) -> None:
    """1,300 °F is 704.4 °C; 704 °C is 1,299.2 °F: turned to °C and back, a reader's 1300 would become 1299."""
    peaks = [number(row["peak_c"]) for row in exported(site_dir).values()]
    within = sum(peak is not None and round(peak * 1.8 + 32) >= 1300 for peak in peaks)
    firings.get_by_role("button", name="Temperatures in °F").click()
    assert firings.locator("[data-heat-range] legend").inner_text() == "Hottest reading, °F"
    field = firings.get_by_label("From", exact=True)
    field.fill("1300")
    expect(firings).to_have_url(re.compile(r"\?from=1300F$"))
    said = firings.locator("[data-firings-sentence]")
    expect(said).to_contain_text("hottest 1300 °F or more")
    assert number_shown(firings) == within > 0
    seen = titles(firings)
    firings.get_by_role("button", name="Temperatures in °C").click()
    assert field.input_value() == "704"
    expect(said).to_contain_text("hottest 704 °C or more")
    assert titles(firings) == seen
    firings.get_by_role("button", name="Temperatures in °F").click()
    assert field.input_value() == "1300"
    firings.reload()
    expect(said).to_contain_text("hottest 1300 °F or more")
    assert field.input_value() == "1300"
    assert titles(firings) == seen


def test_sorting_by_heat_puts_the_unknown_last(firings: Page, site_dir: Path) -> None:
    firings.get_by_label("Order").select_option("hottest")
    known = exported(site_dir)
    slugs = [box.get_attribute("value") or "" for box in firings.locator(f"{LINES} .pick input").all()]
    peaks = [number(known[slug]["peak_c"]) for slug in slugs]
    read = [peak for peak in peaks if peak is not None]
    assert read == sorted(read, reverse=True)
    assert peaks == [*read, *[None] * (len(peaks) - len(read))]
    assert len(read) < len(peaks) == len(known)


def test_sorted_back_by_date_the_years_have_their_headings_again(firings: Page) -> None:
    before = titles(firings)
    firings.get_by_label("Order").select_option("title")
    expect(firings.locator(".year h2")).to_have_count(0)
    firings.get_by_label("Order").select_option("newest")
    assert titles(firings) == before
    firings.get_by_label("Order").select_option("oldest")
    assert titles(firings) == before[::-1]


def test_words_are_found_whatever_their_capitals_and_all_must_be_there(firings: Page) -> None:
    firings.get_by_label("Words").fill("PALE jar twelfth")
    expect(firings.locator(LINES)).to_have_count(1)
    assert titles(firings) == ["The pale jar, twelfth attempt"]


def test_the_result_is_announced_and_an_empty_one_says_what_to_take_away(firings: Page) -> None:
    pick(firings, "method", "turf-clamp")
    firings.get_by_label("Words").fill("nothing has these words")
    said = firings.locator("[data-firings-sentence]")
    expect(said).to_contain_text("No firing of")
    assert said.get_attribute("aria-live") == "polite"
    hint = firings.locator("[data-firings-hint]")
    expect(hint).to_contain_text("Turf clamp")
    expect(hint).to_contain_text("nothing has these words")
    firings.get_by_role("button", name="See them all").click()
    expect(said).to_contain_text("newest first")
    assert urlsplit(firings.url).query == ""


def test_hostile_words_in_the_address_are_only_words(open_page: OpenPage, site_dir: Path) -> None:
    address = (site_dir / "firings" / "index.html").as_uri() + "?q=%3Cimg%20src%3Dx%3E&method=%22%3E&sort=__proto__"
    page = open_page(address)
    expect(page.locator("[data-firings-sentence]")).to_contain_text("<img src=x>")
    expect(page.locator("[data-firings-sentence] img")).to_have_count(0)
    assert page.get_by_label("Order").input_value() == "newest"


def test_on_a_phone_the_facets_are_folded_above_the_list(open_page: OpenPage, site_dir: Path) -> None:
    page = open_page((site_dir / "firings" / "index.html").as_uri(), width=360)
    expect(page.locator('input[name="method"]').first).to_be_hidden()
    page.get_by_text("Pick by method").click()
    expect(page.locator('input[name="method"]').first).to_be_visible()
