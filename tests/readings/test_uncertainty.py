"""Draws, intervals and propagation against closed forms and the GUM's own examples."""

from __future__ import annotations

import math

import numpy as np
import pytest

from builder.checks.firing import Probe
from builder.readings.curve import CommonError, Curve, Floats
from builder.readings.uncertainty import band, draws, propagated, rectangular_sd

MANY = 40_000


def _curve(
    celsius: list[float], common: tuple[CommonError, ...] = (), own: float = 0.0, minutes: list[float] | None = None
) -> Curve:
    values = np.array(celsius)
    times = np.arange(values.size, dtype=np.float64) if minutes is None else np.array(minutes)
    blank = ("",) * values.size
    return Curve(Probe("wall"), times, values, blank, "°C", blank, common, np.full(values.size, own))


def _common(shape: str, down: float, up: float, size: int) -> CommonError:
    return CommonError("calibration", shape, np.full(size, down), np.full(size, up))


def test_a_common_error_moves_all_readings_by_the_same_amount() -> None:
    drawn = draws(_curve([20.0, 400.0, 800.0], (_common("normal", 6.0, 6.0, 3),)), "firing", 500)
    assert drawn.shape == (500, 3)
    moved = drawn - np.array([20.0, 400.0, 800.0])
    assert float(np.max(moved.max(axis=1) - moved.min(axis=1))) < 1e-9
    assert moved[:, 0].std() > 5.0


def test_an_own_error_does_not_move_readings_together() -> None:
    drawn = draws(_curve([500.0, 500.0], own=3.0), "firing", MANY)
    assert np.asarray(np.corrcoef(drawn.T))[0, 1] == pytest.approx(0.0, abs=0.02)
    assert drawn.std(axis=0) == pytest.approx([3.0, 3.0], rel=0.02)


def test_the_mean_of_readings_sheds_own_errors_but_not_common_ones() -> None:
    """u² of the mean of 16 readings = 4² + 8²/16 = 20: closed form, JCGM 100:2008, 5.2.2."""
    curve = _curve([600.0] * 16, (_common("normal", 4.0, 4.0, 16),), own=8.0)
    assert draws(curve, "firing", MANY).mean(axis=1).std() == pytest.approx(math.sqrt(20.0), rel=0.02)


def test_a_rectangular_error_has_the_spread_of_a_rectangle_and_never_leaves_it() -> None:
    """± 6 °C: u = 6/√3 = 3.4641, 95 % within ± 5.7: closed form (JCGM 100:2008, 4.3.7)."""
    drawn = draws(_curve([800.0], (_common("rectangular", 6.0, 6.0, 1),)), "firing", MANY)[:, 0] - 800.0
    assert np.abs(drawn).max() <= 6.0
    assert drawn.std() == pytest.approx(6.0 / math.sqrt(3.0), rel=0.02)
    low, high = band(drawn)
    assert (float(low), float(high)) == pytest.approx((-5.7, 5.7), abs=0.06)


def test_a_lopsided_error_reaches_as_far_as_each_side_says() -> None:
    drawn = draws(_curve([800.0], (_common("rectangular", 10.0, 40.0, 1),)), "firing", MANY)[:, 0] - 800.0
    assert drawn.min() == pytest.approx(-10.0, abs=0.1)
    assert drawn.max() == pytest.approx(40.0, abs=0.1)
    assert np.median(drawn) == pytest.approx(0.0, abs=0.4)


def _minutes_above(level: float, minutes: Floats, celsius: Floats) -> Floats:
    """Work out the time above a level of curves that cross it once up and once down, straight between readings."""
    up = minutes[0] + (level - celsius[:, 0]) / (celsius[:, 1] - celsius[:, 0]) * (minutes[1] - minutes[0])
    down = minutes[1] + (celsius[:, 1] - level) / (celsius[:, 1] - celsius[:, 2]) * (minutes[2] - minutes[1])
    return np.asarray(down - up)


