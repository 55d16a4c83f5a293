"""The rates of an archive, its edges included."""

from __future__ import annotations

import pytest

from builder.archive.archive import ALL_METHODS, Archive, Rate, gather
from builder.archive.clusters import correlation, design_effect
from builder.archive.proportions import agresti_coull, wilson
from builder.checks.firing import Piece
from tests.archive.published import RATS_CONTROL
from tests.archive.records import SETTINGS, counted, record


def rate(archive: Archive, method: str, outcome: str = "success") -> Rate:
    return next(rate for rate in archive.rates if (rate.method, rate.outcome) == (method, outcome))


def test_the_rats_have_the_published_rate_and_effective_number() -> None:
    """Weil's control group, Rao and Scott 1992: p 0.898734, deff 1.232495, n_eff 128.195."""
    found = rate(gather(counted(RATS_CONTROL), SETTINGS), "kiln")
    assert (found.firings, found.pieces, found.successes) == (16, 158, 142)
    assert found.rate == pytest.approx(0.898734, abs=1e-6)
    assert found.design_effect == pytest.approx(1.232495, abs=1e-6)
    assert found.effective_n == pytest.approx(128.195, abs=1e-3)


def test_the_rats_limits_are_those_of_the_plain_method_a_little_wider() -> None:
    """Wilson's limits on the effective number are 0.834385 to 0.939882 (check value clustered-026); Agresti and
    Coull's lie around them."""
    found = rate(gather(counted(RATS_CONTROL), SETTINGS), "kiln")
    assert found.low == pytest.approx(0.834385, abs=0.003)
    assert found.high == pytest.approx(0.939882, abs=0.003)
    assert found.low is not None and found.low < 0.834385
    assert found.high is not None and found.high > 0.939882


def test_the_order_is_each_method_with_firings_then_the_whole_archive() -> None:
    archive = gather([*counted([(1, 2)], "pit"), record(2, [Piece("jar", "sound", carbon="cleared")])], SETTINGS)
    assert [(rate.method, rate.outcome) for rate in archive.rates] == [
        ("open-fire", "success"),
        ("open-fire", "survival"),
        ("open-fire", "carbon"),
        ("pit", "success"),
        ("pit", "survival"),
        ("all", "success"),
    ]


def test_the_whole_archive_judges_each_piece_by_its_own_method() -> None:
    """Worked by hand: a cracked piece counts in the pit and fails in the kiln."""
    cracked = Piece("bowl", "cracked", 3)
    found = rate(gather([record(1, [cracked], "pit"), record(2, [cracked], "kiln")], SETTINGS), ALL_METHODS)
    assert (found.firings, found.pieces, found.successes) == (2, 6, 3)


def test_the_whole_archives_interval_is_that_of_all_firings_as_one_group() -> None:
    kiln, pit = [(4, 4), (3, 4), (4, 4), (1, 4)], [(0, 3), (3, 3), (1, 3)]
    archive = gather([*counted(kiln), *counted(pit, "pit", 5)], SETTINGS)
    rho = correlation([kiln, pit]).rho
    found = rate(archive, ALL_METHODS)
    effect = design_effect(kiln + pit, rho)
    assert archive.correlation == pytest.approx(rho)
    assert archive.correlation_firings == 5
    assert found.design_effect == pytest.approx(effect)
    assert (found.low, found.high) == agresti_coull(16 / 25, 25 / effect)


def test_unjudged_pieces_are_counted_apart_and_no_judged_piece_is_made_of_them() -> None:
    """Worked by hand: two cleared, three without word of their carbon, one broken that fails whatever its carbon."""
    pieces = [Piece("a", "sound", 2, carbon="cleared"), Piece("b", "sound", 3), Piece("c", "broken")]
    archive = gather([record(1, pieces)], SETTINGS)
    success, survival, carbon = (rate(archive, "open-fire", name) for name in ("success", "survival", "carbon"))
    assert (success.successes, success.pieces, success.unjudged) == (2, 3, 3)
    assert (survival.successes, survival.pieces, survival.unjudged) == (5, 6, 0)
    assert (carbon.successes, carbon.pieces, carbon.unjudged) == (2, 2, 4)


def test_where_every_piece_is_unjudged_there_is_no_rate_and_no_interval() -> None:
    found = rate(gather([record(1, [Piece("a", "sound", 4)])], SETTINGS), "open-fire")
    assert (found.firings, found.pieces, found.successes, found.unjudged) == (0, 0, 0, 4)
    assert (found.rate, found.low, found.high, found.design_effect, found.effective_n) == (None,) * 5


def test_a_firing_with_no_judged_piece_is_no_firing_of_the_rate() -> None:
    records = [record(1, [Piece("a", "sound", 4)]), record(2, [Piece("a", "sound", carbon="core")])]
    assert rate(gather(records, SETTINGS), "open-fire").firings == 1


@pytest.mark.parametrize(
    ("counts", "end"), [([(0, 5), (0, 5)], 0.0), ([(5, 5), (5, 5)], 1.0)], ids=["0 of n", "n of n"]
)
def test_none_and_all_have_an_interval_that_is_not_a_point(counts: list[tuple[int, int]], end: float) -> None:
    """Worked by hand: no correlation can be seen, ρ 0.3, deff 1 + 4 · 0.3 = 2.2."""
    found = rate(gather(counted(counts), SETTINGS), "kiln")
    assert found.rate == end
    assert found.design_effect == pytest.approx(2.2)
    assert found.low is not None and found.high is not None
    assert found.low <= end <= found.high
    assert found.high - found.low > 0.3


def test_one_firing_of_one_piece_says_next_to_nothing_and_says_it() -> None:
    """Agresti and Coull for 1 of 1: (1 + 1.92)/(1 + 3.84) ± …, from 0.167 on."""
    found = rate(gather(counted([(1, 1)]), SETTINGS), "kiln")
    assert (found.design_effect, found.effective_n) == (1.0, 1.0)
    assert found.low == pytest.approx(0.1671, abs=1e-3)
    assert found.high == 1.0


def test_an_archive_without_firings_has_one_empty_rate() -> None:
    archive = gather([], SETTINGS)
    assert [(rate.method, rate.pieces, rate.rate) for rate in archive.rates] == [("all", 0, None)]
    assert (archive.correlation, archive.correlation_firings) == (0.3, 0)


def test_no_rate_is_surer_than_its_bare_pieces() -> None:
    archive = gather([*counted([(4, 4), (3, 4), (4, 4)]), *counted([(0, 3), (3, 3)], "pit", 4)], SETTINGS)
    for found in archive.rates:
        assert found.low is not None and found.high is not None
        raw_low, raw_high = wilson(found.successes, found.pieces)
        assert found.high - found.low >= raw_high - raw_low


def test_each_outcome_has_its_own_correlation_over_the_methods_that_count_it() -> None:
    """Worked by hand: carbon is counted by one method alone and agrees within firings wholly: r = 1, J = 1."""
    agree = [
        record(1, [Piece("a", "sound", 2, carbon="cleared")]),
        record(2, [Piece("a", "sound", 2, carbon="core")]),
        *counted([(1, 2), (1, 2)], "pit", 3),
    ]
    carbon = rate(gather(agree, SETTINGS), "open-fire", "carbon")
    rho = (1 * 1.0 + 1.5) / 6
    assert carbon.design_effect == pytest.approx(0.1 * 4.0 + 0.9 * (1 + rho))


def test_records_are_put_in_order_of_their_numbers() -> None:
    records = counted([(1, 1), (0, 1), (1, 1)])
    assert [record.number for record in gather(records[::-1], SETTINGS).records] == [1, 2, 3]
