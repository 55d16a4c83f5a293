"""The readings of one firing as a table on its page and as a file to take away."""

from __future__ import annotations

import csv
import io
from dataclasses import dataclass

import numpy as np
from markupsafe import Markup, escape

from builder.archive.archive import Record
from builder.exports.cells import inert
from builder.pages.marked_numbers import temperature
from builder.pages.numbers import clock
from builder.readings.curve import Curve, FiringCurves

MOST_ROWS = 90
"""Rows that a page shows; a longer log is thinned, and its file has them all."""

_COLUMNS = ("firing", "probe", "minute", "as_read", "unit", "temperature_c", "note")


@dataclass(frozen=True, slots=True)
class ReadingsTable:
    """Readings of all probes by time, perhaps thinned."""

    probes: tuple[str, ...]
    rows: tuple[tuple[str, tuple[Markup, ...], str], ...]
    """Time from lighting, a cell for each probe, and the words beside it."""
    total: int
    """How many times the log has; more than the rows where it was thinned."""


def readings_table(curves: FiringCurves) -> ReadingsTable:
    """Lay the readings of all probes out by time; where the log is long, evenly thinned, hottest readings kept."""
    times = np.unique(np.concatenate([curve.minutes for curve in curves.curves]))
    kept = _thinned(times, curves)
    words = {event.minute: event.words for event in curves.events}
    found = [dict(zip(curve.minutes.tolist(), range(len(curve.minutes)), strict=True)) for curve in curves.curves]
    rows = []
    for minute in kept:
        cells = tuple(_cell(curve, places.get(minute)) for curve, places in zip(curves.curves, found, strict=True))
        rows.append((clock(minute), cells, words.get(minute, "")))
    return ReadingsTable(tuple(curve.probe.name for curve in curves.curves), tuple(rows), len(times))


def readings_csv(record: Record) -> bytes:
    """Write a firing's readings as CSV: UTF-8, one row a reading of one probe, nothing a spreadsheet would run."""
    out = io.StringIO()
    writer = csv.writer(out, lineterminator="\r\n")
    writer.writerow(_COLUMNS)
    for curve in record.curves.curves:
        for place, as_read in enumerate(curve.as_read):
            number = (f"{curve.minutes[place]:.4f}".rstrip("0").rstrip("."), f"{curve.celsius[place]:.1f}")
            words = (record.firing.slug, curve.probe.name, as_read, curve.unit, curve.remarks[place])
            slug, probe, read, unit, note = (inert(word) for word in words)
            writer.writerow((slug, probe, number[0], read, unit, number[1], note))
    return out.getvalue().encode()


def _thinned(times: np.ndarray[tuple[int], np.dtype[np.float64]], curves: FiringCurves) -> list[float]:
    if len(times) <= MOST_ROWS:
        return [float(minute) for minute in times]
    even = {float(times[place]) for place in np.linspace(0, len(times) - 1, MOST_ROWS).round().astype(int)}
    hottest = {float(curve.minutes[int(np.argmax(curve.celsius))]) for curve in curves.curves}
    return sorted(even | hottest)


def _cell(curve: Curve, place: int | None) -> Markup:
    if place is None:
        return Markup("")
    celsius = float(curve.celsius[place])
    as_read = curve.as_read[place].strip()
    shown = temperature(celsius)
    if curve.unit == "°C" and _same(as_read, celsius):
        return shown
    read = as_read if curve.unit in as_read else f"{as_read} {curve.unit}"
    return Markup('{} <span class="written">read {}</span>').format(shown, escape(read))


def _same(as_read: str, celsius: float) -> bool:
    """Tell whether a reading in °C was taken over as it stands, to the degree."""
    number = as_read.removesuffix("°C").removesuffix("C").strip().replace(",", ".")
    try:
        return round(float(number)) == round(celsius)
    except ValueError:
        return False
