"""Nothing but a site that was made here is ever replaced, and a killed build leaves the last good one whole."""

from __future__ import annotations

import subprocess
import sys
import textwrap
from pathlib import Path

import pytest

from builder.publish import swap
from builder.publish.errors import OutputRefused
from builder.publish.swap import MARKER, locked, mark, refuse_unsafe, swap_in, tidy


def _site(folder: Path, words: str) -> Path:
    folder.mkdir(parents=True)
    (folder / "index.html").write_text(words)
    mark(folder)
    return folder


def _words(site: Path) -> str:
    return (site / "index.html").read_text()


@pytest.fixture
def project(tmp_path: Path) -> Path:
    folder = tmp_path / "archive"
    (folder / "content/firings").mkdir(parents=True)
    return folder


def test_a_new_an_empty_and_a_made_folder_are_taken(project: Path) -> None:
    work = project / ".ashbook"
    refuse_unsafe(project / "site", work, project)
    (project / "site").mkdir()
    refuse_unsafe(project / "site", work, project)
    _site(project / "made", "x")
    refuse_unsafe(project / "made", work, project)


@pytest.mark.parametrize(
    ("out", "words"),
    [
        (".", "holds more than a site"),
        ("..", "holds more than a site"),
        ("content", "the archive's own files"),
        ("content/firings/site", "the archive's own files"),
        ("content/../content/new", "the archive's own files"),
        ("theme", "the archive's own files"),
        (".ashbook", "inside one another"),
        (".ashbook/site", "inside one another"),
        ("/", "holds more than a site"),
    ],
)
def test_a_folder_that_holds_something_else_is_refused(project: Path, out: str, words: str) -> None:
    with pytest.raises(OutputRefused, match=words):
        refuse_unsafe(project / out, project / ".ashbook", project)


def test_the_home_folder_is_refused(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("HOME", str(tmp_path / "home"))
    with pytest.raises(OutputRefused, match="holds more than a site"):
        refuse_unsafe(tmp_path / "home", tmp_path / "work")
    with pytest.raises(OutputRefused, match="holds more than a site"):
        refuse_unsafe(tmp_path, tmp_path / "work")


def test_a_folder_with_somebody_s_files_is_refused_and_left_alone(tmp_path: Path) -> None:
    (tmp_path / "out").mkdir()
    (tmp_path / "out/thesis.txt").write_text("years of work")
    with pytest.raises(OutputRefused, match="not empty and was not made by ashbook"):
        refuse_unsafe(tmp_path / "out", tmp_path / "work")
    assert (tmp_path / "out/thesis.txt").read_text() == "years of work"


def test_a_link_to_a_folder_of_the_archive_is_seen_through(project: Path) -> None:
    (project / "site").symlink_to(project / "content")
    with pytest.raises(OutputRefused, match="the archive's own files"):
        refuse_unsafe(project / "site", project / ".ashbook", project)


def test_a_file_in_the_way_is_refused(tmp_path: Path) -> None:
    (tmp_path / "site").write_text("x")
    with pytest.raises(OutputRefused, match="is a file"):
        refuse_unsafe(tmp_path / "site", tmp_path / "work")


@pytest.mark.parametrize("one_step", [True, False])
def test_the_new_site_and_the_old_one_change_places(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, one_step: bool
) -> None:
    if not one_step:
        monkeypatch.setattr(swap, "_exchange", lambda new, out: False)
    out = tmp_path / "site"
    swap_in(_site(tmp_path / "work/new", "first"), out)
    assert _words(out) == "first"
    swap_in(_site(tmp_path / "work/new", "second"), out)
    assert _words(out) == "second"
    assert sorted(path.name for path in tmp_path.iterdir()) == ["site", "work"]
    assert _words(tmp_path / "work/new") == "first"


def test_another_disk_is_bridged_before_the_swap(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(swap, "_same_disk", lambda one, other: False)
    out = _site(tmp_path / "site", "old")
    swap_in(_site(tmp_path / "work/new", "new"), out)
    assert _words(out) == "new"
    assert sorted(path.name for path in tmp_path.iterdir()) == ["site", "work"]


def test_a_build_killed_between_the_steps_of_a_swap_gets_its_old_site_back(tmp_path: Path) -> None:
    _site(tmp_path / ".site.ashbook-old", "last good")
    _site(tmp_path / "work/site-new", "half done")
    tidy(tmp_path / "site", tmp_path / "work")
    assert _words(tmp_path / "site") == "last good"


def test_leftovers_are_cleared_and_strangers_are_not(tmp_path: Path) -> None:
    out = _site(tmp_path / "site", "good")
    _site(tmp_path / ".site.ashbook-old", "older")
    (tmp_path / ".site.ashbook-new").mkdir()
    (tmp_path / ".site.ashbook-new/mine.txt").write_text("not a build's")
    tidy(out, tmp_path / "work")
    assert _words(out) == "good"
    assert not (tmp_path / ".site.ashbook-old").exists()
    assert (tmp_path / ".site.ashbook-new/mine.txt").exists()


def test_two_builds_at_once_do_not_collide(tmp_path: Path) -> None:
    with locked(tmp_path / "work"), pytest.raises(OutputRefused, match="another build"), locked(tmp_path / "work"):
        pass
    with locked(tmp_path / "work"):
        pass


def test_a_build_killed_while_mkdocs_works_leaves_the_site_whole_and_the_next_one_runs(tmp_path: Path) -> None:
    """The process ends with no chance to tidy, just before the swap."""
    program = textwrap.dedent(
        """
        import os, sys
        from pathlib import Path
        from builder.publish import publish as module
        from tests.publish.small_site import small_site
        folder = Path(sys.argv[1])
        module.publish(small_site(2), folder / "site", folder / "work")
        module.swap_in = lambda new, out: os._exit(9)
        module.publish(small_site(3), folder / "site", folder / "work")
        """
    )
    done = subprocess.run([sys.executable, "-c", program, str(tmp_path)], check=False, cwd=Path(__file__).parents[2])
    assert done.returncode == 9
    assert (tmp_path / "site" / MARKER).is_file()
    assert (tmp_path / "site/firings/2026-01-0002-jar.html").is_file()
    assert not (tmp_path / "site/firings/2026-01-0003-jar.html").exists()
    from builder.publish.publish import publish
    from tests.publish.small_site import small_site

    publish(small_site(3), tmp_path / "site", tmp_path / "work")
    assert (tmp_path / "site/firings/2026-01-0003-jar.html").is_file()
    assert sorted(path.name for path in tmp_path.iterdir()) == ["site", "work"]
