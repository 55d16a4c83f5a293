"""Good entries give no problem; bad ones give exactly the problems written beside them. A new folder is a new test."""

from __future__ import annotations

from pathlib import Path

import pytest

from builder.base.codes import CODES
from builder.base.intake_codes import INTAKE_CODES
from builder.base.problem import Problem, Severity
from builder.base.source_codes import SOURCE_CODES
from builder.checks.check import check_entry
from builder.entries.fields import walk
from builder.entries.find import EntryFile, entry_at
from tests.checks.examples import BAD, GOOD, SNAPSHOT, TESTS, cases, drawn, example_settings, problems_of

ELSEWHERE = {
    "address-twice": "needs two entries: test_check.py",
    "file-link": "a link cannot be kept in every checkout: test_files.py, test_check.py",
    "file-too-large": "a large file is made while testing: test_files.py",
    "file-unreadable": "needs another owner: tests/entries/test_front_matter.py",
    "name-told": "needs a potter who is shown as nobody: test_unnamed.py",
    "stray-file": "is no folder: tests/entries/test_find.py",
    "yaml-too-large": "a large text is made while testing: tests/base/test_located_yaml.py",
}
"""Codes that no folder of the bad entries can show, and where they are shown instead."""


def good(folder: Path) -> EntryFile:
    entry = entry_at(folder, TESTS)
    assert isinstance(entry, EntryFile)
    return entry


@pytest.mark.parametrize("folder", cases(GOOD), ids=lambda folder: folder.name)
def test_a_good_entry_gives_no_problem_and_a_firing(folder: Path) -> None:
    assert problems_of(folder) == ()
    assert check_entry(good(folder), example_settings()).firing is not None


@pytest.mark.parametrize("folder", cases(BAD), ids=lambda folder: folder.name)
def test_a_bad_entry_gives_the_problems_written_beside_it(folder: Path) -> None:
    assert drawn(folder) == (folder / SNAPSHOT).read_text(encoding="utf-8")


@pytest.mark.parametrize("folder", cases(BAD), ids=lambda folder: folder.name)
def test_a_problem_of_an_entry_has_a_place_a_message_and_a_way_out(folder: Path) -> None:
    found = problems_of(folder)
    assert found
    for problem in found:
        assert problem.message.endswith(".")
        assert problem.help.endswith((".", "?"))
        assert placed(problem)


def placed(problem: Problem) -> bool:
    """A whole file or folder may have no line; everything inside an entry has one."""
    whole_file = {"entry-empty", "entry-missing", "folder-name", "file-encoding"}
    return problem.code in whole_file or bool(problem.place.line and problem.place.column)


def test_every_code_that_an_entry_can_cause_is_shown_by_a_bad_entry() -> None:
    shown = {problem.code for folder in cases(BAD) for problem in problems_of(folder)}
    # Of submissions, tables and other groups' published data, before there is an entry.
    taken_in = {code.name for code in (*INTAKE_CODES, *SOURCE_CODES)}
    wanted = {
        code.name
        for code in CODES.values()
        if code.severity in (Severity.ERROR, Severity.WARNING)
        and not code.name.startswith("settings-")
        and code.name not in taken_in
    }
    assert wanted - shown == set(ELSEWHERE)


def test_the_good_entries_fill_in_every_field_there_is() -> None:
    written = " ".join((folder / "entry.md").read_text(encoding="utf-8") for folder in cases(GOOD))
    assert [path for path, field in walk() if f"{field.name}:" not in written] == []
