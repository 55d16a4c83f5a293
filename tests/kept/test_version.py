"""A version is that of the program's files and of its libraries, and is told without reading a file twice."""

from __future__ import annotations

from importlib.metadata import version
from pathlib import Path

import pytest

from builder.kept import version as versions
from builder.kept.version import LIBRARIES, library_version, own_version, program_version


@pytest.mark.parametrize("library", LIBRARIES)
def test_a_library_has_the_version_that_python_tells(library: str) -> None:
    assert library_version(library) == version(library)


def test_a_library_that_is_not_installed_has_none() -> None:
    assert library_version("no-such-library-anywhere") == "none"


def test_any_other_name_or_content_is_another_version_and_bytecode_is_none(tmp_path: Path) -> None:
    (tmp_path / "a.py").write_text("one")
    seen = [program_version(tmp_path)]
    (tmp_path / "a.py").write_text("two")
    seen.append(program_version(tmp_path))
    (tmp_path / "a.py").rename(tmp_path / "b.py")
    seen.append(program_version(tmp_path))
    assert len(set(seen)) == 3
    (tmp_path / "__pycache__").mkdir()
    (tmp_path / "__pycache__/b.pyc").write_text("code")
    assert program_version(tmp_path) == seen[-1]


def test_files_that_look_as_before_are_not_read_again(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    (tmp_path / "a.py").write_text("one")
    before = program_version(tmp_path)
    monkeypatch.setattr(versions, "_read", None)
    assert program_version(tmp_path) == before


def test_a_program_whose_files_changed_since_it_began_has_no_version_of_its_own(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    assert own_version()
    monkeypatch.setattr(versions, "_first", dict.fromkeys(versions._first, "another"))
    assert not own_version()
