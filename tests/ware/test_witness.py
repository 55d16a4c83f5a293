"""Witness cones: the published columns, their order, and that a bonfire lies outside them."""

from __future__ import annotations

from itertools import pairwise

import pytest

from builder.base.cones import CONES, Cone, cone_named
from builder.checks.firing import Witness
from builder.ware.witness import columns_c, cone_witness, outside_columns


def cone(name: str) -> Cone:
    found = cone_named(name)
    assert found is not None
    return found


@pytest.mark.parametrize(
    ("name", "columns", "seen"),
    [
        ("022", (None, None, 630), True),  # cones-001; large cones so soft have no published value
        ("021", (None, None, 643), True),  # cones-002
        ("020", (None, None, 666), True),  # cones-003
        ("017", (736, 761, 784), True),  # cones-006
        ("016", (769, 794, 825), True),  # cones-007
        ("015", (788, 816, 843), True),  # cones-008
        ("013", (837, 859, 880), True),  # cones-010
        ("012", (858, 880, 900), True),  # cones-011
        ("010", (898, 913, 919), True),  # cones-013
        ("09", (917, 928, 955), True),  # cones-014
        ("08", (942, 954, 983), True),  # cones-015
        ("05½", (1012, 1023, 1043), False),  # cones-018, from memory
        ("05", (1030, 1046, 1062), False),  # cones-019, from memory
        ("02", (1101, 1120, 1148), False),  # cones-022, from memory
        ("1", (1136, 1154, 1184), False),  # cones-024, from memory
    ],
)
def test_a_cone_has_its_published_columns(name: str, columns: tuple[int | None, ...], seen: bool) -> None:
    found = cone(name)
    assert (found.large_60_c, found.large_150_c, found.small_300_c) == columns
    assert found.seen is seen


def test_a_harder_cone_goes_down_hotter_and_a_faster_rise_moves_it_up() -> None:
    for softer, harder in pairwise(CONES):
        assert softer.small_300_c < harder.small_300_c
    for one in CONES:
        if one.large_60_c is not None and one.large_150_c is not None:
            assert one.large_60_c < one.large_150_c < one.small_300_c
            assert columns_c(one) == (one.large_60_c, one.small_300_c)


def test_the_hardest_that_went_down_and_the_softest_that_stood_are_what_counts() -> None:
    found = cone_witness(Witness(("018", "016", "017"), ("012", "014"), None))
    assert found is not None
    assert (found.down, found.standing) == (cone("016"), cone("014"))
    assert not found.contradicts


def test_cones_that_contradict_and_cones_without_a_column_are_told() -> None:
    found = cone_witness(Witness(("016", "22"), ("018",), None))
    assert found is not None
    assert found.contradicts
    assert found.unknown == ("22",)
    assert cone_witness(Witness(glow="red")) is None


@pytest.mark.parametrize(("rise", "outside"), [(60.0, True), (5.1, True), (5.0, False), (2.0, False), (None, True)])
def test_a_fire_that_rises_faster_than_three_hundred_degrees_an_hour_is_outside(
    rise: float | None, outside: bool
) -> None:
    """The fastest published column is 300 °C an hour, 5 °C a minute."""
    assert outside_columns(rise) is outside
