"""The line of a potter's calibration against the GUM's own example of a thermometer, and in closed form."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from builder.base.quantity import Quantity, parse_quantity
from builder.checks.firing import CalibrationPoint, Probe
from builder.readings.calibration_line import STUDENT_95, fitted, fitted_line
from builder.readings.curve import Curve
from builder.readings.instrument import temperatures
from builder.readings.uncertainty import draws

# JCGM 100:2008, H.3, table H.6 (seen): readings and corrections of a thermometer, °C.
READ_C = np.array([21.521, 22.012, 22.512, 23.003, 23.507, 23.999, 24.513, 25.002, 25.503, 26.010, 26.511])
CORRECTION_C = np.array([-0.171, -0.169, -0.166, -0.159, -0.164, -0.165, -0.156, -0.157, -0.159, -0.161, -0.160])


def _degrees(words: str) -> Quantity:
    found = parse_quantity(words, "temperature")
    assert isinstance(found, Quantity)
    return found


def test_the_gum_s_thermometer_gives_the_gum_s_line() -> None:
    """uncertainty-001, H.3 with t₀ = 20 °C: y₁ −0.1712(29), y₂ 0.00218(67), r −0.930, s 0.0035."""
    line = fitted_line(READ_C, CORRECTION_C)
    y1, u_y1, r = line.intercept(20.0)
    assert (y1, u_y1) == pytest.approx((-0.171204, 0.0028776), abs=5e-7)
    assert (line.slope, line.slope_sd) == pytest.approx((0.00218270, 0.00066794), abs=5e-8)
    assert r == pytest.approx(-0.93043, abs=5e-6)
    assert line.scatter_c == pytest.approx(0.0034976, abs=5e-7)
    assert line.freedom == 9


def test_the_gum_s_thermometer_is_predicted_as_the_gum_does() -> None:
    """uncertainty-001, H.3.4: b(30 °C) = −0.1494(41)."""
    line = fitted_line(READ_C, CORRECTION_C)
    assert float(line.correction_c(30.0)) == pytest.approx(-0.149377, abs=5e-7)
    assert float(line.correction_sd_c(30.0)) == pytest.approx(0.0041386, abs=5e-7)


def test_height_and_slope_drawn_apart_about_the_middle_spread_as_the_correlated_pair_does() -> None:
    """u(b(30 °C)) = 0.0041386 °C times Student's 2.262/1.960 for 9 degrees of freedom."""
    errors = fitted_line(READ_C, CORRECTION_C).errors(np.array([30.0, 20.0]))
    curve = Curve(Probe("a"), np.arange(2.0), np.array([30.0, 20.0]), ("",) * 2, "°C", ("",) * 2, errors, np.zeros(2))
    drawn = draws(curve, "h3", 60_000)
    assert drawn[:, 0].std() == pytest.approx(0.0041386 * 2.262 / 1.960, rel=0.015)
    assert drawn[:, 1].std() == pytest.approx(0.0028776 * 2.262 / 1.960, rel=0.015)
    away = fitted_line(READ_C, CORRECTION_C).slope_sd * 10.0
    expected = (0.0041386**2 + 0.0028776**2 - away**2) / (2 * 0.0041386 * 0.0028776)
    assert float(np.asarray(np.corrcoef(drawn.T))[0, 1]) == pytest.approx(expected, abs=0.02)


def test_two_points_make_a_line_worth_what_the_points_are() -> None:
    """Known to ± 1 °C each, u = 1/√3: u(b̄) = u/√2, u(slope) = u/√(2 · 50²): worked by hand."""
    line = fitted(
        [CalibrationPoint(_degrees("1 °C"), _degrees("0 °C")), CalibrationPoint(_degrees("101 °C"), _degrees("98 °C"))]
    )
    assert (line.height_sd_c, line.slope_sd) == pytest.approx((np.sqrt(1 / 6), np.sqrt(1 / 3) / np.sqrt(5000.0)))
    assert line.freedom == 0


def test_points_written_as_ranges_are_worth_their_ranges() -> None:
    point = CalibrationPoint(_degrees("100 °C"), _degrees("97 to 101 °C"))
    assert fitted([point]).height_sd_c == pytest.approx(2.0 / np.sqrt(3.0))


def test_the_line_goes_through_points_that_lie_on_one() -> None:
    shown = np.array([0.0, 100.0, 300.0])
    line = fitted_line(shown, 2.0 - 0.01 * shown, own_sd_c=0.5)
    assert line.correction_c(shown) == pytest.approx(2.0 - 0.01 * shown)
    assert line.scatter_c == 0.5


def test_few_scattered_points_are_widened_by_student_s_factor() -> None:
    shown, off = np.array([0.0, 100.0, 200.0]), np.array([0.0, 6.0, 0.0])
    line = fitted_line(shown, off, own_sd_c=0.5)
    assert line.freedom == 1
    assert line.errors(np.array([100.0]))[0].up_c == pytest.approx(line.height_sd_c * STUDENT_95[0] / 1.960)


def test_a_slope_s_error_moves_the_two_sides_of_the_middle_against_each_other() -> None:
    points = tuple(CalibrationPoint(_degrees(f"{at} °C"), _degrees(f"{at} °C")) for at in (0, 800))
    found = temperatures(replace(Probe("wall"), calibrated=points), np.array([100.0, 400.0, 700.0]), "°C")
    slope = next(error for error in found.common if error.name.startswith("slope"))
    assert slope.up_c[0] == pytest.approx(-slope.up_c[2])
    assert slope.up_c[1] == pytest.approx(0.0)
