"""The readings of one firing as a table on its page and as a file to take away."""

from __future__ import annotations

import csv
import io
from dataclasses import dataclass
from functools import lru_cache

import numpy as np
from markupsafe import Markup, escape

from builder.archive.archive import Record
from builder.exports.cells import inert, number_words
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

    @property
    def body(self) -> Markup:
        """The rows in HTML; joined here, because a template takes ten times as long for so many cells."""
        rows = [
            f'<tr><th scope="row">{minute}</th><td>{"</td><td>".join(cells)}</td>'
            f'<td class="words">{escape(words) if words else ""}</td></tr>'
            for minute, cells, words in self.rows
        ]
        return Markup("\n          ".join(rows))  # noqa: S704 - times and cells of our own, and escaped words


def readings_table(curves: FiringCurves) -> ReadingsTable:
    """Lay the readings of all probes out by time; where the log is long, evenly thinned, hottest readings kept."""
    times = np.unique(np.concatenate([curve.minutes for curve in curves.curves]))
    kept = _thinned(times, curves)
    words = {event.minute: event.words for event in curves.events}
    found = [(curve.unit, _by_minute(curve)) for curve in curves.curves]
    rows = []
    for minute in kept:
        cells = tuple([_cell(readings.get(minute), unit) for unit, readings in found])
        rows.append((clock(minute), cells, words.get(minute, "")))
    return ReadingsTable(tuple(curve.probe.name for curve in curves.curves), tuple(rows), len(times))


def readings_csv(record: Record) -> bytes:
    """Write a firing's readings as CSV: UTF-8, one row a reading of one probe, nothing a spreadsheet would run."""
    out = io.StringIO()
    writer = csv.writer(out, lineterminator="\r\n")
    writer.writerow(_COLUMNS)
    slug = inert(record.firing.slug)
    for curve in record.curves.curves:
        probe, unit = inert(curve.probe.name), inert(curve.unit)
        readings = zip(curve.minutes.tolist(), curve.celsius.tolist(), curve.as_read, curve.remarks, strict=True)
        writer.writerows(
            (slug, probe, number_words(minute, 4), inert(as_read), unit, f"{celsius:.1f}", inert(remark))
            for minute, celsius, as_read, remark in readings
        )
    return out.getvalue().encode()


def _thinned(times: np.ndarray[tuple[int], np.dtype[np.float64]], curves: FiringCurves) -> list[float]:
    if len(times) <= MOST_ROWS:
        return [float(minute) for minute in times]
    even = {float(times[place]) for place in np.linspace(0, len(times) - 1, MOST_ROWS).round().astype(int)}
    hottest = {float(curve.minutes[int(np.argmax(curve.celsius))]) for curve in curves.curves}
    return sorted(even | hottest)


def _by_minute(curve: Curve) -> dict[float, tuple[float, str]]:
    """Give each reading by its minute: °C, and as it was read."""
    readings = zip(curve.celsius.tolist(), curve.as_read, strict=True)
    return dict(zip(curve.minutes.tolist(), readings, strict=True))


def _cell(reading: tuple[float, str] | None, unit: str) -> Markup:
    return Markup("") if reading is None else _reading(*reading, unit)


@lru_cache(maxsize=4096)
def _reading(celsius: float, written: str, unit: str) -> Markup:
    """Write a reading, and beside it what was written down where that is not the same."""
    as_read = written.strip()
    shown = temperature(celsius)
    if unit == "°C" and _same(as_read, celsius):
        return shown
    read = as_read if unit in as_read else f"{as_read} {unit}"
    return shown + Markup(' <span class="written">read {}</span>').format(read)


def _same(as_read: str, celsius: float) -> bool:
    """Tell whether a reading in °C was taken over as it stands, to the degree."""
    number = as_read.removesuffix("°C").removesuffix("C").strip().replace(",", ".")
    try:
        return round(float(number)) == round(celsius)
    except ValueError:
        return False
