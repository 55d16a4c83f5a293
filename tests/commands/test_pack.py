"""The packed site: everything in one file, the same bytes each time, never among the archive's own files."""

from __future__ import annotations

import zipfile
from pathlib import Path

import pytest

from builder.commands.cli import main
from builder.commands.pack import LOCK, READ_ME
from builder.publish.swap import locked
from tests.commands.archives import write_archive, write_entry


def pack(project: Path, *words: str | Path) -> int:
    return main(["--project", str(project), "pack", *map(str, words)])


def test_a_pack_holds_the_site_and_a_page_on_how_to_open_it(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    project = write_archive(tmp_path / "archive", 2)
    assert pack(project) == 0
    assert "2 firings packed" in capsys.readouterr().err
    with zipfile.ZipFile(project / "reedmere-fires.zip") as file:
        names = file.namelist()
        assert names == sorted(names)
        assert f"reedmere-fires/{READ_ME}" in names
        assert "reedmere-fires/site/index.html" in names
        assert "reedmere-fires/site/firings/2026-05-01-fire-1.html" in names
        told = file.read(f"reedmere-fires/{READ_ME}").decode()
        assert "index.html" in told
        assert "never say that something is safe" in told
        assert b"https://example.org" not in file.read("reedmere-fires/site/index.html")
        assert {info.date_time for info in file.infolist()} == {(1980, 1, 1, 0, 0, 0)}
    assert not (project / "site").exists()


def test_two_packs_of_the_same_content_have_the_same_bytes(tmp_path: Path) -> None:
    project = write_archive(tmp_path / "archive", 2)
    one, two = tmp_path / "one.zip", tmp_path / "two.zip"
    assert pack(project, "--to", one) == 0
    assert pack(project, "--to", two) == 0
    assert one.read_bytes() == two.read_bytes()
    assert pack(project, "--to", one) == 0


def test_a_pack_never_lands_among_the_archive_s_own_files(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    project = write_archive(tmp_path / "archive", 1)
    (project / "link").symlink_to(project / "content")
    for place in (project / "content/site.zip", project / "content/firings/site.zip", project / "link/site.zip"):
        assert pack(project, "--to", place) == 2
        assert "archive's own files" in capsys.readouterr().err
    assert not list((project / "content").rglob("*.zip"))


def test_a_pack_is_never_written_over_another_file(tmp_path: Path) -> None:
    project = write_archive(tmp_path / "archive", 1)
    other = tmp_path / "other.zip"
    other.write_bytes(b"mine")
    assert pack(project, "--to", other) == 2
    assert other.read_bytes() == b"mine"
    assert pack(project, "--to", tmp_path / "other.txt") == 2
    assert pack(project, "--to", tmp_path / "nowhere" / "a.zip") == 2


def test_a_pack_clears_what_a_killed_one_left_and_another_at_work_is_waited_for(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    project = write_archive(tmp_path / "archive", 1)
    left = tmp_path / ".fires.ashbook-pack" / "site"
    left.mkdir(parents=True)
    (left / "half.html").write_text("x", encoding="utf-8")
    with locked(project / LOCK):
        assert main(["--project", str(project), "pack", "--to", str(tmp_path / "fires.zip")]) == 1
    assert "wait until it is done" in capsys.readouterr().err
    assert main(["--project", str(project), "pack", "--to", str(tmp_path / "fires.zip")]) == 0
    assert sorted(path.name for path in tmp_path.iterdir()) == ["archive", "fires.zip"]


def test_a_strict_pack_writes_nothing_while_an_entry_has_an_error(tmp_path: Path) -> None:
    project = write_archive(tmp_path / "archive", 1)
    write_entry(project, "2026-06-01-a", "A", survival="soundish")
    to = tmp_path / "a.zip"
    assert pack(project, "--to", to, "--strict") == 1
    assert not to.exists()
    assert pack(project, "--to", to) == 1
    assert to.is_file()
