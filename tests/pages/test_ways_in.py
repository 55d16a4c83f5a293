"""Materials, places and years: every word a page, whatever its letters; counts that agree with the firings."""

from __future__ import annotations

import pytest

from builder.checks.firing import Piece
from builder.pages.addresses import material_page, place_page, word_address
from builder.pages.drafts import Draft
from builder.pages.entry_page import entry_page
from builder.pages.firing_lines import MOST_LINES
from builder.pages.ways_in_pages import materials_pages, places_pages, years_pages
from builder.publish.site import Page
from tests.pages.every_page import made
from tests.pages.invented import FIRING, SETTINGS, archive, record
from tests.pages.reading_html import read, read_page

GOOD = (Piece("jar", "sound", carbon="cleared", paint="held"),)
BAD = (Piece("jar", "broken"),)
SHELF = archive(
    record(1, slug="a", pieces=GOOD, conditions={"clay.temper": ("Crushed sherd", "chaff"), "surface.slip": "none"}),
    record(2, slug="b", pieces=BAD, conditions={"clay.temper": ("crushed  sherd",)}, method="turf-clamp"),
    record(3, slug="c", pieces=GOOD, conditions={}, place="alder fen", date=FIRING.date.replace(year=2025)),
)


def by_path(drafts: tuple[Draft, ...]) -> dict[str, Page]:
    return {page.path: page for page in made(drafts)}


MATERIALS = by_path(materials_pages(SHELF, SETTINGS))


def test_each_word_of_each_material_has_a_page_whatever_its_capitals() -> None:
    assert set(MATERIALS) == {
        "materials/index",
        "materials/temper-chaff",
        "materials/temper-crushed-sherd",
        "materials/slip-none",
    }


def test_a_page_counts_its_own_firings_and_pieces() -> None:
    """Worked by hand: firings 1 and 2 have crushed sherd; one piece of the two succeeded."""
    page = MATERIALS["materials/temper-crushed-sherd"]
    assert page.description.replace("\u00a0", " ").startswith(
        "Temper: Crushed sherd. Two firings by one potter in 2026, with 2 pieces. "
        "1 of 2 judged pieces from 2 firings succeeded, 50 %, likely "
    )
    lines = read(page.lead).all("li", "firing-line")
    assert [line.attributes.get("class") for line in lines] == ["firing-line"] * 2


def test_a_rate_stands_by_method_in_the_order_of_the_settings_and_is_never_without_its_counts() -> None:
    rows = [row.words for row in read(MATERIALS["materials/temper-crushed-sherd"].lead).all("tr")]
    assert ["Open fire" in rows[2], "Turf clamp" in rows[3], "All methods" in rows[4]] == [True] * 3
    assert all("Agresti" in row for row in rows[2:])


def test_words_stand_by_alphabet_and_firings_without_any_are_counted() -> None:
    found = read(MATERIALS["materials/index"].lead)
    temper = next(section for section in found.all("section") if "Temper" in section.words)
    assert "Not recorded in 1 firing." in temper.words.replace("\u00a0", " ")
    assert temper.words.index("chaff") < temper.words.index("Crushed sherd")


def test_no_slip_is_a_word_of_its_own() -> None:
    assert "no slip" in read(MATERIALS["materials/index"].lead).all("section")[2].words
    assert MATERIALS["materials/slip-none"].title == "Slip: no slip"


def test_two_spellings_of_a_place_are_one_place() -> None:
    assert set(by_path(places_pages(SHELF, SETTINGS))) == {"places/index", "places/alder-fen"}


def test_years_stand_in_the_order_of_time() -> None:
    found = read(by_path(years_pages(SHELF, SETTINGS))["years/index"].lead)
    assert [tag.words for tag in found.all("a") if tag.attributes["href"].startswith("20")] == ["2025", "2026"]


def test_a_long_list_shows_the_newest_as_lines_and_all_as_titles() -> None:
    many = archive(*(record(number, slug=f"f{number}") for number in range(1, MOST_LINES + 6)))
    found = read(by_path(years_pages(many, SETTINGS))["years/2026"].lead)
    linked = {tag.attributes["href"] for tag in found.all("a") if tag.attributes["href"].startswith("../firings/f")}
    assert len(found.all("li", "firing-line")) == MOST_LINES
    assert len(linked) == MOST_LINES + 5


@pytest.mark.parametrize(
    ("one", "other"),
    [
        ("ash & bone", "ash bone"),
        ("砂", "粘土"),
        ("river-clay", "river clay"),
        ("глина", "песок"),
        ("a" * 80, "a" * 81),
        ("index", "Index."),
        ("crushed sherd fd019bd69e", "crushed sherd!"),
    ],
)
def test_two_words_never_share_an_address(one: str, other: str) -> None:
    assert word_address(one) != word_address(other)


@pytest.mark.parametrize("word", ["../../etc", "砂", "con", "", "a/b", "%2e%2e", "x" * 500, "\u202egnp.exe", ".hidden"])
def test_an_address_is_plain_letters_whatever_the_word(word: str) -> None:
    address = word_address(word)
    assert address.replace("-", "").isascii()
    assert address.replace("-", "").isalnum()
    assert len(address) < 80
    assert place_page(word) != "places/index"
    assert material_page("clay.temper", word).startswith("materials/temper-")


def test_an_entry_leads_to_its_materials_its_place_and_its_year() -> None:
    found = read_page(entry_page(record(), archive(record()), SETTINGS, ()))
    assert {
        "../materials/body-red-river-clay.html",
        "../materials/wood-hazel.html",
        "../places/alder-fen.html",
        "../years/2026.html",
    } <= {tag.attributes["href"] for tag in found.all("a") if "href" in tag.attributes}


def test_hostile_words_stay_words() -> None:
    hostile = archive(record(place="<script>alert(1)</script>"))
    pages = made(places_pages(hostile, SETTINGS))
    assert all("<script" not in page.lead for page in pages)
