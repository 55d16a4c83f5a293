"""A potter's attempts: counted in order, changes named, and a trend told only where whole firings show one."""

from __future__ import annotations

from dataclasses import replace

import pytest

from builder.archive.archive import Record, gather
from builder.archive.clusters import design_effect
from builder.archive.progress import LEAST_ATTEMPTS, changes, progress, trend
from builder.archive.proportions import agresti_coull
from builder.archive.tallies import Tally
from builder.base.quantity import Quantity, parse_quantity
from builder.checks.firing import ConditionValue
from tests.archive.records import SETTINGS, counted


def quantity(words: str, kind: str) -> Quantity:
    found = parse_quantity(words, kind)
    assert isinstance(found, Quantity)
    return found


def _attempts(counts: list[tuple[int, int]], ware: str = "jar") -> list[Record]:
    return [replace(one, firing=replace(one.firing, ware=ware)) for one in counted(counts)]


def _tallies(*counts: tuple[int, int]) -> list[Tally]:
    return [Tally(*count, 0) for count in counts]


def _with(record: Record, **conditions: ConditionValue) -> Record:
    named = {path.replace("__", "."): value for path, value in conditions.items()}
    return replace(record, firing=replace(record.firing, conditions=named))


def test_the_rate_so_far_grows_with_the_attempts_and_its_limits_know_about_clusters() -> None:
    """Worked by hand: 0 of 4, then 3 of 8, with Agresti and Coull's limits on 8 pieces over their design effect."""
    archive = gather(_attempts([(0, 4), (3, 4)]), SETTINGS)
    second = progress(archive)["wren"][0].attempts[1]
    so_far = second.so_far
    assert second.tally.count == (3, 4)
    assert (so_far.successes, so_far.pieces, so_far.firings) == (3, 8, 2)
    pieces = 8 / design_effect([(0, 4), (3, 4)], archive.correlation)
    assert (so_far.low, so_far.high) == pytest.approx(agresti_coull(3 / 8, pieces))


def test_a_ware_made_once_is_no_series_and_capitals_do_not_part_a_ware() -> None:
    archive = gather([*_attempts([(1, 2)], "Jar"), *_attempts([(1, 2)], "jar"), *_attempts([(1, 1)], "cup")], SETTINGS)
    assert [(one.ware, len(one.attempts)) for one in progress(archive)["wren"]] == [("Jar", 2)]


def test_fires_at_which_a_potter_only_helped_are_no_attempts_of_theirs() -> None:
    mine = _attempts([(0, 4), (3, 4)])
    theirs = [
        replace(one, number=one.number + 2, firing=replace(one.firing, potter="tamsin", helpers=("wren",)))
        for one in _attempts([(4, 4), (4, 4), (4, 4)])
    ]
    found = progress(gather([*mine, *theirs], SETTINGS))
    assert [[one.record.firing.potter for one in series.attempts] for series in found["wren"]] == [["wren", "wren"]]
    assert found["wren"][0].attempts[-1].so_far.pieces == 8
    assert [len(series.attempts) for series in found["tamsin"]] == [3]


def test_fewer_than_five_attempts_tell_no_trend() -> None:
    """Worked by hand: of the 24 orders of four attempts, two are the clearest: p = 1/12, never below 5 %."""
    assert trend(_tallies((0, 3), (1, 3), (2, 3), (3, 3)), "x") == (None, 0)
    assert LEAST_ATTEMPTS == 5


def test_attempts_in_perfect_order_are_told_with_the_chance_that_all_orders_have() -> None:
    """Worked by hand: of the 120 orders of five different attempts, two are as clear: p = 1/60."""
    p, direction = trend(_tallies((0, 4), (1, 4), (2, 4), (3, 4), (4, 4)), "x")
    assert p == pytest.approx(1 / 60, abs=0.01)
    assert direction == 1
    assert trend(_tallies((4, 4), (3, 4), (2, 4), (1, 4), (0, 4)), "x")[1] == -1


def test_attempts_that_never_differ_tell_nothing() -> None:
    assert trend(_tallies(*[(2, 4)] * 6), "x") == (1.0, 0)


def test_what_changed_is_named_and_what_was_not_recorded_both_times_is_not() -> None:
    first, second = _attempts([(0, 1), (1, 1)])
    before = _with(
        first,
        fuel__wood=("Hazel", "birch"),
        clay__wall=quantity("6 mm", "length"),
        weather__wind=quantity("3 km/h", "speed"),
        fuel__stack="open",
    )
    now = _with(
        second,
        fuel__wood=("birch", "hazel"),
        clay__wall=quantity("0.8 cm", "length"),
        weather__wind=quantity("9 km/h", "speed"),
        setting__support="dry brick",
    )
    assert [one.path for one in changes(before, now)] == ["clay.wall"]
    other = replace(now, firing=replace(now.firing, method="pit"))
    assert [one.path for one in changes(before, other)] == ["method", "clay.wall"]


def test_the_same_length_in_another_unit_is_no_change() -> None:
    first, second = _attempts([(0, 1), (1, 1)])
    walls = quantity("6 mm", "length"), quantity("0.6 cm", "length")
    assert changes(_with(first, clay__wall=walls[0]), _with(second, clay__wall=walls[1])) == ()
