"""Files, names and numbers beyond all measure: refused with words, in bounded time and memory."""

from __future__ import annotations

import resource
import time
import unicodedata
import zlib
from pathlib import Path

import pytest

from builder.build import Options, build
from builder.checks.check import check_all_addresses
from builder.entries.find import EntryFile, entry_at, find_entries, suggest_slug
from builder.intake.unpacking import unpack
from builder.publish.errors import PictureError
from builder.publish.pictures import look_at, remake
from tests.checks.examples import example_settings
from tests.commands.archives import write_archive, write_entry
from tests.trust.bombs import ZIPS, chunk, packed_megabytes, pictures, png, write_zip_bomb
from tests.trust.files_tried import judge_photos
from tests.trust.judging import judge_entry, make_folder

MOST_MEMORY_MB = 250
HEAD = "title: A\ndate: 2026-05-02\npotter: wren\nmethod: open-fire\n"


def _memory_mb() -> float:
    return resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024


@pytest.mark.parametrize(("width", "height"), [(60_000, 60_000), (20_001, 1), (1, 2**31 - 1), (8_001, 8_000)], ids=str)
def test_a_picture_that_unpacks_to_gigabytes_is_refused_by_its_header(tmp_path: Path, width: int, height: int) -> None:
    before = _memory_mb()
    (tmp_path / "bomb.png").write_bytes(png(width, height, zlib.compress(b"\0" * 1_000_000, 9)))
    assert "too many pixels" in (look_at(tmp_path / "bomb.png") or "")
    with pytest.raises(PictureError):
        remake(tmp_path / "bomb.png", "photo")
    assert _memory_mb() - before < MOST_MEMORY_MB


def test_pixels_without_end_behind_a_small_header_are_not_unpacked(tmp_path: Path) -> None:
    before = _memory_mb()
    (tmp_path / "bomb.png").write_bytes(png(10, 10, packed_megabytes(b"\0")))
    began = time.process_time()
    look_at(tmp_path / "bomb.png")
    assert time.process_time() - began < 2
    assert _memory_mb() - before < MOST_MEMORY_MB


def test_a_note_that_unpacks_to_gigabytes_is_not_unpacked(tmp_path: Path) -> None:
    before = _memory_mb()
    note = chunk(b"zTXt", b"Comment\0\0" + packed_megabytes(b"a"))
    (tmp_path / "bomb.png").write_bytes(png(10, 10, zlib.compress(b"\0" * 310), note))
    look_at(tmp_path / "bomb.png")
    assert _memory_mb() - before < MOST_MEMORY_MB


@pytest.mark.parametrize(("name", "raw"), list(pictures())[6:], ids=lambda part: part if isinstance(part, str) else "")
def test_a_picture_that_is_none_is_refused_with_words(tmp_path: Path, name: str, raw: bytes) -> None:
    (tmp_path / name).write_bytes(raw)
    with pytest.raises(PictureError, match=r"\w+ \w+"):
        remake(tmp_path / name, "photo")


@pytest.mark.parametrize("kind", ZIPS)
def test_a_zip_that_is_more_than_it_seems_is_refused_and_leaves_nothing(tmp_path: Path, kind: str) -> None:
    before = _memory_mb()
    write_zip_bomb(tmp_path / "bomb.zip", kind)
    (tmp_path / "aside").mkdir()
    folder, problems = unpack(tmp_path / "bomb.zip", tmp_path / "aside")
    assert folder is None
    assert problems
    assert not (tmp_path / "escaped.txt").exists()
    assert _memory_mb() - before < MOST_MEMORY_MB


def test_a_readings_file_of_100_mb_is_refused_unread_and_the_rest_is_published(tmp_path: Path) -> None:
    project = write_archive(tmp_path / "archive", 1)
    entry = write_entry(project, "2026-05-09-long-log")
    text = entry.read_text(encoding="utf-8")
    start, end = text.index("  rows: |"), text.index("pieces:")
    entry.write_text(text[:start] + "  file: log.csv\n" + text[end:], encoding="utf-8")
    with entry.with_name("log.csv").open("wb") as log:
        for _ in range(100):
            log.write(b"0:00,14.5\n" * 100_000)
    before, began = _memory_mb(), time.process_time()
    built = build(Options(project, project / "site", jobs=1))
    assert built.published == 1
    assert [(problem.code, problem.field) for problem in built.problems] == [("file-too-large", "readings.file")]
    assert "100 MB" in built.problems[0].message
    assert time.process_time() - began < 20
    assert _memory_mb() - before < MOST_MEMORY_MB


def test_ten_thousand_files_beside_an_entry_cost_little(tmp_path: Path) -> None:
    judged = judge_photos(make_folder(tmp_path), 2_000)
    assert "too-many" in {problem.code for problem in judged.problems}
    assert judged.seconds < 3


