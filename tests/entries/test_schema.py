"""The schema takes what an ordinary reader of YAML makes of a good entry, and refuses what it can judge of bad ones."""

from __future__ import annotations

import json
from dataclasses import replace
from pathlib import Path
from typing import Any

import jsonschema
import pytest
import yaml

from builder.base.problem import Problem
from builder.entries.fields import walk
from builder.entries.find import entry_at
from builder.entries.front_matter import read_entry
from builder.entries.schema import DIALECT, entry_schema
from tests.checks.examples import BAD, GOOD, TESTS, cases, example_settings, problems_of

SCHEMA = entry_schema(example_settings())
VALIDATOR = jsonschema.Draft202012Validator(SCHEMA)

OUR_OWN_READING = {
    "2026-05-02-commas-in-braces": "elsewhere YAML takes the words after the comma for a key",
    "2026-05-02-capitals-from-a-phone": "elsewhere capital letters count",
}
"""Good entries that only our own reader understands, and why."""

JUDGED = {
    "unknown-key", "misplaced-key", "required-field", "one-value-wanted", "group-wanted", "list-wanted", "not-listed",
    "date-form", "clock-form", "count-form", "file-outside", "munsell", "rows-block", "quantity-none",
}  # fmt: skip
"""Codes of faults that a schema can judge; all else takes reckoning or looking."""


BEYOND_A_SCHEMA = {
    "2026-05-02-lit-on-another-clock": "what time it may be hangs on another field",
    "2026-05-02-rows-folded": "an ordinary reader cannot tell how a text was written",
    "2026-05-02-rows-without-bar": "the same",
}
"""Bad entries with such a code whose fault a schema cannot see all the same, and why."""


def ordinary(folder: Path) -> Any:
    """Return an entry's front matter as an ordinary reader of YAML hands it over; dates are text, as in JSON."""
    text = (folder / "entry.md").read_text(encoding="utf-8-sig").replace("\r\n", "\n").lstrip("\n")
    front = text.split("---", 2)[1]
    return json.loads(json.dumps(yaml.safe_load(front), default=str))


def test_the_schema_is_a_sound_schema_of_the_2020_12_dialect() -> None:
    jsonschema.Draft202012Validator.check_schema(SCHEMA)
    assert SCHEMA["$schema"] == DIALECT
    json.dumps(SCHEMA)


@pytest.mark.parametrize("folder", cases(GOOD), ids=lambda folder: folder.name)
def test_a_good_entry_passes_as_an_ordinary_reader_hands_it_over(folder: Path) -> None:
    faults = [error.message for error in VALIDATOR.iter_errors(ordinary(folder))]
    assert bool(faults) is (folder.name in OUR_OWN_READING), faults


def readable() -> list[Path]:
    """Return the bad entries that are YAML to an ordinary reader and whose fault a schema can judge."""
    found = []
    for folder in cases(BAD):
        entry = entry_at(folder, TESTS)
        judged = {problem.code for problem in problems_of(folder)} & JUDGED
        if isinstance(entry, Problem) or not judged:
            continue
        parsed = read_entry(entry)
        if parsed.root is not None and not parsed.problems:
            found.append(folder)
    return found


@pytest.mark.parametrize("folder", readable(), ids=lambda folder: folder.name)
def test_a_bad_entry_whose_fault_a_schema_can_judge_is_refused(folder: Path) -> None:
    assert VALIDATOR.is_valid(ordinary(folder)) is (folder.name in BEYOND_A_SCHEMA)


def test_every_field_has_a_title_a_description_and_its_example() -> None:
    defs = SCHEMA["$defs"]
    assert isinstance(defs, dict)
    for path, field in walk():
        node: Any = SCHEMA
        for number, name in enumerate(path.split(".")):
            node = unfolded(node)["properties"][name]
            inner = ".".join(path.split(".")[: number + 1])
            if inner != path and inner in defs:
                node = defs[inner]
        assert node["description"] == field.meaning
        assert node["title"] == field.heading
        assert ("examples" in node) is (field.kind not in ("group", "list"))


def unfolded(node: Any) -> Any:
    """Return a group's own schema where it may also have nothing after its colon."""
    return node if "properties" in node else next(form for form in node["anyOf"] if "properties" in form)


@pytest.mark.parametrize(
    ("path", "field"), [(path, field) for path, field in walk() if field.example], ids=lambda part: str(part)[:40]
)
def test_every_example_is_taken_by_its_own_field(path: str, field: Any) -> None:
    schema = json.loads(json.dumps(SCHEMA))
    node: Any = schema
    for number, name in enumerate(path.split(".")):
        node = unfolded(node)["properties"][name]
        inner = ".".join(path.split(".")[: number + 1])
        if inner != path and inner in schema["$defs"]:
            node = schema["$defs"][inner]
    if field.words_from:
        return  # the examples name potters and methods of another group
    for example in node["examples"]:
        jsonschema.Draft202012Validator({**node, "$defs": schema["$defs"]}).validate(example)


# What YAML 1.1 makes of these words (yaml.org/spec/1.1, types): 10:42 counts in sixties, 1e3 and .5 are floats.
@pytest.mark.parametrize(("written", "handed_over"), [("lit: 10:42", 642), ("title: 2026", 2026), ("title: yes", True),
                                                      ("place: 020", 16), ("place: ~", None)])  # fmt: skip
def test_values_that_yaml_turns_into_something_else_still_pass(written: str, handed_over: object) -> None:
    name = written.partition(":")[0]
    read = {**ordinary(GOOD / "2026-05-02-only-what-is-required"), **yaml.safe_load(written)}
    assert read[name] == handed_over
    assert VALIDATOR.is_valid(read)


def test_a_bare_number_passes_only_where_the_group_declared_its_unit() -> None:
    settings = replace(example_settings(), units={"length": "mm"})
    entry = {**ordinary(GOOD / "2026-05-02-only-what-is-required"), "clay": {"wall": 6}}
    assert not VALIDATOR.is_valid(entry)
    assert jsonschema.Draft202012Validator(entry_schema(settings)).is_valid(entry)


def test_the_group_s_own_words_potters_and_methods_are_in_the_schema() -> None:
    told = json.dumps(SCHEMA)
    for word in ("log cabin", "wren", "shallow-pit", "Wren of Alder Fen"):
        assert f'"{word}"' in told


def test_the_same_settings_give_the_same_bytes() -> None:
    assert json.dumps(entry_schema(example_settings())) == json.dumps(SCHEMA)
