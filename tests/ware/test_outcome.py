"""Which pieces count as successes, which as failures, and which cannot be told."""

from __future__ import annotations

from itertools import product

import pytest

from builder.checks.firing import Piece
from builder.settings import Method
from builder.ware.outcome import Verdict, judge

YES, NO, UNJUDGED = Verdict.YES, Verdict.NO, Verdict.UNJUDGED
PAINTED_WARE = Method(
    "open-fire",
    "Open fire",
    "ground",
    "",
    {"survival": ("sound",), "carbon": ("cleared", "patches"), "paint": ("held",)},
)


@pytest.mark.parametrize(
    ("survival", "carbon", "paint", "verdict"),
    [
        ("sound", "cleared", "held", YES),
        ("sound", "patches", "held", YES),
        ("cracked", "cleared", "held", NO),
        ("sound", "core", "held", NO),
        ("sound", "cleared", "burnt off", NO),
        ("sound", None, "held", UNJUDGED),
        ("sound", "cleared", None, UNJUDGED),
        ("broken", None, None, NO),
        ("sound", "black", None, NO),
    ],
)
def test_a_painted_piece_is_judged_on_every_outcome_that_its_method_counts(
    survival: str, carbon: str | None, paint: str | None, verdict: Verdict
) -> None:
    """The rule in words: fails when one is not accepted, unjudged when one is not recorded unless another failed."""
    piece = Piece("jar", survival, carbon=carbon, paint=paint)
    assert judge(piece, PAINTED_WARE, painted=True).success is verdict


@pytest.mark.parametrize(("paint", "painted"), [("none", True), (None, False), ("none", False), ("burnt off", False)])
def test_a_piece_without_paint_is_not_judged_on_paint(paint: str | None, painted: bool) -> None:
    judged = judge(Piece("tile", "sound", carbon="cleared", paint=paint), PAINTED_WARE, painted)
    assert judged.success is YES
    assert judged.by_outcome == {"survival": YES, "carbon": YES}


def test_each_outcome_keeps_its_own_verdict() -> None:
    judged = judge(Piece("jar", "cracked", carbon=None, paint="held", ring="dull"), PAINTED_WARE, painted=True)
    assert judged.by_outcome == {"survival": NO, "carbon": UNJUDGED, "paint": YES}
    assert list(judged.by_outcome) == ["survival", "carbon", "paint"]


@pytest.mark.parametrize("success", [{}, {"paint": ("held",)}])
def test_where_nothing_counts_a_piece_is_unjudged(success: dict[str, tuple[str, ...]]) -> None:
    method = Method("any", "Any", "ground", "", success)
    assert judge(Piece("tile", "sound", paint="none"), method, painted=True).success is UNJUDGED


def test_the_whole_truth_table_of_two_outcomes() -> None:
    """Any failure fails; else anything unrecorded leaves it unjudged; else it succeeds."""
    words = {YES: "cleared", NO: "core", UNJUDGED: None}
    paints = {YES: "held", NO: "faded", UNJUDGED: None}
    for carbon, paint in product(Verdict, Verdict):
        judged = judge(Piece("jar", "sound", carbon=words[carbon], paint=paints[paint]), PAINTED_WARE, painted=True)
        expected = NO if NO in (carbon, paint) else UNJUDGED if UNJUDGED in (carbon, paint) else YES
        assert judged.success is expected
