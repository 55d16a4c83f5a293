"""What a probe's numbers become: the same fire in any unit, its errors, its notes, and what is refused."""

from __future__ import annotations

import re
from dataclasses import replace

import numpy as np
import pytest

from builder.base.quantity import Quantity, parse_quantity
from builder.checks.firing import CalibrationPoint, Probe
from builder.readings.calibration import UNKNOWN_SD_C
from builder.readings.instrument import temperatures
from builder.readings.spot import AIM_SD_C, effect_c
from builder.readings.thermocouple import emf_mv

FIRE_C = np.array([14.0, 210.0, 565.0, 812.0, 640.0])


def _quantity(text: str, kind: str) -> Quantity:
    found = parse_quantity(text, kind)
    assert isinstance(found, Quantity), found
    return found


THERMOCOUPLE = Probe(
    "wall", "thermocouple", type="K", tolerance="IEC 2", cold_junction=_quantity("24 °C", "temperature")
)
SPOT = Probe(
    "wall",
    "spot thermometer",
    emissivity_set=_quantity("0.95", "emissivity"),
    emissivity=_quantity("0.85 to 0.95", "emissivity"),
)


def test_the_same_fire_in_each_unit_gives_the_same_temperatures_and_the_same_calibration() -> None:
    volts = emf_mv(FIRE_C, "K") - emf_mv(24.0, "K")
    by_unit = [
        temperatures(THERMOCOUPLE, FIRE_C, "°C"),
        temperatures(THERMOCOUPLE, FIRE_C * 1.8 + 32.0, "°F"),
        temperatures(THERMOCOUPLE, volts, "mV"),
    ]
    for one in by_unit:
        assert one.celsius == pytest.approx(FIRE_C, abs=1e-6)
        assert one.common[0].up_c == pytest.approx(by_unit[0].common[0].up_c, abs=1e-6)


def test_a_class_gives_a_shared_rectangle_of_its_width_and_says_what_it_leaves_out() -> None:
    """Class 2 at 812 °C: 0.0075 × 812 = 6.09 °C; at 14 °C: 2.5 °C (worked by hand)."""
    found = temperatures(THERMOCOUPLE, FIRE_C, "°C")
    assert [error.name for error in found.common] == ["tolerance IEC 60584-1 class 2"]
    assert found.common[0].shape == "rectangular"
    assert found.common[0].up_c[[0, 3]] == pytest.approx([2.5, 6.09])
    assert any("new wire only" in note for note in found.notes)


def test_where_a_class_promises_nothing_the_archive_s_allowance_stands() -> None:
    """Class 1 of type K ends at 1000 °C (IEC 60584-1:2013)."""
    found = temperatures(replace(THERMOCOUPLE, tolerance="IEC 1"), np.array([900.0, 1100.0]), "°C")
    widths = {error.name: error.up_c.tolist() for error in found.common}
    assert widths == {"tolerance IEC 60584-1 class 1": [3.6, 0.0], "accuracy not recorded": [0.0, UNKNOWN_SD_C]}
    assert any("promises nothing" in note for note in found.notes)


def test_nothing_recorded_gets_the_allowance_and_a_sentence_that_says_so() -> None:
    found = temperatures(Probe("wall"), FIRE_C, "°C")
    assert [(error.shape, error.up_c.tolist()) for error in found.common] == [("normal", [UNKNOWN_SD_C] * 5)]
    assert "not a measurement" in found.notes[0]


def test_of_a_maker_s_degrees_and_share_the_larger_counts() -> None:
    probe = Probe("wall", accuracy=_quantity("3 °C", "temperature_step"), accuracy_share=_quantity("1 %", "share"))
    found = temperatures(probe, np.array([100.0, 800.0]), "°C")
    assert found.common[0].up_c.tolist() == [3.0, 8.0]


def test_the_step_of_the_display_is_worth_half_of_it_as_a_rectangle() -> None:
    """1 °C: 0.5/√3 = 0.2887; 1 °F: 0.1604; 0.1 °C: 0.02887 (closed form, JCGM 100:2008, F.2.2.1)."""
    assert temperatures(Probe("wall"), FIRE_C, "°C").own_sd_c == pytest.approx(0.288675, abs=1e-6)
    assert temperatures(Probe("wall"), FIRE_C, "°F").own_sd_c == pytest.approx(0.160375, abs=1e-6)
    fine = Probe("wall", resolution=_quantity("0.1 °C", "temperature_step"))
    assert temperatures(fine, FIRE_C, "°C").own_sd_c == pytest.approx(0.0288675, abs=1e-6)


