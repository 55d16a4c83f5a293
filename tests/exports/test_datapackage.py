"""The description of the data, checked by an outside validator and against the second version of the standard."""

from __future__ import annotations

import csv
import hashlib
import io
import json
from collections.abc import Callable
from dataclasses import replace
from datetime import date
from pathlib import Path
from typing import Any

import frictionless
import jsonschema
import pytest

from builder.archive.archive import gather
from builder.archive.findings import Findings
from builder.archive.window import working_window
from builder.exports.export_files import export_files
from tests.archive.window_check import fixed_check
from tests.exports.example import NO_URL, WITH_URL, archive

TOLD = Findings(
    windows={"open-fire": working_window(fixed_check()), "pit": working_window(fixed_check()[:4])},
    ware_windows={"=pale jar": working_window([replace(one, destroyed=(9, 9)) for one in fixed_check()])},
)
FILES = export_files(archive(), NO_URL, TOLD)
PACKAGE: dict[str, Any] = json.loads(FILES["data/datapackage.json"])
TABLES: list[dict[str, Any]] = [one for one in PACKAGE["resources"] if one.get("type") == "table"]

VERSION_2 = {
    "type": "object",
    "required": ["$schema", "name", "resources", "licenses"],
    "properties": {
        "$schema": {"const": "https://datapackage.org/profiles/2.0/datapackage.json"},
        "name": {"type": "string", "pattern": "^[-a-z0-9._/]+$"},
        "profile": False,
        "homepage": {"type": "string", "format": "uri"},
        "licenses": {
            "type": "array",
            "minItems": 1,
            "items": {"type": "object", "anyOf": [{"required": ["name"]}, {"required": ["path"]}]},
        },
        "contributors": {
            "type": "array",
            "minItems": 1,
            "items": {"properties": {"roles": {"type": "array", "minItems": 1}, "role": False}},
        },
        "resources": {
            "type": "array",
            "minItems": 1,
            "items": {
                "type": "object",
                "required": ["$schema", "name", "path"],
                "dependentRequired": {"type": ["schema"]},
                "properties": {
                    "$schema": {"const": "https://datapackage.org/profiles/2.0/dataresource.json"},
                    "type": {"const": "table"},
                    "profile": False,
                    "path": {"type": "string", "pattern": r"^(?!/)(?!.*\.\.)[^\\]+$"},
                    "hash": {"type": "string", "pattern": "^([^:]+:[a-fA-F0-9]+|[a-fA-F0-9]{32})$"},
                    "schema": {
                        "required": ["fields"],
                        "properties": {
                            "primaryKey": {"type": "array", "items": {"type": "string"}},
                            "missingValues": {"const": [""]},
                            "fields": {
                                "minItems": 1,
                                "items": {
                                    "required": ["name", "type", "title", "description"],
                                    "properties": {"type": {"enum": ["string", "number", "integer", "date"]}},
                                },
                            },
                        },
                    },
                },
            },
        },
    },
}
"""What the Data Package standard, version 2.0, asks of a descriptor of tables (https://datapackage.org/standard/)."""


def written(folder: Path, files: dict[str, bytes]) -> Path:
    for address, content in files.items():
        path = folder / address
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_bytes(content)
    return folder / "data" / "datapackage.json"


@pytest.mark.filterwarnings("ignore")  # the validator's own libraries warn of their age
@pytest.mark.parametrize("which", ["example", "empty"])
def test_an_outside_validator_finds_nothing(tmp_path: Path, which: str) -> None:
    """frictionless checks every row of every table: types, required cells, listed words, keys, sizes and hashes."""
    files = FILES if which == "example" else export_files(gather([], NO_URL), NO_URL)
    report = frictionless.validate(str(written(tmp_path, files)))
    assert report.flatten(["title", "message"]) == []
    assert report.valid
    assert report.stats["tasks"] == 6


@pytest.mark.filterwarnings("ignore")
def test_the_outside_validator_would_see_a_broken_table(tmp_path: Path) -> None:
    """A piece of a firing that is not there, and an outcome that is no word of the list."""
    pieces = FILES["data/pieces.csv"].replace(b"2026-07-01-bare", b"2026-07-01-gone").replace(b"broken", b"shattered")
    report = frictionless.validate(str(written(tmp_path, FILES | {"data/pieces.csv": pieces})))
    kinds = {kind for (kind,) in report.flatten(["type"])}
    assert {"foreign-key", "constraint-error"} <= kinds


@pytest.mark.parametrize("settings", [NO_URL, WITH_URL])
def test_the_description_is_of_the_second_version(settings: Any) -> None:
    described = json.loads(export_files(archive(), settings)["data/datapackage.json"])
    jsonschema.Draft202012Validator(VERSION_2).validate(described)


def test_every_column_is_described_with_its_unit() -> None:
    for resource in TABLES:
        header = FILES[f"data/{resource['path']}"].decode().split("\r\n", 1)[0].split(",")
        fields = resource["schema"]["fields"]
        assert [field["name"] for field in fields] == header
        for field in fields:
            assert field["description"].endswith((".", "…")), field["name"]
            if field["type"] == "number":
                assert field.get("unit", "") == _unit_in_name(field["name"]), field["name"]


