"""The `readings:` of a new entry, made around a readings file."""

from __future__ import annotations

import re
from dataclasses import dataclass
from pathlib import Path

from builder.entries.compose import yaml_words
from builder.readings.cells import MAX_BYTES, NotATable
from builder.readings.guess import SeenColumn, SeenLog, see

UNITS = ("°C", "°F", "mV")
_FILE_NAME = re.compile(r"[A-Za-z0-9][A-Za-z0-9 ._-]*\.(csv|txt|tsv|dat|log)\Z", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class Wire:
    """What makes millivolts degrees, as it was given."""

    type: str | None
    """The letter of the thermocouple's type."""
    cold_junction: str | None
    """How warm the meter's terminals were."""


@dataclass(frozen=True, slots=True)
class Found:
    """What a readings file gives to a new entry."""

    lines: tuple[str, ...]
    """Lines under `readings:`."""
    date: str | None
    told: str
    """What was found, in words for the terminal."""
    lit: str | None = None
    """When the main fire seems to have been lit; None where the log begins with it."""

    def from_lighting(self, lit: str) -> tuple[str, ...]:
        """Return the lines with the moment from which the times count."""
        return (*self.lines[:1], f"  lit: {yaml_words(lit)}", *self.lines[1:])


def look_into(path: Path, unit: str | None, wire: Wire) -> Found | str:
    """Look into a readings file; `unit` is that of numbers without one, `wire` is for millivolts.

    Returns words where it cannot be used.
    """
    if not path.is_file():
        return f"There is no file {path}."
    if not _FILE_NAME.match(path.name):
        return f"Give {path.name} a plain name that ends in .csv or .txt, such as log.csv."
    if path.stat().st_size > MAX_BYTES:
        return f"{path.name} has more than {MAX_BYTES // 1_000_000} MB; cut it to the hours of the firing."
    try:
        seen = see(path.read_bytes())
    except NotATable as refused:
        return f"{refused.why} {refused.help}"
    if seen is None:
        return f"{path.name} has no column of times beside a column of numbers."
    if unit is None and any(column.unit is None for column in seen.columns):
        return f"Nothing in {path.name} says the unit of its numbers; add `--unit °C`, `--unit °F` or `--unit mV`."
    if any((column.unit or unit) == "mV" for column in seen.columns) and not (wire.type and wire.cold_junction):
        return (
            "Millivolts alone say no temperature. Add the thermocouple's letter and how warm the meter's terminals "
            "were: `--type K --cold-junction '20 °C'`, say."
        )
    return Found(
        tuple(_lines(path.name, seen, unit, wire)), seen.date, _told(seen, unit), seen.lit.time if seen.lit else None
    )


def _lines(name: str, seen: SeenLog, unit: str | None, wire: Wire) -> list[str]:
    lines = [f"  file: {yaml_words(name)}", f"  time_column: {seen.time_column}"]
    if seen.time:
        lines.append(f"  time: {seen.time}")
    lines.append("  probes:")
    for place, column in enumerate(seen.columns, 1):
        lines += [
            f"    - name: {yaml_words(_probe_name(column, place, seen))}",
            f"      column: {column.number}",
            f"      unit: {column.unit or unit}",
        ]
        if (column.unit or unit) == "mV":
            lines += [
                "      instrument: thermocouple",
                f"      type: {wire.type}",
                f"      cold_junction: {yaml_words(wire.cold_junction or '')}",
            ]
    return lines


def _probe_name(column: SeenColumn, place: int, seen: SeenLog) -> str:
    """Name a probe by its heading, where the headings tell the probes apart."""
    names = [_short(one.heading) for one in seen.columns]
    name = _short(column.heading)
    return name if name and names.count(name) == 1 else f"probe {place}"


def _short(heading: str) -> str:
    return re.sub(r"\s*[(\[].*", "", heading).strip()[:40]


def _told(seen: SeenLog, unit: str | None) -> str:
    columns = ", ".join(f"column {one.number} (highest {one.highest:g})" for one in seen.columns)
    kinds = {"clock": "times of day", "elapsed": "time since a start", None: "dates and times"}
    times = f"Column {seen.time_column} holds {kinds[seen.time]}"
    lines = [f"{times}; numbers that change in {columns}. Take away what is no probe."]
    first = seen.columns[0]
    named = first.unit or unit or ""
    if seen.peak is not None:
        lines.append(
            f"Column {first.number} is highest at {seen.peak.time}, with {seen.peak.value:g} {named}.".replace(
                " .", "."
            )
        )
    if seen.lit is not None:
        lines.append(
            f"It begins to rise steeply at {seen.lit.time}, from {seen.lit.value:g} {named}.".replace(" .", ".")
        )
    return "\n".join(lines)
