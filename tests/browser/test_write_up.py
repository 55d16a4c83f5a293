"""The write-up form on a phone: what insists, what is said and when, drafts, units, photos, the way without scripts."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from playwright.sync_api import Page, expect

from builder.entries.fields import FIELDS, walk
from builder.pages.write_up_page import Asked, form_parts
from builder.settings_file import load_settings
from tests.browser.conftest import PROJECT, OpenPage
from tests.browser.phone import photograph


@pytest.fixture
def form(open_page: OpenPage, site_dir: Path) -> Page:
    return open_page((site_dir / "write-up.html").as_uri(), width=360)


def make(page: Page) -> None:
    page.get_by_role("button", name="Make the file").click()


def fill_what_is_needed(page: Page) -> None:
    page.get_by_label("Title").fill("A jar")
    page.get_by_label("Potter").select_option("Wren Oddie")
    page.get_by_label("Method").select_option("Trench")
    page.get_by_label("Date").fill("2026-06-13")
    piece = page.locator('[data-list="pieces"] [data-item]').first
    piece.get_by_label("Name").fill("jar")
    piece.get_by_role("radio", name="sound", exact=True).check()


def text(page: Page) -> str:
    make(page)
    page.get_by_text("The entry as text").click()
    return page.locator("[data-text]").inner_text()


def test_every_field_of_an_entry_is_asked_for_or_filled_in_by_the_form() -> None:
    """The readings' own fields are written by the form from their source; `file` of a photo is its number."""
    settings, _ = load_settings(PROJECT)
    assert settings is not None

    def paths(asked: Asked) -> set[str]:
        return {asked.path}.union(*(paths(inner) for inner in asked.inside))

    there = set().union(*(paths(field) for part in form_parts(settings) for field in part.fields))
    assert {path for path, _ in walk(FIELDS)} - there == {
        "photos.file",
        "readings.probes.column",
        "readings.probes.unit",
    }


def test_only_what_is_needed_insists(form: Page) -> None:
    fill_what_is_needed(form)
    assert text(form) == (
        "---\ntitle: A jar\ndate: 2026-06-13\npotter: wren\nmethod: trench\n"
        "pieces:\n  - name: jar\n    survival: sound\n---\n"
    )


def test_what_is_missing_is_told_once_the_file_is_asked_for_and_each_problem_leads_to_its_field(form: Page) -> None:
    expect(form.locator("[data-wrong]:visible")).to_have_count(0)
    make(form)
    problems = form.locator("[data-problems]")
    expect(problems).to_contain_text("5 things are to be mended before the file can be made.")
    expect(problems).to_be_focused()
    problems.get_by_role("button", name="title is missing").click()
    expect(form.get_by_label("Title")).to_be_focused()
    form.get_by_label("Title").fill("A jar")
    expect(problems).to_contain_text("4 things")


def test_a_field_is_judged_when_it_is_left_and_not_before(form: Page) -> None:
    form.get_by_text("Clay", exact=True).click()
    wall = form.get_by_label("Wall", exact=True)
    wall.fill("0.25")
    expect(form.locator("[data-wrong]:visible")).to_have_count(0)
    wall.blur()
    wrong = form.locator('[data-field="wall"] [data-wrong]')
    expect(wrong).to_contain_text("0.25 mm cannot be: the thickness of a wall is 1 to 60 mm")
    expect(wrong).to_contain_text("If you meant 0.25 cm or 0.25 in, write that.")
    assert wall.get_attribute("aria-describedby") == wrong.get_attribute("id")
    wall.fill("7")
    expect(wrong).to_be_hidden()


def test_a_warning_is_shown_and_does_not_stand_in_the_way(form: Page) -> None:
    fill_what_is_needed(form)
    form.get_by_text("Weather", exact=True).click()
    form.get_by_label("Wind", exact=True).fill("60")
    make(form)
    expect(form.locator("[data-problems]")).to_contain_text("60 km/h is unusual")
    expect(form.locator("[data-made]")).to_be_visible()


def test_a_unit_that_was_typed_is_chosen(form: Page) -> None:
    form.get_by_text("Clay", exact=True).click()
    form.get_by_label("Wall", exact=True).fill("1/4 inch")
    form.get_by_label("Wall", exact=True).blur()
    expect(form.get_by_label("Wall", exact=True)).to_have_value("1/4")
    expect(form.get_by_label("Unit of wall")).to_have_value("in")
    fill_what_is_needed(form)
    assert "clay: {wall: 1/4 in}" in text(form)


