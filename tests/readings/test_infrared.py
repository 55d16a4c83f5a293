"""Spot thermometers: Planck's law in the band, and the balance solved for the ware's temperature."""

from __future__ import annotations

from typing import Any

import numpy as np
import pytest

from builder.base.constants import FIRST_RADIATION_CONSTANT, SECOND_RADIATION_CONSTANT
from builder.readings.emissivity import EMISSIVITIES, ware_range
from builder.readings.infrared import band_radiance, planck, true_temperature_c
from tests.check_values import cases

FILE = "thermometer_checks.json"

LINES = {
    "clay, fired, 70 C (total)": "fired clay, 70 °C",
    "charcoal powder (total)": "charcoal powder",
    "carbon, candle soot, 20 C (total)": "candle soot, 20 °C",
    "brick, red rough, 21 C (total)": "brick, red and rough, 21 °C",
    "fire clay, 1371 C (total)": "fire clay, 1371 °C",
    "lime clay, 1371 C (total)": "lime clay, 1371 °C",
    "brick, generic": "brick, any",
    "sand": "sand, over all wavelengths",
    "soil dry": "soil, dry",
    "brick, light buff, 538 C (total)": "brick, light buff, 538 °C",
    "adobe, 20 C (total)": "adobe, 20 °C",
    "carbon, unoxidised": "carbon, not oxidised",
}
"""What the check values call a material, and the line of the table that holds it."""


@pytest.mark.parametrize("case", cases(__file__, FILE, "band_radiance_8_14um"))
def test_the_band_holds_the_radiance_of_plancks_law(case: dict[str, Any]) -> None:
    assert float(band_radiance(case["inputs"]["t_C"])) == pytest.approx(case["expected"], rel=1e-9)


@pytest.mark.parametrize("case", cases(__file__, FILE, "planck_spectral_radiance"))
def test_the_spectral_radiance_is_plancks(case: dict[str, Any]) -> None:
    wavelength_m = case["inputs"]["wavelength_um"] * 1e-6
    assert float(planck(wavelength_m, case["inputs"]["T_K"])) == pytest.approx(case["expected"], rel=1e-9)


def test_the_radiation_constants_are_those_of_codata() -> None:
    """Check values radiation-005 and radiation-007, computed with scipy.constants 1.17.1."""
    assert pytest.approx(14387.768775039336e-6, rel=1e-12) == SECOND_RADIATION_CONSTANT.value
    assert pytest.approx(1.1910429723971884e-16, rel=1e-12) == FIRST_RADIATION_CONSTANT.value


@pytest.mark.parametrize("case", cases(__file__, FILE, "correct_emissivity_8_14um"))
def test_a_reading_is_put_right_for_emissivity_or_has_no_solution(case: dict[str, Any]) -> None:
    given = case["inputs"]
    found = true_temperature_c(
        given["t_read_C"], given["eps_set"], given["eps_true"], given["t_bg_true_C"], given["t_bg_assumed_C"]
    )
    if case["expected"] is None:
        assert np.isnan(found)
    else:
        # The values are printed to three decimals; the band is integrated to far better than that.
        assert float(found) == pytest.approx(case["expected"], abs=6e-4)


def test_a_right_setting_gives_the_reading_back() -> None:
    shown = np.linspace(-50.0, 2500.0, 500)
    assert true_temperature_c(shown, 0.95, 0.95, 20.0, 20.0) == pytest.approx(shown, abs=1e-6)


def test_the_fourth_power_law_would_halve_the_correction() -> None:
    """600 °C read at 0.95 for a ware of 0.85: the T⁴ law says 624.32 °C (computed), the band 647.80 °C."""
    ambient, read = 293.15, 873.15
    fourth = ((0.95 * read**4 + 0.05 * ambient**4 - 0.15 * ambient**4) / 0.85) ** 0.25 - 273.15
    assert fourth == pytest.approx(624.32, abs=0.01)
    assert float(true_temperature_c(600.0, 0.95, 0.85, 20.0, 20.0)) - 600.0 > 1.9 * (fourth - 600.0)


@pytest.mark.parametrize("case", cases(__file__, FILE, "emissivity_handbook", "emissivity_handbook_8_14um"))
def test_the_table_of_emissivities_holds_what_was_seen_in_print(case: dict[str, Any]) -> None:
    material, band = case["inputs"]["material"], "8 to 14 µm" if case["function"].endswith("14um") else "total"
    name = "clay, not fired, 20 °C (implausibly low)" if material.startswith("clay unfired") else material
    name = name if band == "8 to 14 µm" and material == "sand" else LINES.get(material, name)
    line = next(one for one in EMISSIVITIES if one.material == name and one.band == band)
    expected = case["expected"] if isinstance(case["expected"], list) else [case["expected"]] * 2
    assert [line.low, line.high] == expected


def test_the_ware_s_range_spans_the_lines_nearest_to_a_pot() -> None:
    """0.75 for fire brick at 1000 °C, 0.95 for ceramic and clay in the band: both seen in print."""
    assert ware_range() == (0.75, 0.95)
