"""Peaks and rates on curves worked by hand, and against dense sampling."""

from __future__ import annotations

from collections.abc import Callable

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from builder.heat import rates
from builder.readings.curve import Floats
from tests.heat.curves import floats, logs

# check value series-029: an uneven log whose steepest point-to-point rise was computed with numpy.
UNEVEN = (
    floats([0, 5, 12, 20, 33, 41, 60, 75, 90, 130]),
    floats([18, 120, 410, 655, 802, 778, 830, 610, 402, 150]),
)

RATES: tuple[Callable[[Floats, Floats], Floats], ...] = (
    lambda minutes, celsius: rates.fastest_rise_c_per_min(minutes, celsius, 1.0),
    rates.heating_rate_c_per_min,
    rates.cooling_rate_c_per_min,
    lambda minutes, celsius: rates.rise_between_c_per_min(minutes, celsius, 100.0, 200.0),
    lambda minutes, celsius: rates.fall_between_c_per_min(minutes, celsius, 598.0, 548.0),
    lambda minutes, celsius: rates.spread_c([(minutes, celsius), (minutes, celsius * 0.9)]),
)


def test_the_steepest_rise_over_a_window_within_one_stretch_is_that_stretchs_slope() -> None:
    """check value series-029: 41.42857143 °C/min, (410 − 120) / 7; a window of 1 min fits inside the stretch."""
    assert rates.fastest_rise_c_per_min(*UNEVEN, 1.0) == pytest.approx(41.42857143, abs=1e-7)


def test_the_steepest_rise_may_begin_between_readings() -> None:
    """Worked by hand: flat, then 60 °C in half a minute, then 10 °C/min. The best minute ends or begins inside a
    stretch: from 1.0 to 2.0 it rises 60 + 5 = 65; from 0.5 to 1.5 only 60."""
    minutes, celsius = floats([0, 1, 1.5, 3.5]), floats([20, 20, 80, 100])
    assert rates.fastest_rise_c_per_min(minutes, celsius, 1.0) == pytest.approx(65.0)


@given(logs(), st.sampled_from([0.5, 1.0, 2.5]))
def test_no_window_on_a_dense_grid_rises_faster_than_the_exact_maximum(
    log: tuple[Floats, Floats], window: float
) -> None:
    minutes, celsius = log
    exact = float(rates.fastest_rise_c_per_min(minutes, celsius, window))
    starts = np.linspace(minutes[0], minutes[-1] - window, 400) if minutes[-1] >= window else np.zeros(0)
    if starts.size == 0:
        assert np.isnan(exact)
        return
    rises = (np.interp(starts + window, minutes, celsius) - np.interp(starts, minutes, celsius)) / window
    assert rises.max() <= exact + 1e-6
    slopes = np.diff(celsius) / np.diff(minutes)
    assert exact <= slopes.max() + 1e-6


@given(logs(), st.floats(-500, 500))
def test_moving_the_clock_changes_no_rate(log: tuple[Floats, Floats], shift: float) -> None:
    minutes, celsius = log
    for rate in RATES:
        moved, still = rate(minutes + shift, celsius), rate(minutes, celsius)
        assert moved == pytest.approx(still, rel=1e-6, abs=1e-6, nan_ok=True)


def test_the_overall_rise_runs_from_the_first_reading_to_the_highest() -> None:
    """Worked by hand: (830 − 18) / (60 − 0)."""
    assert rates.heating_rate_c_per_min(*UNEVEN) == pytest.approx(812 / 60)


def test_a_late_first_reading_does_not_stretch_the_overall_rise() -> None:
    """Worked by hand: readings begin at minute 4, so 400 degrees in the 4 minutes that were seen."""
    assert rates.heating_rate_c_per_min(floats([4, 8]), floats([300, 700])) == pytest.approx(100.0)


def test_cooling_runs_from_the_highest_reading_to_the_last() -> None:
    """Worked by hand: (830 − 150) / (130 − 60)."""
    assert rates.cooling_rate_c_per_min(*UNEVEN) == pytest.approx(680 / 70)


def test_the_rise_through_steam_is_taken_where_the_curve_crosses_its_ends() -> None:
    """Worked by hand: 100 °C at 5·82/102 = 4.01961 min, 200 °C at 5 + 7·80/290 = 6.93103 min."""
    expected = 100 / ((5 + 7 * 80 / 290) - 5 * 82 / 102)
    assert rates.rise_between_c_per_min(*UNEVEN, 100.0, 200.0) == pytest.approx(expected)


def test_a_curve_that_turns_back_counts_from_its_last_time_at_the_lower_end() -> None:
    """Worked by hand: up to 150, back to 50, then 50 to 250 in 2 min: the passage itself is 100 °C/min."""
    minutes, celsius = floats([0, 2, 4, 6]), floats([20, 150, 50, 250])
    assert rates.rise_between_c_per_min(minutes, celsius, 100.0, 200.0) == pytest.approx(100.0)


