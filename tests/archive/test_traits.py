"""What is tried against success is tried among firings that can be compared."""

from __future__ import annotations

from dataclasses import replace

from builder.archive.archive import Record, gather
from builder.archive.conditions import Tried, try_conditions
from builder.archive.traits import compared_within, trials
from builder.checks.firing import Piece
from tests.archive.records import SETTINGS, record


def _tried(records: list[Record]) -> dict[str, Tried]:
    found = trials(gather(records, SETTINGS))
    return {one.condition: one for one in try_conditions(found)}


def test_firings_of_two_groups_are_compared_within_their_own_group() -> None:
    own = record(1, [Piece("jar", "sound")])
    other = replace(own, firing=replace(own.firing, source="hill"))
    assert compared_within(own) == "open-fire"
    assert compared_within(other) == "open-fire hill"


def test_what_one_group_alone_does_does_not_seem_to_go_with_how_that_group_fares() -> None:
    """Twelve firings each: one group uses shell and loses nothing, the other sand and loses all."""
    records = []
    for number in range(1, 25):
        shell = number % 2 == 0
        one = record(number, [Piece("jar", "sound" if shell else "broken", carbon="cleared")])
        firing = replace(
            one.firing, conditions={"clay.temper": ("shell" if shell else "sand",)}, source="hill" if shell else ""
        )
        records.append(replace(one, firing=firing))
    apart = _tried(records)
    assert apart["clay.temper: shell"].p == 1
    assert not apart["clay.temper: shell"].found
    alike = [replace(one, firing=replace(one.firing, source="")) for one in records]
    together = _tried(alike)
    assert together["clay.temper: shell"].found
