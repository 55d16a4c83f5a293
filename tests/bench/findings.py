"""`python -m tests.bench.findings [COUNT]`: what it costs to find out what all firings say together, part by part.

The archive is that of the simulation, one to five pieces a firing (a thousand firings have about three thousand), with
sixteen conditions, twelve potters, eight wares, two methods whose window is looked for, and minutes above each
temperature of the settings. The aim is at most 10 seconds of two cores for a thousand firings; what is printed are
seconds of the processor of one. Prints; never fails.
"""

from __future__ import annotations

import os

os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")

import sys
import time
from collections.abc import Callable, Iterator, Mapping
from contextlib import ExitStack, contextmanager
from dataclasses import replace
from typing import TypeVar
from unittest.mock import patch

import numpy as np

from builder.archive import findings
from builder.archive.archive import Record, gather
from builder.archive.likeness import likeness
from builder.archive.questions import Question, ask_anew
from builder.archive.traits import traits
from builder.heat.figures import Figure, FiringHeat, ProbeHeat, minutes_above_name
from builder.settings import HeatSettings
from tests.simulation.archive_maker import SETTINGS, Truth, make_records

_T = TypeVar("_T")
POTTERS, WARES = 12, 8
PARTS = (
    "method_windows",
    "ware_windows",
    "soaking_question",
    "differences",
    "firings_to_tell",
    "trials",
    "try_conditions",
    "next_condition",
    "progress",
    "beside_literature",
)
"""Functions of `findings` that do its work."""


def main(count: int) -> None:
    """Measure `count` firings and print the seconds of one core, by part."""
    records = [_furnished(record) for record in make_records(Truth(), count, 1)]
    pieces = sum(judged.piece.count for record in records for judged in record.pieces)
    spent: dict[str, float] = {}
    started = time.process_time()
    with _clocked(spent, "gather"):
        archive = gather(records, SETTINGS)

    def asking(kind: str, questions: Mapping[str, Question[_T]]) -> Mapping[str, _T]:
        with _clocked(spent, kind):
            return ask_anew(kind, questions)

    with _watched(spent):
        findings.find_out(archive, SETTINGS, asking)
    with _clocked(spent, "likeness"):
        likeness([traits(record) for record in records])
    total = time.process_time() - started
    for name, seconds in spent.items():
        print(f"{name:20}{seconds:8.2f} s")
    print(f"{count:,} firings, {pieces:,} pieces: {total:.1f} s of the processor")


def _furnished(record: Record) -> Record:
    """Give a firing of the simulation a potter, a ware and minutes above each temperature, as far as its peak goes."""
    chance = np.random.default_rng(record.number)
    peak = record.heat.ware_figures["peak_c"]
    above = {}
    for level in HeatSettings().levels_c:
        minutes = max(0.0, ((peak.value or 0.0) - level) / 15 + float(chance.normal(0, 1)))
        above[minutes_above_name(level)] = Figure(minutes, max(0.0, minutes - 1), minutes + 1)
    heat = FiringHeat((ProbeHeat("wall", {"peak_c": peak, **above}),), 0)
    potter, ware = f"potter-{record.number % POTTERS}", f"ware {record.number % WARES}"
    return replace(record, heat=heat, firing=replace(record.firing, potter=potter, ware=ware))


@contextmanager
def _clocked(spent: dict[str, float], name: str) -> Iterator[None]:
    before = time.process_time()
    yield
    spent[name] = spent.get(name, 0.0) + time.process_time() - before


@contextmanager
def _watched(spent: dict[str, float]) -> Iterator[None]:
    """Take the time of each part down while `find_out` runs."""
    real: dict[str, Callable[..., object]] = {name: getattr(findings, name) for name in PARTS}

    def watching(name: str) -> Callable[..., object]:
        def part(*given: object, **named: object) -> object:
            with _clocked(spent, name):
                return real[name](*given, **named)

        return part

    with ExitStack() as watched:
        for name in PARTS:
            watched.enter_context(patch.object(findings, name, watching(name)))
        yield


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 1000)
