"""Single values: what each kind of field takes, and what it says of the rest."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from builder.base.quantity import Quantity
from builder.checks.fault import Fault
from builder.checks.hidden import hidden_fault, hidden_in_story, tidy
from builder.checks.limits import longest_text
from builder.checks.values import LICENCES, read_count, read_licence, read_munsell, read_quantity, read_text
from builder.checks.words import NOT_RECORDED, nearest, not_recorded, read_word

SURVIVAL = ("sound", "cracked", "spalled", "broken")


@pytest.mark.parametrize("text", ["sound", "Sound", "SOUND", " sound ", "sound\n"])
def test_a_listed_word_is_taken_whatever_its_capitals_and_spaces(text: str) -> None:
    assert read_word(text, SURVIVAL, "a word for `survival`") == "sound"


@pytest.mark.parametrize(
    ("text", "meant"),
    [
        ("souned", "sound"),
        ("craked", "cracked"),
        ("spaled", "spalled"),
        ("brocken", "broken"),
        ("craccked!", "cracked"),
    ],
)
def test_a_misspelt_word_is_answered_with_the_listed_one(text: str, meant: str) -> None:
    found = read_word(text, SURVIVAL, "a word for `survival`")
    assert isinstance(found, Fault)
    assert found.code == "not-listed"
    assert found.help.startswith(f"Did you mean `{meant}`?")


def test_a_word_like_none_listed_is_answered_with_the_list() -> None:
    found = read_word("went to the moon", SURVIVAL, "a word for `survival`")
    assert isinstance(found, Fault)
    assert found.help == "Write `sound`, `cracked`, `spalled` or `broken`."


def test_a_long_name_is_answered_with_its_word() -> None:
    found = read_word("Wren of Alder Fen", ("wren", "ode"), "one of the potters", {"Wren of Alder Fen": "wren"})
    assert isinstance(found, Fault)
    assert found.help == "Did you mean `wren`? It can be `wren` or `ode`."


def test_an_empty_list_says_so() -> None:
    found = read_word("wren", (), "one of the potters in site_config.yml")
    assert isinstance(found, Fault)
    assert found.help == "There are none yet; add it there."


def test_hyphens_underscores_and_spaces_do_not_hide_the_word_that_is_meant() -> None:
    assert nearest("burnt-off", ["held", "burnt off"]) == "burnt off"
    assert nearest("BURNT_OFF", ["held", "burnt off"]) == "burnt off"
    assert nearest("xylophone", ["held", "burnt off"]) is None


@pytest.mark.parametrize("text", sorted(NOT_RECORDED))
def test_words_for_not_recorded_are_refused_in_any_capitals(text: str) -> None:
    for written in (text, text.upper()):
        found = not_recorded(written, "wall")
        assert found is not None
        assert found.code == "not-recorded"


def test_none_is_a_value_and_not_a_gap() -> None:
    assert not_recorded("none", "paint") is None
    assert not_recorded("no", "paint") is None


@given(st.integers(0, 10**6))
def test_a_count_reads_back_from_its_figures(number: int) -> None:
    assert read_count(str(number), "dry_days", 0) == number


@pytest.mark.parametrize("text", ["-4", "2.5", "1,000", "4 tiles", "four", "", "４", "1e3", "0x4", "+4", "4.", "½"])
def test_a_count_is_figures_alone(text: str) -> None:
    found = read_count(text, "count", 1)
    assert isinstance(found, Fault)
    assert found.code == "count-form"


def test_nought_counts_where_the_field_says_so() -> None:
    assert read_count("0", "dry_days", 0) == 0
    assert isinstance(read_count("0", "count", 1), Fault)


@pytest.mark.parametrize(
    ("text", "help_"),
    [
        ("four", "Write `count: 4`."),
        ("4 tiles", "Write `count: 4`."),
        ("Twelve", "Write `count: 12`."),
        ("many", "Write it like `count: 4`, or leave it out."),
    ],
)
def test_a_count_in_words_is_answered_in_figures(text: str, help_: str) -> None:
    found = read_count(text, "count", 1)
    assert isinstance(found, Fault)
    assert found.help == help_


def test_a_bare_number_is_taken_only_where_the_group_declared_its_unit() -> None:
    refused = read_quantity("6", "wall", "length", {})
    assert isinstance(refused, Fault)
    assert refused.code == "quantity-unit"
    taken = read_quantity("6", "wall", "length", {"length": "mm"})
    assert isinstance(taken, Quantity)
    assert taken.canonical == 6.0


# Notations as printed on the chips of Munsell soil charts, and the loose forms people copy from them.
@pytest.mark.parametrize(
    "text", ["10YR 8/2", "2.5Y 6/2", "7.5 YR 5/4", "5YR6/6", "N4", "N 4/", "N4/0", "10yr 8/2", "2.5Y 6.5/1.5", "N 9.5"]
)
def test_munsell_notation_is_taken(text: str) -> None:
    assert read_munsell(text) == text


@pytest.mark.parametrize(
    "text",
    [
        "pale buff",
        "10YR 8",
        "10YR",
        "8/2",
        "10XR 8/2",
        "12YR 8/2",
        "10YR 11/2",
        "N 12",
        "10YR 8/60",
        "#c8ccb9",
        "10YR 8/2 dry",
        "１０YR 8/2",
    ],
)
def test_what_is_not_munsell_notation_is_refused(text: str) -> None:
    found = read_munsell(text)
    assert isinstance(found, Fault)
    assert found.code == "munsell"


@pytest.mark.parametrize("text", [*LICENCES, "cc-by-4.0", "CC0-1.0"])
def test_a_licence_s_id_is_taken_in_the_official_capitals(text: str) -> None:
    assert read_licence(text) in LICENCES


def test_an_id_of_the_right_form_is_taken_as_it_is() -> None:
    assert read_licence("LAL-1.3") == "LAL-1.3"  # on the SPDX list: Licence Art Libre 1.3


@pytest.mark.parametrize(
    ("text", "near"),
    [("CC BY 4.0", "CC-BY-4.0"), ("CC-BY-4", "CC-BY-4.0"), ("cc by sa", "CC-BY-SA-4.0"), ("CC0", "CC0-1.0")],
)
def test_a_licence_nearly_right_is_answered_with_its_id(text: str, near: str) -> None:
    found = read_licence(text)
    assert isinstance(found, Fault)
    assert near.partition("-4")[0].partition("-1")[0] in found.help


@pytest.mark.parametrize("text", ["free for all", "©", "mine", "https://creativecommons.org/licenses/by/4.0/"])
def test_what_is_no_licence_id_is_refused(text: str) -> None:
    found = read_licence(text)
    assert isinstance(found, Fault)
    assert found.code == "licence"


@pytest.mark.parametrize("path", ["title", "pieces.remark", "photos.alt", "place"])
def test_a_text_is_as_long_as_its_field_allows_and_no_longer(path: str) -> None:
    longest = longest_text(path)
    assert read_text("x" * longest, path) == "x" * longest
    found = read_text("x" * (longest + 1), path)
    assert isinstance(found, Fault)
    assert found.code == "too-long"


# Unicode Standard Annex 9, section 2: the explicit directional characters; and characters without width.
TURNING = ["\u202a", "\u202b", "\u202c", "\u202d", "\u202e", "\u2066", "\u2067", "\u2068", "\u2069"]
INVISIBLE = ["\u200b", "\u2060", "\ufeff", "\u00ad", "\U000e0041"]
CONTROLS = ["\x00", "\x07", "\x1b", "\x7f", "\x9b", "\u2028"]


@pytest.mark.parametrize("letter", [*TURNING, *INVISIBLE, *CONTROLS])
def test_a_character_that_cannot_be_seen_is_found_at_its_place(letter: str) -> None:
    found = hidden_fault(f"Alder{letter}Fen")
    assert found is not None
    assert (found.code, found.offset) == ("hidden-character", 5)
    assert f"U+{ord(letter):04X}" in found.message
    assert letter not in found.message + found.help


@pytest.mark.parametrize("text", ["Krug mit Schlämme", "白い壺", "👩‍🌾 fires", "می‌خواهم", "14 °C – 20 °C", "a\nb\tc"])
def test_letters_of_any_script_and_joined_signs_are_taken(text: str) -> None:
    assert hidden_fault(text) is None


@pytest.mark.parametrize("letter", [*TURNING, "\x07"])
def test_a_story_is_searched_for_what_turns_its_text_around(letter: str) -> None:
    found = hidden_in_story(f"One.\n\nTwo{letter}.")
    assert found is not None
    assert found[0] == 9


def test_a_story_may_hold_lines_tabs_and_soft_hyphens() -> None:
    assert hidden_in_story("One.\n\n\tTwo\u00ad.\n") is None


def test_equal_words_are_equal_after_tidying() -> None:
    assert tidy("o\u0308  and\u00a0 \n more") == "ö and more"
