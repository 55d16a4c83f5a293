"""What other programs read: CSV on the Web, the citation, the JSON Feed; each held to an outside measure."""

from __future__ import annotations

import csv
import importlib.resources
import io
import json
import re
from dataclasses import replace
from pathlib import Path
from typing import Any

import atoma
import csvw
import jsonschema
import pytest
import yaml

from builder.archive.archive import gather
from builder.exports.citation_words import citation_words
from builder.exports.export_files import export_files
from builder.exports.json_ld import firing_json_ld
from builder.settings import Settings
from tests.exports.example import NO_URL, WITH_URL, archive

JSON_FEED = {
    "type": "object",
    "required": ["version", "title", "items"],
    "properties": {
        "version": {"const": "https://jsonfeed.org/version/1.1"},
        "title": {"type": "string", "minLength": 1},
        "home_page_url": {"type": "string", "format": "uri"},
        "feed_url": {"type": "string", "format": "uri"},
        "language": {"type": "string"},
        "authors": {"type": "array", "items": {"anyOf": [{"required": ["name"]}, {"required": ["url"]}]}},
        "items": {
            "type": "array",
            "items": {
                "required": ["id"],
                "anyOf": [{"required": ["content_text"]}, {"required": ["content_html"]}],
                "properties": {
                    "id": {"type": "string", "minLength": 1},
                    "url": {"type": "string"},
                    "date_published": {"pattern": r"^\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d(Z|[+-]\d\d:\d\d)$"},
                },
                "patternProperties": {"^_": {"type": "object"}},
            },
        },
    },
}
"""What the specification of JSON Feed 1.1 asks for in words."""


@pytest.fixture(scope="module", params=[NO_URL, WITH_URL], ids=["without an address", "with an address"])
def written(request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory) -> tuple[Path, Settings]:
    """The example's files, written to a folder."""
    folder = tmp_path_factory.mktemp("site")
    for address, content in export_files(archive(), request.param).items():
        (folder / address).parent.mkdir(exist_ok=True)
        (folder / address).write_bytes(content)
    return folder, request.param


def test_csv_on_the_web_reads_every_table_by_its_description(written: tuple[Path, Settings]) -> None:
    """The `csvw` package reads each row by the datatypes described, and follows the keys from table to table."""
    folder, _ = written
    group = csvw.TableGroup.from_file(folder / "data" / "csvw.json")
    names = {str(table.url) for table in group.tables}
    assert names == {path.name for path in (folder / "data").glob("*.csv")}
    for table in group.tables:
        read = list(table.iterdicts(strict=True))
        plain = list(csv.DictReader(io.StringIO((folder / "data" / str(table.url)).read_text("utf-8"))))
        assert len(read) == len(plain)
        assert not plain or set(read[0]) == set(plain[0])
    group.check_referential_integrity(strict=True)


def test_csv_on_the_web_refuses_a_word_that_is_not_listed(written: tuple[Path, Settings], tmp_path: Path) -> None:
    """The description really constrains: a table spoilt in one cell is no longer read."""
    folder, _ = written
    for path in (folder / "data").iterdir():
        (tmp_path / path.name).write_bytes(path.read_bytes())
    pieces = tmp_path / "pieces.csv"
    spoilt = re.sub(r"(?m),(yes|no|unjudged)(\r?)$", r",perhaps\2", pieces.read_text("utf-8"), count=1)
    assert spoilt != pieces.read_text("utf-8")
    pieces.write_text(spoilt, "utf-8", newline="")
    group = csvw.TableGroup.from_file(tmp_path / "csvw.json")
    with pytest.raises(ValueError, match="perhaps"):
        list(group.tabledict["pieces.csv"].iterdicts(strict=True))


def test_the_citation_holds_to_the_format(written: tuple[Path, Settings]) -> None:
    """Judged by the schema of the Citation File Format 1.2.0 that check-jsonschema carries."""
    folder, settings = written
    told = yaml.safe_load((folder / "data" / "CITATION.cff").read_text("utf-8"))
    where = importlib.resources.files("check_jsonschema") / "builtin_schemas" / "vendor" / "citation-file-format.json"
    jsonschema.validate(told, json.loads(where.read_text("utf-8")))
    assert told["title"] == settings.group.title
    assert told["date-released"] == str(max(record.firing.date for record in archive().records))
    assert told.get("url", "") == settings.group.url


def test_an_archive_without_firings_can_be_cited_too() -> None:
    told = yaml.safe_load(export_files(gather((), NO_URL), NO_URL)["data/CITATION.cff"])
    where = importlib.resources.files("check_jsonschema") / "builtin_schemas" / "vendor" / "citation-file-format.json"
    jsonschema.validate(told, json.loads(where.read_text("utf-8")))


def test_the_json_feed_is_what_its_specification_asks_for(written: tuple[Path, Settings]) -> None:
    folder, settings = written
    told: dict[str, Any] = json.loads((folder / "feed.json").read_text("utf-8"))
    jsonschema.validate(told, JSON_FEED)
    ids = [item["id"] for item in told["items"]]
    assert len(set(ids)) == len(ids) == len(archive().records)
    assert ids == re.findall(r"(?<=<entry>)\s*<id>([^<]+)", (folder / "feed.xml").read_text("utf-8"))
    assert all(item["_firing"]["licence"] for item in told["items"])
    assert all(item["url"].startswith(settings.group.url) for item in told["items"])


def test_an_outside_reader_of_feeds_reads_both_and_finds_the_same_firings(written: tuple[Path, Settings]) -> None:
    """`atoma` reads Atom and JSON Feed strictly: it raises where an element that must be there is not."""
    folder, _ = written
    by_xml = atoma.parse_atom_file(str(folder / "feed.xml"))
    by_json = atoma.parse_json_feed_file(str(folder / "feed.json"))
    assert [entry.id_ for entry in by_xml.entries] == [item.id_ for item in by_json.items]
    assert [entry.title.value for entry in by_xml.entries] == [
        re.sub("[\x00-\x08\x0b\x0c\x0e-\x1f]", "\ufffd", item.title) for item in by_json.items
    ]
    assert [entry.published for entry in by_xml.entries] == [item.date_published for item in by_json.items]
    assert all(entry.authors and entry.links and entry.summary for entry in by_xml.entries)


def test_a_firing_is_cited_by_people_year_title_place_and_licence() -> None:
    one = archive().records[0]
    assert citation_words(one, WITH_URL) == (
        'Wren A. (2026). Pale-slipped jar, "third" attempt\x0b. Wood firing of 2026-05-02, in Ash Lane: a book of '
        "fires, The Ash Lane potters. https://ash-lane.example/firings/2026-05-02-pale-jar.html. CC0-1.0."
    )
    assert "Entry 2026-05-02-pale-jar." in citation_words(one, NO_URL)


def test_each_firing_carries_its_own_licence_by_its_spdx_id() -> None:
    one = archive().records[1]
    freed = replace(one, firing=replace(one.firing, licence="CC-BY-SA-4.0"))
    told = json.loads(firing_json_ld(freed, WITH_URL))
    assert told["license"]["identifier"] == "CC-BY-SA-4.0"
    assert told["license"]["url"] == "https://spdx.org/licenses/CC-BY-SA-4.0.html"
    assert json.loads(firing_json_ld(one, WITH_URL))["license"]["identifier"] == "CC-BY-4.0"
