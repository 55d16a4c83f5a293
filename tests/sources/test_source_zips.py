"""A source that comes as a zip is refused whole where anything of it is hostile, strange or damaged."""

from __future__ import annotations

import random
import stat
import struct
import zipfile
from pathlib import Path

import pytest

from builder.checks.limits import MOST_READINGS_BYTES
from builder.sources.unpacking import LIMITS
from tests.sources.groups import read, told, zipped

FIRST = "data/entries/2026-05-01-fire-1"


def spoilt_zip(site: Path, to: Path, *more: tuple[zipfile.ZipInfo | str, bytes], top: str = "hill/site/") -> Path:
    zipped(site, to, top)
    with zipfile.ZipFile(to, "a", zipfile.ZIP_DEFLATED) as file:
        for name, content in more:
            file.writestr(name, content)
    return to


def special(name: str, mode: int) -> zipfile.ZipInfo:
    info = zipfile.ZipInfo(name)
    info.create_system = 3
    info.external_attr = mode << 16
    return info


BAD_MEMBERS: dict[str, tuple[str, zipfile.ZipInfo | str, bytes]] = {
    "climbs": ("zip-path", "../../up.txt", b"x"),
    "climbs inside": ("zip-path", f"hill/site/{FIRST}/../../../../../up.txt", b"x"),
    "absolute": ("zip-path", "/etc/up.txt", b"x"),
    "drive": ("zip-path", "C:/up.txt", b"x"),
    "link": ("zip-special", special(f"hill/site/{FIRST}/readings.csv", stat.S_IFLNK | 0o777), b"/etc/passwd"),
    "pipe": ("zip-special", special("hill/site/pipe", stat.S_IFIFO | 0o666), b""),
    "bomb": ("zip-too-large", "hill/site/data/entries/2026-05-09-bomb/entry.txt", b"0" * 30_000_000),
    "huge log": (
        "zip-too-large",
        "hill/site/data/entries/2026-05-09-huge/readings.csv",
        random.Random(1).randbytes(MOST_READINGS_BYTES + 1),
    ),
    "twice": ("zip-name-twice", f"hill/site/{FIRST.upper().replace('DATA/ENTRIES', 'data/entries')}/entry.txt", b"x"),
}


@pytest.mark.parametrize(("code", "name", "content"), BAD_MEMBERS.values(), ids=BAD_MEMBERS.keys())
def test_a_hostile_zip_is_refused_whole_and_leaves_nothing_behind(
    site: Path, tmp_path: Path, code: str, name: zipfile.ZipInfo | str, content: bytes
) -> None:
    spoilt_zip(site, tmp_path / "hill.zip", (name, content))
    before = {path for path in tmp_path.rglob("*") if path.is_file()}
    examined, problems = read(tmp_path, "../hill.zip")
    assert examined == []
    assert {(found.code, found.place.file) for found in problems} == {(code, "hill")}
    after = {path for path in tmp_path.rglob("*") if path.is_file()} - before
    assert {path.name for path in after} <= {"site_config.yml", "entry.txt", "readings.csv", "settings.json"}
    assert not any(path.name == "up.txt" for path in tmp_path.parent.rglob("up.txt"))


def test_a_zip_that_is_none_or_breaks_off_is_told(site: Path, tmp_path: Path) -> None:
    (tmp_path / "hill.zip").write_bytes(b"not a zip at all")
    assert told(read(tmp_path, "../hill.zip")[1]) == [("zip-unreadable", "hill")]
    whole = zipped(site, tmp_path / "whole.zip").read_bytes()
    (tmp_path / "hill.zip").write_bytes(whole[: len(whole) // 2])
    assert told(read(tmp_path, "../hill.zip")[1]) == [("zip-unreadable", "hill")]


def test_a_zip_whose_content_is_damaged_is_told(site: Path, tmp_path: Path) -> None:
    path = zipped(site / "data", tmp_path / "hill.zip")
    raw = bytearray(path.read_bytes())
    with zipfile.ZipFile(path) as file:
        at = file.getinfo("entries/2026-05-01-fire-1/entry.txt").header_offset
    raw[at + 80 : at + 120] = random.Random(1).randbytes(40)
    path.write_bytes(raw)
    assert told(read(tmp_path, "../hill.zip")[1]) == [("zip-unreadable", "hill")]


def test_a_zip_that_lists_a_world_of_files_is_refused_before_it_is_listed(site: Path, tmp_path: Path) -> None:
    path = zipped(site, tmp_path / "hill.zip")
    raw = bytearray(path.read_bytes())
    at = raw.rfind(b"PK\x05\x06")
    raw[at + 8 : at + 12] = struct.pack("<2H", 65_535, 65_535)
    path.write_bytes(raw)
    assert LIMITS.members < 65_535
    assert told(read(tmp_path, "../hill.zip")[1]) == [("zip-too-large", "hill")]


def test_a_zip_without_published_data_says_what_to_name(tmp_path: Path) -> None:
    with zipfile.ZipFile(tmp_path / "hill.zip", "w") as file:
        file.writestr("holiday/photo.txt", "sea")
    (found,) = read(tmp_path, "../hill.zip")[1]
    assert found.code == "source-missing"
    assert "ashbook pack" in found.help
