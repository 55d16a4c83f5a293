"""The list of firings: whole without a script, and everything that the script needs to pick and sort."""

from __future__ import annotations

import json

from builder.checks.firing import Piece
from builder.pages.facets import facet_values, facets
from builder.pages.list_pages import firings_page
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
FOUND = {facet.key: facet for facet in facets(SHELF, SETTINGS)}


def counts(key: str) -> dict[str, int]:
    return {option.label: option.count for option in FOUND[key].options}


def test_the_list_is_whole_without_a_script() -> None:
    found = read(firings_page(SHELF, SETTINGS).lead)
    lines = found.all("li", "firing-line")
    assert len(lines) == 3
    assert "hidden" not in lines[0].attributes
    assert [tag.words for tag in found.all("h2")] == ["2026", "2025", "2026"]
    assert "hidden" in found.all("form")[0].attributes


def test_each_line_counts_its_pots_in_words() -> None:
    words = [tag.words for tag in read(firings_page(SHELF, SETTINGS).lead).all("div", "pots")]
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


def test_a_line_carries_its_values_for_the_script() -> None:
    found = read(firings_page(SHELF, SETTINGS).lead)
    rows = [json.loads(tag.attributes["data-facets"]) for tag in found.all("li", "firing-line")]
    assert rows[2]["wood"] == ["hazel", "birch"]
    assert rows[0]["wood"] == [""]
    assert rows[0] == facet_values(SHELF.records[2], SETTINGS)
    shown = {
        (tag.attributes["name"], tag.attributes["value"])
        for tag in found.all("input")
        if "value" in tag.attributes and "name" in tag.attributes  # a box that picks a firing to compare has no name
    }
    assert {(key, value) for row in rows for key in FOUND for value in row[key]} == shown


def test_ware_and_place_are_facets_and_a_second_spelling_is_the_same_value() -> None:
    shelf = archive(
        record(1, slug="a", place="Alder Fen", ware="lamp"),
        record(2, slug="b", place="alder  fen", ware=None),
        record(3, slug="c", place=None, ware="lamp"),
    )
    found = {facet.key: {option.label: option.count for option in facet.options} for facet in facets(shelf, SETTINGS)}
    assert found["place"] == {"Alder Fen": 2, "Not recorded": 1}
    assert found["ware"] == {"lamp": 2, "Not recorded": 1}


def test_a_line_carries_what_the_table_of_seen_firings_needs() -> None:
    """Worked by hand: of six pots the jar alone is sound, cleared and held; a bowl cracked, tiles kept their core."""
    attributes = read(firings_page(SHELF, SETTINGS).lead).all("li", "firing-line")[1].attributes
    assert attributes["data-peak"] == "742.3"
    assert (attributes["data-place"], attributes["data-ware"]) == ("Alder Fen", "pale-slipped jar")
    counted = [attributes[f"data-{name}"] for name in ("pieces", "judged", "successes")]
    assert counted == ["6", "6", "1"]


def test_a_range_of_heat_is_offered_only_where_a_temperature_is_known() -> None:
    assert "data-heat-range" in firings_page(SHELF, SETTINGS).lead
    assert "data-heat-range" not in firings_page(archive(unread(1), unread(2, slug="b")), SETTINGS).lead


def test_how_the_peak_stands_to_the_window_is_unknown_without_a_window() -> None:
    """The turf clamp names no window, so its firing is neither in nor out of one."""
    one = record(1, method="turf-clamp")
    assert facet_values(one, SETTINGS)["hottest"] == [""]


def test_forty_pots_are_counted_in_full_and_drawn_in_part() -> None:
    page = firings_page(archive(record(1, pieces=(Piece("tiles", "sound", count=40),))), SETTINGS)
    pots = read(page.lead).all("div", "pots")[0]
    assert "40 sound" in pots.words
    assert "+ 30" in pots.words
