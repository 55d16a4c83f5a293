"""What must hold of any entry and any readings file, however spoilt: no traceback, no hang, a place and words."""

from __future__ import annotations

import time
from dataclasses import dataclass
from pathlib import Path

from PIL import Image

from builder.base.codes import CODES
from builder.base.problem import Problem, Severity, has_errors
from builder.base.quantity import Quantity, QuantityFault, parse_quantity
from builder.entries.find import EntryFile
from builder.examine import examine
from builder.settings import Settings

MOST_SECONDS = 1.0
"""Longest that one entry may take, whatever stands in it."""

FIELDS_OF_A_LOG = """\
---
title: A log
date: 2026-05-02
potter: wren
method: open-fire
readings:
  {time}file: log.csv
  probes:
    - {{name: wall, column: 2, unit: °C}}
    - {{name: rim, column: 3, unit: °C}}
pieces:
  - {{name: jar, survival: sound}}
---
"""


@dataclass(frozen=True, slots=True)
class Judged:
    """What came of one input."""

    published: bool
    problems: tuple[Problem, ...]
    seconds: float


def make_folder(parent: Path) -> Path:
    """Make an entry's folder with a photo and a log in it, for entries that name them."""
    folder = parent / "2026-05-02-pale-jar"
    folder.mkdir()
    Image.new("RGB", (32, 24), "grey").save(folder / "drawn.jpg")
    (folder / "log.csv").write_text("time,wall\n0:00,14\n2:00,210\n9:10,812\n12:00,640\n", encoding="utf-8")
    return folder


def judge_entry(raw: bytes, folder: Path, settings: Settings) -> Judged:
    """Put an entry through all stages of one firing and hold what it says to its contract."""
    (folder / "entry.md").write_bytes(raw)
    entry = EntryFile(folder.name, folder, folder / "entry.md", f"{folder.name}/entry.md")
    began = time.process_time()
    examined = examine(entry, settings)
    seconds = time.process_time() - began
    lines = raw.count(b"\n") + raw.count(b"\r") + 2
    for problem in examined.problems:
        hold_problem(problem, lines)
    refused = examined.measured is None
    assert refused == has_errors(examined.problems), "left out without a word, or published with an error"
    return Judged(not refused, examined.problems, seconds)


def judge_log(raw: bytes, folder: Path, settings: Settings, time_words: str = "time: elapsed\n  ") -> Judged:
    """Put a readings file through all stages, beside a sound entry."""
    (folder / "log.csv").write_bytes(raw)
    return judge_entry(FIELDS_OF_A_LOG.format(time=time_words).encode(), folder, settings)


def hold_problem(problem: Problem, lines: int) -> None:
    """A problem has a code of the list, a file, a line that is there, words, and a way out."""
    assert problem.code in CODES
    assert problem.place.file
    in_entry = problem.place.file.endswith("entry.md")
    assert problem.place.line is None or 1 <= problem.place.line <= (lines if in_entry else 10_000_000)
    assert problem.place.column is None or problem.place.column >= 1
    if problem.severity is Severity.ERROR and in_entry and problem.code not in _OF_WHOLE_FILES:
        assert problem.place.line is not None, problem
    assert problem.message.strip()
    assert problem.help.strip()
    told = problem.message + problem.help + problem.field
    assert told.replace("\u200c", "").replace("\u200d", "").isprintable(), problem
    assert len(problem.message) < 1500


_OF_WHOLE_FILES = frozenset({"entry-empty", "file-too-large", "file-unreadable", "yaml-too-large"})


def judge_quantity(text: str, kind: str) -> None:
    """A quantity is finite and lies between its own ends, or a fault says why not and where."""
    read = parse_quantity(text, kind)
    if isinstance(read, Quantity):
        assert float("-inf") < read.low <= read.canonical <= read.high < float("inf")
        return
    assert isinstance(read, QuantityFault)
    assert read.code in CODES
    assert 0 <= read.offset <= max(0, len(text))
    assert read.message.strip()
    assert read.help.strip()
