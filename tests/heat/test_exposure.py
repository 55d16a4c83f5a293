"""Minutes above, soak and window on curves worked by hand, and the properties that must hold for any curve."""

from __future__ import annotations

from collections.abc import Callable

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from builder.heat import exposure
from builder.readings.curve import Floats
from tests.heat.curves import floats, logs

TWO_SPELLS = (floats([0, 10, 20, 30, 40]), floats([400, 800, 400, 800, 400]))

# Levels off the grid of the readings: a stretch flat at a level to the last digit is tried by name below.
EXPOSURES: tuple[Callable[[Floats, Floats], Floats], ...] = (
    lambda minutes, celsius: exposure.minutes_above(minutes, celsius, 605.0),
    lambda minutes, celsius: exposure.soak_min(minutes, celsius, 55.0),
    lambda minutes, celsius: exposure.window_min(minutes, celsius, 305.0, 705.0),
    lambda minutes, celsius: exposure.area_above_c_min(minutes, celsius, 605.0),
)


def test_minutes_above_add_up_over_all_spells() -> None:
    """Worked by hand: each of the two peaks stands above 600 °C for half of its 20 minutes."""
    assert exposure.minutes_above(*TWO_SPELLS, 600.0) == pytest.approx(20.0)


def test_a_stretch_that_stands_at_the_level_counts_as_at_or_above_it_but_not_over_it() -> None:
    """Worked by hand: 10 minutes flat at 600 °C, then 5 of 10 minutes of fall still above 550."""
    minutes, celsius = floats([0, 10, 20]), floats([600, 600, 500])
    assert exposure.minutes_above(minutes, celsius, 600.0) == pytest.approx(10.0)
    assert exposure.minutes_over(minutes, celsius, 600.0) == 0.0
    assert exposure.minutes_above(minutes, celsius, 550.0) == pytest.approx(15.0)


def test_a_common_error_shifts_both_crossings() -> None:
    """check value uncertainty-013: 6 °C with +22 and −9 °C/min change the time above by 0.93939394 min."""
    up, down = 600 / 22, 600 / 9
    minutes, celsius = floats([0, up, up + down]), floats([300, 900, 300])
    change = exposure.minutes_above(minutes, celsius + 6.0, 600.0) - exposure.minutes_above(minutes, celsius, 600.0)
    assert change == pytest.approx(0.93939394, abs=1e-7)


@given(logs(), st.floats(-100, 1300), st.floats(0, 300))
def test_minutes_above_fall_as_the_level_rises(log: tuple[Floats, Floats], level: float, more: float) -> None:
    total = log[0][-1] - log[0][0]
    lower, higher = (float(exposure.minutes_above(*log, at)) for at in (level, level + more))
    assert -1e-9 <= higher <= lower + 1e-9
    assert lower <= total + 1e-9


@given(logs(), st.floats(0.0, 1.0), st.integers(0, 100))
def test_a_reading_added_on_the_straight_line_changes_nothing(
    log: tuple[Floats, Floats], share: float, which: int
) -> None:
    minutes, celsius = log
    left = which % (minutes.size - 1)
    moment = minutes[left] + (0.05 + 0.9 * share) * (minutes[left + 1] - minutes[left])
    more = np.insert(minutes, left + 1, moment)
    added = np.insert(celsius, left + 1, np.interp(moment, minutes, celsius))
    for exposed in EXPOSURES:
        assert exposed(more, added) == pytest.approx(exposed(minutes, celsius), rel=1e-6, abs=1e-6)


@given(logs(), st.integers(0, 110), st.integers(0, 60))
def test_below_inside_and_over_a_window_make_up_the_whole_time(
    log: tuple[Floats, Floats], low: int, width: int
) -> None:
    """The levels lie on the grid of the readings, so that flat stretches at an edge are tried too."""
    minutes, celsius = log
    low_c, high_c = 10.0 * low, 10.0 * (low + width)
    inside = exposure.window_min(minutes, celsius, low_c, high_c)
    over = exposure.minutes_over(minutes, celsius, high_c)
    below = exposure.minutes_over(minutes, -celsius, -low_c)
    assert inside + over + below == pytest.approx(minutes[-1] - minutes[0])


def test_an_open_edge_of_the_window_takes_in_all_on_its_side() -> None:
    """Worked by hand on a rise from 0 to 1000 °C in 10 minutes."""
    rise = (floats([0, 10]), floats([0, 1000]))
    assert exposure.window_min(*rise, 700.0, None) == pytest.approx(3.0)
    assert exposure.window_min(*rise, None, 700.0) == pytest.approx(7.0)


def test_the_soak_lies_within_its_degrees_of_the_hottest_reading() -> None:
    """Worked by hand: 50 of 400 degrees, so an eighth of 20 minutes, for each of the two peaks."""
    assert exposure.soak_min(*TWO_SPELLS, 50.0) == pytest.approx(5.0)


@given(logs(), st.floats(0, 1100))
def test_the_area_above_is_the_integral_of_the_minutes_above(log: tuple[Floats, Floats], level: float) -> None:
    """∫ max(T − L, 0) dt = ∫_L^∞ minutes_above(x) dx, by the trapezium rule on 4,000 levels."""
    levels = np.linspace(level, 1101.0, 4001)
    times = np.array([float(exposure.minutes_above(*log, at)) for at in levels[::20]])
    area = float(np.trapezoid(times, levels[::20]))
    assert exposure.area_above_c_min(*log, level) == pytest.approx(area, rel=0.05, abs=5 * log[0][-1])


def test_the_area_above_of_a_triangle() -> None:
    """Worked by hand: two triangles, each 200 degrees high over 10 minutes."""
    assert exposure.area_above_c_min(*TWO_SPELLS, 600.0) == pytest.approx(2 * 200 * 10 / 2)


def test_short_is_nought_once_the_window_is_reached() -> None:
    assert exposure.short_c(floats([20, 650]), 650.0) == 0.0
    assert exposure.short_c(floats([20, 630]), 650.0) == 20.0


@given(logs())
def test_a_thousand_curves_at_once_give_what_each_gives_alone(log: tuple[Floats, Floats]) -> None:
    minutes, celsius = log
    together = np.vstack([celsius, celsius[::-1], celsius + 37.0])
    for exposed in EXPOSURES:
        assert exposed(minutes, together) == pytest.approx([float(exposed(minutes, one)) for one in together])
