"""Whatever happens to a build, the last good site stays whole, the next build succeeds, and the words say how."""

from __future__ import annotations

import importlib
import os
import shutil
import subprocess
import sys
import time
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from PIL import Image

from builder.build import Options, build
from builder.commands.cli import main
from builder.publish.publish import PublishError
from tests.commands.archives import write_archive
from tests.trust.commands_killed import COMMANDS, kill_commands
from tests.trust.faults import end_of, in_a_process, kill_builds, site_bytes
from tests.trust.rotation import round_of_today

stages: Any = importlib.import_module("builder.stages")

pytestmark = pytest.mark.skipif(not hasattr(os, "fork"), reason="processes are parted by fork here")


def test_a_build_killed_at_twelve_random_moments_leaves_the_old_site_or_the_new_one_whole(tmp_path: Path) -> None:
    result = kill_builds(tmp_path, 12)
    assert result.faults == []
    assert result.killed >= 6
    assert result.looks > 50


def test_commands_killed_at_random_moments_leave_nothing_half_written_and_the_next_run_succeeds(tmp_path: Path) -> None:
    quick = tuple(name for name in COMMANDS if name != "pack")
    result = kill_commands(tmp_path, 3, seed=round_of_today(), names=quick)
    assert result.faults == [], f"ASHBOOK_ROUND={round_of_today()}"
    assert result.killed + result.finished == 3 * len(quick)
    assert result.killed >= 3


def test_of_two_builds_at_once_one_succeeds_and_the_other_says_to_wait(tmp_path: Path) -> None:
    project = write_archive(tmp_path / "archive", 2)
    children = [in_a_process(project, tmp_path / f"words-{number}") for number in range(2)]
    codes = [end_of(child) for child in children]
    words = [(tmp_path / f"words-{number}").read_text(encoding="utf-8") for number in range(2)]
    assert 0 in codes
    assert set(codes) <= {0, 1}
    refused = [told for code, told in zip(codes, words, strict=True) if code]
    assert all("another build is at work" in told and "wait" in told for told in refused)
    assert (project / "site" / "index.html").is_file()


@pytest.fixture
def small_disk(tmp_path: Path) -> Iterator[Path]:
    """A disk of a few megabytes, where the system lets one be made."""
    disk = tmp_path / "disk"
    disk.mkdir()
    made = subprocess.run(["mount", "-t", "tmpfs", "-o", "size=12m", "ashbook-test", str(disk)], capture_output=True)
    if made.returncode:
        pytest.skip("only an administrator can mount a small disk to fill up")
    yield disk
    subprocess.run(["umount", "-l", str(disk)], check=True)


