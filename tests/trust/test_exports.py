"""What machines read of an archive full of attacks: tables, feed, sitemap, search index, schema, JSON-LD."""

from __future__ import annotations

import csv
import html
import json
import re
from pathlib import Path
from xml.etree import ElementTree

import pytest

from tests.publish.reading_index import read_index
from tests.trust.rotation import SMALL

ENTRIES = SMALL.entries
_POLICY = "default-src 'none'; script-src 'self'; style-src 'self';"


@pytest.fixture
def site(hostile_site: Path) -> Path:
    return hostile_site


def test_the_tables_keep_one_width_whatever_is_written_into_them(site: Path) -> None:
    for table in sorted(site.rglob("data/*.csv")):
        with table.open(encoding="utf-8-sig", newline="") as file:
            assert len({len(row) for row in csv.reader(file, strict=True)}) == 1, table.name


def test_feed_and_sitemap_are_xml_without_entities_that_name_no_other_host(site: Path) -> None:
    for name, tag in (("feed.xml", "{http://www.w3.org/2005/Atom}entry"), ("sitemap.xml", None)):
        text = (site / name).read_text(encoding="utf-8")
        assert "<!ENTITY" not in text
        assert "<!DOCTYPE" not in text
        root = ElementTree.fromstring(text)
        assert tag is None or len(root.findall(tag)) == ENTRIES
        links = [each.get("href", "") for each in root.iter() if each.get("href")]
        links += [each.text or "" for each in root.iter() if each.tag.endswith("}loc")]
        assert links
        assert not [link for link in links if not link.startswith("https://example.org/fires/")]


def test_the_search_index_and_all_json_can_be_read_and_hold_no_ready_made_markup(site: Path) -> None:
    index = read_index(site)
    assert len(index.pages) > ENTRIES
    addresses = {page[0] for page in index.pages}
    assert not any("<" in path.read_text(encoding="utf-8") for path in (site / "search").iterdir())
    assert not [one for one in addresses if not re.fullmatch(r"[a-z0-9/_.-]*", one)]
    for path in sorted(site.rglob("*.json")):
        json.loads(path.read_text(encoding="utf-8"))


def test_json_ld_stays_inside_its_element_and_says_the_title(site: Path) -> None:
    for page in sorted((site / "firings").glob("2026-*.html")):
        text = page.read_text(encoding="utf-8")
        found = re.findall(r'<script type="application/ld\+json">(.*?)</script>', text, re.DOTALL)
        assert len(found) == 1
        told = json.loads(found[0])
        heading = re.search(r"<h1[^>]*>(.*?)</h1>", text, re.DOTALL)
        assert heading is not None
        assert html.unescape(re.sub(r"<[^>]+>", "", heading[1])).split() == str(told["headline"]).split()


def test_every_page_carries_the_strict_policy_and_no_script_or_style_of_its_own(site: Path) -> None:
    for page in sorted(site.rglob("*.html")):
        text = page.read_text(encoding="utf-8")
        assert _POLICY in text, page
        assert "unsafe-" not in re.findall(r'Content-Security-Policy" content="([^"]*)"', text)[0]
        inline = [one for one in re.findall(r"<script\b[^>]*>", text) if "src=" not in one and "json" not in one]
        assert not inline, page
        for data in re.findall(r'<script type="application/(?:ld\+)?json"[^>]*>(.*?)</script>', text, re.DOTALL):
            json.loads(data)
        assert "<style" not in text, page


def test_templates_and_macros_in_words_stay_words(site: Path) -> None:
    pages = "".join(page.read_text(encoding="utf-8") for page in sorted(site.rglob("*.html")))
    assert "{{ 7 * 7 }}" in pages
    assert "root:x:0:0" not in pages
    assert "__class__" in pages
    assert "&lt;class &#39;" not in pages
