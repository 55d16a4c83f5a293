"""What a site with an address on the web tells other programs: feed, sitemap, previews, words for machines."""

from __future__ import annotations

import json
import re
from html import unescape
from pathlib import Path
from xml.etree import ElementTree

import pytest
from PIL import Image
from rdflib import RDF, Graph
from rdflib.namespace import SDO

from builder.archive.archive import gather
from builder.build import Options, build
from builder.exports.feeds import feed
from builder.exports.json_ld import archive_json_ld, firing_json_ld
from builder.settings import Settings
from tests.commands.archives import write_archive
from tests.exports.example import NO_URL, WITH_URL, archive
from tests.nu_checker import Remark, check_pages, check_xml

SCHEMAS = Path(__file__).parent / "schemas"
ADDRESS = "https://example.org/fires/"
INLINE_DATA = "Inline script violates Content Security Policy"
by_rdflib = pytest.mark.filterwarnings("ignore:ConjunctiveGraph is deprecated:DeprecationWarning")
"""Its own reader of JSON-LD still uses what it warns of."""


@pytest.fixture(scope="module")
def hosted(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A small archive whose settings name its address."""
    project = write_archive(tmp_path_factory.mktemp("hosted") / "archive")
    assert build(Options(project, project / "site")).published
    return project / "site"


def _pages(site: Path) -> dict[str, str]:
    """Every page but the one for addresses that do not exist, by its address from the site's root."""
    pages = {path.relative_to(site).as_posix(): path.read_text("utf-8") for path in site.rglob("*.html")}
    pages.pop("404.html")
    return pages


def _told(page: str) -> dict[str, str]:
    """What a page's `meta` elements say, by property or name."""
    return {
        name: unescape(said) for name, said in re.findall(r'<meta (?:property|name)="([^"]+)" content="([^"]*)"', page)
    }


def _judged(xml: bytes, schema: str, folder: Path) -> list[Remark]:
    (folder / "judged.xml").write_bytes(xml)
    return check_xml(folder / "judged.xml", SCHEMAS / schema)


@pytest.mark.parametrize("settings", [NO_URL, WITH_URL], ids=["without an address", "with an address"])
@pytest.mark.parametrize("full", [True, False], ids=["with firings", "without firings"])
def test_the_feed_is_what_the_standard_asks_for(tmp_path: Path, settings: Settings, full: bool) -> None:
    written = feed(archive() if full else gather((), settings), settings)
    assert _judged(written, "atom.rnc", tmp_path) == []


def test_the_site_s_own_feed_and_sitemap_are_what_the_standards_ask_for(hosted: Path) -> None:
    assert check_xml(hosted / "feed.xml", SCHEMAS / "atom.rnc") == []
    assert check_xml(hosted / "sitemap.xml", SCHEMAS / "sitemap.rnc") == []


@pytest.mark.parametrize(
    ("file", "right", "wrong"),
    [
        ("feed.xml", "<updated>2026-05-03T00:00:00Z</updated>", "<updated>2026-05-03</updated>"),
        ("feed.xml", "<title>Fire 2</title>", ""),
        ("feed.xml", "urn:uuid:", "uuid-"),
        ("feed.xml", 'type="text/html"', 'type="html"'),
        ("feed.xml", "<published>", "<printed/><published>"),
        ("sitemap.xml", f"<loc>{ADDRESS}", "<loc>"),
        ("sitemap.xml", "</loc>", "</loc><lastmod>yesterday</lastmod>"),
        ("sitemap.xml", "</loc>", f"</loc><loc>{ADDRESS}</loc>"),
    ],
)
def test_the_schemas_would_notice(hosted: Path, tmp_path: Path, file: str, right: str, wrong: str) -> None:
    spoilt = (hosted / file).read_text("utf-8").replace(right, wrong, 1)
    assert spoilt != (hosted / file).read_text("utf-8")
    assert _judged(spoilt.encode(), {"feed.xml": "atom.rnc", "sitemap.xml": "sitemap.rnc"}[file], tmp_path)


def test_the_sitemap_names_each_page_once_and_stays_below_the_protocol_s_limits(hosted: Path) -> None:
    """50,000 addresses and 50 MB (sitemaps.org/protocol.html)."""
    root = ElementTree.parse(hosted / "sitemap.xml").getroot()
    places = [str(element.text) for element in root.iter("{http://www.sitemaps.org/schemas/sitemap/0.9}loc")]
    assert sorted(places) == sorted(ADDRESS + page for page in _pages(hosted))
    assert len(places) <= 50_000 and (hosted / "sitemap.xml").stat().st_size <= 52_428_800


def test_every_page_has_the_four_words_that_a_preview_needs_and_its_picture_is_there(hosted: Path) -> None:
    """Title, type, picture and address are what the Open Graph protocol (ogp.me) asks of every page."""
    for address, page in _pages(hosted).items():
        told = _told(page)
        assert told["og:title"] and told["og:description"] and told["og:image:alt"]
        assert told["og:type"] == ("website" if address == "index.html" else "article")
        assert told["og:url"] == ADDRESS + address
        assert f'<link rel="canonical" href="{told["og:url"]}">' in page
        picture = hosted / told["og:image"].removeprefix(ADDRESS)
        with Image.open(picture) as opened:
            assert opened.size == (1200, 630)


def test_each_firing_is_previewed_by_its_own_curve(hosted: Path) -> None:
    firings = {address: page for address, page in _pages(hosted).items() if address.startswith("firings/2026")}
    pictures = {_told(page)["og:image"] for page in firings.values()}
    assert pictures == {f"{ADDRESS}{address.removesuffix('.html')}/preview.png" for address in firings}


def test_pages_with_their_words_for_other_programs_are_html_without_a_fault(hosted: Path) -> None:
    said = check_pages(hosted / address for address in ("index.html", "firings/2026-05-01-fire-1.html", "404.html"))
    assert [one for one in said if "Content Security Policy" not in one.words] == []
    assert {one.words[: len(INLINE_DATA)] for one in said if "nonce" in one.words} == {INLINE_DATA}


def _triples(json_ld: str) -> Graph:
    """Read JSON-LD by rdflib's processor, with the vocabulary that schema.org's own context names as its first line."""
    told = json.loads(json_ld)
    assert told.pop("@context") == "https://schema.org"
    graph = Graph()
    graph.parse(data=json.dumps({"@context": {"@vocab": str(SDO)}, **told}), format="json-ld")
    return graph


@by_rdflib
@pytest.mark.parametrize("settings", [NO_URL, WITH_URL], ids=["without an address", "with an address"])
def test_every_word_for_machines_is_one_that_schema_org_defines(settings: Settings) -> None:
    """rdflib carries the list of schema.org's types and properties; a word that is misspelt is not in it."""
    whole = archive()
    for written in (archive_json_ld(whole, settings), *(firing_json_ld(one, settings) for one in whole.records)):
        graph = _triples(written)
        words = {str(one) for one in graph.predicates() if one != RDF.type}
        words |= {str(one) for one in graph.objects(None, RDF.type)}
        assert len(words) > 8
        assert {word for word in words if word.removeprefix(str(SDO)) not in SDO} == set()


@by_rdflib
def test_a_processor_finds_a_firing_s_author_picture_and_licence(hosted: Path) -> None:
    page = _pages(hosted)["firings/2026-05-02-fire-2.html"]
    found = re.search(r'<script type="application/ld\+json">(.*?)</script>', page, re.DOTALL)
    assert found is not None
    graph = _triples(found[1])
    firing = graph.value(None, RDF.type, SDO.Article)
    assert str(graph.value(graph.value(firing, SDO.author), SDO.name)) == "Wren Oddie"
    assert str(graph.value(graph.value(firing, SDO.license), SDO.identifier)) == "CC-BY-4.0"
    assert str(graph.value(firing, SDO.image)) == _told(page)["og:image"]
    assert str(graph.value(firing, SDO.url)) == _told(page)["og:url"]