def test_ten_thousand_pieces_are_refused_with_a_number_and_quickly(tmp_path: Path) -> None:
    folder = make_folder(tmp_path)
    pieces = "".join(f"  - {{name: p{number}, survival: sound}}\n" for number in range(10_000))
    for told in (pieces, "  - {name: tiles, survival: sound, count: 10000}\n"):
        raw = f"---\n{HEAD}pieces:\n{told}---\n"
        judged = judge_entry(raw.encode(), folder, example_settings())
        assert not judged.published
        assert judged.seconds < 1


NAMES = (
    "2026-05-02-krug-blaß",
    "2026-05-02-κρατήρ",
    "2026-05-02-кувшин",
    "2026-05-02-壺",
    "2026-05-02-항아리",
    "2026-05-02-جرة",
    "2026-05-02-मटका",
    "2026-05-02-jar\u200d",
    "2026-05-02-ｊａｒ",
    "2026-05-02-JAR",
    "２０２６-05-02-jar",
    "2026-05-02-jar ",
    "2026-05-02-jar.",
    "2026-05-02-jar%2e",
    "2026-05-02-\u202eraj",
    "2026-05-02-jar\n",
    "2026-05-02-<b>",
    "2026-05-02-" + "a" * 90,
    "con",
    "-rf",
    "~",
    "2026-05-02-a;b",
    "2026-05-02-é",
    "2026-05-02-e\u0301",
    "2026-05-02-ﬁre",
)


@pytest.mark.parametrize("name", NAMES)
def test_a_folder_s_name_in_any_script_is_refused_with_a_plain_one_to_take(tmp_path: Path, name: str) -> None:
    folder = tmp_path / "content" / "firings" / name
    folder.mkdir(parents=True)
    (folder / "entry.md").write_text("---\n---\n", encoding="utf-8")
    found = entry_at(folder, tmp_path)
    assert not isinstance(found, EntryFile)
    assert found.code == "folder-name"
    assert suggest_slug(name).isascii()
    assert suggest_slug(name) in found.help
    assert (found.message + found.help).isprintable()


def test_two_entries_that_differ_in_capitals_or_in_the_spelling_of_accents_never_share_an_address() -> None:
    def entry(slug: str) -> EntryFile:
        return EntryFile(slug, Path(slug), Path(slug) / "entry.md", f"content/firings/{slug}/entry.md")

    slugs = ("2026-05-02-jar", "2026-05-02-Jar", "2026-05-02-é", unicodedata.normalize("NFD", "2026-05-02-É"))
    problems = check_all_addresses([entry(slug) for slug in slugs])
    assert [(found.code, found.place.file.split("/")[2]) for found in problems] == [
        ("address-twice", slugs[1]),
        ("address-twice", slugs[3]),
    ]


def test_a_file_called_index_takes_no_page_s_place(tmp_path: Path) -> None:
    project = write_archive(tmp_path / "archive", 1)
    write_entry(project, "2026-05-09-index")
    assert build(Options(project, project / "site")).published == 2
    assert "<h1" in (project / "site" / "firings" / "index.html").read_text(encoding="utf-8")


@pytest.mark.parametrize("what", ["the firings' folder", "one firing", "its entry", "the pages"])
def test_a_link_in_the_way_of_the_archive_s_own_folders_publishes_nothing_from_elsewhere(
    tmp_path: Path, what: str
) -> None:
    elsewhere = write_archive(tmp_path / "elsewhere", 1)
    (elsewhere / "content" / "pages").mkdir()
    (elsewhere / "content" / "pages" / "about.md").write_text("elsewhere-secret", encoding="utf-8")
    entry = elsewhere / "content" / "firings" / "2026-05-01-fire-1" / "entry.md"
    entry.write_text(entry.read_text(encoding="utf-8").replace("We lit", "elsewhere-secret"), encoding="utf-8")
    project = write_archive(tmp_path / "archive", 0)
    firings = project / "content" / "firings"
    if what == "the firings' folder":
        (project / "content").mkdir()
        firings.symlink_to(elsewhere / "content" / "firings")
    else:
        firings.mkdir(parents=True)
    if what == "one firing":
        (firings / "2026-05-01-fire-1").symlink_to(entry.parent)
    elif what == "its entry":
        (firings / "2026-05-01-fire-1").mkdir()
        (firings / "2026-05-01-fire-1" / "entry.md").symlink_to(entry)
    elif what == "the pages":
        (project / "content" / "pages").symlink_to(elsewhere / "content" / "pages")
    build(Options(project, project / "site"))
    pages = "".join(page.read_text(encoding="utf-8") for page in (project / "site").rglob("*.html"))
    assert "elsewhere-secret" not in pages
    assert len(find_entries(project)[0]) == 0
