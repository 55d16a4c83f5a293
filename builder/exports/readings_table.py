"""readings.csv: one row a reading of one probe, with its 95 % interval."""

from __future__ import annotations

from collections.abc import Iterator

from builder.archive.archive import Archive, Record
from builder.exports.tables import Column, Table, Value
from builder.readings.reading_limits import reading_limits_c

_COLUMNS = (
    Column("firing", "string", "Firing", "The firing it was read at.", required=True),
    Column("probe", "string", "Probe", "The thermometer, by its name in the entry.", required=True),
    Column("minute", "number", "Minute", "Minutes from lighting the main fire.", "min", 4, required=True),
    Column("as_read", "string", "As read", "The reading as it was written down.", required=True),
    Column("unit", "string", "Unit", "The unit it was written in."),
    Column("temperature_c", "number", "Temperature", "Best reckoning of it.", "°C", 2, required=True),
    Column("low_c", "number", "Temperature, lower end", "The lower end of its 95 % interval.", "°C", 2, required=True),
    Column("high_c", "number", "Temperature, upper end", "The upper end of its 95 % interval.", "°C", 2, required=True),
    Column("note", "string", "Note", "What was noted beside it."),
)


def readings_table(archive: Archive) -> Table:
    """Return the table of all readings."""
    return Table(
        "readings",
        "Readings",
        "One row a reading of one probe. Errors of the instrument are shared by all readings of a probe.",
        _COLUMNS,
        ("firing", "probe", "minute"),
        (("firing", "firings"),),
        (row for record in archive.records for row in _rows(record)),
    )


def _rows(record: Record) -> Iterator[tuple[Value, ...]]:
    for curve in record.curves.curves:
        low, high = reading_limits_c(curve)
        for minute, as_read, celsius, least, most, note in zip(
            curve.minutes.tolist(),
            curve.as_read,
            curve.celsius.tolist(),
            low.tolist(),
            high.tolist(),
            curve.remarks,
            strict=True,
        ):
            yield (
                record.firing.slug,
                curve.probe.name,
                minute,
                as_read,
                curve.unit,
                celsius,
                least,
                most,
                note or None,
            )
