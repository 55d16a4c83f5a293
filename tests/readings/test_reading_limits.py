"""The interval of a single reading against drawing and against a published table."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from scipy import stats

from builder.readings.curve import CommonError, Curve
from builder.readings.reading_limits import coverage_factor, reading_limits_c
from builder.readings.uncertainty import band, draws
from tests.heat.curves import HAND_LOG, curve


def agree(probe: Curve, within: float) -> bool:
    low, high = reading_limits_c(probe)
    drawn_low, drawn_high = band(draws(probe, "limits", 40_000))
    ends = ((high, drawn_high), (low, drawn_low))
    return all(np.allclose(end - probe.celsius, drawn - probe.celsius, rtol=within) for end, drawn in ends)


@pytest.mark.parametrize(("own", "common"), [(0.0, 8.0), (4.0, 0.0), (1.0, 8.0), (4.0, 8.0), (8.0, 4.0), (0.1, 8.0)])
def test_one_rectangle_and_a_normal_agree_with_drawing(own: float, common: float) -> None:
    """Within 2.5 % of the half-width, which is what 40,000 draws are worth."""
    assert agree(curve(*HAND_LOG, own_sd_c=own, common_c=common), 0.025)


def test_several_lopsided_errors_agree_with_drawing() -> None:
    """A lopsided rectangle, a second one and a normal error: within 6 %."""
    n = len(HAND_LOG[0])
    errors = (
        CommonError("emissivity", "rectangular", np.full(n, 5.0), np.full(n, 20.0)),
        CommonError("tolerance", "rectangular", np.full(n, 6.0), np.full(n, 6.0)),
        CommonError("maker", "normal", np.full(n, 3.0), np.full(n, 3.0)),
    )
    assert agree(replace(curve(*HAND_LOG, own_sd_c=2.0), common=errors), 0.06)


def test_a_reading_without_any_error_is_its_own_interval() -> None:
    probe = curve(*HAND_LOG, own_sd_c=0.0, common_c=0.0)
    low, high = reading_limits_c(probe)
    assert low.tolist() == high.tolist() == probe.celsius.tolist()


@pytest.mark.parametrize("share", [0.1, 0.3, 0.5, 0.7, 0.9, 0.95, 0.99, 0.999])
def test_the_factor_holds_95_percent_by_an_outside_librarys_integral(share: float) -> None:
    """P(|X| ≤ h) by scipy: the normal distribution averaged over the rectangle on 20,001 places."""
    half, sd = np.sqrt(3.0) * share, np.sqrt(1.0 - share**2)
    places = np.linspace(-half, half, 20_001)
    h = coverage_factor(share)
    inside = stats.norm.cdf((h - places) / sd) - stats.norm.cdf((-h - places) / sd)
    assert float(np.trapezoid(inside, places) / (2 * half)) == pytest.approx(0.95, abs=1e-6)
