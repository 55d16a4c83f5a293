"""What was read of a source is never stale, heals whatever was done to it, and is told by `check`."""

from __future__ import annotations

import json
import shutil
from pathlib import Path

import pytest

from builder.build import Options, build
from builder.checks.fault import shown
from builder.commands.cli import main
from tests.sources.groups import contents, joined, published, read, zipped

FIRST = "data/entries/2026-05-01-fire-1"


def test_what_is_unpacked_heals_whatever_was_done_to_it(site: Path, tmp_path: Path) -> None:
    zipped(site, tmp_path / "hill.zip")
    project = joined(tmp_path, "  hill: ../hill.zip\n")
    build(Options(project, project / "site", jobs=1))
    before = contents(project / "site")
    unpacked = project / ".ashbook/sources/hill"
    entry = unpacked / FIRST / "entry.txt"
    entry.write_text(entry.read_text(encoding="utf-8").replace("survival: sound", "survival: broken"), "utf-8")
    shutil.rmtree(unpacked / "data/entries/2026-05-02-fire-2")
    (unpacked / "data/entries/2026-05-02-fire-2").write_text("a file in its place")
    (unpacked / "data/entries/2026-05-03-planted").mkdir()
    shutil.copy(entry, unpacked / "data/entries/2026-05-03-planted/entry.txt")
    build(Options(project, project / "site", jobs=1))
    assert contents(project / "site") == before


def test_a_source_that_is_published_anew_or_taken_out_is_so_in_what_is_built_next(tmp_path: Path) -> None:
    hill, dale = published(tmp_path, "hill"), published(tmp_path, "dale", 1)
    zipped(dale, tmp_path / "dale.zip")
    project = joined(tmp_path, "  hill: ../hill/site\n  dale: ../dale.zip\n")
    build(Options(project, project / "site", jobs=1))
    entry = tmp_path / "hill/content/firings/2026-05-01-fire-1/entry.md"
    entry.write_text(entry.read_text(encoding="utf-8").replace("710 °C", "745 °C"), encoding="utf-8")
    build(Options(tmp_path / "hill", hill, jobs=1))
    joined(tmp_path, "  hill: {from: ../hill/site, address: https://hill.example}\n")
    build(Options(project, project / "site", jobs=1))
    renewed = contents(project / "site")
    assert not (project / ".ashbook/sources/dale").exists()
    shutil.rmtree(project / ".ashbook")
    shutil.rmtree(project / "site")
    build(Options(project, project / "site", jobs=1))
    assert contents(project / "site") == renewed
    assert b"https://hill.example/firings/2026-05-01-fire-1.html" in renewed["data/firings.csv"]
    assert b"745" in renewed["data/readings.csv"]


def test_a_firing_that_is_withdrawn_leaves_what_is_published_for_others(tmp_path: Path) -> None:
    site = published(tmp_path)
    assert (site / FIRST / "entry.txt").is_file()
    shutil.rmtree(tmp_path / "hill/content/firings/2026-05-01-fire-1")
    build(Options(tmp_path / "hill", site, jobs=1))
    assert not (site / FIRST).exists()
    assert (site / "data/entries/2026-05-02-fire-2/entry.txt").is_file()


def test_check_tells_problems_by_source_and_path(
    copy: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    entry = copy / FIRST / "entry.txt"
    entry.write_text(entry.read_text(encoding="utf-8").replace("potter: wren", "potter: wrenn"), encoding="utf-8")
    project = joined(tmp_path, "  hill: ../hill/site\n  dale: ../dale.zip\n")
    assert main(["--project", str(project), "check", "--format", "json"]) == 1
    found = {(one["code"], one["file"], one["field"]) for one in json.loads(capsys.readouterr().out)}
    assert found == {
        ("not-listed", f"hill/{FIRST}/entry.txt", "potter"),
        ("source-missing", "dale", ""),
    }
    assert not (project / ".ashbook").exists()


def test_a_group_s_own_folder_is_no_source(tmp_path: Path) -> None:
    published(tmp_path)
    (found,) = read(tmp_path, "../hill")[1]
    assert found.code == "source-missing"
    assert shown("../hill") in found.message
    assert "`site` folder" in found.help
