"""The short form of the simulation: on archives whose truth is known the answers hold about as often as they say.

Bounds lie where chance alone would trip them less than once in a thousand runs; the seed is fixed all the same. The
long form (`python -m tests.simulation archive`) measures; its table stands in DEVELOPERS.md.
"""

from __future__ import annotations

from dataclasses import replace

import pytest

from tests.simulation.archive_maker import Truth, make_records
from tests.simulation.archive_simulation import ALL_TOLD, FORGOTTEN, LOST, Tally, report, simulate

TRUTH = Truth()


@pytest.fixture(scope="module")
def tally() -> Tally:
    return simulate([20], 60, TRUTH, jobs=1)[0]


@pytest.mark.parametrize("gaps", [ALL_TOLD, FORGOTTEN, LOST])
def test_rate_intervals_hold_the_true_rate(tally: Tally, gaps: str) -> None:
    """120 intervals at 95 %: fewer than 104 would hold by chance less than once in a thousand."""
    assert tally.rate_coverage(0, gaps) >= 104 / 120


def test_a_piece_s_own_loss_stays_written_down_whatever_is_forgotten() -> None:
    truth = replace(TRUTH, forgotten=0.9, forgotten_of_lost=1.0)
    pieces = [judged.piece for one in make_records(truth, 40, 3) for judged in one.pieces]
    lost = [piece for piece in pieces if piece.survival == "cracked"]
    assert lost and all(piece.carbon is None and piece.paint is None for piece in lost)
    assert [piece.survival for piece in pieces] == [
        judged.piece.survival for one in make_records(TRUTH, 40, 3) for judged in one.pieces
    ]


def test_clustered_intervals_hold_more_often_than_naive_ones(tally: Tally) -> None:
    assert tally.rate_coverage(0) > tally.rate_coverage(1)


@pytest.mark.parametrize("end", ["low", "high"])
def test_the_ends_of_claimed_windows_lie_where_they_are_said_to(tally: Tally, end: str) -> None:
    assert tally.end_coverage(end, 0) >= 0.84


def test_a_window_is_claimed_in_many_archives_of_a_dozen_firings(tally: Tally) -> None:
    assert tally.claims() >= 0.5
    assert tally.claims() + tally.too_few() == pytest.approx(1.0)


def test_what_does_nothing_is_seldom_found(tally: Tally) -> None:
    """60 archives at 5 %: more than 9 false findings would come less than once in a thousand."""
    assert tally.alarms(0) <= 9 / 60
    assert tally.alarms(2) > 0.5, "each condition by pieces at 5 % finds something in most archives"


def test_one_seed_makes_one_archive() -> None:
    first, second = make_records(TRUTH, 9, 5), make_records(TRUTH, 9, 5)
    assert first == second
    assert make_records(TRUTH, 9, 6) != first


def test_the_true_window_is_where_both_averaged_curves_reach_the_level() -> None:
    """Worked by hand: far apart and without luck, each end is where its own curve passes one half."""
    low, high = Truth(clears_c=600.0, burns_c=900.0, luck=0.0).ends_c()
    assert (low, high) == pytest.approx((600.0, 900.0), abs=0.5)


def test_the_report_has_a_column_a_size(tally: Tally) -> None:
    told = report([tally])
    assert "| of 100 | 20 firings |" in told
    assert "12 of 100 outcomes forgotten at random" in told