def test_what_was_meant_is_a_tap_away_where_the_help_knows_it(form: Page) -> None:
    """Where a comma begins the decimals, a phone's keys for numbers often have no point."""
    form.get_by_text("Clay", exact=True).click()
    wall = form.get_by_label("Wall", exact=True)
    wall.fill("6,5")
    wall.blur()
    expect(form.locator('[data-field="wall"] [data-wrong]')).to_contain_text("6,5 can be read in two ways.")
    form.get_by_role("button", name="6.5 mm", exact=True).click()
    expect(wall).to_have_value("6.5")
    expect(form.locator('[data-field="wall"] [data-wrong]')).to_be_hidden()
    form.get_by_label("Dried", exact=True).fill("9 dys")
    form.get_by_label("Dried", exact=True).blur()
    form.get_by_role("button", name="9 d", exact=True).click()
    expect(form.get_by_label("Dried", exact=True)).to_have_value("9")
    form.get_by_text("Weather", exact=True).click()
    form.get_by_label("Wind", exact=True).fill("light")
    form.get_by_label("Wind", exact=True).blur()
    expect(form.locator('[data-field="wind"] [data-wrong]')).to_contain_text("Write a speed like 8 km/h")
    expect(form.locator('[data-field="wind"] [data-wrong] button')).to_have_count(0)


def test_the_list_of_problems_says_where_each_is(form: Page) -> None:
    form.get_by_text("Fuel", exact=True).click()
    form.get_by_label("Mass of the wood", exact=True).fill("8l2")
    form.get_by_role("button", name="Another piece").click()
    form.locator('[data-list="pieces"] [data-item]').nth(0).get_by_label("Name").fill("jar")
    form.locator('[data-list="pieces"] [data-item]').nth(1).get_by_label("Count").fill("four")
    make(form)
    told = form.locator("[data-problems] li")
    assert "Mass of the wood l is not a unit for a mass." in " ".join(told.all_inner_texts())
    assert any(line.startswith("Piece 2, Count four") for line in told.all_inner_texts()), told.all_inner_texts()


def test_only_fields_that_figures_are_enough_for_ask_for_the_keys_of_numbers(form: Page) -> None:
    keys = "(name) => document.querySelector(`[data-field='${name}'] [data-value]`).inputMode"
    assert [form.evaluate(keys, name) for name in ("wall", "mass", "air")] == ["decimal", "decimal", ""]
    form.get_by_role("radio", name="In a table").check()
    form.get_by_label("Or paste the table here").fill("0:00 20 lit\n2:00 300\n5:00 700 flames")
    assert [form.evaluate(keys, name) for name in ("emissivity", "limit")] == ["", "decimal"]


def test_a_unit_that_was_chosen_in_one_draft_is_not_left_standing_in_the_next(form: Page) -> None:
    form.get_by_text("Clay", exact=True).click()
    form.get_by_label("Wall", exact=True).fill("1/4 in")
    form.get_by_label("Wall", exact=True).blur()
    expect(form.get_by_label("Unit of wall")).to_have_value("in")
    form.get_by_role("button", name="Begin another").click()
    expect(form.get_by_label("Unit of wall")).to_have_value("mm")


def test_the_fields_of_another_thermometer_are_not_asked_for_and_not_written(form: Page) -> None:
    fill_what_is_needed(form)
    form.get_by_role("radio", name="In a table").check()
    form.get_by_label("Or paste the table here").fill("0:00 20 lit\n2:00 300\n5:00 700 flames")
    probe = form.locator('[data-list="probes"] [data-item]').first
    probe.get_by_text("More about this thermometer").click()
    probe.get_by_label("Emissivity set").fill("0.95")
    probe.get_by_role("radio", name="thermocouple").check()
    expect(probe.get_by_label("Emissivity set")).to_be_hidden()
    probe.get_by_label("Type").select_option("K")
    entry = text(form)
    assert "type: K" in entry
    assert "emissivity" not in entry


