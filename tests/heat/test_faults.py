"""What a fault of the thermometer means for each figure is said beside it, and beside no other."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from builder.heat.faults import fault_words
from builder.heat.firing_heat import measure
from builder.readings.curve import Repair
from tests.heat.curves import HAND_LOG, HEAT, NARROW, curve, curves, firing

SPIKE = Repair("spike", "", 5.0, "1371.75", "wall", 1371.75)
STUCK = Repair("frozen", "", 4.0, "560", "wall", 560.0, 9.0)
DRAWN = Repair("pulled out", "", 11.0, "60", "wall", 60.0)
ALONE = Repair("lone", "", 8.0, "812", "wall", 812.0)
RESTLESS = Repair("restless", "", probe="wall")


@pytest.mark.parametrize(
    ("fault", "told", "untold"),
    [
        (SPIKE, {"peak_c"}, {"soak_min", "start_c"}),
        (STUCK, {"soak_min", "minutes_above_600_c", "equivalent_1h_c", "quartz_fall_c_per_min"}, {"peak_c"}),
        (DRAWN, {"cooling_rate_c_per_min", "minutes_above_600_c", "window_min"}, {"peak_c", "start_c"}),
        (ALONE, {"peak_c", "fastest_rise_c_per_min", "soak_min"}, {"minutes_above_600_c", "start_c"}),
        (RESTLESS, {"peak_c", "fastest_rise_c_per_min", "soak_min"}, {"start_c", "n_readings"}),
    ],
)
def test_a_fault_is_told_beside_the_figures_that_it_touches(fault: Repair, told: set[str], untold: set[str]) -> None:
    assert all(fault_words(name, [fault]) for name in told)
    assert not any(fault_words(name, [fault]) for name in untold)


def test_several_spikes_are_counted_and_two_faults_both_told() -> None:
    assert fault_words("peak_c", [SPIKE, SPIKE]) == "2 readings were left out as spikes."
    assert fault_words("soak_min", [STUCK, DRAWN]) == (
        "The probe did not move from 4.0 min to 9.0 min and may have stuck. "
        "The probe was probably drawn from the fire at 11.0 min: what follows is not the ware's."
    )


def test_a_lone_hottest_reading_carries_the_interval_down_to_the_others() -> None:
    """The hand log's second hottest reading is 790 °C."""
    doubted = replace(curves(curve(*HAND_LOG)), repairs=(ALONE,))
    peak, sound = (
        measure(firing(), one, NARROW, HEAT).ware_figures["peak_c"] for one in (doubted, curves(curve(*HAND_LOG)))
    )
    assert peak.low == 790.0
    assert sound.low is not None and sound.low > 800.0
    assert (peak.value, peak.high) == (sound.value, sound.high)


STOOD = curve(np.arange(16.0), [14, 300, *[560] * 9, 700, 812, 700, 610, 540])
STOOD_STILL = Repair("frozen", "", 2.0, "560", "wall", 560.0, 10.0)


@pytest.mark.parametrize(
    ("name", "less", "more"),
    [
        ("minutes_above_500_c", 8.0, 0.0),
        ("minutes_above_600_c", 0.0, 8.0),
        ("soak_min", 0.0, 8.0),
        ("window_min", 0.0, 8.0),
        ("over_min", 0.0, 8.0),
        ("peak_c", 0.0, 0.0),
        ("cooling_rate_c_per_min", 0.0, 0.0),
    ],
)
def test_the_minutes_in_which_a_probe_stuck_may_have_been_anything(name: str, less: float, more: float) -> None:
    """560 °C from minute 2 to 10: 8 minutes that may have been less of what is counted there, or more of the rest."""
    sound, doubted = (
        measure(firing(), replace(curves(STOOD), repairs=faults), NARROW, HEAT).ware_figures[name]
        for faults in ((), (STOOD_STILL,))
    )
    assert sound.low is not None and doubted.low is not None and sound.high is not None and doubted.high is not None
    assert doubted.low == pytest.approx(max(sound.low - less, 0.0))
    assert doubted.high == pytest.approx(min(sound.high + more, 15.0) if more else sound.high)
    assert doubted.value == sound.value


PULLED = curve(np.arange(8.0), [14, 300, 560, 700, 812, 700, 60, 40])
"""Drawn from the fire at 700 °C, after minute 5."""
PULLED_AT = Repair("pulled out", "", 6.0, "60", "wall", 60.0)


@pytest.mark.parametrize(
    ("name", "open_end"),
    [
        ("minutes_above_600_c", True),
        ("minutes_above_700_c", True),
        ("minutes_above_800_c", False),
        ("window_min", True),
        ("soak_min", False),
        ("over_min", False),
        ("over_c_min", False),
        ("equivalent_1h_c", True),
        ("peak_c", False),
    ],
)
def test_what_still_went_on_when_the_probe_was_drawn_has_no_upper_end(name: str, open_end: bool) -> None:
    """Worked by hand: at 700 °C it was in the window of 650 to 800 °C, past the soak above 762 °C and past 800 °C."""
    found = measure(firing(), replace(curves(PULLED), repairs=(PULLED_AT,)), NARROW, HEAT).ware_figures[name]
    assert (found.high is None, found.at_least) == (open_end, open_end)


@pytest.mark.parametrize("name", ["cooling_rate_c_per_min", "quartz_fall_c_per_min"])
def test_the_fall_of_a_drawn_probe_tells_at_most_how_fast_the_ware_cooled(name: str) -> None:
    found = measure(firing(), replace(curves(PULLED), repairs=(PULLED_AT,)), NARROW, HEAT).ware_figures[name]
    assert found.low == 0.0
    assert found.high is not None


def test_a_fault_of_one_probe_is_not_told_of_another() -> None:
    two = replace(curves(curve(*HAND_LOG), curve(*HAND_LOG, name="rim")), repairs=(replace(ALONE, probe="rim"),))
    wall, rim = measure(firing(), two, NARROW, HEAT).probes
    assert "stands on one reading" in rim.figures["peak_c"].remark
    assert "stands on one reading" not in wall.figures["peak_c"].remark
