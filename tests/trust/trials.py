"""All trials of the report, one after another, each with its share of the time; the attacks beside them."""

from __future__ import annotations

import sys
import time
from collections.abc import Callable
from concurrent.futures import ProcessPoolExecutor
from concurrent.futures.process import BrokenProcessPool
from multiprocessing import get_context
from pathlib import Path
from random import Random

from tests.checks.examples import example_settings
from tests.trust.attacks_opened import attacks_where_there_are_many, attacks_where_there_is_one
from tests.trust.files_tried import files_tried
from tests.trust.judging import MOST_SECONDS, judge_entry, judge_log, judge_quantity, make_folder
from tests.trust.long_forms import builds_killed, bytes_compared, commands_killed, schema_compared, secrets_searched
from tests.trust.mutated import entry_bytes, readings_bytes, spoil_bytes, spoil_text
from tests.trust.odd_words import ODD_VALUES
from tests.trust.row import Row

Try = Callable[[float, Path], Row]
"""Given seconds and an empty folder, tries something and tells what was found."""


def tried(seconds: float, folder: Path) -> list[Row]:
    """Return a row for each trial, in the order of the table."""
    tries: tuple[tuple[Try, float], ...] = (
        (_entries, 0.2),
        (_entries_in_bytes, 0.1),
        (_logs, 0.1),
        (_quantities, 0.05),
        (schema_compared, 0.1),
        (files_tried, 0.0),
        (builds_killed, 0.2),
        (commands_killed, 0.2),
        (secrets_searched, 0.0),
        (bytes_compared, 0.0),
    )
    # Fresh processes: a browser's driver and this process' forks do not go together.
    with ProcessPoolExecutor(2, get_context("spawn")) as beside:
        attacks = [
            beside.submit(one_trial, try_it, seconds, folder / try_it.__name__)
            for try_it in (attacks_where_there_are_many, attacks_where_there_is_one)
        ]
        rows = [one_trial(try_it, share * seconds, folder / str(at)) for at, (try_it, share) in enumerate(tries)]
        for one in attacks:
            try:
                rows.append(one.result())
            except BrokenProcessPool as error:
                rows.append(Row("attacks in places", 0, (f"its process was ended: {error}",)))
    return rows


def one_trial(try_it: Try, seconds: float, place: Path) -> Row:
    """Try one thing; what goes wrong with the trial itself is a fault in its row, and the others go on."""
    place.mkdir()
    began = time.monotonic()
    try:
        row = try_it(seconds, place)
    except Exception as error:
        row = Row(try_it.__name__.strip("_").replace("_", " "), 0, (f"{type(error).__name__}: {error}",))
    print(f"{row} ({time.monotonic() - began:.0f} s)", file=sys.stderr, flush=True)
    return row


def _spoilt(what: str, seconds: float, one: Callable[[Random], float]) -> Row:
    """Try seeded inputs until the time is over; a fault is told with the seed that brings it back."""
    until, tried, slowest = time.monotonic() + seconds, 0, 0.0
    faults: list[str] = []
    day = int(time.time()) // 86_400
    while time.monotonic() < until:
        tried += 1
        try:
            slowest = max(slowest, one(Random(f"{day} {tried}")))
        except Exception as error:  # whatever it is, it is what we look for
            faults.append(f"Random('{day} {tried}'): {type(error).__name__}: {error}")
    if slowest > MOST_SECONDS:
        faults.append(f"one took {slowest:.1f} s")
    return Row(what, tried, tuple(faults), f"nothing; the slowest took {slowest * 1000:.0f} ms of the processor")


def _entries(seconds: float, folder: Path) -> Row:
    place = make_folder(folder)

    def one(rng: Random) -> float:
        return judge_entry(entry_bytes(rng), place, example_settings()).seconds

    return _spoilt("entries spoilt in keys, values, nesting, line ends, encodings", seconds, one)


def _entries_in_bytes(seconds: float, folder: Path) -> Row:
    place = make_folder(folder)

    def one(rng: Random) -> float:
        return judge_entry(spoil_bytes(rng, entry_bytes(rng)), place, example_settings()).seconds

    return _spoilt("entries spoilt byte by byte", seconds, one)


def _logs(seconds: float, folder: Path) -> Row:
    place = make_folder(folder)

    def one(rng: Random) -> float:
        kept = rng.choice(("", "time: elapsed\n  ", "time: clock\n  "))
        return judge_log(readings_bytes(rng), place, example_settings(), kept).seconds

    return _spoilt("readings files spoilt", seconds, one)


def _quantities(seconds: float, folder: Path) -> Row:
    kinds = ("temperature", "temperature_step", "rate", "time", "length", "mass", "share", "speed", "voltage")

    def one(rng: Random) -> float:
        began = time.process_time()
        text = spoil_text(rng, "".join(rng.choice((*ODD_VALUES, "3 kg", " to ", "785 °C")) for _ in range(3)))
        judge_quantity(text[:200], rng.choice(kinds))
        return time.process_time() - began

    return _spoilt("quantities spoilt", seconds, one)