def test_a_draft_outlives_a_reload_with_its_photo_and_is_deleted_when_asked_twice(form: Page) -> None:
    fill_what_is_needed(form)
    form.locator("[data-photos]").set_input_files(
        {"name": "a.jpg", "mimeType": "image/jpeg", "buffer": photograph((800, 600))}
    )
    form.get_by_label("Alt").fill("A red half")
    form.get_by_label("The story").fill("Some words.")
    form.reload()
    expect(form.get_by_label("Title")).to_have_value("A jar")
    expect(form.get_by_label("The story")).to_have_value("Some words.")
    expect(form.get_by_label("Alt")).to_have_value("A red half")
    expect(form.locator("canvas")).to_be_visible()
    form.get_by_role("button", name="Delete my draft").click()
    form.get_by_role("button", name="Keep it").click()
    form.get_by_role("button", name="Delete my draft").click()
    form.get_by_role("button", name="Delete for good").click()
    expect(form.get_by_label("Title")).to_have_value("")
    form.reload()
    expect(form.get_by_label("Title")).to_have_value("")
    assert form.evaluate("Promise.all([deviceStore.all('drafts'), deviceStore.all('photos')])") == [[], []]


def test_several_drafts_are_kept_apart(form: Page) -> None:
    form.get_by_label("Title").fill("First")
    expect(form.locator("[data-kept-words]")).to_contain_text("Draft kept on this device")
    form.get_by_role("button", name="Begin another").click()
    expect(form.get_by_label("Title")).to_have_value("")
    form.get_by_label("Title").fill("Second")
    form.get_by_role("button", name="Go on with First").click()
    expect(form.get_by_label("Title")).to_have_value("First")
    form.get_by_role("button", name="Go on with Second").click()
    expect(form.get_by_label("Title")).to_have_value("Second")


def test_a_photo_needs_words_and_what_is_no_picture_is_told(form: Page) -> None:
    fill_what_is_needed(form)
    form.locator("[data-photos]").set_input_files({"name": "x.heic", "mimeType": "image/heic", "buffer": b"no picture"})
    expect(form.get_by_role("alert").get_by_text("“x.heic” is no picture that this browser can read.")).to_be_visible()
    form.locator("[data-photos]").set_input_files(
        {"name": "a.jpg", "mimeType": "image/jpeg", "buffer": photograph((80, 60))}
    )
    make(form)
    expect(form.locator("[data-problems]")).to_contain_text("alt is missing, and every photo needs it.")
    form.get_by_role("button", name="Take this photo away").click()
    make(form)
    expect(form.locator("[data-made]")).to_be_visible()


def test_pieces_are_added_and_taken_away(form: Page) -> None:
    fill_what_is_needed(form)
    form.get_by_role("button", name="Another piece").click()
    second = form.locator('[data-list="pieces"] > [data-items] > [data-item]').nth(1)
    second.get_by_label("Name").fill("tiles")
    second.get_by_label("Count").fill("four")
    second.get_by_role("radio", name="cracked").check()
    make(form)
    expect(second.locator("[data-wrong]:visible")).to_contain_text("Write count: 4.")
    second.get_by_label("Count").fill("4")
    assert '  - name: tiles\n    count: "4"\n    survival: cracked\n' in text(form)
    form.get_by_role("button", name="Take this piece away").first.click()
    assert "jar" not in text(form).replace("A jar", "")


def test_a_table_that_makes_no_sense_is_told_in_plain_words(form: Page) -> None:
    fill_what_is_needed(form)
    form.get_by_role("radio", name="In a table").check()
    form.get_by_label("Or paste the table here").fill("hello\nthere")
    expect(form.get_by_text("No row with a time and a temperature was found in this.")).to_be_visible()
    form.get_by_label("Or paste the table here").fill("0:00 20\n2:00 300")
    form.get_by_label("When the main fire was lit").fill("9:00")
    expect(form.get_by_text(re.compile("9:00.* is later than the last reading"))).to_be_visible()
    make(form)
    expect(form.locator("[data-made]")).to_be_hidden()


def test_quotation_marks_within_a_cell_of_a_table_are_kept(form: Page) -> None:
    """As the log's own table and every spreadsheet writes them: doubled (RFC 4180, section 2.7)."""
    table = 'time,wall,words\n0:00,20,lit\n2:00,300,"a ""pop"", loud"\n4:00,600,""\n'
    cells = form.evaluate("(table) => readingTable.take(table).cells.map((row) => row[2])", table)
    assert cells == ["lit", 'a "pop", loud', ""]


def test_without_scripts_the_page_says_how_to_write_an_entry_by_hand(open_page: OpenPage, site_dir: Path) -> None:
    page = open_page((site_dir / "write-up.html").as_uri(), width=360, scripts=False)
    expect(page.get_by_role("heading", name="By hand")).to_be_visible()
    expect(page.locator("[data-write-up]")).to_be_hidden()
    assert page.get_by_role("link", name="Fields of an entry").first.is_visible()
