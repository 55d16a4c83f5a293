"""Intervals of figures for which the answer can be written down."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from builder.heat.figures import Figure
from builder.heat.firing_heat import measure
from builder.readings.curve import CommonError, Curve
from tests.heat.curves import HEAT, NARROW, curve, curves, firing

RISE, FALL = 22.0, 9.0
"""°C a minute up and down through 600 °C."""
U_C, Z = 6.0, 1.959964


def _figures(made: Curve) -> dict[str, Figure]:
    return measure(firing(), curves(made), NARROW, HEAT).ware_figures


def _triangle(own_sd_c: float = 0.0, common_sd_c: float = U_C, slope: float = 0.0) -> Curve:
    """Up through 600 °C at 22 °C a minute, down at 9: 380, 820 and 460 °C at 0, 20 and 60 minutes."""
    made = curve([0.0, 20.0, 60.0], [380.0, 820.0, 460.0], own_sd_c=own_sd_c)
    width = np.full(3, common_sd_c) + slope * made.celsius
    return replace(made, common=(CommonError("calibration", "normal", width, width),))


def _half_width(figure: Figure) -> float:
    assert figure.low is not None
    assert figure.high is not None
    return (figure.high - figure.low) / 2.0


def test_both_crossings_move_together_so_the_time_above_is_wide() -> None:
    """uncertainty-013: u = 6 (1/22 + 1/9) = 0.9394 min, so ± 1.84; independent crossings would give ± 1.41 (-014)."""
    half = _half_width(_figures(_triangle())["minutes_above_600_c"])
    assert half == pytest.approx(Z * 0.93939394, rel=0.08)
    assert half > Z * 0.72029481 * 1.1


def test_a_shift_of_all_readings_moves_the_peak_by_itself_and_no_rate_at_all() -> None:
    """± 1.96 · 6 °C; a difference of two readings of one probe keeps nothing of what they share."""
    figures = _figures(_triangle())
    assert _half_width(figures["peak_c"]) == pytest.approx(Z * U_C, rel=0.08)
    assert _half_width(figures["start_c"]) == pytest.approx(Z * U_C, rel=0.08)
    for name in ("heating_rate_c_per_min", "cooling_rate_c_per_min", "fastest_rise_c_per_min", "soak_min"):
        assert _half_width(figures[name]) == pytest.approx(0.0, abs=1e-9), name


def test_an_error_in_proportion_to_the_temperature_is_left_in_a_rate_by_its_share() -> None:
    """u = 1 % of each reading: u of (820 − 380)/20 is 1 % of it, 0.22 °C/min."""
    figures = _figures(_triangle(common_sd_c=0.0, slope=0.01))
    assert _half_width(figures["heating_rate_c_per_min"]) == pytest.approx(Z * 0.22, rel=0.08)


def test_errors_of_each_reading_add_up_in_squares_in_a_rate() -> None:
    """u = 5 °C each: u of (820 − 380)/20 is 5 √2 / 20 = 0.3536 °C/min, of (820 − 460)/40 half of it."""
    figures = _figures(_triangle(own_sd_c=5.0, common_sd_c=0.0))
    assert _half_width(figures["heating_rate_c_per_min"]) == pytest.approx(Z * 5 * np.sqrt(2) / 20, rel=0.08)
    assert _half_width(figures["cooling_rate_c_per_min"]) == pytest.approx(Z * 5 * np.sqrt(2) / 40, rel=0.08)
