"""A source is somebody else's: whatever lies in it, it can only fail, with words, and leaves nothing behind."""

from __future__ import annotations

import json
import os
import shutil
import stat
import struct
import zipfile
from collections.abc import Callable
from html.parser import HTMLParser
from pathlib import Path

import pytest

from builder.base.codes import CODES
from builder.base.problem import Problem
from builder.build import Options, build
from builder.checks.fault import shown
from builder.checks.hidden import hidden_in_story
from builder.checks.limits import MOST_READINGS_BYTES
from builder.commands.cli import main
from builder.examine import Examined, examine_all
from builder.settings_file import load_settings
from builder.sources.joining import join
from builder.sources.unpacking import LIMITS
from tests.sources.groups import contents, joined, published, zipped
from tests.trust.attacks import ATTACKS

FIRST = "data/entries/2026-05-01-fire-1"


@pytest.fixture(scope="module")
def site(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return published(tmp_path_factory.mktemp("source"))


@pytest.fixture
def copy(site: Path, tmp_path: Path) -> Path:
    """The published site of a sound group, to be spoilt."""
    found = tmp_path / "hill" / "site"
    shutil.copytree(site, found)
    return found


def read(tmp_path: Path, source: str = "../hill/site") -> tuple[list[Examined], tuple[Problem, ...]]:
    """Join a source, examine its entries, and return them with all problems."""
    project = joined(tmp_path, f"  hill: {source}\n")
    settings, problems = load_settings(project)
    assert settings is not None, problems
    found = join(settings, project, tmp_path / "aside")
    examined = list(examine_all(found.entries, found.settings, 1))
    return examined, (*found.problems, *(one for each in examined for one in each.problems))


def told(problems: tuple[Problem, ...]) -> list[tuple[str, str]]:
    return [(found.code, found.place.file) for found in problems]


def sound(examined: list[Examined]) -> list[str]:
    return [one.entry.slug for one in examined if one.measured is not None]


def test_a_sound_source_is_read_without_a_problem(copy: Path, tmp_path: Path) -> None:
    examined, problems = read(tmp_path)
    assert problems == ()
    assert sound(examined) == ["hill--2026-05-01-fire-1", "hill--2026-05-02-fire-2"]


@pytest.mark.parametrize("part", [".", "data"])
def test_the_site_s_folder_its_data_folder_and_zips_of_both_are_sources(copy: Path, tmp_path: Path, part: str) -> None:
    zipped(copy / part, tmp_path / "hill.zip", "hill/" if part == "." else "")
    from_folder, _ = read(tmp_path, f"../hill/site/{part}")
    from_zip, problems = read(tmp_path, "../hill.zip")
    assert problems == ()
    assert sound(from_folder) == sound(from_zip) != []
    assert [one.measured for one in from_folder] != []
    assert [one.outline for one in from_folder] == [one.outline for one in from_zip]


# Folders


def test_links_are_refused_wherever_they_stand(copy: Path, tmp_path: Path) -> None:
    secret = tmp_path / "secret"
    secret.mkdir()
    (secret / "entry.txt").write_bytes((copy / FIRST / "entry.txt").read_bytes())
    (copy / "data/entries/2026-05-03-linked").symlink_to(secret)
    (copy / FIRST / "entry.txt").unlink()
    (copy / FIRST / "entry.txt").symlink_to(secret / "entry.txt")
    examined, problems = read(tmp_path)
    assert sound(examined) == ["hill--2026-05-02-fire-2"]
    assert sorted(told(problems)) == [
        ("file-link", "hill/data/entries/2026-05-01-fire-1/entry.txt"),
        ("file-link", "hill/data/entries/2026-05-03-linked"),
    ]


def test_a_folder_of_entries_that_is_a_link_is_refused(copy: Path, tmp_path: Path) -> None:
    (copy / "data/entries").rename(tmp_path / "elsewhere")
    (copy / "data/entries").symlink_to(tmp_path / "elsewhere")
    examined, problems = read(tmp_path)
    assert (examined, told(problems)) == ([], [("file-link", "hill/data/entries")])


def test_settings_that_are_a_link_are_refused(copy: Path, tmp_path: Path) -> None:
    (copy / "data/settings.json").rename(tmp_path / "settings.json")
    (copy / "data/settings.json").symlink_to(tmp_path / "settings.json")
    examined, problems = read(tmp_path)
    assert (examined, told(problems)) == ([], [("file-unreadable", "hill/data/settings.json")])


@pytest.mark.parametrize(
    "name", ["con", "2026-05-01", "..2026-05-01-x", "2026-05-01-Fire-1", "2026-05-01-a--b", "x" * 90]
)
def test_a_folder_that_is_no_firing_s_is_told_and_not_read(copy: Path, tmp_path: Path, name: str) -> None:
    shutil.copytree(copy / FIRST, copy / "data/entries" / name)
    examined, problems = read(tmp_path)
    assert sound(examined) == ["hill--2026-05-01-fire-1", "hill--2026-05-02-fire-2"]
    if not name.startswith("."):
        assert told(problems) == [("source-entry", f"hill/data/entries/{name}")]


def test_a_firing_without_its_entry_is_told(copy: Path, tmp_path: Path) -> None:
    (copy / FIRST / "entry.txt").unlink()
    assert told(read(tmp_path)[1]) == [("source-entry", "hill/data/entries/2026-05-01-fire-1")]


def test_an_entry_that_names_a_file_outside_its_folder_is_left_out(copy: Path, tmp_path: Path) -> None:
    entry = copy / FIRST / "entry.txt"
    text = entry.read_text(encoding="utf-8")
    rows = text[text.index("  rows: |") : text.index("pieces:")]
    entry.write_text(text.replace(rows, "  file: ../2026-05-02-fire-2/entry.txt\n"), encoding="utf-8")
    examined, problems = read(tmp_path)
    assert [found.code for found in problems] == ["file-outside"]
    assert sound(examined) == ["hill--2026-05-02-fire-2"]


def test_an_entry_of_a_million_letters_is_left_out(copy: Path, tmp_path: Path) -> None:
    with (copy / FIRST / "entry.txt").open("a", encoding="utf-8") as file:
        file.write("so it went on. " * 70_000)
    examined, problems = read(tmp_path)
    assert [found.code for found in problems] == ["file-too-large"]
    assert len(sound(examined)) == 1


@pytest.mark.parametrize(
    ("content", "code"),
    [
        (b'{"form": "1", "group": {"name": "H', "yaml-syntax"),
        (b"", "source-words"),
        (b"\xff\xfe\x00", "file-encoding"),
        (b"[1, 2, 3]", "source-form"),
        (b'{"form": "2", "group": {"name": "H"}}', "source-form"),
        (b'{"group": {"name": "H"}}', "source-form"),
        (b"&a [*a, *a]", "yaml-anchor"),
        (b"[" * 500, "yaml-too-large"),
        (b'{"form": "1", "group": {"name": "H"}, "methods": {}}', "settings-required"),
    ],
)
def test_settings_that_cannot_be_read_leave_the_source_out_with_words(
    copy: Path, tmp_path: Path, content: bytes, code: str
) -> None:
    (copy / "data/settings.json").write_bytes(content)
    examined, problems = read(tmp_path)
    assert examined == []
    assert code in {found.code for found in problems}
    assert {found.place.file for found in problems} == {"hill/data/settings.json"}


SPOILT: dict[str, Callable[[dict[str, dict[str, object]]], object]] = {
    "a key that climbs": lambda told: told["potters"].update({"../../x": {"name": "X"}}),
    "a method's key with a slash": lambda told: told["methods"].update({"a/b": told["methods"]["open-fire"]}),
    "an address that is a script": lambda told: told["group"].update({"url": "javascript:alert(1)"}),
    "a licence that is markup": lambda told: told["group"].update({"licence": "<b>none</b>"}),
    "a name that turns around": lambda told: told["group"].update({"name": "Hill \u202e potters"}),
    "a name without an end": lambda told: told["group"].update({"name": "x" * 5000}),
    "a thousand words": lambda told: told["words"].update({"pieces.survival": ["y" * 400]}),
}


@pytest.mark.parametrize("spoil", SPOILT.values(), ids=SPOILT.keys())
def test_settings_with_words_that_could_do_harm_leave_the_source_out(
    copy: Path, tmp_path: Path, spoil: Callable[[dict[str, dict[str, object]]], object]
) -> None:
    path = copy / "data/settings.json"
    decided = json.loads(path.read_bytes())
    spoil(decided)
    path.write_text(json.dumps(decided), encoding="utf-8")
    examined, problems = read(tmp_path)
    assert examined == []
    assert len(problems) >= 1
    assert all(found.code in CODES and found.place.file.startswith("hill") for found in problems)


def test_markup_and_scripts_in_a_source_s_words_are_words_on_every_page(copy: Path, tmp_path: Path) -> None:
    attack = "<script>alert(1)</script><img src=x onerror=alert(1)>"
    path = copy / "data/settings.json"
    decided = json.loads(path.read_bytes())
    decided["group"] |= {"name": attack, "title": attack, "about": attack, "notice": attack}
    decided["potters"]["wren"] = {"name": attack, "about": attack}
    decided["methods"]["pit"] = {"name": attack, "summary": attack, "success": {"survival": ["sound"]}}
    path.write_text(json.dumps(decided), encoding="utf-8")
    for slug in ("2026-05-01-fire-1", "2026-05-02-fire-2"):
        entry = copy / "data/entries" / slug / "entry.txt"
        text = entry.read_text(encoding="utf-8").partition("<p>")[0].replace("method: open-fire", "method: pit")
        story = (
            "\n".join(one.text for one in ATTACKS if hidden_in_story(one.text) is None)
            if slug.endswith("1")
            else attack + '<h2 onclick="a()">x</h2><style>*{}</style>'
        )
        entry.write_text(text + story, encoding="utf-8")
    project = joined(tmp_path, "  hill: ../hill/site\n")
    built = build(Options(project, project / "site", jobs=1))
    assert built.published == 2
    for page in sorted((project / "site").rglob("*.html")):
        html = page.read_text(encoding="utf-8")
        assert attack not in html, page.name
        assert "<img src=x" not in html, page.name
        harm = Harm()
        harm.feed(html)
        assert harm.found == [], page.name


class Harm(HTMLParser):
    """Finds what could run or load in a page."""

    def __init__(self) -> None:
        super().__init__()
        self.found: list[str] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        told = {name: value or "" for name, value in attrs}
        script = tag == "script" and "src" not in told and not told.get("type", "").startswith("application/")
        runs = any(name.startswith("on") for name in told)
        leads = any(told.get(name, "").strip().startswith(("javascript:", "data:")) for name in ("href", "src"))
        if script or runs or leads or tag in ("style", "iframe", "object", "embed", "base"):
            self.found.append(f"<{tag} {attrs}>")


# Zips


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
        os.urandom(MOST_READINGS_BYTES + 1),
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
    raw[at + 80 : at + 120] = os.urandom(40)
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


# Renewal


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
