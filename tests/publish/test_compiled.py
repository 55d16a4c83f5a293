"""Compiled templates are taken up by the program that compiled them, and by no other; without them all goes on."""

from __future__ import annotations

import sys
from importlib.util import cache_from_source
from pathlib import Path

import pytest
from jinja2 import Environment, FileSystemLoader

from builder.publish import compiled
from builder.publish.compiled import Compiled


@pytest.fixture(autouse=True)
def one_version(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("builder.publish.compiled.own_version", lambda: "one")
    monkeypatch.setattr(sys, "dont_write_bytecode", False)


def _filled(folder: Path, words: str = "{{ 'a' | twice }} {{ b }}", twice: str = "aa") -> str:
    """Fill a template in a new environment, whose filter is worked out where the template is compiled."""
    (folder / "theme/parts").mkdir(parents=True, exist_ok=True)
    (folder / "theme/parts/a.html").write_text(words)
    loader = FileSystemLoader(folder / "theme")
    environment = Environment(loader=loader, bytecode_cache=Compiled(folder / "kept"))
    environment.filters["twice"] = lambda _: twice
    return environment.get_template("parts/a.html").render(b="b")


def test_what_was_compiled_is_taken_up_for_the_same_words(tmp_path: Path) -> None:
    assert _filled(tmp_path) == "aa b"
    assert _filled(tmp_path, twice="compiled anew") == "aa b"
    assert _filled(tmp_path, "{{ 'a' | twice }}", "other words") == "other words"
    assert len(list((tmp_path / "kept").iterdir())) == 1


def test_another_version_of_the_program_compiles_anew(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    _filled(tmp_path)
    for version in ("two", ""):
        monkeypatch.setattr("builder.publish.compiled.own_version", lambda version=version: version)
        assert _filled(tmp_path, twice=f"by {version}") == f"by {version} b"


@pytest.mark.parametrize("damage", [b"", b"words", b"\xff" * 40])
def test_damaged_code_is_passed_over(tmp_path: Path, damage: bytes) -> None:
    _filled(tmp_path)
    (file,) = (tmp_path / "kept").iterdir()
    head = file.read_bytes().partition(b"\n")[0] + b"\n"
    for content in (damage, head + damage):
        file.write_bytes(content)
        assert _filled(tmp_path) == "aa b"


def test_nothing_is_kept_where_that_is_impossible_or_unwanted(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    (tmp_path / "kept").write_text("a file")
    assert _filled(tmp_path) == "aa b"
    (tmp_path / "kept").unlink()
    monkeypatch.setattr(sys, "dont_write_bytecode", True)
    assert _filled(tmp_path) == "aa b"
    assert not (tmp_path / "kept").exists()


def test_what_is_compiled_lies_beside_the_programs_own_bytecode() -> None:
    """Never in a project: a working folder that somebody else sent must not be able to run anything."""
    assert Compiled()._folder.parent == Path(cache_from_source(compiled.__file__)).parent
