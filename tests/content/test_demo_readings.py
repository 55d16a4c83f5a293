"""The demo's readings read as a potter would expect: quick fires in the open, slow ones in the kiln, oddities told."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pytest

from builder.checks.check import check_entry
from builder.checks.firing import Firing
from builder.entries.find import find_entries
from builder.readings.curve import FiringCurves
from builder.readings.read import read_curves
from builder.settings_file import load_settings

PROJECT = Path(__file__).resolve().parents[2]


@pytest.fixture(scope="module")
def read() -> dict[str, tuple[Firing, FiringCurves]]:
    settings, _ = load_settings(PROJECT)
    assert settings is not None
    told: dict[str, tuple[Firing, FiringCurves]] = {}
    for entry in find_entries(PROJECT)[0]:
        firing = check_entry(entry, settings).firing
        assert firing is not None
        curves, problems = read_curves(firing, entry.folder)
        assert problems == ()
        told[firing.slug] = (firing, curves)
    return told


def repairs(read: dict[str, tuple[Firing, FiringCurves]], slug: str) -> set[str]:
    return {repair.kind for repair in read[slug][1].repairs}


def test_every_probe_that_an_entry_names_gives_a_curve(read: dict[str, tuple[Firing, FiringCurves]]) -> None:
    for firing, curves in read.values():
        named = len(firing.readings.probes) if firing.readings else 0
        assert len(curves.curves) == named, firing.slug


def test_a_fire_in_the_open_tops_out_within_fifteen_minutes_and_rises_as_fast_as_such_fires_do(
    read: dict[str, tuple[Firing, FiringCurves]],
) -> None:
    """Top within 15 minutes, mean rise 40 to 150 °C/min: common practice for small open fires, no source."""
    ware = [curves.ware_curve for firing, curves in read.values() if firing.method == "open-fire"]
    shown = [curve for curve in ware if curve is not None]
    assert len(shown) > 20
    for curve in shown:
        top = int(np.argmax(curve.celsius))
        assert 5 < curve.minutes[top] < 15
        assert 40 < (curve.celsius[top] - curve.celsius[0]) / curve.minutes[top] < 150


def test_the_kiln_takes_hours_where_the_trench_takes_half_an_hour(
    read: dict[str, tuple[Firing, FiringCurves]],
) -> None:
    def times_to_top(method: str) -> list[float]:
        ware = [curves.ware_curve for firing, curves in read.values() if firing.method == method]
        return [float(curve.minutes[int(np.argmax(curve.celsius))]) for curve in ware if curve is not None]

    assert min(times_to_top("built-kiln")) > 100
    assert 20 < min(times_to_top("trench")) <= max(times_to_top("trench")) < 60


def test_twelve_minutes_read_once_a_minute_by_hand_are_read_without_a_word_of_complaint(
    read: dict[str, tuple[Firing, FiringCurves]],
) -> None:
    _, curves = read["2024-05-25-pale-jar-second"]
    assert curves.repairs == ()
    assert curves.ware_curve is not None
    assert curves.ware_curve.minutes.tolist() == list(range(13))


def test_what_the_loggers_got_wrong_is_told(read: dict[str, tuple[Firing, FiringCurves]]) -> None:
    assert "spike" in repairs(read, "2025-09-13-four-for-four")
    assert {"blank", "not a number"} <= repairs(read, "2025-07-05-ten-tiles-in-the-kiln")
    assert "topped out" in repairs(read, "2025-03-29-kiln-second-firing")
    kiln = read["2025-03-29-kiln-second-firing"][1].ware_curve
    assert kiln is not None
    assert kiln.at_least


def test_the_spike_is_not_taken_for_the_peak(read: dict[str, tuple[Firing, FiringCurves]]) -> None:
    """The bowl stood at about 744 °C at its hottest; the spike in its file says 1371.75."""
    curve = read["2025-09-13-four-for-four"][1].ware_curve
    assert curve is not None
    assert 730 < curve.celsius.max() < 760


def test_millivolts_become_degrees_with_the_terminals_counted_in(
    read: dict[str, tuple[Firing, FiringCurves]],
) -> None:
    """32.73 mV is the highest; with terminals at 22 °C thermocouple-its90 1.0.2 gives type K 808.1414 °C."""
    curve = read["2025-04-26-three-bowls-in-millivolts"][1].ware_curve
    assert curve is not None
    assert curve.celsius.max() == pytest.approx(808.1414, abs=0.001)


def test_a_spot_thermometer_set_for_a_blacker_body_is_put_right_upward(
    read: dict[str, tuple[Firing, FiringCurves]],
) -> None:
    """The entry says so in words: read 632 °C, really some twenty-five degrees warmer."""
    curve = read["2026-04-11-three-dishes"][1].ware_curve
    assert curve is not None
    top = int(np.argmax(curve.celsius))
    assert "632" in curve.as_read[top]
    assert curve.celsius[top] - 632 == pytest.approx(25, abs=3)
