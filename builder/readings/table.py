"""A table of readings: what stands in each row, before anything is made of it.

Inline rows (`rows.py`) and readings files (`log_file.py`) both end as a Table.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from builder.base.problem import Problem
from builder.checks.firing import Probe, RawReadings
from builder.readings.curve import Floats, Repair

BLANKS = frozenset({"", "-", "--", "---", "----", "–", "—", "−", "?", "??", "???", "*", "***", "****", "."})
"""What people and loggers write where nothing was read."""
_NO_NUMBERS = """nan -nan inf +inf -inf 1.#qnan -1.#ind n/a na #n/a none null nil open err err. error
    ol o.l o.l. oc fault invalid disconnected overload overflow overrange"""
NO_NUMBERS = frozenset(_NO_NUMBERS.split())
"""What loggers write, in lower case, where a probe gave nonsense."""
_SHOUTED = frozenset({"NA", "OPEN", "ERR", "Err", "ERROR", "Error", "OL", "OC", "FAULT"})


def is_missing(text: str) -> bool:
    """Tell whether a cell says that there is no reading."""
    return text in BLANKS or text.casefold() in NO_NUMBERS


def is_missing_in_row(token: str) -> bool:
    """Tell the same of a token in a hand-written row, where `open` may begin `open the stack`."""
    if token.isalpha() and token.casefold() != "nan":
        return token in _SHOUTED
    return is_missing(token)


def missing(kind: str, probe: Probe, of: int, found: Sequence[str]) -> Repair:
    """Tell of the cells that hold no reading: `blank`, or what a logger wrote where it had none, `not a number`."""
    written = found[0][:40]
    verb = "is" if len(found) == 1 else "are"
    what = f"{verb} blank" if kind == "blank" else f"{verb} no number (`{written}`)"
    return Repair(kind, f"{len(found):,} of {of:,} readings of {probe.name} {what}.", None, written)


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