def test_on_a_full_disk_the_last_good_site_stays_and_the_words_say_so(
    small_disk: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    project = write_archive(small_disk / "archive", 2)
    assert main(["--project", str(project), "build"]) == 0
    good = site_bytes(project / "site")
    shutil.rmtree(project / ".ashbook")
    filler = small_disk / "filler"
    free = shutil.disk_usage(small_disk).free
    filler.write_bytes(b"\0" * max(0, free - 300_000))
    capsys.readouterr()
    assert main(["--project", str(project), "build"]) == 1
    told = capsys.readouterr().err
    assert "disk is full" in told
    assert "last good" in told
    assert site_bytes(project / "site") == good
    assert main(
        ["--project", str(project), *"start --title X --potter wren --method open-fire".split(), "--piece", "a=sound"]
    ) in (0, 1)
    filler.unlink()
    assert main(["--project", str(project), "build"]) == 0


def test_on_a_disk_that_can_only_be_read_nothing_is_lost_and_the_words_say_why(
    small_disk: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    project = write_archive(small_disk / "archive", 2)
    assert main(["--project", str(project), "build"]) == 0
    good = site_bytes(project / "site")
    subprocess.run(["mount", "-o", "remount,ro", str(small_disk)], check=True)
    capsys.readouterr()
    assert main(["--project", str(project), "build"]) == 1
    assert "can only be read" in capsys.readouterr().err
    start = "start --title X --potter wren --method open-fire --piece a=sound".split()
    assert main(["--project", str(project), *start]) == 1
    assert "can only be read" in capsys.readouterr().err
    assert site_bytes(project / "site") == good


def _archive_with_a_photo(folder: Path) -> tuple[Path, Path]:
    project = write_archive(folder / "archive", 2)
    entry = project / "content" / "firings" / "2026-05-02-fire-2" / "entry.md"
    text = entry.read_text(encoding="utf-8").replace("pieces:", "photos: [{file: drawn.jpg, alt: The jar}]\npieces:")
    entry.write_text(text, encoding="utf-8")
    photo = entry.with_name("drawn.jpg")
    Image.new("RGB", (300, 200), "grey").save(photo)
    return project, photo


@pytest.mark.parametrize("way", ["gone", "a link", "another kind", "a folder", "a pipe"])
def test_a_photo_changed_after_it_was_checked_is_never_published_and_the_old_site_stays(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, way: str
) -> None:
    project, photo = _archive_with_a_photo(tmp_path)
    build(Options(project, project / "site"))
    good = site_bytes(project / "site")
    shutil.rmtree(project / ".ashbook")
    secret = tmp_path / "secret.jpg"
    Image.new("RGB", (300, 200), "red").save(secret)
    real = stages.gathered

    def meddled(*given: object) -> object:
        photo.unlink()
        if way == "a link":
            photo.symlink_to(secret)
        elif way == "another kind":
            photo.write_bytes(b"<svg onload='ran()'/>")
        elif way == "a folder":
            photo.mkdir()
        elif way == "a pipe":
            os.mkfifo(photo)
        return real(*given)

    monkeypatch.setattr(stages, "gathered", meddled)
    with pytest.raises(PublishError):
        build(Options(project, project / "site"))
    assert site_bytes(project / "site") == good


def test_an_entry_that_goes_while_the_archive_is_read_is_told_and_the_rest_is_published(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    project = write_archive(tmp_path / "archive", 2)
    real = stages.find_entries

    def found(where: Path) -> object:
        entries = real(where)
        shutil.rmtree(where / "content" / "firings" / "2026-05-02-fire-2")
        return entries

    monkeypatch.setattr(stages, "find_entries", found)
    built = build(Options(project, project / "site"))
    assert built.published == 1
    assert [problem.code for problem in built.problems] == ["file-unreadable"]


def test_an_edit_of_the_same_length_with_the_clock_turned_back_is_seen(tmp_path: Path) -> None:
    project = write_archive(tmp_path / "archive", 2)
    entry = project / "content" / "firings" / "2026-05-02-fire-2" / "entry.md"
    os.utime(entry, (1_000_000_000, 1_000_000_000))
    build(Options(project, project / "site"))
    build(Options(project, project / "site"))
    entry.write_text(entry.read_text(encoding="utf-8").replace("Fire 2", "Fire 9"), encoding="utf-8")
    os.utime(entry, (1_000_000_000, 1_000_000_000))
    build(Options(project, project / "site"))
    page = (project / "site" / "firings" / "2026-05-02-fire-2.html").read_text(encoding="utf-8")
    assert "Fire 9" in page
    assert "Fire 2<" not in page


def test_a_clock_that_goes_backwards_does_no_harm(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    project = write_archive(tmp_path / "archive", 2)
    build(Options(project, project / "site"))
    good = site_bytes(project / "site")
    now = iter(range(2_000_000_000, 0, -1000))
    monkeypatch.setattr(time, "time", lambda: float(next(now)))
    monkeypatch.setattr(time, "time_ns", lambda: next(now) * 1_000_000_000)
    build(Options(project, project / "site"))
    assert site_bytes(project / "site") == good


def test_a_working_folder_full_of_rubbish_costs_nothing_but_time(tmp_path: Path) -> None:
    project = write_archive(tmp_path / "archive", 2)
    build(Options(project, project / "site"))
    good = site_bytes(project / "site")
    for path in sorted((project / ".ashbook").rglob("*")):
        if path.is_file() and path.name != "lock":
            path.write_bytes(b"\x80\x04rubbish" + path.read_bytes()[:50])
    build(Options(project, project / "site"))
    assert site_bytes(project / "site") == good


def test_a_start_that_is_killed_before_its_last_step_leaves_no_half_an_entry(tmp_path: Path) -> None:
    project = write_archive(tmp_path / "archive", 1)
    start = "start --title Second --potter wren --method open-fire --piece a=sound --date 2026-05-09".split()
    child = os.fork()
    if not child:
        Path.rename = lambda *given: os._exit(9)  # type: ignore[method-assign]
        with (tmp_path / "words").open("w", encoding="utf-8") as told:
            sys.stdout = sys.stderr = told
            main(["--project", str(project), *start])
        os._exit(70)
    assert end_of(child) == 9
    assert build(Options(project, project / "site")).published == 1
    assert main(["--project", str(project), *start]) == 0
    built = build(Options(project, project / "site"))
    assert (built.published, built.problems) == (2, ())
