"""Which firings tell about a window, what they tell, and whether minutes tell more than the peak."""

from __future__ import annotations

from dataclasses import replace

import pytest

from builder.archive.archive import Record, gather
from builder.archive.findings import find_out
from builder.archive.soaking import soaking
from builder.archive.window import Finding
from builder.archive.windows import looked_for, outcome_count, told_by, windows_by_method, windows_by_ware
from builder.heat.figures import Figure, FiringHeat, ProbeHeat
from tests.simulation.archive_maker import SETTINGS, Truth, make_records

RECORDS = make_records(Truth(forgotten=0.0), 60, 3)


def _heated(record: Record, **figures: Figure) -> Record:
    return replace(record, heat=FiringHeat((ProbeHeat("wall", figures),), 0))


def _peak(record: Record) -> float:
    return record.heat.ware_figures["peak_c"].value or 0.0


def test_a_method_whose_carbon_is_to_stay_black_has_no_window_to_look_for() -> None:
    method = SETTINGS.methods["first"]
    assert looked_for(method)
    assert not looked_for(replace(method, success={"carbon": ("black",), "paint": ("held",)}))
    assert not looked_for(replace(method, success={"carbon": ("cleared",)}))


def test_a_peak_known_only_as_at_least_tells_nothing() -> None:
    assert told_by(_heated(RECORDS[0], peak_c=Figure(800.0, at_least=True))) is None
    assert told_by(_heated(RECORDS[0], peak_c=Figure(None))) is None
    assert told_by(_heated(RECORDS[0])) is None


def test_the_uncertainty_of_a_peak_is_its_interval_over_twice_1_96() -> None:
    """Worked by hand: 39.19928 °C wide is a standard uncertainty of 10 °C; unknown counts as 15 °C."""
    told = told_by(_heated(RECORDS[0], peak_c=Figure(800.0, 780.0, 819.19928)))
    assert told is not None
    assert told.peak_sd_c == pytest.approx(10.0)
    bare = told_by(_heated(RECORDS[0], peak_c=Figure(800.0)))
    assert bare is not None
    assert bare.peak_sd_c == 15.0


def test_an_outcome_that_nobody_recorded_is_not_counted_as_none() -> None:
    gappy = make_records(Truth(forgotten=1.0), 1, 1)[0]
    assert outcome_count(gappy, "carbon") is None
    assert outcome_count(gappy, "survival") is not None


def test_methods_and_wares_each_have_their_own_window() -> None:
    named = [
        replace(record, firing=replace(record.firing, ware="Pale jar" if record.number % 2 else "pale jar"))
        for record in RECORDS
    ]
    archive = gather(named, SETTINGS)
    assert windows_by_method(archive, SETTINGS)["first"].finding is Finding.WINDOW
    assert list(windows_by_ware(archive, SETTINGS)) == ["Pale jar"]


def test_minutes_that_only_repeat_the_peak_explain_no_more() -> None:
    """Minutes made as a straight line of the peak, with the same relative error: the same fit in other units."""
    told = [
        _heated(
            record,
            peak_c=Figure(_peak(record), _peak(record) - 20, _peak(record) + 20),
            minutes_above_600_c=Figure(_peak(record) / 10, _peak(record) / 10 - 2, _peak(record) / 10 + 2),
        )
        for record in RECORDS
    ]
    found = soaking(told, (600.0,), 0.5)
    assert found is not None
    assert found.log_gain == pytest.approx(0.0, abs=1e-6)
    assert not found.explains_more
    assert not found.explains_less


def test_minutes_that_decided_the_outcomes_explain_more_than_a_peak_that_did_not() -> None:
    """Peaks dealt out anew, without any tie to the outcomes; the minutes carry what the peak really was."""
    peaks = [_peak(record) for record in RECORDS]
    told = [
        _heated(
            record,
            peak_c=Figure(dealt, dealt - 20, dealt + 20),
            minutes_above_600_c=Figure(_peak(record) / 10, _peak(record) / 10 - 2, _peak(record) / 10 + 2),
        )
        for record, dealt in zip(RECORDS, [*peaks[7:], *peaks[:7]], strict=True)
    ]
    found = soaking(told, (600.0, 9000.0), 0.5)
    assert found is not None
    assert found.explains_more
    assert found.level_c == 600.0
    assert found.window.finding is Finding.WINDOW


def test_without_minutes_there_is_nothing_to_compare() -> None:
    assert soaking(RECORDS, (600.0,), 0.5) is None
    assert soaking([], (600.0,), 0.5) is None


def test_everything_is_found_out_of_an_empty_archive_too() -> None:
    found = find_out(gather([], SETTINGS), SETTINGS)
    assert (found.windows, found.tried, found.next_condition) == ({}, (), None)
