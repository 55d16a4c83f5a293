"""A source is somebody else's: whatever lies in it, it can only fail, with words, and leaves nothing behind."""

from __future__ import annotations

import json
import shutil
from collections.abc import Callable
from html.parser import HTMLParser
from pathlib import Path

import pytest

from builder.base.codes import CODES
from builder.build import Options, build
from builder.checks.hidden import hidden_in_story
from tests.sources.groups import joined, read, sound, told, zipped
from tests.trust.attacks import ATTACKS

FIRST = "data/entries/2026-05-01-fire-1"


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
