"""The check of a whole entry: what passes becomes a Firing, what does not is told in one run, in order."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from builder.base.codes import problem
from builder.base.problem import Place
from builder.base.quantity import Quantity
from builder.checks.check import check_all_addresses, check_entry
from builder.checks.firing import Firing
from builder.checks.limits import MOST_ITEMS, MOST_ROWS, MOST_WORDS
from builder.entries.fields import CONDITIONS, FIELDS, Field
from builder.entries.find import EntryFile
from builder.readings.read import read_curves
from tests.checks.examples import GOOD, example_settings
from tests.checks.written import REQUIRED, checked, found, text_with


def firing_of(*fields: str) -> Firing:
    outcome = checked(*fields)
    assert outcome.problems == ()
    assert outcome.firing is not None
    return outcome.firing


def everything() -> Firing:
    folder = GOOD / "2026-05-02-everything"
    firing = check_entry(EntryFile(folder.name, folder, folder / "entry.md", "entry.md"), example_settings()).firing
    assert firing is not None
    return firing


def test_what_is_required_alone_makes_a_firing_with_nothing_guessed() -> None:
    firing = firing_of()
    assert (firing.title, firing.date, firing.potter, firing.method) == (
        "Pale-slipped jar",
        date(2026, 5, 2),
        "wren",
        "open-fire",
    )
    assert (firing.place, firing.lit, firing.readings, firing.licence, firing.conditions) == (
        None,
        None,
        None,
        None,
        {},
    )
    assert (firing.pieces[0].count, firing.pieces[0].carbon, firing.pieces[0].weighed) == (1, None, None)
    assert firing.story == "We lit it at nine."


def test_every_condition_of_a_full_entry_reaches_the_firing() -> None:
    assert set(everything().conditions) == set(CONDITIONS)


def test_nothing_of_a_full_entry_is_left_at_not_recorded() -> None:
    firing = everything()
    assert all(getattr(firing, name) not in (None, (), {}) for name in Firing.__slots__)
    jar, tiles = firing.pieces
    assert all(getattr(jar, name) is not None for name in jar.__slots__)
    assert tiles.count == 4
    assert jar.marks is not None
    assert jar.marks.dry is not None
    assert jar.marks.dry.canonical == 95.0
    assert firing.readings is not None
    wall, floor = firing.readings.probes
    told = {name for probe in (wall, floor) for name in probe.__slots__ if getattr(probe, name) is not None}
    assert told == set(wall.__slots__) - {"column"}
    assert firing.readings.rows[0] == (39, "10:42:30   16 °C    15 °C   lit")
    assert firing.readings.rows_column == 5


@pytest.mark.parametrize("name", REQUIRED)
def test_a_required_field_left_out_or_empty_is_told_once(name: str) -> None:
    for written in (f"{name}:", f"{name}: ~", f'{name}: ""'):
        assert found(written) == [(name, "required-field")]


@pytest.mark.parametrize("field", [field for field in FIELDS if not field.required], ids=lambda field: field.name)
def test_an_optional_field_with_nothing_after_it_is_not_recorded(field: Field) -> None:
    assert firing_of(f"{field.name}:") == firing_of()


def test_every_problem_of_an_entry_is_told_in_one_run_in_the_order_of_its_lines() -> None:
    outcome = checked("date: 2/5/26", "clay: {wall: 6}", "nonsense: 1", "lit: 4 pm", "title: ")
    lines = [each.place.line for each in outcome.problems]
    assert [each.code for each in outcome.problems] == [
        "required-field",
        "date-form",
        "quantity-unit",
        "unknown-key",
        "clock-form",
    ]
    assert lines == sorted(lines, key=lambda line: line or 0)
    assert outcome.firing is None


def test_a_warning_does_not_keep_a_firing_back() -> None:
    outcome = checked("clay: {wall: 1.5 mm}")
    assert [each.code for each in outcome.problems] == ["unlikely"]
    assert outcome.firing is not None


def test_an_impossible_value_is_not_judged_any_further() -> None:
    assert found("pieces:\n  - {name: jar, survival: sound, weighed: {dry: 812 t, soaked: 921 g}}") == [
        ("pieces[1].weighed.dry", "impossible")
    ]


def test_a_unit_declared_by_the_group_is_taken_for_bare_numbers() -> None:
    settings = replace(example_settings(), units={"length": "mm"})
    firing = checked("clay: {wall: 6}", settings=settings).firing
    assert firing is not None
    wall = firing.conditions["clay.wall"]
    assert isinstance(wall, Quantity)
    assert (wall.raw, wall.canonical, wall.unit) == ("6", 6.0, "mm")


def test_words_in_any_form_of_list_are_the_same_words() -> None:
    forms = [
        "{wood: [hazel, birch]}",
        "{wood: 'hazel, birch'}",
        "\n  wood: hazel, birch",
        "\n  wood:\n    - hazel\n    - birch",
    ]
    woods = [firing_of(f"fuel: {form}").conditions["fuel.wood"] for form in forms]
    assert woods[0] == woods[2] == woods[3] == ("hazel", "birch")
    assert woods[1] == ("hazel, birch",)  # quotes keep a comma


def test_a_word_twice_counts_once() -> None:
    assert firing_of("fuel: {wood: [Hazel, hazel, birch]}").conditions["fuel.wood"] == ("Hazel", "birch")


@pytest.mark.parametrize(
    ("field", "code_field"),
    [
        ("pieces:\n" + "  - {name: jar, survival: sound}\n" * (MOST_ITEMS["pieces"] + 1), "pieces"),
        ("fuel:\n  wood: [" + ", ".join(f"w{n}" for n in range(MOST_WORDS + 1)) + "]", "fuel.wood"),
        ("readings:\n  time: elapsed\n  rows: |\n" + "    0:00 14 °C\n" * (MOST_ROWS + 1), "readings.rows"),
    ],
    ids=["pieces", "words", "rows"],
)
def test_a_list_has_an_end(field: str, code_field: str) -> None:
    assert found(field.rstrip()) == [(code_field, "too-many")]


def test_lighting_by_the_clock_stands_in_for_the_readings_own() -> None:
    rows = "  rows: |\n    10:40 14 °C\n    10:50 600 °C"
    by_clock = firing_of("lit: 10:42", f"readings:\n  time: clock\n{rows}").readings
    elapsed = firing_of("lit: 10:42", f"readings:\n  time: elapsed\n{rows}").readings
    assert by_clock is not None
    assert by_clock.lit is not None
    assert by_clock.lit.canonical == 642.0  # 10 h 42 min after midnight
    assert elapsed is not None
    assert elapsed.lit is None


@pytest.mark.parametrize(
    ("kind", "lit", "minutes"),
    [("elapsed", "2:30", 2.5), ("elapsed", "1:02:30", 62.5), ("elapsed", "3 min", 3.0), ("clock", "10:42:30", 642.5)],
)
def test_lighting_is_read_on_the_readings_own_clock(kind: str, lit: str, minutes: float) -> None:
    readings = firing_of(f"readings:\n  time: {kind}\n  lit: {lit}\n  rows: |\n    0:10 14 °C").readings
    assert readings is not None
    assert readings.lit is not None
    assert (readings.lit.raw, readings.lit.canonical) == (lit, minutes)


def test_a_probe_without_a_name_of_its_own_gets_one() -> None:
    readings = firing_of("readings:\n  time: elapsed\n  rows: |\n    0:10 14 °C").readings
    assert readings is not None
    assert [probe.name for probe in readings.probes] == [readings.ware_probe]


def test_an_error_elsewhere_leaves_the_readings_to_be_looked_at() -> None:
    rows = "readings:\n  time: elapsed\n  rows: |\n    0:10 14 °C"
    outcome = checked("title:", rows)
    assert outcome.firing is None
    assert outcome.readings_of is not None
    assert outcome.readings_of.readings is not None
    assert outcome.readings_of.readings.rows == ((11, "0:10 14 °C"),)
    assert checked("title:", rows.replace("rows: |", "rows: >")).readings_of is None


@pytest.mark.parametrize("time", ["  time: elapsd\n", ""])
def test_rows_are_looked_at_also_where_it_is_not_said_how_their_times_count(tmp_path: Path, time: str) -> None:
    outcome = checked(f"readings:\n{time}  rows: |\n    0:10 14 °C\n    1:10 8l2 °C\n    four 565 °C")
    assert [each.field for each in outcome.problems] == ["readings.time"]
    assert outcome.readings_of is not None
    _, of_rows = read_curves(outcome.readings_of, tmp_path)
    assert [each.code for each in of_rows] == ["reading-value", "reading-time"]


def test_a_problem_that_knows_its_field_only_is_given_the_field_s_place() -> None:
    outcome = checked("readings:\n  time: elapsed\n  probes: [{name: a}, {name: b, column: 4}]\n  file: x.csv")
    told = problem("reading-column-missing", Place("entry.md"), "readings.probes[2].column", "No.", "No.")
    (placed,) = outcome.placed((told,))
    assert (placed.place.line, placed.place.column) == (10, 41)
    nearest = replace(told, field="readings.probes[7].column")
    assert outcome.placed((nearest,))[0].place.line == 10
    known = replace(told, place=Place("log.csv", 3))
    assert outcome.placed((known,)) == (known,)


def test_an_entry_that_is_a_link_is_refused_before_it_is_read(tmp_path: Path) -> None:
    real = tmp_path / "real"
    real.mkdir()
    (real / "entry.md").write_text(text_with(), encoding="utf-8")
    (tmp_path / "folder").symlink_to(real)
    (tmp_path / "own").mkdir()
    (tmp_path / "own" / "entry.md").symlink_to(real / "entry.md")
    for name in ("folder", "own"):
        entry = EntryFile(name, tmp_path / name, tmp_path / name / "entry.md", f"{name}/entry.md")
        outcome = check_entry(entry, example_settings())
        assert outcome.firing is None
        assert [(each.code, each.place.file) for each in outcome.problems] == [("file-link", f"{name}/entry.md")]


@pytest.mark.parametrize("other", ["2026-05-02-Pale-Jar", "2026-05-02-pale-jar"])
def test_two_entries_with_one_address_are_told_at_the_second(other: str) -> None:
    slugs = ["2026-05-02-pale-jar", "2026-05-03-pale-jar", other]
    entries = [
        EntryFile(slug, Path(slug), Path(slug), f"{number}/{slug}/entry.md") for number, slug in enumerate(slugs)
    ]
    (told,) = check_all_addresses(entries)
    assert (told.code, told.place.file) == ("address-twice", f"2/{other}/entry.md")
    assert "0/2026-05-02-pale-jar/entry.md" in told.message


def test_an_address_is_the_same_however_its_accents_are_stored() -> None:
    entries = [EntryFile(slug, Path(slug), Path(slug), slug) for slug in ("kr\u00fcg", "kru\u0308g")]
    assert [told.code for told in check_all_addresses(entries)] == ["address-twice"]


WORDS = st.text(st.characters(codec="utf-8", exclude_characters="\r"), max_size=30)


@given(st.dictionaries(st.sampled_from([field.name for field in FIELDS]), WORDS, max_size=4))
def test_whatever_is_written_after_a_key_nothing_raises(fields: dict[str, str]) -> None:
    outcome = checked(*(f"{name}: {text}" for name, text in fields.items()))
    assert outcome.firing is not None or outcome.problems


@given(
    st.recursive(
        WORDS, lambda inner: st.lists(inner, max_size=3) | st.dictionaries(WORDS, inner, max_size=3), max_leaves=8
    ),
    st.sampled_from([field.name for field in FIELDS]),
)
def test_whatever_shape_a_field_is_given_nothing_raises(value: object, name: str) -> None:
    import json

    outcome = checked(f"{name}: {json.dumps(value)}")
    assert outcome.firing is not None or outcome.problems
