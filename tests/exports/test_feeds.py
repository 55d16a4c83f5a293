"""The feed against RFC 4287, and the words for machines inside a page."""

from __future__ import annotations

import json
import re
from dataclasses import replace
from datetime import date
from xml.etree import ElementTree

import pytest

from builder.archive.archive import gather
from builder.exports.feeds import MOST_ENTRIES, feed
from builder.exports.json_ld import archive_json_ld, firing_json_ld
from builder.exports.outcome_words import outcome_words
from builder.settings import Settings
from tests.exports.example import NO_URL, WITH_URL, archive, firing, record

ATOM = "{http://www.w3.org/2005/Atom}"


def read(settings: Settings = WITH_URL) -> ElementTree.Element:
    return ElementTree.fromstring(feed(archive(), settings))


def texts(root: ElementTree.Element, path: str) -> list[str]:
    return [element.text or "" for element in root.iterfind(path.replace("/", f"/{ATOM}").replace("@", ATOM))]


@pytest.mark.parametrize("settings", [NO_URL, WITH_URL])
def test_a_feed_has_all_that_the_standard_asks(settings: Settings) -> None:
    """RFC 4287, 4.1: id, title and updated once each, on the feed and on every entry; an author; an alternate link."""
    root = read(settings)
    assert root.tag == f"{ATOM}feed"
    for element in (root, *root.iterfind(f"{ATOM}entry")):
        for name in ("id", "title", "updated"):
            found = [child.text for child in element.iterfind(f"{ATOM}{name}")]
            assert len(found) == 1 and found[0], name
        assert re.fullmatch(r"\d{4}-\d{2}-\d{2}T00:00:00Z", element.findtext(f"{ATOM}updated") or "")
        assert (element.findtext(f"{ATOM}id") or "").startswith("urn:uuid:")
        assert element.find(f"{ATOM}author/{ATOM}name") is not None
        assert [link.get("rel") for link in element.iterfind(f"{ATOM}link")].count("alternate") == 1


def test_the_newest_firing_comes_first_and_dates_the_feed() -> None:
    root = read()
    days = [entry.findtext(f"{ATOM}updated") for entry in root.iterfind(f"{ATOM}entry")]
    assert days == ["2026-07-01T00:00:00Z", "2026-06-01T00:00:00Z", "2026-05-02T00:00:00Z"]
    assert root.findtext(f"{ATOM}updated") == days[0]


def test_a_firings_id_outlives_its_title_its_place_in_the_archive_and_the_sites_address() -> None:
    def ids(root: ElementTree.Element) -> dict[str, str]:
        return {
            (entry.findtext(f"{ATOM}published") or ""): (entry.findtext(f"{ATOM}id") or "")
            for entry in root.iterfind(f"{ATOM}entry")
        }

    renamed = gather([record(7, firing("2026-07-01-bare", date(2026, 7, 1), "Renamed"))], NO_URL)
    later = ids(ElementTree.fromstring(feed(renamed, WITH_URL)))
    assert later.items() <= ids(read(NO_URL)).items()
    assert len(set(ids(read()).values())) == 3


def test_titles_are_escaped_and_freed_of_what_xml_cannot_hold() -> None:
    titles = [entry.findtext(f"{ATOM}title") for entry in read().iterfind(f"{ATOM}entry")]
    assert titles[1] == "<script>alert(1)</script> & hot"
    assert titles[2] == 'Pale-slipped jar, "third" attempt\ufffd'
    assert b"<script>" not in feed(archive(), WITH_URL)


def test_a_potter_is_named_as_the_potter_publishes() -> None:
    assert {name.text for name in read().iterfind(f"{ATOM}entry/{ATOM}author/{ATOM}name")} == {"Wren A."}


def test_a_feed_without_firings_is_still_a_feed() -> None:
    root = ElementTree.fromstring(feed(gather([], NO_URL), NO_URL))
    assert root.findtext(f"{ATOM}updated") == "1970-01-01T00:00:00Z"
    assert root.find(f"{ATOM}entry") is None


def test_a_long_archive_gives_its_newest_firings_only() -> None:
    records = [record(n, firing(f"2026-01-01-f{n}", date(2026, 1, 1), f"Firing {n}")) for n in range(1, 61)]
    root = ElementTree.fromstring(feed(gather(records, NO_URL), NO_URL))
    titles = [entry.findtext(f"{ATOM}title") for entry in root.iterfind(f"{ATOM}entry")]
    assert titles == [f"Firing {n}" for n in range(60, 60 - MOST_ENTRIES, -1)]


def test_what_came_of_a_firing_is_said_with_its_counts() -> None:
    full, hot, bare = archive().records
    assert outcome_words(full, NO_URL) == "Open fire, hottest 812 °C. 1 of 5 pieces succeeded. 1 not judged."
    assert outcome_words(hot, NO_URL) == "Open fire, hottest at least 700 °C. 0 of 1 piece succeeded."
    assert outcome_words(bare, NO_URL) == "Pit. 0 of 2 pieces succeeded."


def test_json_ld_stays_inside_its_script_element_and_reads_back() -> None:
    """A title that tries to close the element comes back as it was, and no angle bracket is in the text."""
    hot = archive().records[1]
    nasty = replace(hot, firing=replace(hot.firing, title="</script><script>alert(1)</script>\u2028"))
    text = firing_json_ld(nasty, WITH_URL)
    assert not set("<>&\u2028") & set(text)
    described = json.loads(text)
    assert described["headline"] == nasty.firing.title
    assert described["@type"] == "Article"
    assert described["author"]["name"] == "Wren A."
    assert described["url"] == "https://ash-lane.example/firings/2026-06-01-hot.html"


def test_the_archive_is_described_as_a_data_set_with_its_tables() -> None:
    described = json.loads(archive_json_ld(archive(), WITH_URL))
    assert described["@type"] == "Dataset"
    assert described["temporalCoverage"] == "2026-05-02/2026-07-01"
    assert described["distribution"][0]["contentUrl"] == "https://ash-lane.example/data/firings.csv"
    assert "temporalCoverage" not in json.loads(archive_json_ld(gather([], NO_URL), NO_URL))