def test_the_junction_s_own_error_is_shared_and_weighs_by_the_slopes() -> None:
    """Type S, 1 °C at terminals of 30 °C: S(30)/S(784) in degrees at the tip, from the reference function."""
    probe = Probe("wall", "thermocouple", type="S", cold_junction=_quantity("30 °C", "temperature"))
    found = temperatures(probe, np.array([7.0]), "mV")
    assert found.celsius == pytest.approx([784.1212], abs=6e-5)
    slopes = [float(emf_mv(at + 0.5, "S") - emf_mv(at - 0.5, "S")) for at in (30.0, 784.1212)]
    junction = next(error for error in found.common if "terminals" in error.name)
    assert junction.up_c == pytest.approx([slopes[0] / slopes[1]], rel=1e-4)


def test_millivolts_that_stand_for_no_temperature_are_refused_one_by_one_in_words() -> None:
    found = temperatures(THERMOCOUPLE, np.array([10.0, 60.0, np.nan]), "mV")
    assert [index for index, _ in found.refused] == [1]
    assert "60 mV is not what type K gives" in found.refused[0][1]
    assert np.isnan(found.celsius).tolist() == [False, True, True]
    assert np.isfinite(found.own_sd_c).all()
    assert all(np.isfinite(error.up_c).all() for error in found.common)


@pytest.mark.parametrize(
    ("probe", "words"),
    [
        (replace(THERMOCOUPLE, type=None), "letter of the type"),
        (replace(THERMOCOUPLE, cold_junction=None), "meter's terminals"),
    ],
)
def test_millivolts_without_type_or_junction_are_never_guessed_at(probe: Probe, words: str) -> None:
    found = temperatures(probe, np.array([10.0, 20.0]), "mV")
    assert np.isnan(found.celsius).all()
    assert all(words in why for _, why in found.refused)
    assert len(found.refused) == 2


def test_a_spot_thermometer_is_put_right_and_its_range_of_emissivity_is_lopsided() -> None:
    """812 °C at 0.95 for a ware of 0.90; the ends by the same balance at 0.95 (812 °C itself) and at 0.85."""
    found = temperatures(SPOT, np.array([812.0]), "°C")
    emissivity = next(error for error in found.common if error.name == "emissivity 0.85 to 0.95")
    assert found.celsius - emissivity.down_c == pytest.approx([812.0], abs=1e-6)
    assert emissivity.up_c[0] > emissivity.down_c[0] > 30.0


def test_errors_of_what_was_shown_grow_with_the_correction() -> None:
    """The gain is the slope of the ware's temperature over the one shown, here taken by difference."""
    probe = replace(SPOT, accuracy=_quantity("10 °C", "temperature_step"))
    found = temperatures(probe, np.array([799.5, 800.0, 800.5]), "°C")
    gain = found.celsius[2] - found.celsius[0]
    assert found.common[0].up_c[1] == pytest.approx(10.0 * gain, rel=1e-5)
    assert found.own_sd_c[1] == pytest.approx(np.hypot(0.5 / np.sqrt(3.0), AIM_SD_C) * gain, rel=1e-5)


def test_an_emissivity_written_as_one_number_is_taken_as_known_to_a_twentieth() -> None:
    found = temperatures(replace(SPOT, emissivity=_quantity("0.98", "emissivity")), np.array([600.0]), "°C")
    assert [error.name for error in found.common] == ["accuracy not recorded", "emissivity 0.93 to 1.00"]


def test_a_reading_that_the_surroundings_outshine_is_refused_in_words() -> None:
    """300 °C read at 0.95, ware 0.60, surroundings at 900 °C: no solution (check value infrared)."""
    probe = replace(
        SPOT,
        emissivity=_quantity("0.60", "emissivity"),
        background=_quantity("900 °C", "temperature"),
    )
    found = temperatures(probe, np.array([300.0, 1000.0]), "°C")
    assert [index for index, _ in found.refused] == [0]
    assert "surroundings of 900 °C alone would show more" in found.refused[0][1]
    assert np.isnan(found.celsius).tolist() == [True, False]


def test_an_unknown_emissivity_leaves_the_reading_and_says_what_it_may_cost() -> None:
    """An emissivity lower by 0.05 is 31.71 °C more at 800 °C: check value, 831.713 °C."""
    found = temperatures(replace(SPOT, emissivity=None), np.array([800.0]), "°C")
    assert found.celsius.tolist() == [800.0]
    assert effect_c(800.0) == pytest.approx(31.713, abs=1e-3)
    assert any("0.75 to 0.95" in note and "32 °C more" in note for note in found.notes)


def test_a_maker_s_accuracy_does_not_hide_an_unknown_emissivity() -> None:
    probe = Probe("wall", "spot thermometer", accuracy=_quantity("2 °C", "temperature_step"))
    found = temperatures(probe, FIRE_C, "°C")
    assert [error.name for error in found.common] == ["the maker's accuracy", "emissivity 0.75 to 0.95, not recorded"]
    assert found.celsius.tolist() == FIRE_C.tolist()


