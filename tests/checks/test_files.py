"""Files that an entry names: inside its folder, there, of a kind the archive takes, and nothing else."""

from __future__ import annotations

from pathlib import Path

import pytest
from PIL import Image

from builder.checks.check import check_entry
from builder.checks.files import kind_fault, name_fault
from builder.checks.limits import MOST_READINGS_BYTES
from builder.entries.find import EntryFile
from tests.checks.examples import example_settings

ENTRY = """---
title: Pale-slipped jar
date: 2026-05-02
potter: wren
method: open-fire
{more}
pieces:
  - {{name: jar, survival: sound}}
---
"""


def entry_with(folder: Path, more: str) -> EntryFile:
    folder.mkdir(exist_ok=True)
    (folder / "entry.md").write_text(ENTRY.format(more=more), encoding="utf-8")
    return EntryFile("jar", folder, folder / "entry.md", "entry.md")


def photo(folder: Path, name: str) -> list[tuple[str, str]]:
    """Return field and code of each problem of an entry that names one photo."""
    entry = entry_with(folder, f'photos:\n  - {{file: "{name}", alt: The jar just drawn}}')
    return [(found.field, found.code) for found in check_entry(entry, example_settings()).problems]


def log(folder: Path, name: str) -> list[str]:
    entry = entry_with(folder, f"readings:\n  time: elapsed\n  file: {name}")
    return [found.code for found in check_entry(entry, example_settings()).problems]


@pytest.mark.parametrize(
    "name",
    [
        "../drawn.jpg",
        "a/../../drawn.jpg",
        "..\\drawn.jpg",
        "/etc/drawn.jpg",
        "~/drawn.jpg",
        "C:drawn.jpg",
        "c:/drawn.jpg",
        "\\\\host\\share\\drawn.jpg",
        "photos/drawn.jpg",
        "./drawn.jpg",
        "https://example.org/drawn.jpg",
        "file:///drawn.jpg",
        "www.example.org/drawn.jpg",
        "..",
        "../",
    ],
)
def test_a_name_that_leads_out_of_the_folder_is_refused(name: str) -> None:
    found = name_fault(name)
    assert found is not None
    assert found.code == "file-outside"
    assert "`drawn.jpg`" in found.help


@pytest.mark.parametrize(
    "name",
    [
        "drawn%2ejpg",
        "%2e%2e%2fdrawn.jpg",
        "a%00.jpg",
        "jar?.jpg",
        "jar:2.jpg",
        "a*.jpg",
        "<jar>.jpg",
        'ja"r.jpg',
        "jar|2.jpg",
        ".hidden.jpg",
        "jar.jpg.",
        "x" * 101 + ".jpg",
    ],
)
def test_a_name_that_not_every_system_takes_is_refused(name: str) -> None:
    found = name_fault(name)
    assert found is not None
    assert found.code == "file-name"


@pytest.mark.parametrize(
    "name", ["drawn.jpg", "The jar, drawn (2).jpg", "krüg.png", "白い壺.webp", "100% hot.jpg", "a..b.jpg"]
)
def test_a_plain_name_is_taken(name: str) -> None:
    assert name_fault(name) is None


@pytest.mark.parametrize(
    "name", ["jar.svg", "JAR.SVG", "jar.svgz", "jar.gif", "jar.heic", "jar.tif", "jar.pdf", "jar", "jar.jpg.exe"]
)
def test_a_picture_of_another_kind_is_refused(name: str) -> None:
    found = kind_fault(name, pictures=True)
    assert found is not None
    assert found.code == "file-kind"


@pytest.mark.parametrize("name", ["jar.jpg", "JAR.JPG", "jar.jpeg", "jar.png", "jar.webp"])
def test_a_picture_of_a_known_kind_is_taken(name: str) -> None:
    assert kind_fault(name, pictures=True) is None


@pytest.mark.parametrize("name", ["log.csv", "LOG.TXT", "log.tsv", "log.log", "log.dat"])
def test_a_log_of_a_known_kind_is_taken_and_is_no_picture(name: str) -> None:
    assert kind_fault(name, pictures=False) is None
    assert kind_fault(name, pictures=True) is not None


def test_a_photo_beside_the_entry_is_taken(tmp_path: Path) -> None:
    Image.new("RGB", (40, 30), (120, 84, 60)).save(tmp_path / "drawn.jpg")
    assert photo(tmp_path, "drawn.jpg") == []


def test_a_photo_that_is_a_link_is_refused_even_where_it_leads_back(tmp_path: Path) -> None:
    folder = tmp_path / "jar"
    folder.mkdir()
    Image.new("RGB", (40, 30)).save(folder / "real.jpg")
    (folder / "drawn.jpg").symlink_to(folder / "real.jpg")
    assert photo(folder, "drawn.jpg") == [("photos[1].file", "file-link")]


def test_a_link_out_of_the_archive_is_refused_without_being_opened(tmp_path: Path) -> None:
    (tmp_path / "secret.jpg").write_bytes(b"secret")
    folder = tmp_path / "jar"
    folder.mkdir()
    (folder / "drawn.jpg").symlink_to(tmp_path / "secret.jpg")
    assert photo(folder, "drawn.jpg") == [("photos[1].file", "file-link")]


def test_a_folder_with_a_picture_s_name_is_no_picture(tmp_path: Path) -> None:
    (tmp_path / "drawn.jpg").mkdir()
    assert photo(tmp_path, "drawn.jpg") == [("photos[1].file", "file-kind")]


def test_capital_letters_of_a_file_count_on_every_system(tmp_path: Path) -> None:
    Image.new("RGB", (40, 30)).save(tmp_path / "Drawn.jpg")
    assert photo(tmp_path, "drawn.jpg") == [("photos[1].file", "file-missing")]


def test_a_name_whose_accents_are_stored_otherwise_says_so(tmp_path: Path) -> None:
    Image.new("RGB", (40, 30)).save(tmp_path / "kru\u0308g.jpg")
    entry = entry_with(tmp_path, 'photos:\n  - {file: "krüg.jpg", alt: The jar}')
    (found,) = check_entry(entry, example_settings()).problems
    assert found.code == "file-missing"
    assert found.help == "Rename the file with plain letters, and write that name."


@pytest.mark.parametrize("size", [0, MOST_READINGS_BYTES + 1])
def test_a_log_is_neither_empty_nor_endless(tmp_path: Path, size: int) -> None:
    with (tmp_path / "log.csv").open("wb") as file:
        file.truncate(size)
    assert log(tmp_path, "log.csv") == ["file-empty" if size == 0 else "file-too-large"]


def test_a_folder_that_cannot_be_listed_has_no_files(tmp_path: Path) -> None:
    entry = entry_with(tmp_path / "jar", 'photos:\n  - {file: "drawn.jpg", alt: The jar}')
    gone = EntryFile("jar", tmp_path / "gone", entry.path, "entry.md")
    assert [found.code for found in check_entry(gone, example_settings()).problems] == ["file-missing"]
