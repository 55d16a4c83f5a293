"""Front matter is split strictly: read through, or a problem with a place; never silently none."""

from __future__ import annotations

from pathlib import Path

import pytest

from builder.base.located_yaml import Mapping, Scalar
from builder.entries.find import EntryFile
from builder.entries.front_matter import ParsedEntry, parse_entry, read_entry

SOUND = "---\ntitle: Jar\n---\nWe lit it at nine.\n"


def _parse(text: str) -> ParsedEntry:
    return parse_entry(text, "entry.md")


def _told(parsed: ParsedEntry) -> list[tuple[str, int | None]]:
    return [(found.code, found.place.line) for found in parsed.problems]


def _title(parsed: ParsedEntry) -> str:
    assert parsed.root is not None
    value = parsed.root.get("title")
    assert isinstance(value, Scalar)
    return value.text


def test_a_plain_entry_gives_its_fields_and_its_story() -> None:
    parsed = _parse(SOUND)
    assert (_title(parsed), parsed.story, parsed.problems) == ("Jar", "We lit it at nine.", ())


@pytest.mark.parametrize(
    "text",
    [
        "\n\n" + SOUND,
        "---  \ntitle: Jar\n--- \nWe lit it at nine.\n",
        "---\u00a0\ntitle: Jar\n---\u202f\nWe lit it at nine.\n",
    ],
)
def test_blank_lines_before_and_spaces_behind_the_hyphens_are_read_through(text: str) -> None:
    parsed = _parse(text)
    assert (_title(parsed), parsed.problems) == ("Jar", ())


def test_places_count_from_the_first_line_of_the_file_even_after_blank_lines() -> None:
    parsed = _parse("\n\n---\n\ntitle: Jar\n---\n")
    assert parsed.root is not None
    assert parsed.root.items[0][1].place.line == 5
    assert parsed.root.items[0][1].place.column == 8


@pytest.mark.parametrize("dash", ["—", "–-", "−−−", "----", "--", "- - -", "———", " ---", '"---"'])
def test_a_long_dash_that_closes_is_named_and_read_as_the_closing_line(dash: str) -> None:
    parsed = _parse(f"---\ntitle: Jar\n{dash.strip(' ')}\nWe lit it.\n")
    assert dash == " ---" or _told(parsed) == [("front-matter-dash", 3)]
    assert _title(parsed) == "Jar"
    assert parsed.story == "We lit it."


def test_both_long_dashes_are_reported_in_one_run() -> None:
    parsed = _parse("—\ntitle: Jar\n—\nWe lit it.\n")
    assert _told(parsed) == [("front-matter-dash", 1), ("front-matter-dash", 3)]
    assert _title(parsed) == "Jar"


@pytest.mark.parametrize("fence", [" ---", "\u200b---", "---\ufeff", "\u00a0---"])
def test_hyphens_with_something_unseen_about_them_are_told_so_and_read_as_what_they_are(fence: str) -> None:
    parsed = _parse(f"{fence}\ntitle: Jar\n{fence}\nWe lit it.\n")
    assert _told(parsed) == [("front-matter-dash", 1), ("front-matter-dash", 3)]
    assert all("cannot be seen" in found.message for found in parsed.problems)
    assert (_title(parsed), parsed.story) == ("Jar", "We lit it.")


@pytest.mark.parametrize("story", ["Nine of us came to the fire", "We lit it.", "“Too hot!”\n\nsaid Ode"])
def test_a_rule_below_the_story_does_not_stand_for_the_closing_line_that_is_missing(story: str) -> None:
    parsed = _parse(f"---\ntitle: Jar\ndate: 2026-05-02\n{story}\n---\nThe end.\n")
    assert _told(parsed) == [("front-matter-open", 4)]
    assert parsed.story == f"{story}\n---\nThe end."


@pytest.mark.parametrize("line", ["potter wren and all the others too", "poter wren", "Title A jar at last."])
def test_a_last_key_without_its_colon_is_no_story(line: str) -> None:
    parsed = _parse(f"---\nplace: Fen\n{line}\n---\nThe end.\n")
    assert _told(parsed) == [("yaml-syntax", 3)]
    assert parsed.story == "The end."


def test_a_missing_closing_line_is_placed_where_the_story_seems_to_begin() -> None:
    parsed = _parse("---\ntitle: Jar\ndate: 2026-05-02\n\nWe lit it at nine.\n")
    assert _told(parsed) == [("front-matter-open", 4)]
    assert _title(parsed) == "Jar"
    assert parsed.story == "We lit it at nine."


@pytest.mark.parametrize(
    ("text", "code", "line"),
    [
        ("", "entry-empty", None),
        ("  \n\n", "entry-empty", None),
        ("title: Jar\n", "front-matter-missing", 1),
        ("\n# Jar\n", "front-matter-missing", 2),
        ("---\n---\nstory\n", "front-matter-empty", 1),
        ("---\njust words\n---\n", "front-matter-empty", 1),
        ("---\n- a\n- b\n---\n", "front-matter-empty", 1),
    ],
)
def test_an_entry_without_front_matter_says_so_with_a_place(text: str, code: str, line: int | None) -> None:
    parsed = _parse(text)
    assert parsed.root is None
    assert _told(parsed) == [(code, line)]


def test_hyphens_inside_a_block_of_rows_do_not_close_the_front_matter() -> None:
    parsed = _parse("---\ntitle: Jar\nrows: |\n  ---\n  0:00 14\n---\nstory")
    assert parsed.problems == ()
    assert parsed.root is not None
    assert [key.text for key, _ in parsed.root.items] == ["title", "rows"]


def _write(folder: Path, raw: bytes) -> EntryFile:
    (folder / "entry.md").write_bytes(raw)
    return EntryFile("2026-05-02-jar", folder, folder / "entry.md", "entry.md")


@pytest.mark.parametrize("raw", [b"\xef\xbb\xbf" + SOUND.encode(), SOUND.replace("\n", "\r\n").encode()])
def test_a_byte_order_mark_and_windows_line_ends_are_read_through(tmp_path: Path, raw: bytes) -> None:
    parsed = read_entry(_write(tmp_path, raw))
    assert (_title(parsed), parsed.story, parsed.problems) == ("Jar", "We lit it at nine.", ())


@pytest.mark.parametrize(
    ("raw", "code", "line"),
    [
        (b"---\ntitle: K\xfcche\n---\n", "file-encoding", 2),
        (SOUND.encode("utf-16"), "file-encoding", 1),
        (b"x" * 1_000_001, "file-too-large", None),
        (b"---\ntitle: a\x00b\n---\n", "yaml-syntax", 2),
    ],
)
def test_a_file_that_is_no_sound_text_is_refused(tmp_path: Path, raw: bytes, code: str, line: int | None) -> None:
    assert _told(read_entry(_write(tmp_path, raw))) == [(code, line)]


def test_every_value_stays_text_whatever_yaml_would_make_of_it() -> None:
    parsed = _parse("---\na: NO\nb: 12:30\nc: 0600\nd: 2024-02-31\ne: 1e3\nf: null\ng: .nan\n---\n")
    assert isinstance(parsed.root, Mapping)
    values = [value.text for _, value in parsed.root.items if isinstance(value, Scalar)]
    assert values == ["NO", "12:30", "0600", "2024-02-31", "1e3", "null", ".nan"]
