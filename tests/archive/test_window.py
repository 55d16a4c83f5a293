"""The working window is found where there is one, and not claimed where the firings cannot tell.

The fixed check (14 firings) and its values were computed with a second program of the same procedure, written apart
from this one; the case of perfect separation likewise. No printed example of this procedure exists.
"""

from __future__ import annotations

import numpy as np
import pytest

from builder.archive.window import Finding, working_window
from builder.archive.window_curves import Peaks, WindowFiring, draw_curves
from tests.archive.window_check import fixed_check


def test_the_fixed_check_gives_its_ends_its_best_peak_and_its_chance() -> None:
    window = working_window(fixed_check())
    assert window.finding is Finding.WINDOW
    assert window.low is not None
    assert window.high is not None
    assert (window.low.low_c, window.low.value_c, window.low.high_c) == pytest.approx((626, 684, 720), abs=4)
    assert (window.high.low_c, window.high.value_c, window.high.high_c) == pytest.approx((802, 842, 922), abs=4)
    assert window.best_c == pytest.approx((763, 735, 791), abs=0.5)
    assert window.best_chance == pytest.approx((0.817, 0.634, 0.941), abs=1e-3)
    at_700 = int(np.argmin(np.abs(window.grid_c - 700)))
    assert window.works[at_700] == pytest.approx(0.8085, abs=1e-3)


def test_perfect_separation_in_six_firings_is_too_few_to_tell() -> None:
    needs = (0, 0, 0, 1, 1, 1)
    destroyed = (1, 1, 1, 1, 1, 0)
    firings = [WindowFiring(620 + 40 * i, 15, (needs[i], 1), (destroyed[i], 1)) for i in range(6)]
    window = working_window(firings)
    assert window.finding is Finding.TOO_FEW
    assert (window.low, window.high, window.best_c) == (None, None, None)
    assert window.chance.shape == (3, len(window.grid_c))


@pytest.mark.parametrize("firings", [[], fixed_check()[:4]])
def test_under_five_firings_nothing_is_fitted(firings: list[WindowFiring]) -> None:
    window = working_window(firings)
    assert window.finding is Finding.TOO_FEW
    assert window.grid_c.size == 0


def test_five_firings_with_one_kind_of_outcome_only_are_too_few() -> None:
    firings = [WindowFiring(700 + 10 * i, 15, (1, 2), None) for i in range(9)]
    assert working_window(firings).finding is Finding.TOO_FEW


def test_where_everything_fails_there_is_no_window() -> None:
    firings = [WindowFiring(620 + 20 * i, 10, (0, 5), (0, 5)) for i in range(14)]
    assert working_window(firings).finding is Finding.NONE


def test_an_end_beyond_the_temperatures_looked_at_stays_open() -> None:
    firings = [WindowFiring(620 + 20 * i, 10, (5, 5), (5, 5)) for i in range(14)]
    window = working_window(firings)
    assert window.finding is Finding.WINDOW
    assert window.low is not None
    assert window.high is not None
    assert window.low.value_c is None
    assert window.high.value_c is None
    assert window.best_c is None


def test_firings_without_either_outcome_change_nothing() -> None:
    bare = working_window([*fixed_check(), WindowFiring(1000, 15, None, None)])
    assert bare.low == working_window(fixed_check()).low
    assert bare.firings == 14


def test_a_less_certain_peak_makes_a_less_certain_window() -> None:
    vague = [WindowFiring(f.peak_c, 60, f.needs_heat, f.destroyed) for f in fixed_check()]
    sharp = [WindowFiring(f.peak_c, 1, f.needs_heat, f.destroyed) for f in fixed_check()]
    assert working_window(vague).works.max() <= working_window(sharp).works.max()


def test_outcomes_that_run_the_wrong_way_are_warned_of() -> None:
    turned = [WindowFiring(f.peak_c, f.peak_sd_c, f.destroyed, f.needs_heat) for f in fixed_check()]
    warnings = working_window(turned).warnings
    assert len(warnings) == 2
    assert "came out worse in the hotter firings" in warnings[0]
    assert working_window(fixed_check()).warnings == ()


def test_the_plain_fits_stand_beside_the_window() -> None:
    """Firth on (peak − 770)/100, agreeing with two other libraries."""
    rising, falling = working_window(fixed_check()).plain
    assert rising is not None
    assert falling is not None
    assert rising.coefficients == pytest.approx((2.524281, 2.793414), abs=1e-4)
    assert falling.coefficients == pytest.approx((2.084102, -2.691792), abs=1e-4)


def test_another_unit_of_heat_stretches_the_window_and_changes_nothing_else() -> None:
    """Peaks in tenths of a degree with the scale in tenths: the same window, ten times as large."""
    tenths = [WindowFiring(10 * f.peak_c, 10 * f.peak_sd_c, f.needs_heat, f.destroyed) for f in fixed_check()]
    stretched, plain = working_window(tenths, scale=700.0), working_window(fixed_check())
    assert stretched.low is not None
    assert plain.low is not None
    assert stretched.low.value_c == pytest.approx(10 * (plain.low.value_c or 0))
    assert stretched.log_evidence == pytest.approx(plain.log_evidence)


def test_the_evidence_agrees_with_plain_integration_over_the_priors() -> None:
    """A second way round: the likelihood averaged over 40,000 random draws of the priors, firing luck drawn too."""
    firings, chance = fixed_check(), np.random.default_rng(1)
    peaks = Peaks.of(firings)
    found = draw_curves(peaks, [one.needs_heat for one in firings], 1, (2, 3, 5)).log_evidence
    slope = np.abs(2 * np.tan(np.pi * (chance.uniform(size=40_000) - 0.5)))
    intercept = 1.5 * np.sqrt(1 + slope**2) * chance.standard_t(2, size=40_000)
    tau = chance.choice([0.0, 0.6, 1.2], p=[0.45, 0.35, 0.20], size=40_000)
    total = np.zeros(40_000)
    nodes, weights = np.polynomial.hermite_e.hermegauss(15)
    for z, variance, one in zip(peaks.z, peaks.variance, firings, strict=True):
        good, recorded = one.needs_heat or (0, 0)
        x = (intercept + slope * z)[:, None] + np.sqrt(tau**2 + slope**2 * variance)[:, None] * nodes
        p = 1 / (1 + np.exp(-np.clip(x, -500, 500)))
        total += np.log((p**good * (1 - p) ** (recorded - good)) @ (weights / weights.sum()) + 1e-300)
    assert found == pytest.approx(np.log(np.exp(total - total.max()).mean()) + total.max(), abs=0.15)


def test_a_fire_of_hundreds_of_tiles_is_taken_in_whole() -> None:
    """Half of 600 tiles at one peak: the curves pass one half there, and no number runs under."""
    tiles = [WindowFiring(700.0, 5, (300, 600), (598, 600)), WindowFiring(760.0, 5, (590, 600), (590, 600))]
    window = working_window([*tiles, *fixed_check()])
    at_700 = int(np.argmin(np.abs(window.grid_c - 700)))
    assert np.isfinite(window.chance).all()
    assert 0.3 < window.rising[at_700] < 0.7
