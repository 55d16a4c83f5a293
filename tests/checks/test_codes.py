"""Each code of the checks with its own examples: the wrong one gives the code, the right one gives nothing."""

from __future__ import annotations

from pathlib import Path

import pytest

from builder.base.check_codes import CHECK_CODES
from builder.base.code import Code
from builder.base.codes import CODES, problem
from builder.base.problem import Place
from builder.entries.find import EntryFile
from builder.examine import examine
from tests.checks.examples import example_settings

BASE = {
    "title": "title: Pale-slipped jar",
    "date": "date: 2026-05-02",
    "potter": "potter: wren",
    "method": "method: open-fire",
    "pieces": "pieces:\n  - {name: jar, survival: sound}",
}


def codes_of(fields: str, folder: Path) -> set[str]:
    """Return the codes that an entry gives when some of its fields are written so."""
    parts: dict[str, str] = {}
    for line in fields.split("\n"):
        key = line.split(":", 1)[0] if line[:1].strip() else list(parts)[-1]
        parts[key] = f"{parts[key]}\n{line}" if key in parts else line
    text = "\n".join(["---", *{**BASE, **parts}.values(), "---", ""])
    (folder / "entry.md").write_text(text, encoding="utf-8")
    entry = EntryFile("jar", folder, folder / "entry.md", "entry.md")
    return {found.code for found in examine(entry, example_settings()).problems}


@pytest.mark.parametrize("code", [code for code in CHECK_CODES if code.wrong], ids=lambda code: code.name)
def test_a_code_s_wrong_example_gives_that_code_alone(code: Code, tmp_path: Path) -> None:
    assert codes_of(code.wrong, tmp_path) == {code.name}


@pytest.mark.parametrize("code", [code for code in CHECK_CODES if code.right], ids=lambda code: code.name)
def test_a_code_s_right_example_gives_no_problem(code: Code, tmp_path: Path) -> None:
    assert codes_of(code.right, tmp_path) == set()


def test_every_code_has_a_name_of_words_a_meaning_and_a_way_out() -> None:
    for name, code in CODES.items():
        assert name == code.name
        assert all(word.isalpha() for word in name.split("-"))
        assert code.meaning.endswith(".")
        assert code.mend.endswith(".")
        assert bool(code.wrong) or not code.right


def test_no_two_codes_have_one_name() -> None:
    names = [code.name for code in CHECK_CODES]
    assert len(set(names)) == len(names)


def test_a_problem_never_carries_a_character_that_turns_its_text_around() -> None:
    told = problem("yaml-syntax", Place("entry.md", 1, 1), "pla\u200bce", "A \u202e sign.", "Write \x1b[2J `می‌خواهم`.")
    assert (told.field, told.message, told.help) == ("pla�ce", "A � sign.", "Write �[2J `می‌خواهم`.")
