"""What the air and the wood come to, from what an entry recorded, and what is said where it recorded nothing."""

from __future__ import annotations

import pytest

from builder.checks.firing import Piece
from builder.fire.circumstances import fire_circumstances
from tests.fire.firings import firing, weighed


def test_recorded_air_gives_moisture_dew_point_deficit_and_index() -> None:
    """25 °C and 50 %: dew point 13.8576 °C, deficit 1.58087 kPa (Alduchov and Eskridge 1996, evaluated)."""
    found = fire_circumstances(firing(weather__air="25 °C", weather__humidity="50 %", weather__wind="8 km/h"))
    assert found.dew_point_c.value == pytest.approx(13.8576, abs=1e-4)
    assert found.vpd_kpa.value == pytest.approx(1.58087, abs=1e-5)
    assert found.emc_pct.value is not None and found.fosberg.value is not None
    assert found.fosberg.remark == "It only ever adds a reason to stop."


def test_figures_of_the_air_carry_what_its_writing_is_worth() -> None:
    """± 0.5 °C and ± 0.5 %, u = 0.2887 each; slopes by differentiating the formula: 0.9186 and 0.3081."""
    figure = fire_circumstances(firing(weather__air="25 °C", weather__humidity="50 %")).dew_point_c
    assert figure.value is not None and figure.low is not None and figure.high is not None
    assert (figure.high - figure.low) / 2.0 == pytest.approx(
        1.959964 * 0.288675 * (0.91858**2 + 0.30814**2) ** 0.5, rel=1e-3
    )


def test_what_is_missing_is_named_and_never_guessed() -> None:
    found = fire_circumstances(firing(weather__air="25 °C"))
    assert found.dew_point_c.value is None
    assert found.dew_point_c.remark == "Not recorded: humidity."
    assert found.fosberg.remark == "Not recorded: humidity and wind."
    assert fire_circumstances(firing()).fosberg.remark == "Not recorded: temperature of the air, humidity and wind."


def test_air_without_vapour_has_no_dew_point() -> None:
    found = fire_circumstances(firing(weather__air="25 °C", weather__humidity="0 %"))
    assert found.dew_point_c.value is None
    assert found.vpd_kpa.value is not None


def test_the_heat_in_the_wood_spans_what_woods_differ_by() -> None:
    """14 kg, 14 % of dry mass: w = 0.122807; 14 (18.17 · 0.877193 − 2.443 · 0.122807) = 218.94 MJ (worked by hand)."""
    figure = fire_circumstances(firing(fuel__mass="14 kg", fuel__moisture="14 %")).net_heat_mj
    assert figure.value == pytest.approx(218.94, abs=0.01)
    assert figure.low is not None and figure.high is not None
    # The woods' ± 1.5 MJ/kg as a rectangle alone gives 14 · 0.877193 · 1.5/√3 · 1.96 = 20.8 MJ either way.
    assert (figure.high - figure.low) / 2.0 > 20.8


def test_the_heat_in_wood_of_unknown_moisture_is_not_worked_out() -> None:
    figure = fire_circumstances(firing(fuel__mass="14 kg")).net_heat_mj
    assert figure.value is None
    assert figure.remark == "Not recorded: moisture of the wood."


def test_wood_for_a_kilogram_of_ware_counts_every_piece() -> None:
    """14 kg for 0.8 + 4 · 0.3 = 2 kg of ware: 7 (worked by hand)."""
    pieces = (weighed("800 g", "900 g"), weighed("300 g", "340 g", count=4))
    assert fire_circumstances(firing(pieces, fuel__mass="14 kg")).wood_per_ware.value == pytest.approx(7.0)


def test_wood_for_ware_that_was_not_all_weighed_is_not_worked_out() -> None:
    pieces = (weighed("800 g", "900 g"), Piece("bowl", "sound"))
    figure = fire_circumstances(firing(pieces, fuel__mass="14 kg")).wood_per_ware
    assert figure.value is None
    assert figure.remark == "Not every piece was weighed dry."
