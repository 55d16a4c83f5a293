"""Readings become curves that count from lighting, and every repair is told."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pytest

from builder.base.quantity import Quantity, parse_quantity
from builder.checks.firing import Probe, RawReadings
from builder.readings.curve import NO_CURVES, FiringCurves
from builder.readings.read import read_curves
from tests.readings.entries import file_of, firing_of, minutes, rows_of

REAL = Path(__file__).parent / "real"
TWENTY = Quantity("20 °C", "temperature", 20.0, "°C", 20.0, 20.0, 20.0)
FIVE = tuple(Probe(f"probe {number}", column=str(number + 2), unit="°C") for number in range(1, 6))


def curves(raw: RawReadings, folder: Path = REAL) -> FiringCurves:
    read, problems = read_curves(firing_of(raw), folder)
    assert problems == ()
    return read


def kinds(read: FiringCurves) -> list[str]:
    return [repair.kind for repair in read.repairs]


# The real logs; peaks are counted out of the files, see real/README.md


@pytest.mark.parametrize("time", [None, "clock", "elapsed"])
def test_the_real_fire_is_read_as_it_stands(time: str | None) -> None:
    read = curves(file_of("logger-1-fire.txt", FIVE, time))
    assert [curve.celsius.max() for curve in read.curves] == [343.75, 344.75, 274.5, 537.75, 279.5]
    assert [curve.minutes.size for curve in read.curves] == [601] * 5
    assert all(np.all(np.diff(curve.minutes) > 0) for curve in read.curves)
    assert kinds(read) == ["half seconds"]


def test_the_half_seconds_of_the_real_fire_are_half_seconds() -> None:
    """The log takes two readings a second; read as tenths they would stand 0.1 and 0.9 s apart."""
    steps_s = np.diff(curves(file_of("logger-1-fire.txt", FIVE)).curves[0].minutes) * 60
    assert set(np.round(steps_s, 6)) == {0.5, 1.0}


def test_open_circuits_are_dropped_and_each_is_told() -> None:
    read = curves(file_of("logger-1-spikes.txt", FIVE))
    spikes = [repair for repair in read.repairs if repair.kind == "spike"]
    assert [spike.as_read for spike in spikes] == ["556.25", "125.75", "1298.25"]
    assert all("probe 5" in spike.words and spike.minute is not None for spike in spikes)
    assert [curve.minutes.size for curve in read.curves] == [400, 400, 400, 400, 396]
    assert read.curves[4].celsius.max() < 27
    (missing,) = [repair for repair in read.repairs if repair.kind == "not a number"]
    assert missing.words == "1 of 400 readings of probe 5 is no number (`nan`)."


def test_a_probe_that_was_never_connected_has_a_note_and_no_curve() -> None:
    read = curves(file_of("logger-2-nan-column.txt", FIVE))
    assert [curve.probe.name for curve in read.curves] == ["probe 1", "probe 2", "probe 3", "probe 4"]
    assert "401 of 401 readings of probe 5 are no number (`nan`)." in [repair.words for repair in read.repairs]
    assert kinds(read)[-1] == "no readings"


def test_the_ware_is_the_probe_that_the_entry_names() -> None:
    raw = file_of("logger-2-nan-column.txt", FIVE)
    assert curves(raw).ware == 0
    third = RawReadings(raw.time, None, raw.probes, "probe 3", file=raw.file)
    assert curves(third).ware == 2
    unconnected = RawReadings(raw.time, None, raw.probes, "probe 5", file=raw.file)
    assert curves(unconnected).ware is None


# Lighting


def test_time_counts_from_the_row_marked_lit() -> None:
    read = curves(rows_of(["0:00 20 °C warm-up", "45:00 160 °C lit", "49:30 565 °C", "57:00 640 °C raked open"]))
    assert read.curves[0].minutes.tolist() == [0, 4.5, 12]
    assert read.curves[0].celsius.tolist() == [160, 565, 640]
    assert kinds(read) == ["before lighting"]
    assert read.repairs[0].words.startswith("One row from before lighting (−45.0 min on)")
    assert [(event.minute, event.words) for event in read.events] == [
        (-45, "warm-up"), (0, "lit"), (12, "raked open"),
    ]  # fmt: skip


def test_time_counts_from_the_moment_the_entry_names() -> None:
    read = curves(rows_of(["10:40 14 °C", "10:43 60 °C", "10:52 800 °C"], time="clock", lit=minutes(642, "10:42")))
    assert read.curves[0].minutes.tolist() == [1, 10]
    read = curves(rows_of(["0:00 14 °C", "3:00 60 °C"], lit=minutes(2, "2:00")))
    assert read.curves[0].minutes.tolist() == [1]


def test_the_moment_the_entry_names_comes_before_a_row_that_speaks_of_another_fire() -> None:
    read = curves(rows_of(["0:00 14 °C warm-up lit", "45:00 160 °C", "57:00 640 °C"], lit=minutes(45, "45:00")))
    assert read.curves[0].minutes.tolist() == [0, 12]


def test_time_counts_from_the_first_row_where_nothing_is_said() -> None:
    read = curves(rows_of(["10:42 14 °C", "10:52 800 °C"], time="clock"))
    assert read.curves[0].minutes.tolist() == [0, 10]
    assert read.repairs == ()


def test_lighting_and_log_may_lie_on_two_sides_of_midnight() -> None:
    """Lit 23:50, logged from 0:10: twenty minutes later. Logged from 23:50, lit 0:05: a quarter of an hour before."""
    lit_before = rows_of(["0:10 14 °C", "0:30 640 °C"], time="clock", lit=minutes(1430, "23:50"))
    assert curves(lit_before).curves[0].minutes.tolist() == [20, 40]
    lit_after = rows_of(["23:50 14 °C", "0:30 640 °C"], time="clock", lit=minutes(5, "0:05"))
    assert curves(lit_after).curves[0].minutes.tolist() == [25]


def test_a_lighting_after_the_last_reading_is_a_problem() -> None:
    read, problems = read_curves(firing_of(rows_of(["0:00 14 °C", "9:00 640 °C"], lit=minutes(30, "30:00"))), REAL)
    assert read is NO_CURVES
    assert [problem.code for problem in problems] == ["reading-lit"]
    assert "`30:00`" in problems[0].message


# Repairs


def test_a_twelve_minute_fire_by_hand_needs_no_repair() -> None:
    rows = ["0:00 14 °C lit", "2:00 210 °C", "4:30 565 °C flames over the rim", "9:10 812 °C", "12:00 640 °C raked"]
    read = curves(rows_of(rows))
    assert read.repairs == ()
    (curve,) = read.curves
    assert curve.minutes == pytest.approx([0, 2, 4.5, 9 + 1 / 6, 12])
    assert curve.as_read == ("14 °C", "210 °C", "565 °C", "812 °C", "640 °C")
    assert curve.remarks == ("lit", "", "flames over the rim", "", "raked")
    assert (curve.unit, curve.at_least) == ("°C", False)


def test_rows_out_of_order_are_put_in_order_and_told() -> None:
    read = curves(rows_of(["0:00 14 °C", "4:00 400 °C", "2:00 200 °C", "6:00 600 °C"]))
    assert read.curves[0].celsius.tolist() == [14, 200, 400, 600]
    assert kinds(read) == ["out of order"]


def test_two_readings_of_one_moment_become_their_mean_and_are_told() -> None:
    read = curves(rows_of(["0:00 14 °C", "4:00 400 °C", "4:00 420 °C", "6:00 600 °C", "6:00 600 °C"]))
    assert read.curves[0].celsius.tolist() == [14, 410, 600]
    assert read.curves[0].as_read == ("14 °C", "400 °C / 420 °C", "600 °C")
    assert kinds(read) == ["doubled time"]
    assert "2 moments" in read.repairs[0].words and "1 of them differ" in read.repairs[0].words


def test_fahrenheit_becomes_celsius_and_is_kept_as_written() -> None:
    """(1450 − 32) · 5/9 = 787.78 °C, worked by hand."""
    (curve,) = curves(rows_of(["0:00 57 °F", "9:00 1,450 °F"])).curves
    assert curve.celsius == pytest.approx([13.8889, 787.7778], abs=1e-4)
    assert (curve.unit, curve.as_read) == ("°F", ("57 °F", "1,450 °F"))


def test_each_probe_keeps_its_own_moments() -> None:
    rows = ["0:00 14 °C 15 °C", "2:00 - 300 °C", "4:00 500 °C -"]
    read = curves(rows_of(rows, (Probe("rim"), Probe("foot"))))
    assert [curve.minutes.tolist() for curve in read.curves] == [[0, 4], [0, 2]]


def test_a_probe_at_its_limit_is_told_and_its_peak_is_at_least_so_high() -> None:
    limit = parse_quantity("1000 °C", "temperature")
    assert isinstance(limit, Quantity)
    read = curves(rows_of(["0:00 14 °C", "4:00 1000 °C", "5:00 900 °C"], (Probe("wall", limit=limit),)))
    assert read.curves[0].at_least
    assert kinds(read) == ["topped out"]


def test_a_highest_value_that_repeats_without_a_known_limit_is_doubted() -> None:
    rows = ["0:00 14 °C", *(f"{minute}:00 999 °C" for minute in range(4, 9)), "9:00 900 °C"]
    read = curves(rows_of(rows))
    assert read.curves[0].at_least
    assert kinds(read) == ["topped out"]


def test_refused_readings_are_told_one_by_one_or_counted_where_they_are_many() -> None:
    """Millivolts without the letter of the thermocouple's type stand for no temperature."""
    few, _ = read_curves(firing_of(rows_of([f"{minute}:00 {minute}.5 mV" for minute in range(2)])), REAL)
    assert kinds(few) == ["refused", "refused", "no readings"]
    many, _ = read_curves(firing_of(rows_of([f"{minute}:00 {minute}.5 mV" for minute in range(9)])), REAL)
    assert kinds(many) == ["refused", "no readings"]
    assert "9 readings" in many.repairs[0].words


