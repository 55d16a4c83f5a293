"""A list of firings that is too long for one page: nothing is lost by the splitting, with scripts or without."""

from __future__ import annotations

import csv
import io
import re
from collections.abc import Callable, Iterator
from pathlib import Path

import html5lib
import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Locator, Page, expect

from tests.browser.conftest import OpenPage
from tests.browser.exported import firings as exported
from tests.browser.exported import number
from tests.browser.test_page_types import RULES

FIRST = 9
"""Lines of the first page: of 51 firings, seven pages of six are full and have a full one after them."""
BATCH = 12


@pytest.fixture(params=["folder", "host"])
def firings(
    request: pytest.FixtureRequest, open_page: OpenPage, split_dir: Path, serve: Callable[[Path], str]
) -> Callable[[str], Page]:
    """Open the list with what is asked, from a folder and from a host."""
    root = f"{split_dir.as_uri()}/" if request.param == "folder" else serve(split_dir)
    return lambda asked: open_page(f"{root}firings/index.html{asked}")


def lines(page: Page) -> Locator:
    return page.locator(".firing-line:visible")


def slugs(page: Page) -> list[str]:
    return [box.get_attribute("value") or "" for box in lines(page).locator(".pick input").all()]


def whole(page: Page) -> list[str]:
    """Press for more until there is no more."""
    more = page.get_by_role("button", name=re.compile("^Show .* more$"))
    while more.is_visible():
        before = lines(page).count()
        more.click()
        expect(lines(page).nth(before)).to_be_visible()
    return slugs(page)


def newest_first(site: Path, wanted: Callable[[dict[str, str]], bool] = lambda row: True) -> list[str]:
    return [slug for slug, row in reversed(exported(site).items()) if wanted(row)]


def test_without_scripts_the_numbered_pages_hold_every_firing_once(open_page: OpenPage, split_dir: Path) -> None:
    page = open_page((split_dir / "firings" / "index.html").as_uri(), scripts=False)
    found = page.locator(".firing-line h3 a").evaluate_all("links => links.map(link => link.href)")
    assert len(found) == FIRST
    older = page.locator('a[rel="next"]')
    while older.count():
        older.click()
        found += page.locator(".firing-line h3 a").evaluate_all("links => links.map(link => link.href)")
    page.get_by_role("link", name="firings by number").click()
    expect(page.locator(".firing-pages a")).to_have_count(8)
    assert [address.rpartition("/")[2].removesuffix(".html") for address in found] == newest_first(split_dir)


def test_with_a_script_the_numbered_pages_stand_behind_and_more_is_shown_on_the_page(
    firings: Callable[[str], Page], split_dir: Path
) -> None:
    page = firings("")
    expect(page.get_by_role("navigation", name="Pages of firings")).to_be_hidden()
    assert lines(page).count() == FIRST
    expect(page.locator("[data-firings-more] [role=status]")).to_have_text(f"{FIRST} of 51 are shown.")
    page.get_by_role("button", name=f"Show {BATCH} more").press("Enter")
    expect(page.locator("[data-firings-more] [role=status]")).to_have_text(f"{FIRST + BATCH} of 51 are shown.")
    expect(lines(page).nth(FIRST).get_by_role("link")).to_be_focused()
    assert whole(page) == newest_first(split_dir)
    expect(page.locator("[data-firings-more]")).to_be_hidden()


def test_lines_made_by_the_script_are_those_that_the_build_writes(
    open_page: OpenPage, split_dir: Path, site_dir: Path
) -> None:
    """Every element, attribute and word, blanks between the parts of a line aside; a curve comes when it is seen."""
    line = """lines => lines.map(line => line.outerHTML.replace(/\\s+/g, " ").replace(/> (?=<)/g, ">"))"""
    built = open_page((site_dir / "firings" / "index.html").as_uri(), scripts=False)
    page = open_page((split_dir / "firings" / "index.html").as_uri() + "?sort=oldest")
    whole(page)
    for curve in page.locator(".firing-line .curve").all():
        curve.scroll_into_view_if_needed()
        expect(curve.locator("svg")).to_have_count(1)
    made = page.locator(".firing-line").evaluate_all(line)
    assert made == built.locator(".firing-line").evaluate_all(line)[::-1]
    assert len(made) == len(exported(split_dir))


def test_what_is_picked_is_found_in_all_firings_and_counted_as_the_exports_have_it(
    firings: Callable[[str], Page], split_dir: Path
) -> None:
    page = firings("")
    page.locator('input[name="method"][value="open-fire"]').check()
    wanted = newest_first(split_dir, lambda row: row["method"] == "open-fire")
    assert len(wanted) > BATCH
    expect(page.locator("[data-firings-sentence]")).to_contain_text(f"{len(wanted)} of 51 firings: Open fire")
    assert whole(page) == wanted
    for box in page.locator('[data-facet="year"] input').all():
        year = box.get_attribute("value") or ""
        count = page.locator(f'label:has(input[name="year"][value="{year}"]) [data-count]').inner_text()
        assert int(count) == sum(slug.startswith(year) for slug in wanted)


