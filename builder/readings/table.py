"""A table of readings: what stands in each row, before anything is made of it.

Inline rows (`rows.py`) and readings files (`log_file.py`) both end as a Table.
"""

from __future__ import annotations

from dataclasses import dataclass

from builder.base.problem import Problem
from builder.checks.firing import Probe, RawReadings
from builder.readings.curve import Floats, Repair

MISSING = frozenset(
    {"", "-", "--", "---", "----", "–", "—", "−", "nan", "n/a", "na", "#n/a", "none", "null", "nil", "open", "err",
     "error", "err.", "ol", "o.l", "o.l.", "oc", "fault", "?", "??", "???", "x", "*", "***", "****", "inf", "+inf", "-inf", "1.#qnan",
     "-nan", "-1.#ind"}
)  # fmt: skip
"""What loggers and people write, in lower case, where there is no reading."""


@dataclass(frozen=True, slots=True)
class Column:
    """One probe's values, a row each."""

    probe: Probe
    values: Floats
    """Shape (n,), in `unit`; NaN where there is no reading."""
    unit: str
    """°C, °F or mV."""
    as_read: tuple[str, ...]
    """Each value as it was written."""


@dataclass(frozen=True, slots=True)
class Table:
    """The rows of a log, in its own order."""

    seconds: Floats
    """Shape (n,): seconds on the log's own clock; NaN where the time cannot be read."""
    on_clock: bool
    """True where the seconds count from a midnight."""
    columns: tuple[Column, ...]
    """One a probe, in the entry's order."""
    remarks: tuple[str, ...]
    """Words of each row; empty where there are none."""
    repairs: tuple[Repair, ...] = ()
    """What reading the table left out or understood its own way."""


@dataclass(frozen=True, slots=True)
class TableRead:
    """The outcome of reading a table."""

    table: Table | None
    """None where nothing could be read; then the problems say why."""
    problems: tuple[Problem, ...] = ()


def probes_of(raw: RawReadings) -> tuple[Probe, ...]:
    """Return the readings' probes; a single nameless one where the entry names none."""
    return raw.probes or (Probe("probe"),)
