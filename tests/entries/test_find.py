"""Folders of firings are found in order; what is none is named."""

from __future__ import annotations

from pathlib import Path

import pytest

from builder.entries.find import SLUG, find_entries, suggest_slug


def _folder(project: Path, name: str, file: str = "entry.md") -> Path:
    folder = project / "content" / "firings" / name
    folder.mkdir(parents=True)
    (folder / file).write_text("---\n---\n", encoding="utf-8")
    return folder


def test_entries_come_in_the_order_of_their_folders_names(tmp_path: Path) -> None:
    for name in ("2026-05-02-jar", "2024-01-01-bowl", "2025-12-31-cup"):
        _folder(tmp_path, name)
    entries, problems = find_entries(tmp_path)
    assert [entry.slug for entry in entries] == ["2024-01-01-bowl", "2025-12-31-cup", "2026-05-02-jar"]
    assert entries[0].file == "content/firings/2024-01-01-bowl/entry.md"
    assert problems == ()


def test_an_archive_without_firings_has_none_and_no_problem(tmp_path: Path) -> None:
    assert find_entries(tmp_path) == ((), ())


@pytest.mark.parametrize(
    ("name", "file", "code", "help_has"),
    [
        ("Pale Jar (3)", "entry.md", "folder-name", "2026-01-31-pale-jar-3"),
        ("2026-05-02-Krug-für-Öl", "entry.md", "folder-name", "2026-05-02-krug-fur-ol"),
        ("2026-05-02-jar", "Entry.MD", "entry-missing", "Rename `Entry.MD`"),
        ("2026-05-02-jar", "photo.jpg", "entry-missing", "Write `entry.md`"),
    ],
)
def test_a_folder_that_is_no_entry_says_what_to_do(
    tmp_path: Path, name: str, file: str, code: str, help_has: str
) -> None:
    _folder(tmp_path, name, file)
    entries, problems = find_entries(tmp_path)
    assert entries == ()
    assert [found.code for found in problems] == [code]
    assert help_has in problems[0].help


def test_links_are_refused_whatever_they_lead_to(tmp_path: Path) -> None:
    real = _folder(tmp_path / "elsewhere", "2026-05-02-jar")
    firings = tmp_path / "content" / "firings"
    firings.mkdir(parents=True)
    (firings / "2026-05-02-jar").symlink_to(real)
    (firings / "2026-05-03-jar").mkdir()
    (firings / "2026-05-03-jar" / "entry.md").symlink_to(real / "entry.md")
    entries, problems = find_entries(tmp_path)
    assert entries == ()
    assert [found.code for found in problems] == ["file-link", "file-link"]


def test_a_stray_file_is_named_and_hidden_ones_are_passed_over(tmp_path: Path) -> None:
    _folder(tmp_path, "2026-05-02-jar")
    (tmp_path / "content" / "firings" / "notes.md").write_text("x", encoding="utf-8")
    (tmp_path / "content" / "firings" / ".DS_Store").write_text("x", encoding="utf-8")
    entries, problems = find_entries(tmp_path)
    assert len(entries) == 1
    assert [(found.code, found.severity) for found in problems] == [("stray-file", "warning")]


@pytest.mark.parametrize("words", ["", "???", "2026-05-02", "x" * 300, "ＡＢＣ", "../../etc", "2026-05-02 --- jar"])
def test_a_suggested_name_has_always_the_form_that_is_asked_for(words: str) -> None:
    assert SLUG.match(suggest_slug(words))
