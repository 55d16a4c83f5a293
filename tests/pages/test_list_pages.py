"""The list of firings: whole without a script, on numbered pages where they are many, with all that picks them."""

from __future__ import annotations

import re

import pytest

from builder.archive.archive import Archive
from builder.checks.firing import Piece
from builder.pages import list_pages
from builder.pages.facets import Facet, facet_words, facets
from builder.pages.list_pages import numbered_pages
from builder.publish.site import Page
from tests.pages.every_page import list_page, made
from tests.pages.invented import FIRING, SETTINGS, archive, record, unread
from tests.pages.reading_html import read

BROKEN = (Piece("lamp", "broken"),)
SHELF = archive(
    record(1, slug="a", conditions={"fuel.wood": ("hazel", "Birch")}, helpers=()),
    record(2, slug="b", conditions={"fuel.wood": ("birch",)}, date=FIRING.date.replace(year=2025)),
    unread(
        3, slug="c", method="turf-clamp", potter="ode", helpers=(), conditions={}, pieces=(Piece("lamp", "broken"),)
    ),
)


def facets_of(shelf: Archive) -> dict[str, Facet]:
    told = [facet_words(one, SETTINGS) for one in shelf.records]
    return {facet.key: facet for facet in facets(told, SETTINGS)}


FOUND = facets_of(SHELF)


def counts(key: str) -> dict[str, int]:
    return {option.label: option.count for option in FOUND[key].options}


def test_the_list_is_whole_without_a_script() -> None:
    found = read(list_page(SHELF, SETTINGS).lead)
    lines = found.all("li", "firing-line")
    assert len(lines) == 3
    assert "hidden" not in lines[0].attributes
    assert [tag.words for tag in found.all("h2")] == ["2026", "2025", "2026"]
    assert "hidden" in found.all("form")[0].attributes


def test_each_line_counts_its_pots_in_words() -> None:
    words = [tag.words for tag in read(list_page(SHELF, SETTINGS).lead).all("div", "pots")]
    assert [" ".join(one.split()) for one in words] == ["1 broken", "5 sound, 1 cracked", "5 sound, 1 cracked"]


def test_facets_count_firings_and_not_recorded_is_a_value() -> None:
    """Birch was written with and without a capital; the third firing recorded no wood and no temperature."""
    assert counts("wood") == {"Birch": 2, "hazel": 1, "Not recorded": 1}
    assert counts("hottest") == {"Inside the window": 2, "Not recorded": 1}
    assert counts("year") == {"2026": 2, "2025": 1}
    assert counts("outcome") == {"Sound": 2, "Cracked": 2, "Broken": 1}


def test_methods_stand_in_the_groups_order_and_years_newest_first() -> None:
    assert list(counts("method")) == ["Open fire on the ground", "Turf clamp"]
    assert list(counts("year")) == ["2026", "2025"]


def test_a_facet_with_one_value_is_no_choice() -> None:
    assert "stack" not in FOUND


def test_every_value_that_can_be_picked_has_its_box() -> None:
    boxes = read(list_page(SHELF, SETTINGS).lead).all("input")
    shown = {
        (box.attributes["name"], box.attributes["value"])
        for box in boxes
        if "name" in box.attributes and "value" in box.attributes
    }
    told = [facet_words(one, SETTINGS) for one in SHELF.records]
    assert shown == {(key, value) for one in told for key in FOUND for value in one[key]}


def test_ware_and_place_are_facets_and_a_second_spelling_is_the_same_value() -> None:
    shelf = archive(
        record(1, slug="a", place="Alder Fen", ware="lamp"),
        record(2, slug="b", place="alder  fen", ware=None),
        record(3, slug="c", place=None, ware="lamp"),
    )
    found = {key: {option.label: option.count for option in facet.options} for key, facet in facets_of(shelf).items()}
    assert found["place"] == {"Alder Fen": 2, "Not recorded": 1}
    assert found["ware"] == {"lamp": 2, "Not recorded": 1}


def test_a_range_of_heat_is_offered_only_where_a_temperature_is_known() -> None:
    assert "data-heat-range" in list_page(SHELF, SETTINGS).lead
    assert "data-heat-range" not in list_page(archive(unread(1), unread(2, slug="b")), SETTINGS).lead


def test_how_the_peak_stands_to_the_window_is_unknown_without_a_window() -> None:
    """The turf clamp names no window, so its firing is neither in nor out of one."""
    one = record(1, method="turf-clamp")
    assert facet_words(one, SETTINGS)["hottest"] == {"": "Not recorded"}


def test_forty_pots_are_counted_in_full_and_drawn_in_part() -> None:
    page = list_page(archive(record(1, pieces=(Piece("tiles", "sound", count=40),))), SETTINGS)
    pots = read(page.lead).all("div", "pots")[0]
    assert "40 sound" in pots.words
    assert "+ 30" in pots.words


def numbers(page: Page) -> list[int]:
    return [int(line.attributes["data-number"]) for line in read(page.lead).all("li", "firing-line")]


@pytest.mark.parametrize(
    ("firings", "first", "numbered"),
    [(0, [], []), (3, [3, 2, 1], []), (7, [7, 6, 5, 4, 3, 2, 1], []), (8, [8, 7, 6, 5], [[4, 3, 2, 1]])],
)
def test_pages_are_filled_from_the_oldest_firing_on_and_none_is_lost(
    firings: int, first: list[int], numbered: list[list[int]], monkeypatch: pytest.MonkeyPatch
) -> None:
    """Worked by hand for four firings a page: the first page has four to seven."""
    monkeypatch.setattr(list_pages, "PAGE_FIRINGS", 4)
    shelf = archive(*(record(number, slug=f"fire-{number}") for number in range(1, firings + 1)))
    assert numbers(list_page(shelf, SETTINGS)) == first
    assert [numbers(page) for page in made(numbered_pages(shelf, SETTINGS))[:0:-1]] == numbered


def test_a_new_firing_changes_no_page_that_is_full_and_has_a_full_one_after_it(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.setattr(list_pages, "PAGE_FIRINGS", 4)
    records = [record(number, slug=f"fire-{number}") for number in range(1, 14)]
    before = made(numbered_pages(archive(*records[:12]), SETTINGS))[1:]
    after = made(numbered_pages(archive(*records), SETTINGS))[1:]
    assert [page.path for page in before] == ["firings/numbers-1-4", "firings/numbers-5-8"]
    assert after == before


def test_every_numbered_page_is_led_to_from_the_page_of_all_and_from_its_neighbours(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.setattr(list_pages, "PAGE_FIRINGS", 2)
    shelf = archive(*(record(number, slug=f"fire-{number}") for number in range(1, 9)))
    pages = [list_page(shelf, SETTINGS), *made(numbered_pages(shelf, SETTINGS))]
    index, every, oldest, middle, newest = (
        [href for link in read(page.lead).all("a") if not re.search("fire-|years/", href := link.attributes["href"])]
        for page in pages
    )
    assert every == ["index.html", "numbers-5-6.html", "numbers-3-4.html", "numbers-1-2.html"]
    assert index[-3:-1] == ["numbers.html", "numbers-5-6.html"]
    assert oldest[:3] == ["index.html", "numbers-3-4.html", "numbers.html"]
    assert middle[:4] == ["index.html", "numbers-5-6.html", "numbers.html", "numbers-1-2.html"]
    assert newest[:4] == ["index.html", "index.html", "numbers.html", "numbers-3-4.html"]
