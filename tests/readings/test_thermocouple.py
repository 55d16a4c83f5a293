"""Thermocouples against NIST's tables, an independent library, and their own inverse."""

from __future__ import annotations

from typing import Any

import numpy as np
import pytest
import thermocouple_its90

from builder.readings.thermocouple import emf_mv, range_c, seebeck_mv_per_c, temperature_c
from tests.check_values import cases

TYPES = tuple("KNJSRBTE")
FILE = "thermometer_checks.json"


@pytest.mark.parametrize("case", cases(__file__, FILE, "emf_mV"))
def test_the_voltage_at_a_temperature_is_that_of_the_reference_function(case: dict[str, Any]) -> None:
    assert float(emf_mv(case["inputs"]["t_C"], case["inputs"]["type"])) == pytest.approx(
        case["expected"], abs=1e-6 if case["how"] == "computed" else case["tolerance"]
    )


@pytest.mark.parametrize("case", cases(__file__, FILE, "emf_mV_table"))
def test_the_voltage_is_that_of_the_printed_table(case: dict[str, Any]) -> None:
    voltage = emf_mv(case["inputs"]["t_C"], case["inputs"]["type"])
    assert float(voltage) == pytest.approx(case["expected"], abs=case["tolerance"])


@pytest.mark.parametrize("case", cases(__file__, FILE, "temperature_C", "temperature_C_cold_junction"))
def test_millivolts_become_the_temperature_after_the_junction_is_added(case: dict[str, Any]) -> None:
    given = case["inputs"]
    found = temperature_c(given["emf_mV"], given["type"], given["ref_C"])
    # The values are printed to four decimals; the tolerance in the list is meant for table look-ups.
    assert float(found) == pytest.approx(case["expected"], abs=6e-5)


@pytest.mark.parametrize("case", cases(__file__, FILE, "seebeck_uV_per_K"))
def test_a_degree_is_worth_so_many_microvolts(case: dict[str, Any]) -> None:
    slope = 1000.0 * float(seebeck_mv_per_c(case["inputs"]["t_C"], case["inputs"]["type"]))
    assert slope == pytest.approx(case["expected"], abs=case["tolerance"])


@pytest.mark.parametrize("type", TYPES)
def test_every_type_agrees_with_an_independent_library_over_its_whole_range(type: str) -> None:
    low, high = thermocouple_its90.get(type).range
    degrees = np.linspace(low, high, 301)
    other = [thermocouple_its90.get(type).emf(float(degree)) for degree in degrees]
    assert emf_mv(degrees, type) == pytest.approx(other, abs=1e-9)


@pytest.mark.parametrize("type", TYPES)
def test_the_inverse_gives_back_the_temperature_over_the_whole_range(type: str) -> None:
    low, high = range_c(type)
    degrees = np.linspace(low, high, 20_001)
    assert np.abs(temperature_c(emf_mv(degrees, type), type) - degrees).max() < 1e-6


@pytest.mark.parametrize("type", TYPES)
def test_a_voltage_beyond_the_range_stands_for_no_temperature(type: str) -> None:
    low, high = range_c(type)
    outside = [float(emf_mv(low, type)) - 0.01, float(emf_mv(high, type)) + 0.01]
    assert np.isnan(temperature_c(outside, type)).all()  # type: ignore[arg-type]


def test_type_b_is_not_inverted_where_one_voltage_means_several_temperatures() -> None:
    """0.291 mV is type B at 250 °C, where NIST's own inverse begins (Monograph 175)."""
    assert np.isnan(temperature_c(0.0, "B"))
    assert np.isnan(temperature_c(0.290, "B"))
    assert float(temperature_c(0.292, "B")) == pytest.approx(250.3, abs=0.3)


def test_adding_degrees_instead_of_millivolts_would_be_fourteen_degrees_wrong() -> None:
    """Type S, 7.000 mV, terminals at 30 °C: 784.12 °C, not 798.10 °C (computed with two libraries)."""
    wrong = float(temperature_c(7.0, "S")) + 30.0
    assert wrong - float(temperature_c(7.0, "S", 30.0)) == pytest.approx(13.98, abs=0.01)
