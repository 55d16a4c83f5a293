"""The colour of the glow: what both published scales say, and no more than they do."""

from __future__ import annotations

import pytest

from builder.ware.glow import CHAPMAN, STIRLING, glow_range_c, read_glow

CHAPMANS = {
    "black red": (426, 593),  # incandescence-001, seen
    "very dark red": (594, 704),  # incandescence-002
    "dark red": (705, 814),  # incandescence-003
    "light cherry red": (871, 981),  # incandescence-005
    "orange": (982, 1092),  # incandescence-006
    "yellow": (1093, 1258),  # incandescence-007
}
STIRLINGS = {
    "dull red": 699,  # incandescence-011, seen
    "full cherry red": 900,  # incandescence-013
    "clear cherry red": 1000,  # incandescence-014
    "deep orange": 1100,  # incandescence-015
    "clear orange": 1200,  # incandescence-016
}


@pytest.mark.parametrize(("colour", "band"), CHAPMANS.items())
def test_chapman_s_colours_are_read_as_printed(colour: str, band: tuple[int, int]) -> None:
    (read,) = [one for one in read_glow(colour) if one.scale is CHAPMAN]
    assert (read.low_c, read.high_c) == band


@pytest.mark.parametrize(("colour", "celsius"), STIRLINGS.items())
def test_stirling_s_colours_are_read_as_printed(colour: str, celsius: int) -> None:
    (read,) = [one for one in read_glow(colour) if one.scale is STIRLING]
    assert read.low_c == read.high_c == celsius


def test_a_shade_that_one_scale_lacks_is_any_of_its_colour_there() -> None:
    """Stirling has no dark red, but reds from 525 to 699 °C and cherries apart; Chapman has no bright orange."""
    assert [(read.low_c, read.high_c) for read in read_glow("dark red")] == [(705, 814), (525, 699)]
    assert [(read.low_c, read.high_c) for read in read_glow("bright orange")] == [(982, 1092), (1100, 1200)]


def test_the_two_scales_disagree_and_the_reading_takes_in_both() -> None:
    """Cherry: 815 to 981 °C in one, 800 to 1000 °C in the other; each way 50 °C more."""
    assert glow_range_c(read_glow("cherry")) == (750.0, 1050.0)


def test_words_beside_the_colour_do_no_harm_and_a_denied_colour_is_none() -> None:
    assert [(read.low_c, read.high_c) for read in read_glow("red, going orange on the south side")] == [
        (426, 1092),
        (525, 1200),
    ]
    assert read_glow("no red to be seen") == ()


@pytest.mark.parametrize("colour", ["white", "bluish", "hundred shades", ""])
def test_a_colour_of_neither_scale_has_no_temperature(colour: str) -> None:
    assert read_glow(colour) == ()
    assert glow_range_c(()) is None
