"""The equivalent one-hour temperature against values computed by quadrature from the published definition."""

from __future__ import annotations

import numpy as np
import pytest
from scipy.special import exp1

from builder.heat.equivalent import equivalent_1h_c
from tests.heat.curves import floats

BONFIRE = ((0, 12, 22, 30, 45, 70), (20, 500, 800, 820, 650, 200))
SLOW = ((0, 60, 150, 240, 420), (15, 120, 600, 720, 300))
PLATEAU = ((0, 10, 70, 80), (20, 600, 600, 20))
SPIKE = ((0, 20, 21, 60), (20, 850, 850, 100))


@pytest.mark.parametrize(
    ("curve", "energy_kj_mol", "expected_c"),
    [
        # check value heatwork-008 and -012 to -019 and the rest of their table, computed by quadrature from the
        # definition; the convention of one hour is that of Tite 1995.
        (BONFIRE, 150, 729.2703),
        (BONFIRE, 222, 748.76),
        (BONFIRE, 300, 761.52),
        (SLOW, 222, 705.4583),
        (SLOW, 300, 701.8415),
        (PLATEAU, 150, 600.9299),
        (PLATEAU, 222, 600.4374),
        (PLATEAU, 300, 600.2436),
        (SPIKE, 150, 706.989),
        (SPIKE, 222, 738.1299),
        (SPIKE, 300, 758.8001),
    ],
)
def test_it_agrees_with_quadrature(
    curve: tuple[tuple[float, ...], tuple[float, ...]], energy_kj_mol: float, expected_c: float
) -> None:
    assert equivalent_1h_c(floats(curve[0]), floats(curve[1]), energy_kj_mol) == pytest.approx(expected_c, abs=0.02)


def test_half_an_hour_at_700_is_worth_an_hour_at_676() -> None:
    """Published check beside the table above: 30 min at 700 °C is 676.02 °C for one hour (222 kJ/mol)."""
    assert equivalent_1h_c(floats([0, 30]), floats([700, 700])) == pytest.approx(676.02, abs=0.005)


def test_an_hour_at_one_temperature_is_that_temperature() -> None:
    """By the definition itself."""
    assert equivalent_1h_c(floats([0, 25, 60]), floats([640, 640, 640])) == pytest.approx(640.0, abs=1e-6)


@pytest.mark.parametrize("energy_kj_mol", [150.0, 222.0, 300.0])
def test_a_straight_rise_agrees_with_the_exponential_integral(energy_kj_mol: float) -> None:
    """∫ exp(−a/T) dT = T exp(−a/T) − a E₁(a/T), with scipy's E₁, for 20 to 1100 °C in 20 minutes."""
    a, cold, hot = energy_kj_mol * 1000 / 8.31446261815324, 293.15, 1373.15
    work = sum(sign * (t * np.exp(-a / t) - a * exp1(a / t)) for sign, t in ((1, hot), (-1, cold))) * 20 / (hot - cold)
    expected = a / np.log(60.0 / work) - 273.15
    assert equivalent_1h_c(floats([0, 20]), floats([20, 1100]), energy_kj_mol) == pytest.approx(expected, abs=1e-4)


def test_nearly_level_stretches_lose_no_digits() -> None:
    """A plateau that creeps by less and less must come ever nearer to the flat one."""
    flat = float(equivalent_1h_c(floats([0, 60]), floats([700, 700])))
    for creep in (1e-1, 1e-2, 2e-3, 1e-3, 5e-4, 1e-6):
        crept = float(equivalent_1h_c(floats([0, 60]), floats([700, 700 + creep])))
        assert crept == pytest.approx(flat + creep / 2, abs=1e-6 + creep / 500)


def test_a_single_reading_did_no_work() -> None:
    assert np.isnan(equivalent_1h_c(floats([5]), floats([700])))


def test_each_curve_may_have_its_own_energy() -> None:
    together = equivalent_1h_c(floats(BONFIRE[0]), np.vstack([floats(BONFIRE[1])] * 2), floats([150, 300]))
    assert together == pytest.approx([729.2703, 761.52], abs=0.02)
