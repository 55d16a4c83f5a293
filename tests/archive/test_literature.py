"""Published fires stand beside the group's own of the same kinds, and only what was published."""

from __future__ import annotations

from dataclasses import replace

from builder.archive.archive import Record
from builder.archive.literature import PUBLISHED, beside_literature
from builder.heat.figures import FIGURE_KINDS, Figure, FiringHeat, ProbeHeat
from tests.archive.records import SETTINGS, counted


def _records() -> list[Record]:
    peaks = ((12.0, False), (30.0, False), (20.0, True), (15.0, False))
    return [
        replace(one, heat=FiringHeat((ProbeHeat("wall", {"time_to_peak_min": Figure(value, at_least=least)}),), 0))
        for one, (value, least) in zip(counted([(1, 1)] * 4, "open-fire"), peaks, strict=True)
    ]


def test_the_groups_own_stand_beside_with_how_many_lie_inside() -> None:
    """Worked by hand: 12, 15 and 30 minutes (one known only as "at least" left out), two of them in 12 to 22."""
    own = beside_literature(_records(), SETTINGS)[0].own
    assert own is not None
    assert (own.firings, own.lowest, own.middle, own.highest, own.inside) == (3, 12.0, 15.0, 30.0, 2)


def test_a_kind_of_fire_that_the_finding_does_not_speak_of_is_left_out() -> None:
    kilns = [replace(one, firing=replace(one.firing, method="kiln")) for one in _records()]
    assert beside_literature(kilns, SETTINGS)[0].own is None


def test_every_finding_names_a_figure_and_its_source() -> None:
    names = {kind.name for kind in FIGURE_KINDS}
    for one in PUBLISHED:
        assert one.figure in names
        assert "(abstract)" in one.source, "nothing but abstracts was read"


def test_no_loss_rate_is_claimed_from_print() -> None:
    assert not [one for one in PUBLISHED if "loss" in one.words or "broke" in one.words]
