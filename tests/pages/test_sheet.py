"""The sheet for the fire: every caution's reason to stop that a potter must see to first, and lines for every field."""

from __future__ import annotations

from builder.entries.fields import CONDITIONS, FIELDS
from builder.fire.cautions import BY_KEY
from builder.fire.ready import READY
from builder.pages.cautions_page import cautions_page
from builder.pages.entry_page import entry_page
from builder.pages.home_page import home_page
from builder.pages.sheet_page import PIECES, READINGS, blanks, sheet_page
from tests.pages.invented import SETTINGS, archive, record
from tests.pages.reading_html import read, read_page

SHEET = read(sheet_page(SETTINGS, {}).lead)


def test_every_line_names_a_reason_to_stop_and_leads_to_its_caution() -> None:
    lines = SHEET.all("li")
    assert len(lines) == len(READY)
    for line, tag in zip(READY, lines, strict=True):
        assert line.caution in BY_KEY
        assert f"Stop if {line.stop}." in tag.words
    addresses = [tag.attributes["href"] for tag in SHEET.all("a")]
    assert {f"cautions.html#{line.caution}" for line in READY} <= set(addresses)


def test_what_a_potter_must_see_to_first_is_asked() -> None:
    asked = {line.caution for line in READY}
    assert {"permission", "wind", "steam", "stones", "ground", "people", "fuel", "smoke", "watch"} <= asked


def test_nothing_on_it_approves() -> None:
    words = " ".join(f"{line.asked} {line.stop}" for line in READY).casefold()
    assert not [word for word in ("safe", "no danger", "you may light", "go ahead") if word in words]
    assert "come before anything here" in SHEET.words


def test_there_is_a_blank_for_every_condition_in_the_words_of_the_entry() -> None:
    labels = [label for group in blanks() for label in group.labels]
    fields = [field.heading for group in FIELDS for field in group.fields if field.condition]
    assert labels == fields
    assert len(labels) == len(CONDITIONS)


def test_the_groups_methods_stand_with_window_and_rule() -> None:
    aims = SHEET.all("dl", "aims")[0].words.replace("\u00a0", " ")
    assert "Open fire on the ground" in aims
    assert "660 to 800 °C" in aims
    assert "carbon cleared and paint held or faded" in aims


def test_there_are_lines_for_readings_and_for_pieces() -> None:
    tables = SHEET.all("table")
    assert len(tables) == 3
    assert len(SHEET.all("tr")) == 2 * (READINGS + 1) + PIECES + 1


def test_every_entry_the_first_page_and_the_cautions_lead_to_it() -> None:
    shelf = archive(record())
    for page in (entry_page(record(), shelf, SETTINGS, ()), home_page(shelf, SETTINGS), cautions_page({})):
        addresses = [tag.attributes["href"] for tag in read_page(page).all("a")]
        assert any(address.endswith("before-you-light.html") for address in addresses), page.path