def test_an_unknown_emissivity_is_worth_all_that_handbooks_give_for_such_ware() -> None:
    """600 °C read at 0.95 is 706.93 °C at 0.75 (check value infrared), and 600 °C itself at 0.95."""
    found = temperatures(replace(SPOT, emissivity=None), np.array([600.0]), "°C")
    emissivity = next(error for error in found.common if error.name.startswith("emissivity"))
    assert emissivity.up_c == pytest.approx([106.93], abs=0.01)
    assert emissivity.down_c == pytest.approx([0.0], abs=1e-6)
    assert any("up to 107 °C more" in note for note in found.notes)


def test_what_a_wrong_emissivity_would_do_is_said_in_degrees() -> None:
    """600 °C read at 0.95 is 647.80 °C at 0.85 (check value infrared); at 0.90 it lies between."""
    note = next(one for one in temperatures(SPOT, np.array([600.0]), "°C").notes if "Planck" in one)
    shown, more = (float(found) for found in re.findall(r"stands for (\d+) °C.* (\d+) °C more", note)[0])
    assert shown + more == pytest.approx(647.8, abs=1.0)
    assert f"{shown - 600:.0f} °C less" in note


def _checked_at(*pairs: tuple[str, str]) -> tuple[CalibrationPoint, ...]:
    return tuple(CalibrationPoint(*(_quantity(words, "temperature") for words in pair)) for pair in pairs)


def test_a_calibration_puts_every_reading_right_and_takes_the_class_s_place_between_its_points() -> None:
    """2 °C too high in ice, 4 °C too high at 202 °C: −3 °C half-way; at 402 °C the line drawn on says −6 °C."""
    probe = replace(THERMOCOUPLE, calibrated=_checked_at(("2 °C", "0 °C"), ("202 °C", "198 °C")))
    found = temperatures(probe, np.array([102.0, 402.0]), "°C")
    assert found.celsius == pytest.approx([99.0, 396.0])
    widths = {error.name: error.up_c.tolist() for error in found.common}
    assert widths["tolerance IEC 60584-1 class 2"] == pytest.approx([0.0, 0.0075 * 402.0])
    assert any("straight line" in note for note in found.notes)


def test_a_single_point_is_an_offset_beside_which_the_class_stays() -> None:
    probe = replace(THERMOCOUPLE, calibrated=_checked_at(("101.4 °C", "100 °C")))
    found = temperatures(probe, FIRE_C, "°C")
    assert found.celsius == pytest.approx(FIRE_C - 1.4)
    assert [error.name for error in found.common] == ["tolerance IEC 60584-1 class 2", "height of the calibration"]
    assert any("−1.4 °C for every reading" in note for note in found.notes)


def test_a_probe_at_its_limit_is_judged_by_what_it_showed_and_not_by_what_was_put_right() -> None:
    probe = Probe("wall", limit=_quantity("812 °C", "temperature"), calibrated=_checked_at(("110 °C", "100 °C")))
    assert temperatures(probe, FIRE_C, "°C").at_least


@pytest.mark.parametrize(("limit", "topped"), [("812 °C", True), ("1100 °C", False), ("813 °C", False)])
def test_a_reading_at_the_limit_makes_the_fire_at_least_so_hot(limit: str, topped: bool) -> None:
    found = temperatures(replace(SPOT, limit=_quantity(limit, "temperature")), FIRE_C, "°C")
    assert found.at_least is topped
    assert any("at least so hot" in note for note in found.notes) is topped


def test_the_habit_of_type_k_is_named_only_where_it_matters() -> None:
    """Short-range ordering between 250 and 550 °C: a maker's technical note (instrument-001 to -003)."""
    slow = temperatures(THERMOCOUPLE, np.array([20.0, 400.0]), "°C")
    hot = temperatures(THERMOCOUPLE, np.array([20.0, 700.0]), "°C")
    other = temperatures(replace(THERMOCOUPLE, type="N"), np.array([20.0, 400.0]), "°C")
    assert [any("short-range ordering" in note for note in one.notes) for one in (slow, hot, other)] == [
        True,
        False,
        False,
    ]


def test_the_lag_of_the_tip_is_named_for_thermocouples_alone() -> None:
    """A steady rise lags by rate × time constant: 60 °C/min for 1 s is 1 °C (the law of instrument-004)."""
    assert any("time constant is 1 °C" in note for note in temperatures(THERMOCOUPLE, FIRE_C, "°C").notes)
    assert not any("time constant" in note for note in temperatures(SPOT, FIRE_C, "°C").notes)