def test_the_fall_through_quartz_is_the_last_one() -> None:
    """Worked by hand: the curve passes 598 to 548 °C down at 100, up again, and down for good at 25 °C/min."""
    minutes, celsius = floats([0, 2, 4, 12]), floats([700, 500, 700, 500])
    assert rates.fall_between_c_per_min(minutes, celsius, 598.0, 548.0) == pytest.approx(25.0)


@pytest.mark.parametrize(
    "celsius",
    [[20.0, 90.0, 80.0], [120.0, 190.0, 250.0], [20.0, 199.9, 20.0]],
    ids=["cold", "begins above", "just under"],
)
def test_a_passage_that_was_not_seen_has_no_rate(celsius: list[float]) -> None:
    assert np.isnan(rates.rise_between_c_per_min(floats([0, 1, 2]), floats(celsius), 100.0, 200.0))


@given(logs(), logs())
def test_the_spread_is_the_largest_difference_on_a_dense_grid(
    one: tuple[Floats, Floats], two: tuple[Floats, Floats]
) -> None:
    exact = float(rates.spread_c([one, two]))
    first, last = max(one[0][0], two[0][0]), min(one[0][-1], two[0][-1])
    moments = np.unique(np.concatenate([one[0], two[0], np.linspace(first, last, 200)]))
    moments = moments[(moments >= first) & (moments <= last)]
    assert exact == pytest.approx(np.abs(np.interp(moments, *one) - np.interp(moments, *two)).max(), abs=1e-6)


def test_the_spread_of_three_probes_looks_only_at_those_being_read() -> None:
    """Worked by hand: at minute 2 the pairs are 400/390 and the third has not begun; at minute 6, 100 against 700."""
    first = (floats([0, 4]), floats([400, 400]))
    second = (floats([0, 8]), floats([390, 100]))
    third = (floats([6, 8]), floats([700, 100]))
    at_six = 700 - (390 - 290 * 6 / 8)
    assert rates.spread_c([first, second, third]) == pytest.approx(at_six)


def test_probes_that_were_never_read_together_have_no_spread() -> None:
    one, two = (floats([0, 1]), floats([20, 30])), (floats([2, 3]), floats([500, 600]))
    assert np.isnan(rates.spread_c([one, two]))
    assert np.isnan(rates.spread_c([one]))


@given(logs())
def test_a_thousand_curves_at_once_give_what_each_gives_alone(log: tuple[Floats, Floats]) -> None:
    minutes, celsius = log
    together = np.vstack([celsius, celsius[::-1], celsius + 37.0])
    for rate in RATES:
        alone = [float(rate(minutes, one)) for one in together]
        assert rate(minutes, together) == pytest.approx(alone, nan_ok=True)


def test_the_largest_gap_of_a_single_reading_is_not_known() -> None:
    assert rates.largest_gap_min(floats([3])) is None
    assert rates.largest_gap_min(floats([0, 1, 31, 32])) == 30.0


@given(st.lists(logs(), min_size=2, max_size=4), st.floats(-80, 80))
def test_curves_and_spans_looked_at_together_give_what_each_gives_alone(
    drawn: list[tuple[Floats, Floats]], shift: float
) -> None:
    """Passages of unlike length and place, upwards and downwards, on curves that pass them at other readings."""
    minutes = drawn[0][0]
    together = np.array([np.resize(celsius, minutes.size) + shift * row for row, (_, celsius) in enumerate(drawn)])
    spans = ((100.0, 200.0), (548.0, 598.0), (598.0, 548.0), (300.0, 905.0))
    found = rates.rates_between_c_per_min(minutes, together, spans)
    assert found.shape == (4, len(drawn))
    for span, rates_found in zip(spans, found, strict=True):
        one = rates.rise_between_c_per_min if span[0] < span[1] else rates.fall_between_c_per_min
        for celsius, rate in zip(together, rates_found, strict=True):
            assert rate == pytest.approx(float(one(minutes, celsius, *span)), rel=1e-9, nan_ok=True)


@given(st.lists(logs(), min_size=2, max_size=4))
def test_the_first_of_equally_high_readings_is_the_peak_of_each_curve(drawn: list[tuple[Floats, Floats]]) -> None:
    minutes = drawn[0][0]
    together = np.array([np.resize(celsius, minutes.size) for _, celsius in drawn])
    found = [float(minute) for minute in rates.time_to_peak_min(minutes, together)]
    assert found == [float(minutes[celsius.tolist().index(max(celsius.tolist()))]) for celsius in together]
