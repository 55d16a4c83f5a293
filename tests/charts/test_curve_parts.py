"""Thinning long records, cutting at gaps and at the window, the ribbon."""

from __future__ import annotations

import numpy as np
import pytest

from builder.charts.curve_lines import shown
from builder.charts.simplify import TOLERANCE_PX, points_to_keep
from builder.charts.spells import gaps, inside, stretches, without_gaps
from builder.readings.reading_limits import reading_limits_c
from builder.readings.uncertainty import band, draws
from tests.charts.curves import TWELVE_MINUTES, curve_of


def test_a_long_record_keeps_its_ends_its_highest_and_its_lowest_point() -> None:
    random = np.random.default_rng(1)
    x = np.linspace(0, 800, 14_000)
    y = 200 * np.sin(x / 200) + random.normal(0, 3, x.size)
    y[7_001] = 300.0
    kept = points_to_keep(x, y)
    assert {0, 7_001, int(np.argmin(y)), 13_999} <= set(kept.tolist())
    assert kept.size < 900
    assert np.all(np.diff(kept) > 0)


def test_no_reading_lies_further_off_the_thinned_line_than_the_tolerance() -> None:
    """A smooth record with few points a pixel is thinned by Douglas and Peucker's rule alone, which promises this."""
    x = np.linspace(0, 800, 400)
    y = 150 * np.sin(x / 90)
    kept = points_to_keep(x, y)
    assert kept.size < 200
    # The distance straight down is never less than the one square to the line; steepest slope here 150/90.
    down = np.abs(np.interp(x, x[kept], y[kept]) - y)
    assert float(down.max()) <= TOLERANCE_PX * float(np.hypot(1, 150 / 90))


def test_few_readings_are_all_kept() -> None:
    x = np.arange(60.0)
    assert points_to_keep(x, np.zeros(60)).size == 60


def test_a_gap_is_longer_than_four_times_the_median_interval_and_two_minutes() -> None:
    """Worked by hand: median interval 2 min, so 8 min is none and 9 min is one."""
    assert gaps(np.array([0, 2, 4, 12, 14, 23, 25.0])) == (4,)
    # Ten-second readings that miss a minute and a half: more than four times the median, but under two minutes.
    assert gaps(np.array([0, 1 / 6, 2 / 6, 0.5, 2.0, 2 + 1 / 6])) == ()
    assert gaps(np.array([0, 30.0])) == ()


def test_a_record_is_cut_at_its_gaps() -> None:
    assert without_gaps(7, (4,)) == (slice(0, 5), slice(5, 7))


def test_a_line_is_cut_where_it_crosses_the_windows_edges() -> None:
    """Worked by hand: 0 to 1000 °C in 10 min crosses 640 at 6.4 and 780 at 7.8 min."""
    found = stretches(np.array([0, 10.0]), np.array([0, 1000.0]), (640, 780))
    assert [stretch.inside for stretch in found] == [False, True, False]
    assert [value for point in found[1].points for value in point] == pytest.approx([6.4, 640, 7.8, 780])


def test_a_window_with_one_edge_is_open_on_the_other_side() -> None:
    degrees = np.array([-5.0, 500.0, 690.0, 1200.0])
    assert inside(degrees, (700, None)).tolist() == [False, False, False, True]
    assert inside(degrees, (None, 900)).tolist() == [True, True, True, False]
    assert not inside(degrees, (None, None)).any()


def test_the_ribbon_of_one_rectangular_error_is_its_95_hundredths() -> None:
    """Worked by hand: 95 % of a rectangular distribution of half-width 10 lies within 9.5."""
    low, high = reading_limits_c(curve_of([(0, 100), (1, 200)], half_width=10))
    assert low.tolist() == pytest.approx([90.5, 190.5])
    assert high.tolist() == pytest.approx([109.5, 209.5])


def test_the_ribbon_of_a_normal_error_is_196_hundredths_of_its_standard_uncertainty() -> None:
    low, high = reading_limits_c(curve_of([(0, 100)], own_sd=10))
    assert (low[0], high[0]) == (pytest.approx(80.4, abs=0.01), pytest.approx(119.6, abs=0.01))


def test_the_ribbon_agrees_with_drawn_curves_where_errors_mix() -> None:
    """Expected: the 95 % band of 20,000 draws (JCGM 101); the closed form may lie up to a tenth of a width off."""
    curve = curve_of([(0, 600), (1, 700)], own_sd=4, half_width=9)
    low, high = reading_limits_c(curve)
    drawn_low, drawn_high = band(draws(curve, "ribbon", 20_000))
    width = drawn_high - drawn_low
    assert np.all(np.abs(low - drawn_low) < 0.1 * width)
    assert np.all(np.abs(high - drawn_high) < 0.1 * width)


def test_readings_before_lighting_are_cut_off_in_between() -> None:
    """Worked by hand: 10 °C at −2 min and 30 °C at 2 min give 20 °C at lighting."""
    part = shown(curve_of([(-2, 10), (2, 30), (5, 300)]), 15)
    assert part is not None
    assert part.minutes.tolist() == [0, 2, 5]
    assert part.celsius.tolist() == [20, 30, 300]


def test_a_curve_wholly_before_lighting_is_not_shown() -> None:
    assert shown(curve_of([(-20, 10), (-2, 30)]), 15) is None


def test_a_record_longer_than_its_frame_says_that_it_goes_on() -> None:
    part = shown(curve_of(TWELVE_MINUTES), 10)
    assert part is not None
    assert part.goes_on
    assert part.minutes[-1] == 10


def test_a_loggers_record_is_thinned_with_its_gap_and_its_peak_in_place() -> None:
    """Worked by hand: 10,000 readings a second apart, ten minutes missing after reading 5,999."""
    minutes = np.arange(10_000) / 60
    minutes[6_000:] += 10
    celsius = np.full(10_000, 300.0)
    celsius[1_234] = 900.0
    part = shown(curve_of(zip(minutes, celsius, strict=True)), 240)
    assert part is not None
    assert part.minutes.size < 2_000
    assert list(part.peak) == pytest.approx([1_234 / 60, 900.0])
    (gap,) = part.gaps_after
    assert part.minutes[gap : gap + 2].tolist() == pytest.approx([5_999 / 60, 6_000 / 60 + 10])
