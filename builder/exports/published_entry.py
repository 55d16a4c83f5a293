"""A firing's entry as it is published: what its page shows, in the form of an entry, for other archives to read.

It is written from what was checked, not from what was handed in: comments, files that no field names, columns of a log
that no probe has, places told too exactly and names that are withheld are not in it. Photos stay with the page. The
story is the HTML that the page shows, so that nothing which Markdown would hide travels along.
"""

from __future__ import annotations

import csv
import io
from collections.abc import Mapping
from dataclasses import fields
from pathlib import Path

from builder.base.quantity import Quantity
from builder.checks.firing import Firing, Marks, Piece, Probe, RawReadings, Weighed, Witness
from builder.entries.compose import Value, nested_text
from builder.entries.fields import CONDITIONS
from builder.exports.cells import inert
from builder.publish.clean_html import clean_story
from builder.readings.read import log_table
from builder.readings.table import Table, is_missing

DATA = "data"
"""Folder of the open data, from the site's root."""
ENTRIES = "entries"
"""Folder of the published entries, from the data folder."""
PUBLISHED_ENTRY = "entry.txt"
PUBLISHED_READINGS = "readings.csv"
_NOT_READ = "?"
"""Stands in a cell that was no time or no number: what else may stand in a log is nobody's business."""


def published_entry(firing: Firing, folder: Path) -> dict[str, bytes]:
    """Return the files of one published entry by name; `folder` is the entry's own, in which its log lies."""
    readings = firing.readings
    log = log_table(firing, folder) if readings is not None and readings.file else None
    values = entry_values(firing, log[0] if log else None)
    story = clean_story(firing.story, made=False) if firing.story.strip() else ""
    files = {PUBLISHED_ENTRY: nested_text(values, story).encode()}
    return files | ({PUBLISHED_READINGS: log_bytes(*log)} if log else {})


def entry_values(firing: Firing, log: Table | None) -> dict[str, Value]:
    """Return the fields of a firing as its entry would write them; `log` is its readings file, where it has one."""
    told: dict[str, Value | None] = {
        "title": firing.title,
        "date": firing.date.isoformat(),
        "potter": firing.potter,
        "helpers": firing.helpers,
        "method": firing.method,
        "place": firing.place,
        "ware": firing.ware,
        "lit": firing.lit,
        **_conditions(firing),
        "readings": _readings(firing.readings, log) if firing.readings else None,
        "witness": _written(firing.witness) if firing.witness else None,
        "pieces": [_written(piece) for piece in firing.pieces],
        "licence": firing.licence,
    }
    return {name: value for name, value in told.items() if value}


def log_bytes(log: Table, lit_s: float) -> bytes:
    """Write a log's rows: seconds from lighting, each probe's value as it was read, and what was noted."""
    out = io.StringIO()
    writer = csv.writer(out, delimiter="\t", lineterminator="\n")
    noted = any(log.remarks)
    writer.writerow(["seconds", *(f"probe_{number}" for number, _ in enumerate(log.columns, 1)), *["remark"] * noted])
    for row, second in enumerate(log.seconds.tolist()):
        told = second == second  # not a number where the time could not be read
        time = f"{second - lit_s:.9f}".rstrip("0").rstrip(".") if told else _NOT_READ
        cells = [_cell(column.as_read[row], column.values[row]) for column in log.columns]
        writer.writerow([time, *cells, *[inert(_one_line(log.remarks[row])) if told else ""] * noted])
    return out.getvalue().encode()


def _cell(as_read: str, value: float) -> str:
    return _one_line(as_read) if value == value or is_missing(as_read) else _NOT_READ


def _one_line(words: str) -> str:
    return " ".join(words.split())


def _conditions(firing: Firing) -> dict[str, Value]:
    """Return the recorded conditions, each in its group, in the order of the fields."""
    groups: dict[str, dict[str, Value]] = {}
    for path in CONDITIONS:
        if path in firing.conditions:
            home, _, name = path.rpartition(".")
            groups.setdefault(home, {})[name] = _value(firing.conditions[path])
    return dict(groups)


def _readings(readings: RawReadings, log: Table | None) -> Mapping[str, Value]:
    if log is not None:
        probes = [
            _written(column.probe) | {"column": str(number), "unit": column.unit}
            for number, column in enumerate(log.columns, 2)
        ]
        return {
            "time": "elapsed",
            "lit": "0:00",
            "file": PUBLISHED_READINGS,
            "time_column": "1",
            "ware_probe": readings.ware_probe,
            "probes": probes,
        }
    told: dict[str, Value | None] = {
        "time": readings.time,
        "lit": readings.lit.raw if readings.lit else None,
        "ware_probe": readings.ware_probe,
        "probes": [_written(probe) for probe in readings.probes],
        "rows": "\n".join(row.strip() for _, row in readings.rows),
    }
    return {name: value for name, value in told.items() if value}


def _written(told: Piece | Probe | Witness | Weighed | Marks) -> dict[str, Value]:
    """Return a group of fields, which are named in the program as they are in an entry."""
    named = {field.name: getattr(told, field.name) for field in fields(told)}
    return {name: _value(value) for name, value in named.items() if value is not None and value != ()}


def _value(value: object) -> Value:
    if isinstance(value, Quantity):
        return value.raw
    if isinstance(value, tuple):
        return [_value(one) for one in value]
    if isinstance(value, str | int):
        return str(value)
    return {name: _value(getattr(value, name)) for name in _names(value) if getattr(value, name) is not None}


def _names(value: object) -> tuple[str, ...]:
    """Return the names of a group's fields inside a piece or a probe."""
    return tuple(field.name for field in fields(value))  # type: ignore[arg-type]
