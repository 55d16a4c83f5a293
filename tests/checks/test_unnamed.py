"""A potter who is shown as nobody: their key is taken, stands for nobody, and words that tell of them are warned of."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

from builder.base.problem import Problem
from builder.checks.check import check_entry
from builder.checks.firing import Firing
from builder.checks.unnamed import unnamed_in_pages
from builder.entries.find import EntryFile
from builder.examine import examine
from builder.settings import NOBODY, NOBODY_NAME, Potter, Settings
from tests.checks.examples import example_settings

ENTRY = """\
---
title: A jar
date: 2026-05-02
potter: wren
helpers: [ode, wren]
method: open-fire
pieces:
  - {name: jar, survival: sound}
---
It cleared slowly.
"""


def _settings() -> Settings:
    plain = example_settings()
    potters = {key: one for key, one in plain.potters.items() if key != "wren"}
    potters[NOBODY] = Potter(NOBODY, NOBODY_NAME, shown=NOBODY)
    return replace(plain, potters=potters, unnamed={"wren": "Wren of Alder Fen"})


def _checked(folder: Path, text: str, slug: str = "2026-05-02-jar") -> tuple[Firing | None, tuple[Problem, ...]]:
    (folder / "entry.md").write_text(text, encoding="utf-8")
    done = check_entry(EntryFile(slug, folder, folder / "entry.md", f"{slug}/entry.md"), _settings())
    return done.firing, done.problems


@pytest.mark.parametrize("key", ["wren", "Wren", NOBODY])
def test_the_key_is_taken_and_forgotten(tmp_path: Path, key: str) -> None:
    firing, problems = _checked(tmp_path, ENTRY.replace("potter: wren", f"potter: {key}"))
    assert problems == ()
    assert firing is not None
    assert (firing.potter, firing.helpers) == (NOBODY, ("ode",))
    assert "wren" not in repr(firing).lower()


def test_the_key_is_suggested_to_nobody(tmp_path: Path) -> None:
    _, problems = _checked(tmp_path, ENTRY.replace("potter: wren", "potter: wrem"))
    assert [found.code for found in problems] == ["not-listed"]
    assert "wren" not in problems[0].message + problems[0].help


@pytest.mark.parametrize(
    ("old", "new", "line", "column"),
    [
        ("title: A jar", "title: The jar of wren", 2, 8),
        ("name: jar", "name: Alder's jar", 8, 12),
        ("It cleared", "Wren says it cleared", 10, 1),
        ("slowly", "slowly, as WREN OF ALDER FEN says", 10, 23),
    ],
)
def test_words_that_tell_are_warned_of_where_they_stand(
    tmp_path: Path, old: str, new: str, line: int, column: int
) -> None:
    firing, problems = _checked(tmp_path, ENTRY.replace(old, new))
    assert firing is not None
    assert [(found.code, found.place.line, found.place.column) for found in problems] == [("name-told", line, column)]
    assert "wren" not in (problems[0].message + problems[0].help).lower()


def test_in_others_entries_a_name_counts_as_it_is_written_and_the_bird_does_not(tmp_path: Path) -> None:
    others = ENTRY.replace("potter: wren\nhelpers: [ode, wren]", "potter: ode")
    assert _checked(tmp_path, others.replace("slowly", "slowly; a wren sang in the wrens' hedge"))[1] == ()
    assert [found.code for found in _checked(tmp_path, others.replace("slowly", "slowly, says Wren"))[1]] == [
        "name-told"
    ]


@pytest.mark.parametrize(
    ("slug", "told"), [("2026-05-02-wren-jar", 1), ("2026-05-02-jar-fen", 1), ("2026-05-02-wrens", 0)]
)
def test_a_folder_s_name_that_tells_is_warned_of(tmp_path: Path, slug: str, told: int) -> None:
    assert [found.code for found in _checked(tmp_path, ENTRY, slug)[1]] == ["name-told"] * told


def test_remarks_of_a_log_are_looked_at_too(tmp_path: Path) -> None:
    text = ENTRY.replace(
        "pieces:", "readings: {time: elapsed, file: log.csv, probes: [{name: wall, column: 2, unit: °C}]}\npieces:"
    )
    (tmp_path / "log.csv").write_text(
        "time,wall,remarks\n0:00,20,lit\n2:00,300,Wren raked\n5:00,700,\n", encoding="utf-8"
    )
    (tmp_path / "entry.md").write_text(text, encoding="utf-8")
    entry = EntryFile("2026-05-02-jar", tmp_path, tmp_path / "entry.md", "2026-05-02-jar/entry.md")
    found = examine(entry, _settings())
    assert found.measured is not None
    assert [(one.code, one.field, one.place.line) for one in found.problems] == [("name-told", "readings.file", 7)]


def test_the_group_s_own_pages_are_looked_at_too() -> None:
    pages = {"about": "We are six.\n\nBegun by Wren of Alder Fen.", "cautions": "No wrens' nests in the wood."}
    found = unnamed_in_pages(pages, _settings())
    assert [(one.code, one.place.file, one.place.line, one.place.column) for one in found] == [
        ("name-told", "content/pages/about.md", 3, 10)
    ]
    assert unnamed_in_pages(pages, example_settings()) == ()


def test_where_everybody_is_named_nothing_is_warned_of(tmp_path: Path) -> None:
    (tmp_path / "entry.md").write_text(ENTRY.replace("A jar", "Wren's jar"), encoding="utf-8")
    entry = EntryFile("2026-05-02-wren", tmp_path, tmp_path / "entry.md", "2026-05-02-wren/entry.md")
    assert check_entry(entry, example_settings()).problems == ()
