"""Submissions: a sound one is laid in whole, any other leaves nothing behind."""

from __future__ import annotations

import signal
import struct
import subprocess
import sys
import warnings
import zipfile
from collections.abc import Callable
from pathlib import Path

import pytest

from builder.base.codes import CODES
from builder.base.intake_codes import INTAKE_CODES
from builder.commands.cli import main
from builder.intake.unpacking import unpack
from builder.intake.zip_head import MAX_MEMBERS
from tests.commands.archives import write_archive
from tests.intake.zips import ENTRY_TEXT, SLUG, sound_files, write_zip


def accept(project: Path, *words: str | Path) -> int:
    return main(["--project", str(project), "accept", *map(str, words)])


def tree(project: Path) -> list[str]:
    """Return every file below the firings, hidden ones too."""
    return sorted(path.relative_to(project).as_posix() for path in (project / "content").rglob("*"))


def test_a_sound_submission_is_laid_in_and_passes_check(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    project = write_archive(tmp_path / "archive", 1)
    before = tree(project)
    assert accept(project, write_zip(tmp_path / "jar.zip", sound_files())) == 0
    told = capsys.readouterr()
    assert "Pale jar: 2026-06-20, Wren Oddie, Open fire, 4 pieces" in told.out
    assert "1 of 1 submission was taken in." in told.err
    folder = f"content/firings/{SLUG}"
    gained = [folder, *(f"{folder}/{name}" for name in ("entry.md", "photo-1.jpg", "readings.csv"))]
    assert tree(project) == sorted([*before, *gained])
    for name, data in sound_files().items():
        assert (project / "content/firings" / name).read_bytes() == data
    assert main(["--project", str(project), "check"]) == 0


@pytest.mark.parametrize("folder", ["", "pale jar (3)"])
def test_a_submission_without_a_good_folder_name_gets_one_from_its_date_and_title(tmp_path: Path, folder: str) -> None:
    project = write_archive(tmp_path / "archive", 0)
    assert accept(project, write_zip(tmp_path / "jar.zip", sound_files(folder))) == 0
    assert (project / "content/firings/2026-06-20-pale-jar/photo-1.jpg").is_file()


def test_a_submission_that_was_taken_in_before_is_good_and_an_edited_one_is_not_written_over(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    project = write_archive(tmp_path / "archive", 1)
    path = write_zip(tmp_path / "jar.zip", sound_files())
    assert accept(project, path) == 0
    before = tree(project)
    capsys.readouterr()
    assert accept(project, path) == 0
    told = capsys.readouterr()
    assert "the same to the byte" in told.out
    assert "0 of 1 submission were taken in. 1 was there already." in told.err
    assert tree(project) == before
    entry = project / "content" / "firings" / SLUG / "entry.md"
    entry.write_text(entry.read_text(encoding="utf-8") + "More.\n", encoding="utf-8")
    assert accept(project, path) == 1
    assert entry.read_text(encoding="utf-8").endswith("More.\n")


def test_a_dry_run_shows_the_same_and_writes_nothing(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    project = write_archive(tmp_path / "archive", 1)
    before = tree(project)
    path = write_zip(tmp_path / "jar.zip", sound_files())
    assert accept(project, path, "--dry-run") == 0
    told = capsys.readouterr()
    assert f"would add content/firings/{SLUG}/" in told.out
    assert "Nothing was written." in told.err
    assert tree(project) == before


def test_nothing_is_ever_written_over_a_firing(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    project = write_archive(tmp_path / "archive", 0)
    path = write_zip(tmp_path / "jar.zip", sound_files())
    assert accept(project, path) == 0
    (project / f"content/firings/{SLUG}/entry.md").write_text("changed since\n", encoding="utf-8")
    before = tree(project)
    capsys.readouterr()
    assert accept(project, path) == 1
    assert "[firing-exists]" in capsys.readouterr().out
    assert tree(project) == before
    assert (project / f"content/firings/{SLUG}/entry.md").read_text(encoding="utf-8") == "changed since\n"


def test_a_firing_whose_folder_differs_in_capitals_only_is_not_written_beside(tmp_path: Path) -> None:
    project = write_archive(tmp_path / "archive", 0)
    (project / "content/firings" / SLUG.upper()).mkdir(parents=True)
    assert accept(project, write_zip(tmp_path / "jar.zip", sound_files())) == 1


def test_a_folder_of_submissions_is_taken_in_one_by_one(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    project = write_archive(tmp_path / "archive", 0)
    inbox = tmp_path / "inbox"
    inbox.mkdir()
    write_zip(inbox / "a.zip", sound_files())
    write_zip(inbox / "b.zip", {"entry.md": ENTRY_TEXT.replace("wren", "wern").encode()})
    write_zip(inbox / "c.zip", sound_files("2026-06-20-pale-jar-again"))
    write_zip(inbox / "d.zip", sound_files())
    (inbox / "e.zip").write_bytes(b"")
    assert accept(project, inbox) == 1
    told = capsys.readouterr()
    assert "2 of 5 submissions were taken in." in told.err
    assert "Did you mean `wren`?" in told.out or "Write `wren`" in told.out or "`wren`" in told.out
    assert sorted(item.name for item in (project / "content/firings").iterdir()) == [SLUG, f"{SLUG}-again"]


def test_in_a_dry_run_two_submissions_of_one_name_are_told(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    project = write_archive(tmp_path / "archive", 0)
    one, two = (write_zip(tmp_path / f"{name}.zip", sound_files()) for name in "ab")
    assert accept(project, one, two, "--dry-run") == 1
    assert "1 of 2 submissions could be taken in." in capsys.readouterr().err


def test_problems_of_the_entry_show_its_line_and_the_zip_it_came_in(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    project = write_archive(tmp_path / "archive", 0)
    text = ENTRY_TEXT.replace("survival: sound, carbon: cleared", "survival: souned, carbon: cleared")
    assert accept(project, write_zip(tmp_path / "jar.zip", {"entry.md": text.encode()})) == 1
    told = capsys.readouterr().out
    assert f"jar.zip/{SLUG}/entry.md:15:" in told
    assert "- {name: jar, survival: souned, carbon: cleared}" in told
    assert list((project / "content/firings").iterdir()) == []


def test_a_file_that_the_entry_does_not_name_stays_out(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    project = write_archive(tmp_path / "archive", 0)
    files = {
        **sound_files(),
        f"{SLUG}/home.jpg": b"not looked at",
        f"{SLUG}/.DS_Store": b"x",
        f"__MACOSX/{SLUG}/._a": b"y",
    }
    assert accept(project, write_zip(tmp_path / "jar.zip", files)) == 0
    assert "left out: home.jpg" in capsys.readouterr().out
    names = sorted(path.name for path in (project / "content/firings" / SLUG).iterdir())
    assert names == ["entry.md", "photo-1.jpg", "readings.csv"]


def test_a_name_that_leads_nowhere_is_misuse(tmp_path: Path) -> None:
    project = write_archive(tmp_path / "archive", 0)
    assert accept(project, tmp_path / "nothing.zip") == 2
    assert accept(project, tmp_path / "archive") == 2


# Hostile zips


def _link() -> zipfile.ZipInfo:
    info = zipfile.ZipInfo(f"{SLUG}/photo-2.jpg")
    info.create_system = 3
    info.external_attr = 0o120777 << 16
    return info


def _device() -> zipfile.ZipInfo:
    info = zipfile.ZipInfo(f"{SLUG}/log.csv")
    info.create_system = 3
    info.external_attr = 0o020666 << 16
    return info


def _with(*more: tuple[str | zipfile.ZipInfo, bytes]) -> Callable[[Path], Path]:
    def make(path: Path) -> Path:
        with warnings.catch_warnings():
            warnings.simplefilter("ignore")  # zipfile warns of a doubled name
            return write_zip(path, [*sound_files().items(), *more])

    return make


def _raw(change: Callable[[bytes], bytes]) -> Callable[[Path], Path]:
    def make(path: Path) -> Path:
        write_zip(path, sound_files())
        path.write_bytes(change(path.read_bytes()))
        return path

    return make


def _rename(old: bytes, new: bytes) -> Callable[[Path], Path]:
    """Write a name that no zip program would, in the member and in the listing."""
    assert len(old) == len(new)
    return _raw(lambda data: data.replace(old, new))


def _flag(data: bytes, bit: int) -> bytes:
    """Set a flag of every member, in its own header and in the listing (APPNOTE.TXT 4.3.7 and 4.3.12)."""
    out = bytearray(data)
    for sign, at in ((b"PK\x03\x04", 6), (b"PK\x01\x02", 8)):
        start = out.find(sign)
        while start >= 0:
            out[start + at] |= bit
            start = out.find(sign, start + 4)
    return bytes(out)


def _lying_size(path: Path) -> Path:
    """Write a bomb whose listing claims that it is small."""
    write_zip(path, [*sound_files().items(), (f"{SLUG}/bomb.csv", b"0" * 40_000_000)])
    data = bytearray(path.read_bytes())
    size = struct.pack("<L", 40_000_000)
    path.write_bytes(bytes(data).replace(size, struct.pack("<L", 1_000)))
    return path


def _overlapping(path: Path) -> Path:
    """Let two names of the listing share one member's bytes."""
    write_zip(path, [*sound_files().items(), (f"{SLUG}/photo-2.jpg", sound_files()[f"{SLUG}/photo-1.jpg"])])
    with zipfile.ZipFile(path) as file:
        first = file.getinfo(f"{SLUG}/photo-1.jpg").header_offset
        second = file.getinfo(f"{SLUG}/photo-2.jpg").header_offset
    data = bytearray(path.read_bytes())
    listing = data.find(b"PK\x01\x02")
    at = data.find(struct.pack("<L", second), listing)
    data[at : at + 4] = struct.pack("<L", first)
    path.write_bytes(bytes(data))
    return path


HOSTILE: dict[str, tuple[str, Callable[[Path], Path]]] = {
    "climbs": ("zip-path", _with(("../../site_config.yml", b"x"))),
    "climbs from inside": ("zip-path", _with((f"{SLUG}/../../../up.md", b"x"))),
    "absolute": ("zip-path", _with(("/etc/ashbook.csv", b"x"))),
    "backslash": ("zip-path", _rename(b"photo-1.jpg", b"..\\..\\1.jpg")),
    "drive letter": ("zip-path", _with(("C:/photo.jpg", b"x"))),
    "drive letter with backslash": ("zip-path", _rename(f"{SLUG}/photo-1.jpg".encode(), b"C:\\" + b"x" * 24 + b".jpg")),
    "null in the name": ("zip-path", _rename(b"photo-1.jpg", b"photo\x001.jpg")),
    "empty part": ("zip-path", _with((f"{SLUG}//photo-2.jpg", b"x"))),
    "link": ("zip-special", _with((_link(), b"/etc/passwd"))),
    "device": ("zip-special", _with((_device(), b""))),
    "encrypted": ("zip-encrypted", _raw(lambda data: _flag(data, 1))),
    "bomb": ("zip-too-large", _with((f"{SLUG}/bomb.csv", b"0" * 4_000_000))),
    "bomb that lies": ("zip-unreadable", _lying_size),
    "overlapping": ("zip-unreadable", _overlapping),
    "too many": ("zip-too-large", _with(*((f"{SLUG}/p{n}.jpg", b"x") for n in range(MAX_MEMBERS)))),
    "a thousand": ("zip-too-large", _with(*((f"{SLUG}/p{n}.jpg", b"x") for n in range(1000)))),
    "entry too long": ("zip-too-large", lambda path: write_zip(path, {"entry.md": _noise(1_500_000)})),
    "name twice": ("zip-name-twice", _with((f"{SLUG}/photo-1.jpg", b"x"))),
    "name twice by case": ("zip-name-twice", _with((f"{SLUG}/Photo-1.JPG", b"x"))),
    "name twice by normal form": (
        "zip-name-twice",
        _with((f"{SLUG}/gru\u0308n.jpg", b"x"), (f"{SLUG}/gr\u00fcn.jpg", b"x")),
    ),
    "program": ("zip-kind", _with((f"{SLUG}/photo.exe", b"MZ"))),
    "page": ("zip-kind", _with((f"{SLUG}/index.html", b"<script>"))),
    "drawing with scripts": ("zip-kind", _with((f"{SLUG}/photo.svg", b"<svg/>"))),
    "no ending": ("zip-kind", _with((f"{SLUG}/run", b"x"))),
    "nested zip": ("zip-kind", _with((f"{SLUG}/more.zip", b"PK\x03\x04"))),
    "a device's name": ("zip-kind", _with((f"{SLUG}/nul.csv", b"x"))),
    "name too long for a disk": ("zip-kind", _with((f"{SLUG}/{'🏺' * 90}.jpg", b"x"))),
    "turned-around name": ("zip-path", _with((f"{SLUG}/drawn\u202egpj.csv", b"x"))),
    "hidden file": ("zip-kind", _with((f"{SLUG}/.htaccess", b"x"))),
    "two folders": ("zip-shape", _with(("other/photo-2.jpg", b"x"))),
    "two entries": ("zip-shape", _with(("other/entry.md", b"x"))),
    "too deep": ("zip-shape", lambda path: write_zip(path, sound_files(f"may/{SLUG}"))),
    "folder inside": ("zip-shape", _with((f"{SLUG}/more/photo-2.jpg", b"x"))),
    "no entry": ("zip-shape", lambda path: write_zip(path, {"readings.csv": b"0:00,14"})),
    "empty zip": ("zip-unreadable", lambda path: write_zip(path, {})),
    "no zip": ("zip-unreadable", _raw(lambda data: b"%PDF-1.7\n" * 99)),
    "cut short": ("zip-unreadable", _raw(lambda data: data[:-300])),
    "something before": ("zip-unreadable", _raw(lambda data: b"#!/bin/sh\n" + data)),
    "something behind": ("zip-unreadable", _raw(lambda data: data + b"more")),
    "damaged": ("zip-unreadable", _raw(lambda data: data[:60] + bytes([data[60] ^ 0xFF]) + data[61:])),
}


def _noise(size: int) -> bytes:
    """Return bytes that hardly shrink, the same each time."""
    import random

    return random.Random(1).randbytes(size)


@pytest.mark.parametrize("case", HOSTILE)
def test_a_hostile_zip_leaves_nothing_behind(case: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    code, make = HOSTILE[case]
    project = write_archive(tmp_path / "archive", 1)
    path = make(tmp_path / "jar.zip")
    before = sorted(tmp_path.rglob("*"))
    assert accept(project, path) == 1
    told = capsys.readouterr().out
    assert f"[{code}]" in told
    assert "nothing was written" in told
    kept = [item for item in sorted(tmp_path.rglob("*")) if ".ashbook" not in item.parts]
    assert kept == before
    assert not (tmp_path / "up.md").exists()


def test_a_bomb_is_stopped_while_it_is_unpacked_whatever_its_listing_says(tmp_path: Path) -> None:
    """The listing is believed by zipfile up to the size it claims: no more than that is ever written."""
    path = _lying_size(tmp_path / "bomb.zip")
    aside = tmp_path / "aside"
    folder, problems = unpack(path, aside)
    assert folder is None
    assert problems
    assert sum(item.stat().st_size for item in aside.rglob("*") if item.is_file()) < 2_000_000


def test_every_code_of_a_zip_is_shown_by_a_hostile_zip() -> None:
    codes = {code.name for code in INTAKE_CODES if code.name.startswith("zip-")}
    assert codes == {code for code, _ in HOSTILE.values()}
    assert codes <= set(CODES)


KILLED = """
import os, pathlib, signal, sys
rename = pathlib.Path.rename
def die(path, target):
    if path.name == target.name:
        os.kill(os.getpid(), signal.SIGKILL)
    return rename(path, target)
pathlib.Path.rename = die
from builder.commands.cli import main
main(sys.argv[1:])
"""


def test_an_accept_that_is_killed_leaves_no_firing_and_the_next_one_clears_up(tmp_path: Path) -> None:
    project = write_archive(tmp_path / "archive", 1)
    before = tree(project)
    path = write_zip(tmp_path / "jar.zip", sound_files())
    words = [sys.executable, "-c", KILLED, "--project", str(project), "accept", str(path)]
    assert subprocess.run(words, check=False, capture_output=True).returncode == -signal.SIGKILL
    assert main(["--project", str(project), "check"]) == 0
    visible = [name for name in tree(project) if "/.intake-" not in name]
    assert visible == before
    assert tree(project) != before
    assert accept(project, path) == 0
    assert not [name for name in tree(project) if "/.intake-" in name]
