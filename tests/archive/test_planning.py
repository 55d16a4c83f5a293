"""How many more firings: the rule meets its simulated check values and an outside sample-size calculation."""

from __future__ import annotations

import numpy as np
import pytest
from statsmodels.stats.power import NormalIndPower
from statsmodels.stats.proportion import proportion_effectsize, samplesize_proportions_2indep_onetail

from builder.archive.archive import Rate
from builder.archive.conditions import Tried
from builder.archive.differences import differences
from builder.archive.effects import Effect, Side
from builder.archive.planning import (
    firings_needed,
    firings_to_tell,
    next_condition,
    next_temperature,
    weighted_size,
)
from builder.archive.window import working_window
from tests.archive.window_check import fixed_check


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


@pytest.mark.parametrize(
    ("first", "second", "each"), [(0.65, 0.85, 73), (0.25, 0.40, 152), (0.50, 0.70, 93), (0.10, 0.25, 100)]
)
def test_single_pieces_meet_the_uncorrected_sample_sizes_of_a_handbook(first: float, second: float, each: int) -> None:
    """statsmodels 0.15, samplesize_proportions_2indep_onetail(first − second, second, 0.8, alpha=0.05,
    alternative="two-sided"), and by hand from Fleiss, Levin and Paik 2003, formula 4.14 (from memory)."""
    other = samplesize_proportions_2indep_onetail(first - second, second, 0.8, alpha=0.05, alternative="two-sided")
    assert firings_needed(first, second, 1, 0.0) == each
    assert each == pytest.approx(other, abs=1.5)


def test_a_pair_told_apart_needs_no_more_firings_and_equal_rates_are_out_of_reach() -> None:
    def rate(method: str, value: float, low: float, high: float) -> Rate:
        return Rate(method, "success", 9, 30, 0, 0, value, low, high, 1.0, 30.0, "x")

    pairs = differences([rate("a", 0.9, 0.8, 0.95), rate("b", 0.3, 0.2, 0.4), rate("c", 0.3, 0.2, 0.4)])
    sizes = {"a": [2, 2], "b": [2, 4], "c": [3]}
    told = firings_to_tell(pairs, sizes, 0.2)
    assert [(one.difference.first.method, one.difference.second.method, one.firings) for one in told] == [
        ("b", "c", None)
    ]


def test_the_next_temperature_lies_where_half_of_the_curves_say_it_works() -> None:
    window = working_window(fixed_check())
    suggested = next_temperature(window)
    assert suggested is not None
    share = float(window.works[int(np.argmin(np.abs(window.grid_c - suggested.peak_c)))])
    assert share == pytest.approx(0.5, abs=0.05)
    assert suggested.side == "high", "802 to 922 °C is wider than 626 to 720 °C"


def test_beyond_what_was_tried_it_goes_a_small_step_only() -> None:
    cool = working_window([one for one in fixed_check() if one.peak_c < 800])
    suggested = next_temperature(cool)
    assert suggested is not None
    assert suggested.peak_c <= 795 + 20


def test_without_a_fit_no_temperature_is_suggested() -> None:
    assert next_temperature(working_window(fixed_check()[:4])) is None


def _tried(condition: str, p: float, found: bool = False) -> Tried:
    side = Side(9, 30, 20, 0.67, 0.4, 0.8)
    sides = Effect(None, side, Side(9, 30, 10, 0.33, 0.2, 0.6), 0.34, 0.0, 0.6)
    return Tried(condition, 18, 2, p, found, 1, sides)


def test_the_next_condition_is_the_strongest_hint_that_a_potter_can_choose() -> None:
    tried = [
        _tried("weather.wind", 0.001),
        _tried("clay.wall", 0.001, found=True),
        _tried("fastest_rise_c_per_min", 0.002),
        _tried("fuel.wood: hazel", 0.02),
        _tried("fuel.stack: open", 0.01),
    ]
    suggested = next_condition(tried, [3, 4, 2], 0.2)
    assert suggested is not None
    assert suggested.tried.condition == "fuel.stack: open"
    assert suggested.firings is not None


def test_without_any_hint_no_condition_is_suggested() -> None:
    assert next_condition([_tried("fuel.stack: open", 0.6)], [3], 0.2) is None
