"""Problems are drawn the same way every time: for people, for programs, for annotations."""

from __future__ import annotations

import json
from pathlib import Path

from builder.base.problem import Place, Problem, Severity
from builder.commands.report import report, summary

FOUND = Problem(
    Place("entry.md", 2, 8),
    "title",
    "text-empty",
    Severity.ERROR,
    "The title is empty: 100 %, really.",
    "Write `title: Jar`.",
)
WHOLE = Problem(Place("a.md"), "", "entry-empty", Severity.WARNING, "Nothing here.", "Write it.")


def _project(folder: Path, line: str = "title:  ") -> Path:
    (folder / "entry.md").write_text(f"---\n{line}\n---\n", encoding="utf-8")
    return folder


def test_text_shows_the_line_a_mark_under_the_place_and_the_way_out(tmp_path: Path) -> None:
    drawn = report([FOUND], _project(tmp_path, "title:  x"), "text")
    assert drawn.splitlines() == [
        "entry.md:2:8: error [text-empty] title: The title is empty: 100 %, really.",
        "    title:  x",
        "           ^",
        "    Write `title: Jar`.",
    ]


def test_text_of_a_problem_without_a_line_is_two_lines(tmp_path: Path) -> None:
    assert report([WHOLE], tmp_path, "text").splitlines() == [
        "a.md: warning [entry-empty] Nothing here.",
        "    Write it.",
    ]


def test_a_line_cannot_move_the_cursor_of_the_terminal(tmp_path: Path) -> None:
    drawn = report([FOUND], _project(tmp_path, "title: \x1b[2Jgone\u202e"), "text")
    assert "\x1b" not in drawn
    assert "\u202e" not in drawn


def test_a_very_long_line_is_cut_around_the_place(tmp_path: Path) -> None:
    long = "title: " + "x" * 500 + "HERE" + "x" * 500
    found = Problem(Place("entry.md", 2, 508), "title", "text-long", Severity.ERROR, "m", "h")
    shown, mark = report([found], _project(tmp_path, long), "text").splitlines()[1:3]
    assert len(shown) < 120
    assert shown[mark.index("^") :].startswith("HERE")


def test_json_is_a_list_of_objects_with_the_promised_keys(tmp_path: Path) -> None:
    assert json.loads(report([FOUND, WHOLE], tmp_path, "json")) == [
        {
            "file": "a.md",
            "line": None,
            "column": None,
            "field": "",
            "code": "entry-empty",
            "severity": "warning",
            "message": "Nothing here.",
            "help": "Write it.",
        },
        {
            "file": "entry.md",
            "line": 2,
            "column": 8,
            "field": "title",
            "code": "text-empty",
            "severity": "error",
            "message": "The title is empty: 100 %, really.",
            "help": "Write `title: Jar`.",
        },
    ]
    assert report([], tmp_path, "json") == "[]"


def test_annotations_escape_what_would_end_them_early(tmp_path: Path) -> None:
    odd = Problem(Place("a,b:c.md", 1, 1), "title", "x", Severity.NOTE, "50 %\nmore", "h")
    assert (
        report([odd], tmp_path, "github") == "::notice file=a%2Cb%3Ac.md,line=1,col=1,title=x::title: 50 %25%0Amore h"
    )


def test_the_summary_counts_by_severity() -> None:
    assert summary([FOUND, WHOLE], 1) == "1 entry: 1 error, 1 warning."
    assert summary([], 36) == "36 entries: no problem found."
