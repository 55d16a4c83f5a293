"""Wood: its moisture in a given air and the heat in it, against the Wood Handbook and published tables."""

from __future__ import annotations

from typing import Any

import pytest

from builder.fire.fuel import (
    GROSS_DRY_MJ_PER_KG,
    LATENT_HEAT_MJ_PER_KG,
    equilibrium_moisture_pct,
    net_dry_mj_per_kg,
    net_heat_mj,
    wet_basis,
)
from tests.check_values import cases

FILE = "air_and_wood_checks.json"


def _dry_basis_pct(wet: float) -> float:
    """Turn a share of the whole into a percentage of the dry mass: the inverse of w = m/(1 + m)."""
    return 100.0 * wet / (1.0 - wet)


@pytest.mark.parametrize("case", cases(__file__, FILE, "emc_percent", "emc_percent_F", "emc_percent_table"))
def test_wood_comes_to_the_moisture_of_the_wood_handbook(case: dict[str, Any]) -> None:
    given = case["inputs"]
    air_c = given["T_C"] if "T_C" in given else (given["T_F"] - 32.0) / 1.8
    assert equilibrium_moisture_pct(air_c, given["RH_percent"]) == pytest.approx(
        case["expected"], abs=case["tolerance"]
    )


@pytest.mark.parametrize("case", cases(__file__, FILE, "moisture_dry_to_wet_basis_percent"))
def test_moisture_of_the_dry_mass_becomes_a_share_of_the_whole(case: dict[str, Any]) -> None:
    share = wet_basis(case["inputs"]["mc_dry_percent"])
    assert 100.0 * share == pytest.approx(case["expected"], abs=case["tolerance"])


@pytest.mark.parametrize("case", cases(__file__, FILE, "net_cv_MJ_per_kg_wet", "net_cv_MJ_per_kg_table"))
def test_a_kilogram_of_wet_wood_holds_the_heat_of_the_tables(case: dict[str, Any]) -> None:
    given = case["inputs"]
    wet = given["M_wet_fraction"] if "M_wet_fraction" in given else given["moisture_wet_percent"] / 100.0
    heat = net_heat_mj(1.0, _dry_basis_pct(wet), given["net_cv_dry_MJ_kg"])
    assert heat == pytest.approx(case["expected"], abs=case["tolerance"])


@pytest.mark.parametrize("case", cases(__file__, FILE, "fuel_energy_MJ"))
def test_a_stack_holds_so_much_heat(case: dict[str, Any]) -> None:
    given = case["inputs"]
    heat = net_heat_mj(given["mass_wet_kg"], _dry_basis_pct(given["M_wet_fraction"]), given["net_cv_dry_MJ_kg"])
    assert heat == pytest.approx(case["expected"], abs=case["tolerance"])


@pytest.mark.parametrize("case", cases(__file__, FILE, "latent_heat_water_MJ_per_kg"))
def test_the_heat_of_boiling_off_is_that_of_the_standard(case: dict[str, Any]) -> None:
    """ISO 18125 rounds to 2.443, a thousandth and a half above IAPWS-95's 2.44168 MJ/kg."""
    assert pytest.approx(case["expected"], abs=0.0015) == LATENT_HEAT_MJ_PER_KG


@pytest.mark.parametrize("case", cases(__file__, FILE, "gross_cv_dry_wood_range_MJ_kg"))
def test_dry_wood_s_gross_heat_is_the_printed_range_and_its_net_heat_is_less(case: dict[str, Any]) -> None:
    """ISO 18125 for 6.1 % hydrogen and 42.6 % oxygen and nitrogen: 20.2 gross is 18.8715 net MJ/kg (wood-035)."""
    assert list(GROSS_DRY_MJ_PER_KG) == case["expected"]
    assert [gross - net for gross, net in zip(GROSS_DRY_MJ_PER_KG, net_dry_mj_per_kg(), strict=True)] == pytest.approx(
        [20.2 - 18.8715] * 2, abs=0.005
    )
