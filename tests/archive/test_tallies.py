"""A piece that could not be judged counts as a part of a success: as those recorded in full went."""

from __future__ import annotations

from fractions import Fraction

import numpy as np
import pytest

from builder.archive.archive import Archive, Rate, gather, rate_over
from builder.archive.clusters import design_effect
from builder.archive.proportions import agresti_coull
from builder.archive.tallies import share_of, shares, tally, tally_of
from builder.checks.firing import Piece
from builder.settings import Method
from builder.ware.outcome import JudgedPiece, judge
from tests.archive.records import SETTINGS, record

THREE = Method(
    "open-fire", "Open fire", "ground", "", {"survival": ("sound",), "carbon": ("cleared",), "paint": ("held",)}
)
PAINT, BOTH = frozenset({"paint"}), frozenset({"carbon", "paint"})


def judged(
    survival: str, carbon: str | None = None, paint: str | None = None, count: int = 1, painted: bool = True
) -> JudgedPiece:
    return judge(Piece("pot", survival, count, carbon=carbon, paint=paint), THREE, painted)


TEN_POTS = [
    judged("broken", count=2),
    judged("sound", "cleared", "held", 4),
    judged("sound", "cleared", "faded", 2),
    judged("sound", "cleared", count=2),
]
"""The example on the page of figures: two in sherds, six told in full of which four held, two without their paint."""


def test_the_ten_pots_of_the_page_of_figures() -> None:
    """Worked by hand: two pots count 4/6 each, (4 + 2 · 4/6)/10; of the judged 4 of 8, of those in full 4 of 6."""
    found = shares(TEN_POTS)
    assert found == {PAINT: pytest.approx(4 / 6)}
    counted = tally(TEN_POTS, found)
    assert (counted.count, counted.unjudged, counted.stood_for, counted.pieces) == ((4, 8), 2, 2, 10)
    assert share_of([counted]) == pytest.approx(float(Fraction(16, 30)))


def test_a_pot_of_which_less_is_known_is_held_against_those_that_came_through() -> None:
    """Worked by hand: sound with neither told, c = 4 + 2 + 1 recorded in full and sound; without paint only, 4 of 6."""
    found = shares([*TEN_POTS, judged("sound", "core", "held"), judged("sound")])
    assert found == {PAINT: pytest.approx(4 / 6), BOTH: pytest.approx(4 / 7)}


def test_a_lost_pot_counts_as_lost_whatever_else_is_told_of_it() -> None:
    """The sherds of a broken pot have no paint to look at: what nobody wrote down of it changes nothing."""
    told = [judged("broken", "cleared", "held", 2), *TEN_POTS[1:]]
    assert share_of([tally(told, shares(told))]) == share_of([tally(TEN_POTS, shares(TEN_POTS))])


def test_a_pot_without_paint_does_not_stand_for_paint_that_nobody_wrote_down() -> None:
    plain = judged("sound", "cleared", count=50, painted=False)
    assert shares([*TEN_POTS, plain])[PAINT] == pytest.approx(4 / 6)


def test_where_all_is_told_the_rate_is_the_plain_share() -> None:
    told = TEN_POTS[:3]
    assert shares(told) == {}
    assert share_of([tally(told, {})]) == 4 / 8


def test_where_nothing_counts_no_piece_stands_for_any() -> None:
    nothing = Method("clamp", "Clamp", "ground", "", {})
    pieces = [judge(Piece("pot", "sound", 3), nothing, painted=True)]
    assert shares(pieces) == {}
    assert tally(pieces, {}).pieces == 0
    assert share_of([tally(pieces, {})]) is None


def test_without_any_piece_to_stand_for_it_there_is_no_rate_rather_than_none_at_all() -> None:
    """One broken, one sound without a word of its carbon: nought of one would be a rate of failures alone."""
    found = _rate([Piece("a", "broken"), Piece("b", "sound")])
    assert (found.successes, found.pieces, found.unjudged, found.rate, found.low) == (0, 1, 1, None, None)
    assert (found.least, found.most) == (0.0, 0.5)


def test_by_one_outcome_what_was_not_recorded_is_left_out() -> None:
    carbon = tally_of(TEN_POTS, "carbon")
    assert (carbon.successes, carbon.judged, carbon.unjudged, carbon.pieces) == (8, 8, 2, 8)
    lost = tally_of([judged("broken", "core"), judged("broken")], "carbon")
    assert share_of([lost], by_all=False) == 0.0


def _archive(pieces: list[Piece]) -> Archive:
    return gather([record(1, pieces)], SETTINGS)


def _rate(pieces: list[Piece]) -> Rate:
    return next(rate for rate in _archive(pieces).rates if (rate.method, rate.outcome) == ("open-fire", "success"))


def test_the_interval_stands_on_the_judged_pieces_alone() -> None:
    """Worked by hand: 2 of 3 sound ones cleared stand for 3 more, beside one broken: (2 + 3 · 2/3)/7 on 4 pieces."""
    pieces = [Piece("a", "sound", 2, carbon="cleared"), Piece("b", "sound", carbon="core")]
    found = _rate([*pieces, Piece("c", "sound", 3), Piece("d", "broken")])
    effect = design_effect([(2, 4)], 0.3)
    assert (found.successes, found.pieces, found.unjudged) == (2, 4, 3)
    assert found.rate == pytest.approx(4 / 7)
    assert found.effective_n == pytest.approx(4 / effect)
    assert (found.low, found.high) == pytest.approx(agresti_coull(4 / 7, 4 / effect))
    assert (found.least, found.most) == (2 / 7, 5 / 7)


def test_a_wider_rate_counts_each_piece_by_its_own_method() -> None:
    """Worked by hand: 1 of 2 in the open fire stands for one more there, (1 + 1/2)/3; the pit adds 3 of 3."""
    open_fire = [Piece("a", "sound", carbon=carbon) for carbon in ("cleared", "core", None)]
    archive = gather([record(1, open_fire), record(2, [Piece("b", "cracked", 3)], "pit")], SETTINGS)
    assert rate_over([archive.tally(one) for one in archive.records], archive).rate == pytest.approx(4.5 / 6)
    assert archive.rates[-1].rate == pytest.approx(4.5 / 6)


def test_a_rate_always_lies_between_what_the_unjudged_pieces_could_make_of_it() -> None:
    chance = np.random.default_rng(4)
    for _ in range(300):
        pieces = [
            Piece(
                "pot",
                str(chance.choice(["sound", "broken"])),
                int(chance.integers(1, 4)),
                carbon=("cleared", "core", None)[int(chance.integers(3))],
            )
            for _ in range(int(chance.integers(1, 6)))
        ]
        found = _rate(pieces)
        if found.rate is not None and found.least is not None and found.most is not None:
            assert found.least - 1e-12 <= found.rate <= found.most + 1e-12
