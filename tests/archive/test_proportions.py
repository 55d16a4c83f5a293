"""Limits of a proportion against published tables and an outside library."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from statsmodels.stats.proportion import proportion_confint

from builder.archive.proportions import agresti_coull, wilson


@pytest.mark.parametrize(
    ("successes", "pieces", "low", "high"),
    [
        # Newcombe 1998, Statistics in Medicine 17:857, table I, method 3.
        (81, 263, 0.2553, 0.3662),
        (15, 148, 0.0624, 0.1605),
        (0, 20, 0.0, 0.1611),
        (1, 29, 0.0061, 0.1718),
    ],
)
def test_wilsons_limits_are_those_of_newcombes_table(successes: int, pieces: int, low: float, high: float) -> None:
    assert wilson(successes, pieces) == pytest.approx((low, high), abs=5e-5)


@given(st.integers(1, 200).flatmap(lambda n: st.tuples(st.integers(0, n), st.just(n))))
def test_both_limits_agree_with_an_outside_library(counts: tuple[int, int]) -> None:
    """statsmodels.stats.proportion.proportion_confint, methods `wilson` and `agresti_coull`."""
    successes, pieces = counts
    assert wilson(successes, pieces) == pytest.approx(proportion_confint(successes, pieces, method="wilson"), abs=1e-6)
    assert agresti_coull(successes / pieces, pieces) == pytest.approx(
        proportion_confint(successes, pieces, method="agresti_coull"), abs=1e-6
    )


@given(st.integers(1, 200).flatmap(lambda n: st.tuples(st.integers(0, n), st.just(n))), st.floats(1.0, 8.0))
def test_limits_on_fewer_effective_pieces_hold_the_rate_and_are_never_narrower_than_wilsons(
    counts: tuple[int, int], effect: float
) -> None:
    successes, pieces = counts
    p = successes / pieces
    low, high = agresti_coull(p, pieces / effect)
    raw_low, raw_high = wilson(successes, pieces)
    assert 0.0 <= low <= p <= high <= 1.0
    assert high - low >= raw_high - raw_low - 1e-12


def test_none_of_some_and_all_of_some_are_mirrored() -> None:
    """Wilson 1927 for 0 and 10 of 10: 0 to 0.277533 and 0.722467 to 1."""
    assert wilson(0, 10) == pytest.approx((0.0, 0.277533), abs=1e-6)
    assert wilson(10, 10) == pytest.approx((0.722467, 1.0), abs=1e-6)
    none, whole = agresti_coull(0.0, 10), agresti_coull(1.0, 10)
    assert none[0] == 0.0
    assert whole[1] == 1.0
    assert none[1] == pytest.approx(1.0 - whole[0])
