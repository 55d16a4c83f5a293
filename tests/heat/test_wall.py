"""The lag of a wall against the closed form of a plate heated evenly."""

from __future__ import annotations

import pytest

from builder.heat.wall import settling_min, wall_lag_c


@pytest.mark.parametrize(
    ("half_mm", "diffusivity_mm2_s", "expected_c"),
    [
        # check value heatwork-063, -065, -067 (Carslaw and Jaeger 1959), 20 °C/min.
        (4.0, 0.5, 5.333333),
        (6.0, 0.5, 12.0),
        (10.0, 0.5, 33.333333),
        # From the same formula: half a wall of 30 mm, α 0.4 mm²/s.
        (15.0, 0.4, 93.75),
    ],
)
def test_the_middle_of_a_plate_lags_by_the_published_amount(
    half_mm: float, diffusivity_mm2_s: float, expected_c: float
) -> None:
    assert wall_lag_c(20.0, 2 * half_mm, diffusivity_mm2_s) == pytest.approx(expected_c, abs=1e-4)


@pytest.mark.parametrize(
    ("half_mm", "diffusivity_mm2_s", "seconds"),
    # check value heatwork-062, -064, -068: L²/α.
    [(4.0, 0.5, 32.0), (6.0, 0.5, 72.0), (15.0, 0.4, 562.5)],
)
def test_the_time_for_the_lag_to_settle_is_the_published_one(
    half_mm: float, diffusivity_mm2_s: float, seconds: float
) -> None:
    assert settling_min(2 * half_mm, diffusivity_mm2_s) == pytest.approx(seconds / 60.0)
