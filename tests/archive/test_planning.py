"""How many more firings: the rule meets its simulated check values and an outside sample-size calculation."""

from __future__ import annotations

import pytest
from statsmodels.stats.power import NormalIndPower
from statsmodels.stats.proportion import proportion_effectsize

from builder.archive.planning import firings_needed, weighted_size


# Checked by simulation apart from this program: the power at these numbers of firings is 0.80.
@pytest.mark.parametrize(
    ("first", "second", "pieces", "correlation", "firings"),
    [(0.7, 0.9, 2, 0.1, 34), (0.5, 0.7, 4, 0.3, 45), (0.3, 0.7, 3, 0.5, 16)],
)
def test_the_number_of_firings_meets_the_simulated_cases(
    first: float, second: float, pieces: float, correlation: float, firings: int
) -> None:
    assert firings_needed(first, second, pieces, correlation) == firings
    assert firings_needed(second, first, pieces, correlation) == firings


def test_without_correlation_it_agrees_with_another_formula_for_single_pieces() -> None:
    # statsmodels: NormalIndPower on Cohen's arcsine effect size, another approximation to the same question.
    effect = proportion_effectsize(0.7, 0.5)
    other = NormalIndPower().solve_power(effect, power=0.8, alpha=0.05)
    assert firings_needed(0.7, 0.5, 1, 0.0) == pytest.approx(other, rel=0.03)


def test_equal_rates_can_never_be_told_apart() -> None:
    with pytest.raises(ValueError, match="equal rates"):
        firings_needed(0.5, 0.5, 2, 0.1)


def test_uneven_fires_count_by_their_weighted_size() -> None:
    assert weighted_size([1, 1, 4]) == 3.0
    assert firings_needed(0.5, 0.7, 2, 0.3, 3.0) > firings_needed(0.5, 0.7, 2, 0.3)
