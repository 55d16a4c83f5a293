"""Dew, drying power and the fire-weather index against evaluations of the published formulas."""

from __future__ import annotations

from typing import Any

import pytest

from builder.fire.weather import dew_point_c, fosberg_index, saturation_pressure_hpa, vapour_pressure_deficit_kpa
from tests.check_values import cases

FILE = "air_and_wood_checks.json"


@pytest.mark.parametrize("case", cases(__file__, FILE, "saturation_vapour_pressure_hPa"))
def test_saturated_air_holds_the_pressure_of_alduchov_and_eskridge(case: dict[str, Any]) -> None:
    assert saturation_pressure_hpa(case["inputs"]["T_C"]) == pytest.approx(case["expected"], abs=case["tolerance"])


@pytest.mark.parametrize("case", cases(__file__, FILE, "dew_point_C"))
def test_dew_falls_at_the_dew_point(case: dict[str, Any]) -> None:
    given = case["inputs"]
    found = dew_point_c(given["T_C"], given["RH_percent"])
    # Printed to four decimals; the listed tolerance makes room for other formulas, which this is not.
    assert found == pytest.approx(case["expected"], abs=6e-5)


@pytest.mark.parametrize("case", cases(__file__, FILE, "vpd_kPa"))
def test_the_air_dries_with_its_deficit(case: dict[str, Any]) -> None:
    given = case["inputs"]
    found = vapour_pressure_deficit_kpa(given["T_C"], given["RH_percent"])
    assert found == pytest.approx(case["expected"], abs=1e-5)


@pytest.mark.parametrize("case", cases(__file__, FILE, "fosberg_ffwi"))
def test_the_fire_weather_index_follows_each_branch_of_the_published_formula(case: dict[str, Any]) -> None:
    given = case["inputs"]
    found = fosberg_index((given["T_F"] - 32.0) / 1.8, given["RH_percent"], given["wind_mph"] * 1.609344)
    assert found == pytest.approx(case["expected"]["ffwi"], abs=1e-3)


def test_the_index_is_cut_at_a_hundred() -> None:
    """100 °F, 5 %, 35 mph comes to 107.9 uncut: evaluation of the formula."""
    assert fosberg_index((100.0 - 32.0) / 1.8, 5.0, 35.0 * 1.609344) == 100.0


def test_saturated_air_has_its_dew_point_at_its_own_temperature() -> None:
    assert dew_point_c(12.0, 100.0) == pytest.approx(12.0)
