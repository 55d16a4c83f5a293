"""How many more firings: the rule meets its simulated check values and an outside sample-size calculation."""

from __future__ import annotations

import numpy as np
import pytest
from scipy.stats import norm
from statsmodels.stats.power import NormalIndPower
from statsmodels.stats.proportion import proportion_effectsize, samplesize_proportions_2indep_onetail

from builder.archive.archive import Rate
from builder.archive.clusters import kish_effect
from builder.archive.conditions import Tried
from builder.archive.differences import differences
from builder.archive.effects import Effect, Side
from builder.archive.planning import (
    firings_needed,
    firings_to_tell,
    next_condition,
    next_temperature,
    pieces_needed,
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


Z_POWER_90 = 1.2815516


def test_single_pieces_meet_the_documented_example_of_another_program() -> None:
    """R's documentation of power.prop.test (stats 3.3 on, its examples): p1 = .50, p2 = .75, power = .90, n = 76.7;
    and the other way about, with n = 50 the power is 0.740, whose normal deviate is 0.6433."""
    assert pieces_needed(0.50, 0.75, Z_POWER_90) == pytest.approx(76.7, abs=0.05)
    assert pieces_needed(0.50, 0.75, float(norm.ppf(0.740))) == pytest.approx(50, abs=0.1)


@pytest.mark.parametrize(
    ("first", "at_80", "at_90"), [(0.3, 46, 61), (0.4, 32, 42), (0.5, 23, 30)], ids=["30 %", "40 %", "50 %"]
)
def test_single_pieces_meet_a_course_s_table(first: float, at_80: int, at_90: int) -> None:
    """A rate against a quarter of it. Bo Markussen, Solution to Exercise 2.5, November 2017: n for 80 and 90 % by R's
    power.prop.test, written there to the nearest piece."""
    found = [pieces_needed(first, first / 4), pieces_needed(first, first / 4, Z_POWER_90)]
    assert found == pytest.approx([at_80, at_90], abs=0.51)


@pytest.mark.parametrize(("first", "second"), [(0.65, 0.85), (0.25, 0.40), (0.50, 0.70), (0.10, 0.25)])
def test_single_pieces_agree_with_an_outside_library(first: float, second: float) -> None:
    """statsmodels 0.15, samplesize_proportions_2indep_onetail(first − second, second, 0.8, alpha=0.05,
    alternative="two-sided"): the same question, its variances put together in another way."""
    other = samplesize_proportions_2indep_onetail(first - second, second, 0.8, alpha=0.05, alternative="two-sided")
    assert pieces_needed(first, second) == pytest.approx(other, abs=1.5)


def test_a_hundred_of_a_fire_at_a_correlation_of_4_in_100_take_five_times_as_many_pieces() -> None:
    """Ip, Wasserman and Barkin 2011, Contemporary Clinical Trials (PMC3034823): at 0.04 and 100 patients a clinic it
    takes "five times as many" as with each patient by himself; Kerry and Bland's D is 1 + 99 · 0.04 = 4.96."""
    firings = firings_needed(0.5, 0.7, 100, 0.04)
    assert firings * 100 / pieces_needed(0.5, 0.7) == pytest.approx(5, abs=0.5)
    assert kish_effect([100] * 3, 0.04) == pytest.approx(4.96)


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