def test_a_common_error_moves_both_crossings_and_so_weighs_more_on_the_time_above() -> None:
    """uncertainty-013 and -014: 6 °C with +22 and −9 °C/min is 0.9394 min; independent errors would give 0.7203 min."""
    minutes = [0.0, 20.0, 60.0]
    celsius = [600.0 - 22.0 * 10.0, 600.0 + 22.0 * 10.0, 820.0 - 9.0 * 40.0]
    curve = _curve(celsius, (_common("normal", 6.0, 6.0, 3),), minutes=minutes)
    times = _minutes_above(600.0, curve.minutes, draws(curve, "firing", MANY))
    assert times.std() == pytest.approx(0.93939394, rel=0.02)
    assert math.hypot(6.0 / 22.0, 6.0 / 9.0) == pytest.approx(0.72029481, abs=1e-7)


def test_the_budget_of_a_thermocouple_adds_up_as_the_gum_says() -> None:
    """uncertainty-011: ± 6, 1, 0.5, 0.5 rectangular and 1.5 of repeatability at 800 °C: u_c = 3.840573 °C."""
    errors = tuple(_common("rectangular", half, half, 1) for half in (6.0, 1.0, 0.5))
    own = math.hypot(float(rectangular_sd(0.5)), 1.5)
    assert draws(_curve([800.0], errors, own), "firing", MANY).std() == pytest.approx(3.840573, rel=0.02)


def test_the_same_entry_draws_the_same_curves_and_another_draws_others() -> None:
    curve = _curve([20.0, 800.0], own=1.0)
    assert np.array_equal(draws(curve, "2026-05-02-pale-jar"), draws(curve, "2026-05-02-pale-jar"))
    assert not np.array_equal(draws(curve, "2026-05-02-pale-jar"), draws(curve, "2026-05-03-pale-jar"))


@pytest.mark.parametrize("half", [2.2, 4.0])
def test_a_half_width_is_worth_its_third_root(half: float) -> None:
    """uncertainty-002: 2.2 gives 1.27017059; JCGM 100, 4.4.5: 4 gives 2.309 (from memory)."""
    assert float(rectangular_sd(half)) == pytest.approx({2.2: 1.2701705922171769, 4.0: 2.3094010767585034}[half])


def test_the_interval_is_that_of_numpy_s_quantiles() -> None:
    samples = np.random.default_rng(7).standard_normal((1000, 5))
    low, high = band(samples)
    assert low == pytest.approx(np.quantile(samples, 0.025, axis=0))
    assert high == pytest.approx(np.quantile(samples, 0.975, axis=0))


def test_the_interval_leaves_out_draws_without_the_figure() -> None:
    samples = np.concatenate([np.arange(1001.0), np.full(300, np.nan)])
    assert [float(end) for end in band(samples)] == pytest.approx([25.0, 975.0])
    assert all(np.isnan(end) for end in band(np.full((10,), np.nan)))


def test_propagation_follows_the_first_order_law() -> None:
    """uncertainty-012: (800 ± 6 − 20 ± 2)/(35 ± 1) has u = 0.66188 (computed with uncertainties 3.2.3)."""
    u = propagated(lambda peak, start, minutes: (peak - start) / minutes, (800.0, 20.0, 35.0), (6.0, 2.0, 1.0))
    # Slopes are taken over x ± u, so the curved share of the minutes differs in the fourth digit.
    assert u == pytest.approx(0.6618792424693709, rel=1e-3)


def test_the_gum_s_end_gauge_comes_out() -> None:
    """uncertainty-007, JCGM 100:2008 H.1: 25, 9.7, 2.9 and 16.6 nm make 31.67 nm (published 32)."""
    assert propagated(lambda *parts: sum(parts), (0.0,) * 4, (25.0, 9.7, 2.9, 16.6)) == pytest.approx(31.671, abs=1e-3)
