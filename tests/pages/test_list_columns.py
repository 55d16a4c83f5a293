"""What the list's script knows of every firing: a script that only defines data, a row a firing."""

from __future__ import annotations

import json
import re
from typing import Any

import pytest

from builder.archive.archive import Archive
from builder.checks.firing import Piece
from builder.kept.packed import packed
from builder.kept.packed import unpacked as taken_out
from builder.pages import list_columns
from builder.pages.firing_lines import line_curve
from builder.pages.list_columns import COLUMNS, list_files, listed_firing, listed_firings
from tests.pages.every_page import made_files
from tests.pages.invented import SETTINGS, archive, record, unread
from tests.pages.test_packed_columns import unpacked

HOSTILE = "</script><script>alert(1)</script>\u2028'\"\\"
SHELF = archive(
    record(1, slug="a", conditions={"fuel.wood": ("hazel", "Birch")}, helpers=()),
    unread(
        2, slug="b", method="turf-clamp", potter="ode", helpers=(), conditions={}, pieces=(Piece("lamp", "broken"),)
    ),
)


def files_of(shelf: Archive) -> dict[str, bytes]:
    return made_files(list_files(shelf, SETTINGS, listed_firings(shelf, SETTINGS)))


def told(data: bytes) -> Any:
    return json.loads(data.decode().partition(" = ")[2].rstrip().removesuffix(";"))


def facet(columns: Any, key: str) -> list[list[str]]:
    """A facet's values by row."""
    own = columns["facets"][key]
    sets = [[own["words"][place] for place in found] for found in own["sets"]]
    return [sets[row] for row in unpacked(own["rows"]) if row is not None]


def test_a_firings_values_stand_by_facet_and_nothing_recorded_is_a_value() -> None:
    columns = told(files_of(SHELF)[COLUMNS])
    assert columns["slugs"] == ["a", "b"]
    assert facet(columns, "wood") == [["hazel", "birch"], [""]]
    assert facet(columns, "potter") == [["wren"], ["ode"]]
    assert facet(columns, "hottest") == [["inside"], [""]]
    assert columns["facets"]["wood"]["labels"] == ["hazel", "Birch", "Not recorded"]


def test_numbers_that_are_not_known_stay_unknown() -> None:
    columns = told(files_of(SHELF)[COLUMNS])
    assert unpacked(columns["peaks"]) == [7423, None]
    assert unpacked(columns["lengths"]) == [120, None]


def test_a_firing_counts_its_pots_by_verdict() -> None:
    """Worked by hand: of six pots the jar alone is sound, cleared and held; a bowl cracked, tiles kept their core."""
    one = listed_firing(record(2), SETTINGS)
    assert (one.pieces, one.judged, one.successes) == (6, 6, 1)
    assert (one.place, one.ware) == ("Alder Fen", "pale-slipped jar")


def test_what_is_held_of_a_firing_can_be_kept() -> None:
    one = listed_firing(record(2), SETTINGS)
    assert taken_out(packed(one)) == one


def test_curves_stand_a_few_in_a_file_each_in_the_firings_place(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(list_columns, "CURVES_EACH", 2)
    shelf = archive(record(1, slug="a"), unread(2, slug="b"), record(3, slug="c"))
    files = files_of(shelf)
    assert sorted(files) == ["firings/curves-0.js", "firings/curves-1.js", COLUMNS]
    assert told(files["firings/curves-0.js"]) == [line_curve(one, SETTINGS) for one in shelf.records[:2]]
    assert told(files["firings/curves-1.js"]) == [line_curve(shelf.records[2], SETTINGS)]
    assert files["firings/curves-1.js"].startswith(b"(window.ashbookCurves ??= [])[1] = ")
    assert told(files[COLUMNS])["curvesEach"] == 2


def test_hostile_words_end_no_script_and_come_back_as_they_were() -> None:
    shelf = archive(record(1, title=HOSTILE, place=HOSTILE, ware=HOSTILE, conditions={"clay.body": HOSTILE}))
    for data in files_of(shelf).values():
        assert not re.search("<|\u2028", data.decode())
    assert told(files_of(shelf)[COLUMNS])["titles"] == [HOSTILE]


def test_an_archive_without_firings_has_empty_columns() -> None:
    assert told(files_of(archive())[COLUMNS])["titles"] == []
