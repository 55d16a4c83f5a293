"""The readings' own fields against one another: where they are, how their times count, which probe is which."""

from __future__ import annotations

import re

from builder.base.quantity import Quantity, parse_quantity
from builder.checks.calibrations import check_calibration
from builder.checks.fault import Fault, either, shown
from builder.checks.found import Group
from builder.checks.review import Review

_COLON_TIME = re.compile(r"\s*[0-9]{1,3}:[0-9]{2}(?![0-9])")
_CLOCK = re.compile(r"([01]?[0-9]|2[0-3]):([0-5][0-9])(?::([0-5][0-9]))?\Z")
_ELAPSED = re.compile(r"(?:([0-9]{1,3}):)?([0-9]{1,3}):([0-5][0-9])\Z")
OF_ANOTHER = {
    "thermocouple": ("emissivity_set", "emissivity", "background"),
    "spot thermometer": ("type", "tolerance", "cold_junction"),
    "other": (),
}
"""For each instrument, the fields that belong to another."""


def check_readings(entry: Group, review: Review) -> None:
    """Check what the fields of `readings` say together."""
    readings = entry.inside("readings")
    if readings is None:
        return
    _check_source(readings, review)
    _check_time(readings, review)
    _check_probe_names(readings, review)
    _check_columns(readings, review)
    for probe in readings.items("probes"):
        _check_probe(probe, review)
        check_calibration(probe, review)


def _check_source(readings: Group, review: Review) -> None:
    rows, file = "rows" in readings.seen, "file" in readings.seen
    if rows and file:
        fault = Fault(
            "rows-and-file", "The readings stand here as `rows` and also in a `file`.", "Keep one of the two."
        )
        review.report(fault, readings.at("rows"), readings.path_of("rows"))
    if not rows and not file:
        message = "`readings` holds no readings."
        help_ = "Add `rows: |` with a reading a line, or `file: log.csv`; or take `readings` away."
        review.report(Fault("readings-missing", message, help_), readings.place, readings.path)


def _check_time(readings: Group, review: Review) -> None:
    rows = readings.rows("rows")
    if rows is None or "time" in readings.seen:
        return
    for line, text in rows.rows:
        time = _COLON_TIME.match(text)
        if time:
            written = time.group().strip()
            message = f"{shown(written)} in line {line} can be a time from the start or a time of day."
            help_ = "Under `readings` write `time: elapsed` if times count from a start, `time: clock` if of the day."
            review.report(Fault("time-kind", message, help_), readings.place, readings.path_of("time"))
            return


def _check_probe_names(readings: Group, review: Review) -> None:
    names: dict[str, str] = {}
    for probe in readings.items("probes"):
        name = probe.text("name")
        if name is None:
            continue
        if name.casefold() in names:
            fault = Fault("probe-twice", f"Two probes are called {shown(name)}.", f"Call this one `{name} 2`, say.")
            review.report(fault, probe.at("name"), probe.path_of("name"))
        names.setdefault(name.casefold(), name)
    ware = readings.text("ware_probe")
    if ware is not None and ware.casefold() not in names and (names or "probes" not in readings.seen):
        listed = f"Write {either(list(names.values()))}." if names else "Add the probe under `probes`."
        fault = Fault("ware-probe", f"No probe is called {shown(ware)}.", listed)
        review.report(fault, readings.at("ware_probe"), readings.path_of("ware_probe"))


def _check_columns(readings: Group, review: Review) -> None:
    probes = readings.items("probes")
    if "file" not in readings.seen or len(probes) < 2:
        return
    columns: dict[str, str] = {}
    for probe in probes:
        column, name = probe.text("column"), probe.text("name") or "probe"
        if column is None:
            message = f"The file's column of {shown(name)} is not named, and there are {len(probes)} probes."
            fault = Fault("probe-column", message, "Add `column: 2`, say: its number from 1, or the words at its head.")
            review.report(fault, probe.place, probe.path_of("column"))
        elif column.casefold() in columns:
            message = f"{shown(name)} and {shown(columns[column.casefold()])} have one column, {shown(column)}."
            fault = Fault("probe-column", message, "Give each probe a column of its own.")
            review.report(fault, probe.at("column"), probe.path_of("column"))
        else:
            columns[column.casefold()] = name


def _check_probe(probe: Group, review: Review) -> None:
    instrument = probe.text("instrument")
    for name in OF_ANOTHER.get(instrument or "", ()):
        if name in probe.seen:
            message = f"`{name}` is not a thing of a {instrument}, and is not used."
            fault = Fault("probe-contradiction", message, f"Take `{name}` away, or correct `instrument`.")
            review.report(fault, probe.at(name), probe.path_of(name))
    if probe.text("unit") == "mV" and "type" not in probe.seen:
        message = "Millivolts become degrees only by the thermocouple's type, and none is named."
        fault = Fault("probe-type", message, "Add the letter of its type: `type: K`, say.")
        review.report(fault, probe.at("unit"), probe.path_of("type"))


def read_lit(readings: Group, entry: Group, review: Review) -> Quantity | None:
    """Return when the main fire was lit, on the readings' own clock, in minutes; report a time that is none."""
    kind, written = readings.text("time"), readings.text("lit")
    if written is None:
        clock = entry.text("lit") if kind == "clock" else None
        return None if clock is None else _clock(clock)
    found = _elapsed(written) if kind == "elapsed" else _clock(written)
    if found is None:
        example = "`2:30`" if kind == "elapsed" else "`10:42`"
        message = f"{shown(written)} is not a time on the clock of these readings."
        review.report(
            Fault("clock-form", message, f"Write it like {example}."), readings.at("lit"), readings.path_of("lit")
        )
    return found


def _clock(text: str) -> Quantity | None:
    match = _CLOCK.match(text)
    return None if match is None else _minutes(text, int(match[1]) * 60 + int(match[2]) + int(match[3] or 0) / 60)


def _elapsed(text: str) -> Quantity | None:
    match = _ELAPSED.match(text)
    if match is not None:
        return _minutes(text, int(match[1] or 0) * 60 + int(match[2]) + int(match[3]) / 60)
    read = parse_quantity(text, "time")
    return read if isinstance(read, Quantity) else None


def _minutes(raw: str, minutes: float) -> Quantity:
    return Quantity(raw, "time", minutes, "min", minutes, minutes, minutes)
