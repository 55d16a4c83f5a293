"""The table of the firings that are seen, downloaded from their list, held against the list and against firings.csv."""

from __future__ import annotations

import csv
import io
from collections.abc import Callable
from pathlib import Path

from playwright.sync_api import Page, expect

from builder.exports.cells import inert
from tests.browser.conftest import OpenPage
from tests.browser.exported import firings as exported

COLUMNS = "firing number title date potter method place ware peak_c pieces judged successes url".split()
STRANGE = ('=HYPERLINK("x")', "@sum", "+1+1", "-12", "-12a", "＝1", "\tx", 'a "b", c', "two\nlines", "plain")


def opened(open_page: OpenPage, site: Path, asked: str = "", **options: object) -> Page:
    return open_page((site / "firings" / "index.html").as_uri() + asked, **options)


def downloaded(page: Page) -> list[dict[str, str]]:
    """What the button gives, read by Python's own reader of CSV."""
    with page.expect_download() as download:
        page.get_by_role("button", name="Download what I see").click()
    assert download.value.suggested_filename == "firings-seen.csv"
    words = Path(download.value.path()).read_bytes().decode("utf-8")
    return list(csv.DictReader(io.StringIO(words, newline=""), strict=True))


def hold(page: Page, site: Path, count: Callable[[int], bool]) -> None:
    """The rows are those seen, in their order, and each says what firings.csv says of it."""
    rows = downloaded(page)
    assert count(len(rows))
    seen = page.locator(".firing-line:visible")
    assert [row["number"] for row in rows] == seen.locator("> .number").all_inner_texts()
    assert [row["title"] for row in rows] == seen.locator("h3").all_inner_texts()
    known = exported(site)
    assert rows == [{column: known[row["firing"]][column] for column in COLUMNS} for row in rows]


def test_untouched_it_has_every_firing_as_listed(open_page: OpenPage, site_dir: Path) -> None:
    total = len(exported(site_dir))
    hold(opened(open_page, site_dir), site_dir, lambda count: count == total)


def test_it_follows_what_was_picked_and_the_order(open_page: OpenPage, site_dir: Path) -> None:
    total = len(exported(site_dir))
    page = opened(open_page, site_dir, "?place=thornlode&from=600&to=900&sort=hottest")
    hold(page, site_dir, lambda count: 1 < count < total)
    page.get_by_label("Order").select_option("oldest")
    hold(page, site_dir, lambda count: 1 < count < total)
    page.get_by_role("button", name="See them all").click()
    page.get_by_label("Order").select_option("title")
    hold(page, site_dir, lambda count: count == total)


def test_a_cell_never_runs_as_a_formula(open_page: OpenPage, site_dir: Path) -> None:
    """The same words are given to the list and to the exports' own rule."""
    page = opened(open_page, site_dir)
    expect(page.get_by_role("button", name="Download what I see")).to_be_enabled()
    page.evaluate("(words) => { ashbookList.titles.splice(0, words.length, ...words); }", list(STRANGE))
    page.get_by_label("Order").select_option("oldest")
    assert [row["title"] for row in downloaded(page)[: len(STRANGE)]] == [inert(words) for words in STRANGE]


def test_where_nothing_is_seen_there_is_nothing_to_download(open_page: OpenPage, site_dir: Path) -> None:
    page = opened(open_page, site_dir, "?from=9000")
    expect(page.get_by_role("button", name="Download what I see")).to_be_disabled()


def test_it_is_hidden_without_scripts(open_page: OpenPage, site_dir: Path) -> None:
    page = opened(open_page, site_dir, scripts=False)
    expect(page.get_by_text("Download what I see")).to_be_hidden()


def test_on_a_phone_its_button_and_the_fields_of_heat_are_large_enough(open_page: OpenPage, site_dir: Path) -> None:
    page = opened(open_page, site_dir, width=360)
    page.get_by_text("Pick by method").click()
    for target in (page.get_by_role("button", name="Download what I see"), page.get_by_label("From", exact=True)):
        box = target.bounding_box()
        assert box
        assert box["height"] >= 44
        assert box["width"] >= 44
    assert page.evaluate("document.documentElement.scrollWidth <= innerWidth")
