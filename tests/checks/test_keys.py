"""Keys: misspelt, misplaced, run together with their value, cut by a comma, or somebody's own."""

from __future__ import annotations

import pytest

from builder.base.quantity import Quantity
from builder.checks.keys import _ALSO
from builder.checks.shape import ENTRY, PLACES_OF
from builder.entries.fields import walk
from tests.checks.written import checked, found


def test_every_place_of_a_key_is_known() -> None:
    assert {path for paths in PLACES_OF.values() for path in paths} == {path for path, _ in walk()}
    assert list(ENTRY.slots)[:2] == ["title", "date"]


def test_every_other_word_for_a_key_stands_for_a_field_there_is() -> None:
    assert set(_ALSO) <= {path for path, _ in walk()}


@pytest.mark.parametrize("key", [key for key in PLACES_OF if key not in ENTRY.slots])
def test_a_key_of_some_group_at_the_left_margin_is_told_its_group(key: str) -> None:
    (problem,) = checked(f"{key}: something").problems
    assert problem.code == "misplaced-key"
    homes = {path.split(".")[-2] for path in PLACES_OF[key]}
    assert all(f"`{home}`" in problem.message for home in homes)


@pytest.mark.parametrize(
    ("written", "meant"),
    [
        ("wether", "weather"),
        ("licens", "licence"),
        ("foto", "photos"),
        ("location", "place"),
        ("warmup", "warm_up"),
        ("Warm Up", "warm_up"),
        ("author", "potter"),
        ("cone", "cones_down"),
        ("temperature", "air"),
    ],
)
def test_a_key_that_is_none_is_answered_with_the_one_meant(written: str, meant: str) -> None:
    (problem,) = checked(f"{written}:").problems
    assert problem.code == "unknown-key"
    assert f"`{meant}`" in problem.help


def test_a_list_of_pots_is_taken_for_pieces_and_words_about_pots_for_their_setting() -> None:
    pieces, setting = checked("pots: [jar, bowl]").problems[0], checked("pots: mouth down").problems[0]
    assert (pieces.code, pieces.help) == ("unknown-key", "Did you mean `pieces`?")
    assert (setting.code, setting.help) == ("misplaced-key", "Move it under `setting`: `setting: {pots: mouth down}`.")


def test_a_misspelt_key_s_value_is_judged_all_the_same() -> None:
    assert found("wether: {air: 14}") == [("wether", "unknown-key"), ("weather.air", "quantity-unit")]


def test_a_misspelt_key_beside_the_right_one_hides_neither() -> None:
    assert found("lit: 10:42", "lti: 10:43") == [("lti", "unknown-key")]


def test_a_key_in_capitals_is_the_key() -> None:
    assert checked("Place: Alder Fen").firing is not None
    assert found("Place: Alder Fen", "place: Low Ditch") == [("Place", "key-twice")]


def test_words_after_a_comma_in_braces_belong_to_the_value_before() -> None:
    firing = checked("surface: {slip: white, thin, twice over, paint: plant}").firing
    assert firing is not None
    assert firing.conditions["surface.slip"] == "white, thin, twice over"
    assert firing.conditions["surface.paint"] == "plant"


def test_a_thousands_comma_in_braces_stays_in_its_number() -> None:
    firing = checked("fuel: {mass: 1,450 g, stack: open}").firing
    assert firing is not None
    mass = firing.conditions["fuel.mass"]
    assert isinstance(mass, Quantity)
    assert mass.canonical == 1.45  # 1,450 g = 1.45 kg


def test_a_decimal_comma_in_braces_is_doubted_as_it_is_elsewhere() -> None:
    assert found("clay: {wall: 1,5 mm, body: red}") == [("clay.wall", "quantity-ambiguous")]


def test_a_comma_over_two_lines_of_braces_still_joins() -> None:
    firing = checked("surface: {slip: white,\n  thin, paint: plant}").firing
    assert firing is not None
    assert firing.conditions["surface.slip"] == "white, thin"


def test_words_after_a_quoted_value_are_no_part_of_it() -> None:
    assert ("surface.thin", "unknown-key") in found('surface: {slip: "white", thin}')


def test_a_key_with_a_colon_and_nothing_after_is_not_joined_to_the_value_before() -> None:
    assert found("surface: {slip: white, thin: , paint: plant}") == [("surface.thin", "unknown-key")]


@pytest.mark.parametrize(
    ("fields", "field"),
    [
        ("weather: {air:14 °C}", "weather.air"),
        ("weather: {air: 14 °C, wind 8 km/h}", "weather.wind"),
        ("warm_up: {pot temperature 160 °C}", "warm_up.pot_temperature"),
    ],
)
def test_a_key_that_runs_together_with_its_value_is_parted_and_both_are_taken(fields: str, field: str) -> None:
    assert found(fields) == [(field, "key-colon")]


def test_a_parted_value_is_judged_too() -> None:
    assert found("weather: {air:14}") == [("weather.air", "key-colon"), ("weather.air", "quantity-unit")]


def test_a_hidden_character_in_a_key_does_not_hide_the_field() -> None:
    assert found("pla\u200bce: Alder Fen") == [("place", "hidden-character")]
