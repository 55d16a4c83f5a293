"""Readings to curves: read the table, count from lighting, put in order, drop what cannot be, tell what was done."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from pathlib import Path

import numpy as np
from numpy.typing import NDArray

from builder.base.codes import problem
from builder.base.own_file import open_own
from builder.base.problem import Place, Problem
from builder.checks.firing import Firing, RawReadings
from builder.readings import clean
from builder.readings.cells import MAX_BYTES
from builder.readings.curve import NO_CURVES, Curve, Event, FiringCurves, Floats, Repair
from builder.readings.doubts import in_minutes
from builder.readings.log_file import read_log
from builder.readings.rows import read_rows
from builder.readings.table import Column, Table, TableRead
from builder.readings.times import DAY_S
from builder.readings.track import probe_curve

_LIT = re.compile(r"\blit\b", re.IGNORECASE)


def read_curves(firing: Firing, folder: Path) -> tuple[FiringCurves, tuple[Problem, ...]]:
    """Read all that was written down at one firing; `folder` is the entry's own. Problems are all of one run."""
    raw = firing.readings
    if raw is None or not (raw.rows or raw.file):
        return NO_CURVES, ()
    outcome = _table(raw, firing, folder)
    if outcome.table is None:
        return NO_CURVES, outcome.problems
    place = Place(firing.file, raw.rows[0][0] if raw.rows else None)
    lit_s, problems = _lit_s(raw, outcome.table, place)
    if lit_s is None:
        return NO_CURVES, (*outcome.problems, *problems)
    curves = _curves(raw, outcome.table, lit_s)
    if not outcome.problems and raw.rows and _says_nothing(outcome.table):
        problems = (
            problem(
                "reading-none", place, "readings", "The readings hold no temperature.",
                "Write a row with a time and a temperature, like `4:30  565 °C`, or leave `readings` out.",
            ),
        )  # fmt: skip
    return curves, (*outcome.problems, *problems, *_refused(outcome.table, curves.repairs, Place(firing.file)))


def log_table(firing: Firing, folder: Path) -> tuple[Table, float] | None:
    """Return the rows of a firing's readings as they stand in its log, and the second of lighting on its clock.

    None where there is no table that could be read, or no lighting.
    """
    table = _table(firing.readings, firing, folder).table if firing.readings is not None else None
    lit_s = None if firing.readings is None or table is None else _lit_s(firing.readings, table, Place(firing.file))[0]
    return None if table is None or lit_s is None else (table, lit_s)


def _refused(table: Table, repairs: Sequence[Repair], place: Place) -> Iterator[Problem]:
    """Warn of each probe with readings that stand for no temperature."""
    first = {repair.probe: repair for repair in reversed(repairs) if repair.kind == "refused"}
    for number, column in enumerate(table.columns, 1):
        probe = column.probe
        if probe.name not in first or (probe.unit == "mV" and probe.type is None):
            continue  # The check of the fields has told of millivolts without a type.
        why = first[probe.name].words.removeprefix(f"{probe.name}: ")
        yield problem(
            "reading-refused", place, f"readings.probes[{number}]", f"`{probe.name}`: {why}", _way_out(column)
        )


def _way_out(column: Column) -> str:
    if column.unit != "mV":
        return "Look at `emissivity`, `emissivity_set` and `background` of the probe, and at the readings themselves."
    if column.probe.type is None:
        return "Add the letter of the thermocouple's type to the probe: `type: K`, say."
    if column.probe.cold_junction is None:
        return "Add to the probe how warm the meter's terminals were: `cold_junction: 20 °C`, say."
    return "Look at the probe's `type`, and at the readings themselves."


def _says_nothing(table: Table) -> bool:
    return all(np.isnan(column.values).all() for column in table.columns)


def _table(raw: RawReadings, firing: Firing, folder: Path) -> TableRead:
    if raw.file is None:
        return read_rows(raw, firing.file)
    entry = Place(firing.file)
    file = f"{firing.file.rpartition('/')[0]}/{raw.file}".lstrip("/")
    try:
        with open_own(folder / raw.file) as stream:
            data = stream.read(MAX_BYTES + 1)
    except (OSError, ValueError):
        fault = problem(
            "reading-file", entry, "readings.file", f"The readings file `{raw.file}` cannot be opened.",
            "Put it beside the entry, or correct its name.",
        )  # fmt: skip
        return TableRead(None, (fault,))
    return read_log(raw, data, entry, file)


# Lighting


def _lit_s(raw: RawReadings, table: Table, place: Place) -> tuple[float | None, tuple[Problem, ...]]:
    """Return the log's second at which the main fire was lit: as `lit` says, else the row marked so, else the first."""
    known = table.seconds[~np.isnan(table.seconds)]
    if known.size == 0:
        if table.seconds.size:
            return None, ()
        return None, (
            problem("reading-none", place, "readings", "The readings hold no row.",
                    "Write a row with a time and a temperature, like `4:30  565 °C`, or leave `readings` out."),
        )  # fmt: skip
    if raw.lit is None:
        marked = (
            float(second)
            for second, words in zip(table.seconds, table.remarks, strict=True)
            if words and not np.isnan(second) and _LIT.search(words)
        )
        return next(marked, float(known.min())), ()
    lit_s = _on_the_log(raw.lit.canonical * 60.0, float(known.min()), table.on_clock)
    if lit_s > known.max():
        return None, (
            problem(
                "reading-lit", place, "readings.lit", f"`{raw.lit.raw}` is later than the last reading.",
                "Write the moment of lighting on the same clock as the readings, or mark its row with `lit`.",
            ),
        )  # fmt: skip
    return lit_s, ()


def _on_the_log(lit_s: float, first_s: float, on_clock: bool) -> float:
    """Put a time of day on the day that lies nearest to the log's first reading."""
    if not on_clock:
        return lit_s
    return lit_s + DAY_S * round((first_s - lit_s) / DAY_S)


# Curves


def _curves(raw: RawReadings, table: Table, lit_s: float) -> FiringCurves:
    minutes = (table.seconds - lit_s) / 60.0
    told = ~np.isnan(minutes)
    repairs = list(table.repairs)
    order, out_of_order = clean.order_of(minutes[told])
    index = np.flatnonzero(told)[order]
    if out_of_order:
        repairs.append(
            Repair(
                "out of order", f"{_rows(out_of_order)} stood out of the order of time, and the log was put in order."
            )
        )
    early = int(np.count_nonzero(minutes[told] < 0))
    if early:
        repairs.append(_before_lighting(early, float(minutes[told].min())))
    curves: list[Curve] = []
    for column in table.columns:
        curve, own_repairs = probe_curve(column, minutes, index, table.remarks)
        repairs.extend(own_repairs)
        if curve is not None:
            curves.append(curve)
    ware = next((number for number, curve in enumerate(curves) if curve.probe.name == raw.ware_probe), None)
    return FiringCurves(tuple(curves), ware, _events(minutes, index, table.remarks), tuple(repairs))


def _before_lighting(count: int, first: float) -> Repair:
    return Repair(
        "before lighting",
        f"{_rows(count)} from before lighting ({in_minutes(first)} on) {'is' if count == 1 else 'are'} "
        "left out of the figures, which count from the main fire.",
        first,
    )  # fmt: skip


def _events(minutes: Floats, index: NDArray[np.intp], remarks: Sequence[str]) -> tuple[Event, ...]:
    return tuple(Event(float(minutes[row]), remarks[row]) for row in index.tolist() if remarks[row])


def _rows(count: int) -> str:
    return "One row" if count == 1 else f"{count:,} rows"