def _unit_in_name(name: str) -> str:
    """The unit that a column's name says, by the rules of the contract's own names."""
    stem = name.removesuffix("_low").removesuffix("_high")
    if stem.startswith("minutes_above"):
        return "min"
    units = {
        "_c_per_min": "°C/min", "_c_min": "°C·min", "_g_cm3": "g/cm³", "_km_h": "km/h", "_days": "d", "_pct": "%",
        "_min": "min", "_mm": "mm", "_kg": "kg", "_c": "°C", "minute": "min",
    }  # fmt: skip
    return next((unit for end, unit in units.items() if stem.endswith(end)), "")


def test_every_row_fits_its_schema_by_plain_means() -> None:
    """With csv and jsonschema alone: each cell turned into its type, each row against a schema made of the columns."""
    for resource in TABLES:
        fields = resource["schema"]["fields"]
        schema = {
            "type": "object",
            "required": [field["name"] for field in fields if field.get("constraints", {}).get("required")],
            "additionalProperties": False,
            "properties": {field["name"]: _cell_schema(field) for field in fields},
        }
        validator = jsonschema.Draft202012Validator(schema)
        text = FILES[f"data/{resource['path']}"].decode()
        for row in csv.DictReader(io.StringIO(text, newline="")):
            validator.validate(
                {field["name"]: _typed(field, row[field["name"]]) for field in fields if row[field["name"]]}
            )


def _cell_schema(field: dict[str, Any]) -> dict[str, Any]:
    words = field.get("constraints", {}).get("enum")
    kind = "string" if field["type"] == "date" else field["type"]
    return {"type": kind} | ({"enum": words} if words else {})


def _typed(field: dict[str, Any], cell: str) -> object:
    kinds: dict[str, Callable[[str], object]] = {
        "number": float,
        "integer": int,
        "date": lambda day: date.fromisoformat(day).isoformat(),
    }
    return kinds.get(field["type"], str)(cell)


def test_keys_name_each_row_once_and_references_lead_somewhere() -> None:
    tables = {
        resource["name"]: list(csv.DictReader(io.StringIO(FILES[f"data/{resource['path']}"].decode(), newline="")))
        for resource in TABLES
    }
    for resource in TABLES:
        rows = tables[resource["name"]]
        keys = [tuple(row[column] for column in resource["schema"]["primaryKey"]) for row in rows]
        assert len(set(keys)) == len(keys) > 0
        for foreign in resource["schema"].get("foreignKeys", ()):
            there = {row[foreign["reference"]["fields"][0]] for row in tables[foreign["reference"]["resource"]]}
            assert {row[foreign["fields"][0]] for row in rows} <= there


def test_sizes_and_hashes_are_those_of_the_files() -> None:
    for resource in PACKAGE["resources"]:
        content = FILES[f"data/{resource['path']}"]
        assert resource["bytes"] == len(content)
        assert resource["hash"] == f"sha256:{hashlib.sha256(content).hexdigest()}"


def test_the_notice_and_the_licence_go_with_the_data() -> None:
    assert "This archive is invented." in PACKAGE["description"]
    assert PACKAGE["licenses"][0]["name"] == "CC-BY-4.0"
    assert PACKAGE["name"] == "ash-lane-a-book-of-fires"


def test_the_schema_of_an_entry_is_a_sound_schema() -> None:
    schema = json.loads(FILES["data/entry.schema.json"])
    jsonschema.Draft202012Validator.check_schema(schema)
    assert {"title", "date", "potter", "method", "pieces"} <= set(schema["required"])


def test_the_window_is_written_with_each_end_and_its_limits() -> None:
    """The fixed check of the window: 626, 684, 720 and 802, 842, 922 °C, best 763 °C at 0.817 (4 °C, 0.1 °C, 0.001)."""
    rows = {(row["method"], row["ware"]): row for row in csv.DictReader(io.StringIO(FILES["data/window.csv"].decode()))}
    found = rows["open-fire", ""]
    ends = ("low_c_low", "low_c", "low_c_high", "high_c_low", "high_c", "high_c_high")
    assert [float(found[name]) for name in ends] == pytest.approx([626, 684, 720, 802, 842, 922], abs=4)
    assert float(found["best_c"]) == pytest.approx(763, abs=1)
    assert float(found["best_chance"]) == pytest.approx(0.817, abs=1e-3)
    assert found["enough"] == "yes"


def test_too_few_firings_and_open_ends_leave_cells_empty() -> None:
    rows = {(row["method"], row["ware"]): row for row in csv.DictReader(io.StringIO(FILES["data/window.csv"].decode()))}
    few, jar = rows["pit", ""], rows["all", "'=pale jar"]
    assert (few["enough"], few["low_c"], few["high_c_high"], few["best_c"]) == ("too few", "", "", "")
    assert (jar["enough"], jar["high_c"], jar["high_c_high"]) == ("yes", "", "")
    assert jar["low_c"] != ""
