"""A site stands where nothing that it was made from, and nothing of it, is another; whatever else leads to a build."""

from __future__ import annotations

import os
import shutil
import time
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

import pytest

from builder.asked import SETTINGS_FILE, WORK, Built, Options
from builder.kept.store import FILE
from builder.renew import renew
from builder.settings_file import SETTINGS_FILE as READ_AS_SETTINGS
from builder.standing import seen_of, standing
from tests.commands.archives import write_archive


@pytest.fixture(autouse=True)
def at_once(monkeypatch: pytest.MonkeyPatch) -> None:
    """Let files count as rested from the start, and the program as the same throughout."""
    monkeypatch.setattr("builder.standing.RESTED_NS", 0)
    monkeypatch.setattr("builder.publish.publish.program_version", lambda *folders: "this version")
    monkeypatch.setattr("builder.publish.publish._first", {})


@pytest.fixture
def options(tmp_path: Path) -> Options:
    project = write_archive(tmp_path / "archive", 2)
    return Options(project, project / "site", jobs=1)


def _stands(options: Options) -> Built | None:
    return standing(options, seen_of(options))


def test_a_site_stands_after_its_build_with_what_that_found(options: Options) -> None:
    assert _stands(options) is None
    built = renew(options)
    assert built.published == 2
    assert _stands(options) == built


def test_nothing_is_built_where_the_site_stands(options: Options, monkeypatch: pytest.MonkeyPatch) -> None:
    built = renew(options)
    monkeypatch.setattr("builder.build.build", lambda *asked: pytest.fail("this builds"))
    assert renew(options) == built


def _entry(project: Path) -> Path:
    return project / "content/firings/2026-05-01-fire-1/entry.md"


def _same_size(path: Path) -> None:
    """Change a byte and put the time back, as a version control system may."""
    times = path.stat()
    path.write_bytes(path.read_bytes().replace(b"e", b"a", 1))
    os.utime(path, ns=(times.st_atime_ns, times.st_mtime_ns))


HARM: dict[str, Callable[[Path], object]] = {
    "an entry": lambda project: _same_size(_entry(project)),
    "a new file": lambda project: (_entry(project).parent / "drawn.jpg").write_bytes(b"no picture"),
    "an entry gone": lambda project: shutil.rmtree(_entry(project).parent),
    "the settings": lambda project: _same_size(project / SETTINGS_FILE),
    "the group's pages": lambda project: _write(project / "content/pages/about.md", "Ours."),
    "a link": lambda project: (project / "content/firings/elsewhere").symlink_to(project / "content"),
    "a page of the site": lambda project: _same_size(project / "site/index.html"),
    "a page of the site gone": lambda project: (project / "site/about.html").unlink(),
    "a stranger in the site": lambda project: _write(project / "site/mine.html", "mine"),
    "a page for mkdocs": lambda project: _same_size(project / WORK / "docs/index.md"),
    "the configuration": lambda project: _same_size(project / WORK / "mkdocs.yml"),
    "what is kept": lambda project: _write(project / WORK / FILE, "no database"),
    "the working folder gone": lambda project: shutil.rmtree(project / WORK),
    "the site gone": lambda project: shutil.rmtree(project / "site"),
}


def _write(path: Path, words: str) -> None:
    path.parent.mkdir(exist_ok=True)
    path.write_text(words, encoding="utf-8")


@pytest.mark.parametrize("harm", HARM)
def test_no_site_stands_where_something_was_changed(options: Options, harm: str) -> None:
    renew(options)
    assert _stands(options) is not None
    HARM[harm](options.project)
    assert _stands(options) is None


def test_a_site_does_not_stand_for_another_way_of_building_it(
    options: Options, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    renew(options)
    others = (replace(options, offline=True), replace(options, strict=True), replace(options, out=tmp_path / "other"))
    assert [_stands(other) for other in others] == [None, None, None]
    monkeypatch.setenv("SOURCE_DATE_EPOCH", "86400")
    assert _stands(options) is None


def test_a_site_does_not_stand_for_another_version_of_the_program(
    options: Options, monkeypatch: pytest.MonkeyPatch
) -> None:
    renew(options)
    monkeypatch.setattr("builder.publish.publish.program_version", lambda *folders: "the next version")
    monkeypatch.setattr("builder.publish.publish._first", {})
    assert _stands(options) is None


def test_what_was_written_just_now_is_read_again(options: Options, monkeypatch: pytest.MonkeyPatch) -> None:
    """Within a step of the disk's clock a file can be written twice and look the same."""
    monkeypatch.setattr("builder.standing.RESTED_NS", time.time_ns())
    assert seen_of(options) is None


def test_an_archive_that_reads_others_is_always_looked_through(options: Options) -> None:
    settings = options.project / SETTINGS_FILE
    settings.write_text(settings.read_text(encoding="utf-8") + "sources: {others: ../others}\n", encoding="utf-8")
    assert renew(options).published == 2
    assert _stands(options) is None


def test_settings_are_looked_for_where_they_are_read() -> None:
    assert SETTINGS_FILE == READ_AS_SETTINGS
