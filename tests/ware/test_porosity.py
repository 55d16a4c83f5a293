"""Absorption, porosity and density against ASTM's definitions, and what a balance is worth."""

from __future__ import annotations

from typing import Any

import pytest

from builder.base.quantity import Quantity, parse_quantity
from builder.checks.firing import Piece, Weighed
from builder.ware.as_written import half_width
from builder.ware.measures import piece_measures
from builder.ware.porosity import absorption_pct, bulk_density_g_cm3, porosity_pct
from tests.check_values import cases


def _mass(text: str) -> Quantity:
    found = parse_quantity(text, "mass")
    assert isinstance(found, Quantity), found
    return found


def _weighed(dry: str, soaked: str, hung: str | None) -> Piece:
    return Piece("jar", "sound", weighed=Weighed(_mass(dry), _mass(soaked), _mass(hung) if hung else None))


@pytest.mark.parametrize("case", cases(__file__, "ware_checks.json", "c373_archimedes"))
def test_three_weighings_give_what_astm_defines(case: dict[str, Any]) -> None:
    dry, hung, soaked = (case["inputs"][f"{name}_g"] / 1000.0 for name in ("dry", "suspended", "saturated"))
    expected = case["expected"]
    assert absorption_pct(dry, soaked) == pytest.approx(expected["water_absorption_percent"], abs=1e-5)
    assert porosity_pct(dry, soaked, hung) == pytest.approx(expected["apparent_porosity_percent"], abs=1e-5)
    assert bulk_density_g_cm3(dry, soaked, hung) == pytest.approx(expected["bulk_density"], abs=1e-5)


def test_porosity_is_absorption_times_density() -> None:
    """P = A · B, the identity of ASTM C373."""
    product = absorption_pct(0.812, 0.921) * bulk_density_g_cm3(0.812, 0.921, 0.505)
    assert porosity_pct(0.812, 0.921, 0.505) == pytest.approx(product)


def test_the_interval_of_absorption_is_that_of_a_balance_that_shows_grams() -> None:
    """812 and 921 g, each to half a gram: u = 100/812 · 0.2887 · √(1 + (921/812)²) = 0.05375 %, times 1.96."""
    figure = piece_measures(_weighed("812 g", "921 g", None)).absorption_pct
    assert figure is not None
    assert figure.value == pytest.approx(13.42365, abs=1e-5)
    assert figure.low == pytest.approx(13.42365 - 1.959964 * 0.053756, abs=1e-4)
    assert figure.high == pytest.approx(13.42365 + 1.959964 * 0.053756, abs=1e-4)


def test_a_finer_balance_gives_a_narrower_interval() -> None:
    coarse, fine = (
        piece_measures(_weighed(*weights)).porosity_pct
        for weights in (("812 g", "921 g", "505 g"), ("812.0 g", "921.0 g", "505.0 g"))
    )
    assert coarse is not None and fine is not None
    assert coarse.value == fine.value
    assert coarse.high is not None and fine.high is not None and coarse.value is not None and fine.value is not None
    assert (coarse.high - coarse.value) / (fine.high - fine.value) == pytest.approx(10.0, rel=1e-3)


def test_without_the_weighing_in_water_absorption_stands_alone() -> None:
    found = piece_measures(_weighed("812 g", "921 g", None))
    assert found.absorption_pct is not None and found.absorption_pct.value is not None
    assert found.porosity_pct is not None and found.porosity_pct.value is None
    assert found.porosity_pct.remark == "It was not weighed hung in water."


@pytest.mark.parametrize(
    ("weights", "remark"),
    [
        (("921 g", "812 g", "505 g"), "The soaked piece weighs less than the dry one."),
        (("812 g", "921 g", "830 g"), "Hung in water it weighs no less than dry, so it has no volume."),
    ],
)
def test_weighings_that_contradict_one_another_give_no_porosity_and_say_why(
    weights: tuple[str, str, str], remark: str
) -> None:
    figure = piece_measures(_weighed(*weights)).porosity_pct
    assert figure is not None
    assert figure.value is None
    assert figure.remark == remark


def test_a_piece_that_nobody_measured_has_no_figures() -> None:
    found = piece_measures(Piece("jar", "sound"))
    assert found.absorption_pct is None
    assert found.shrinkage_pct is None
    assert found.swatch is None


@pytest.mark.parametrize(
    ("text", "kind", "expected"),
    [
        ("812 g", "mass", 0.0005),
        ("81.2 g", "mass", 0.00005),
        ("1,450 g", "mass", 0.0005),
        ("0,812 kg", "mass", 0.0005),
        ("2 lb 3 oz", "mass", 0.45359237 / 16 / 2),
        ("1/4 in", "length", 25.4 / 4 / 2),
        ("¼ in", "length", 25.4 / 4 / 2),
        ("about 93 mm", "length", 0.5),
        ("90 to 94 mm", "length", 2.0),
        ("14 °C", "temperature", 0.5),
        ("57 °F", "temperature", 5 / 18),
    ],
)
def test_a_quantity_is_known_to_half_its_last_step(text: str, kind: str, expected: float) -> None:
    """Half of what the last digit, the fraction or the smaller unit steps by: worked by hand."""
    found = parse_quantity(text, kind)
    assert isinstance(found, Quantity)
    assert half_width(found) == pytest.approx(expected)