@pytest.mark.parametrize(
    ("probe", "cell", "help_"),
    [
        (Probe("wall"), "3.5 mV", "`type: K`"),
        (Probe("wall", type="K"), "3.5 mV", "`cold_junction: 20 °C`"),
        (Probe("wall", type="K", cold_junction=TWENTY), "99.5 mV", "`type`"),
    ],
)
def test_refused_readings_are_a_warning_with_a_way_out(probe: Probe, cell: str, help_: str) -> None:
    _, problems = read_curves(firing_of(rows_of([f"0:00 {cell}", f"1:00 {cell}"], [probe])), REAL)
    assert [(found.code, found.field) for found in problems] == [("reading-refused", "readings.probes[1]")]
    assert help_ in problems[0].help


def test_doubts_keep_the_readings() -> None:
    rows = ["0:00 14 °C", "1:00 400 °C", "2:00 800 °C", "3:00 820 °C", "4:00 60 °C", "20:00 30 °C"]
    read = curves(rows_of(rows))
    assert kinds(read) == ["pulled out", "gap"]
    assert read.curves[0].minutes.size == 6


def test_no_readings_at_all_is_no_fault() -> None:
    assert read_curves(firing_of(None), REAL) == (NO_CURVES, ())


def test_a_file_that_is_not_there_is_a_problem_of_the_entry() -> None:
    read, problems = read_curves(firing_of(file_of("lost.csv", FIVE)), REAL)
    assert read is NO_CURVES
    assert [problem.code for problem in problems] == ["reading-file"]
    assert "`lost.csv`" in problems[0].message


def test_a_fault_inside_the_file_is_placed_in_the_file(tmp_path: Path) -> None:
    (tmp_path / "log.csv").write_text("n,temp\n1,14\n2,15\n")
    _, problems = read_curves(firing_of(file_of("log.csv", [Probe("wall", unit="°C")], "elapsed")), tmp_path)
    assert [problem.code for problem in problems] == ["reading-time"]
    assert problems[0].place.file == "content/firings/2026-05-02-jar/log.csv"
    assert problems[0].place.line == 2


def test_rows_without_any_temperature_are_a_problem() -> None:
    _, problems = read_curves(firing_of(rows_of(["0:00 lit", "5:00 wind rose"])), REAL)
    assert [problem.code for problem in problems] == ["reading-none"]


def test_the_same_readings_give_the_same_curves() -> None:
    first, second = (curves(file_of("logger-1-spikes.txt", FIVE)) for _ in range(2))
    assert first.repairs == second.repairs
    for one, other in zip(first.curves, second.curves, strict=True):
        assert np.array_equal(one.celsius, other.celsius)
        assert np.array_equal(one.minutes, other.minutes)
