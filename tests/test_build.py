"""A whole build: the same bytes every time, nothing broken published, the last good site kept."""

from __future__ import annotations

from pathlib import Path

import pytest

from builder.build import Built, Options, build
from builder.publish.publish import PublishError
from tests.commands.archives import write_archive, write_entry

BROKEN = "content/firings/2026-05-02-fire-2/entry.md"


def _built(project: Path, **options: object) -> Built:
    return build(Options(project, project / "site", **options))  # type: ignore[arg-type]


def _bytes(folder: Path) -> dict[str, bytes]:
    return {path.relative_to(folder).as_posix(): path.read_bytes() for path in folder.rglob("*") if path.is_file()}


def _break(project: Path) -> None:
    entry = project / BROKEN
    entry.write_text(
        entry.read_text(encoding="utf-8").replace("survival: sound", "survival: soundish"), encoding="utf-8"
    )


def test_two_builds_of_the_same_content_in_two_folders_are_equal_byte_for_byte(tmp_path: Path) -> None:
    first, second = write_archive(tmp_path / "one" / "a"), write_archive(tmp_path / "two" / "much longer name")
    _built(first)
    _built(second, jobs=1)
    _built(second)
    one, two = _bytes(first / "site"), _bytes(second / "site")
    assert one.keys() == two.keys()
    assert [name for name in one if one[name] != two[name]] == []


def test_over_many_processes_the_bytes_are_those_of_one(tmp_path: Path) -> None:
    project = write_archive(tmp_path / "a", 27)
    _built(project, jobs=1)
    alone = _bytes(project / "site")
    _built(project, jobs=3)
    assert _bytes(project / "site") == alone


def test_a_broken_entry_is_left_out_and_named_on_the_site(tmp_path: Path) -> None:
    project = write_archive(tmp_path / "a")
    _break(project)
    built = _built(project)
    assert (built.entries, built.published) == (3, 2)
    assert not (project / "site" / "firings" / "2026-05-02-fire-2.html").exists()
    about = (project / "site" / "about.html").read_text(encoding="utf-8")
    assert BROKEN in about
    assert "soundish" in about


def test_strict_publishes_nothing_and_leaves_the_last_good_site_as_it_was(tmp_path: Path) -> None:
    project = write_archive(tmp_path / "a")
    _built(project)
    before = _bytes(project / "site")
    _break(project)
    assert _built(project, strict=True).published is None
    assert _bytes(project / "site") == before


def test_an_archive_without_a_single_firing_is_a_site_all_the_same(tmp_path: Path) -> None:
    project = write_archive(tmp_path / "a", 0)
    assert _built(project).published == 0
    assert (project / "site" / "index.html").is_file()


def test_a_folder_that_is_no_site_is_never_written_over(tmp_path: Path) -> None:
    project = write_archive(tmp_path / "a")
    (project / "site").mkdir()
    (project / "site" / "thesis.txt").write_text("mine", encoding="utf-8")
    with pytest.raises(PublishError):
        _built(project)
    assert (project / "site" / "thesis.txt").read_text(encoding="utf-8") == "mine"


def test_for_a_memory_stick_nothing_is_written_that_needs_a_web_host(tmp_path: Path) -> None:
    project = write_archive(tmp_path / "a")
    _built(project)
    hosted = _bytes(project / "site")
    _built(project, offline=True)
    offline = _bytes(project / "site")
    assert set(hosted) - set(offline) >= {"feed.xml", "sitemap.xml"}
    assert b"https://example.org" in hosted["index.html"]
    assert all(b"https://example.org" not in page for name, page in offline.items() if name.endswith(".html"))


def test_no_page_tells_where_it_was_built(tmp_path: Path) -> None:
    project = write_archive(tmp_path / "secret-place")
    _built(project)
    assert [name for name, page in _bytes(project / "site").items() if b"secret-place" in page] == []


def test_firings_are_numbered_by_date_and_then_by_address(tmp_path: Path) -> None:
    project = write_archive(tmp_path / "a", 0)
    write_entry(project, "2026-05-02-b", "Second of the day")
    write_entry(project, "2026-05-02-a", "First of the day")
    write_entry(project, "2025-01-01-c", "Long before")
    _built(project)
    listed = (project / "site" / "data" / "firings.csv").read_text(encoding="utf-8").splitlines()
    assert [line.split(",")[0] for line in listed[1:]] == ["2025-01-01-c", "2026-05-02-a", "2026-05-02-b"]