def test_an_order_goes_through_all_firings_and_not_those_of_the_first_page_only(
    firings: Callable[[str], Page], split_dir: Path
) -> None:
    page = firings("?sort=coolest")
    expect(lines(page)).to_have_count(BATCH)
    known = exported(split_dir)
    peaks = sorted(peak for row in known.values() if (peak := number(row["peak_c"])) is not None)
    assert [number(known[slug]["peak_c"]) for slug in whole(page)][: len(peaks)] == peaks


def test_words_are_looked_for_in_all_firings(firings: Callable[[str], Page], split_dir: Path) -> None:
    page = firings("?q=second+ATTEMPT")
    wanted = newest_first(split_dir, lambda row: "second" in row["title"] and "attempt" in row["title"])
    expect(page.locator("[data-firings-sentence]")).to_contain_text(f"{len(wanted)} of 51 firings")
    assert whole(page) == wanted != []
    page.get_by_label("Words").fill("3")
    expect(page.locator("[data-firings-sentence]")).to_contain_text("with “3”")
    assert newest_first(split_dir)[-3] in whole(page)


def test_the_table_of_what_is_seen_has_the_lines_that_are_not_shown_yet(
    firings: Callable[[str], Page], split_dir: Path
) -> None:
    page = firings("?method=open-fire&sort=oldest")
    expect(lines(page)).to_have_count(BATCH)
    with page.expect_download() as download:
        page.get_by_role("button", name="Download what I see").click()
    text = Path(download.value.path()).read_text("utf-8")
    rows = [row["firing"] for row in csv.DictReader(io.StringIO(text, newline=""))]
    assert rows == newest_first(split_dir, lambda row: row["method"] == "open-fire")[::-1] == whole(page)


def test_on_paper_stands_all_that_was_found(firings: Callable[[str], Page], split_dir: Path) -> None:
    page = firings("?method=open-fire")
    expect(lines(page)).to_have_count(BATCH)
    page.evaluate("dispatchEvent(new Event('beforeprint'))")
    assert slugs(page) == newest_first(split_dir, lambda row: row["method"] == "open-fire")
    page.evaluate("dispatchEvent(new Event('afterprint'))")
    assert lines(page).count() == BATCH


def test_ticks_stay_when_lines_come_and_go(firings: Callable[[str], Page], split_dir: Path) -> None:
    page = firings("")
    last, first = newest_first(split_dir)[0], newest_first(split_dir)[-1]
    lines(page).first.get_by_label("Compare").check()
    page.get_by_label("Order").select_option("oldest")
    expect(lines(page).first.locator(".number")).to_have_text("1")
    lines(page).first.get_by_label("Compare").check()
    page.get_by_label("Order").select_option("newest")
    assert lines(page).first.get_by_label("Compare").is_checked()
    link = page.get_by_role("link", name="Lay them over one another")
    assert (link.get_attribute("href") or "").endswith(f"?firings={last},{first}")


def test_firings_to_compare_are_chosen_from_all(open_page: OpenPage, split_dir: Path) -> None:
    page = open_page((split_dir / "compare.html").as_uri())
    oldest = newest_first(split_dir)[-1]
    page.get_by_label("Add a firing").fill("1")
    page.get_by_role("button", name=f"1 {exported(split_dir)[oldest]['title']}", exact=True).click()
    expect(page).to_have_url(re.compile(f"firings={oldest}$"))


@pytest.mark.parametrize("address", ["index.html?sort=oldest", "numbers-7-12.html", "numbers.html"])
def test_its_pages_fit_every_screen_and_axe_finds_nothing(open_page: OpenPage, split_dir: Path, address: str) -> None:
    page = open_page((split_dir / "firings").as_uri() + f"/{address}", scheme="dark")
    for width in (360, 768, 1280):
        page.set_viewport_size({"width": width, "height": 800})
        assert page.evaluate("document.documentElement.scrollWidth") <= width
    found = Axe().run(page, options=RULES)
    assert found.violations_count == 0, found.generate_report()


@pytest.mark.parametrize("address", ["index.html", "numbers-7-12.html", "numbers.html"])
def test_its_pages_are_sound_html(split_dir: Path, address: str) -> None:
    html5lib.HTMLParser(strict=True).parse((split_dir / "firings" / address).read_text("utf-8"))


@pytest.fixture
def without_columns(split_dir: Path) -> Iterator[None]:
    """The columns cannot be had, as when a memory stick was copied by halves."""
    columns = split_dir / "firings" / "list.js"
    aside = columns.rename(columns.with_suffix(".aside"))
    yield
    aside.rename(columns)


@pytest.mark.usefixtures("without_columns")
def test_where_the_columns_cannot_be_had_the_list_reads_as_without_scripts(
    open_page: OpenPage, split_dir: Path
) -> None:
    page = open_page((split_dir / "firings" / "index.html").as_uri())
    expect(page.get_by_role("navigation", name="Pages of firings")).to_be_visible()
    expect(page.locator("[data-firings-form]")).to_be_hidden()
    expect(page.get_by_role("button", name="Download what I see")).to_be_hidden()
    assert lines(page).count() == FIRST
    open_page.guard.faults.clear()  # type: ignore[attr-defined]  # the missing file is said in the console
