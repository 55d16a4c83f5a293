"""The site's own pages: whole, linked to each other without a dead end, complete against the lists they show."""

from __future__ import annotations

from dataclasses import replace
from posixpath import dirname, join, normpath
from urllib.parse import unquote

import pytest

from builder.archive.findings import find_out
from builder.archive.likeness import likeness
from builder.archive.traits import traits
from builder.base.codes import CODES
from builder.base.problem import Place, Problem, Severity
from builder.checks.firing import Piece
from builder.entries.fields import walk
from builder.fire.cautions import CAUTIONS
from builder.heat.figures import FIGURE_KINDS
from builder.pages.entry_page import entry_page
from builder.pages.site_facts import site_facts
from builder.publish.site import Page
from tests.pages.every_page import site_pages
from tests.pages.invented import SETTINGS, archive, record, unread
from tests.pages.reading_html import read_page

RECORDS = (
    record(1, slug="one", ware="pale jar"),
    record(2, slug="two", ware="Pale Jar"),
    unread(3, slug="three", method="turf-clamp", potter="ode", helpers=(), photos=()),
)
FAULT = Problem(
    Place("content/firings/x/entry.md", 3, 7),
    "date",
    next(iter(CODES)),
    Severity.ERROR,
    "The date is not one.",
    "Write 2026-05-02.",
)
EXPORTS = {
    "data/firings.csv",
    "data/pieces.csv",
    "data/readings.csv",
    "data/rates.csv",
    "data/window.csv",
    "data/datapackage.json",
    "data/entry.schema.json",
    "data/settings.json",
    "data/csvw.json",
    "data/CITATION.cff",
    *(f"firings/{slug}/readings.csv" for slug in ("one", "two")),
}


def whole_site(*records: object) -> dict[str, Page]:
    shelf = archive(*RECORDS)
    findings = find_out(shelf, SETTINGS)
    prose = {"about": "About *us*.", "cautions": "- Nobody lights alone."}
    pages = site_pages(shelf, SETTINGS, (("content/firings/x/entry.md", (FAULT,)),), (), prose, findings)
    firings = (entry_page(one, shelf, SETTINGS, (), likeness([traits(one) for one in RECORDS]).best) for one in RECORDS)
    return {page.path: page for page in (*pages, *firings)}


SITE = whole_site()


@pytest.mark.parametrize("path", SITE)
def test_every_page_is_sound(path: str) -> None:
    found = read_page(SITE[path])
    assert found.faults == []
    assert len(found.ids()) == len(set(found.ids()))
    assert not [tag for tag in found.tags if "style" in tag.attributes or tag.name == "style"]
    assert all(tag.attributes.get("type") == "application/json" for tag in found.all("script"))
    assert len(found.all("h1")) == 1
    assert SITE[path].title
    assert SITE[path].description
    assert "<" not in SITE[path].description


@pytest.mark.parametrize("path", SITE)
def test_every_link_leads_to_a_page_and_to_a_place_on_it(path: str) -> None:
    ids = {f"{page.path}.html": set(read_page(page).ids()) for page in SITE.values()}
    dead = []
    for tag in read_page(SITE[path]).all("a"):
        address, _, anchor = tag.attributes["href"].partition("#")
        address = address.partition("?")[0]
        target = normpath(join(dirname(path), unquote(address))) if address else f"{path}.html"
        if target not in EXPORTS and (target not in ids or (anchor and unquote(anchor) not in ids[target])):
            dead.append(tag.attributes["href"])
    assert dead == []


@pytest.mark.parametrize("path", SITE)
def test_no_page_asks_anything_of_another_host(path: str) -> None:
    tags = read_page(SITE[path]).tags
    assert not [tag for tag in tags for name in ("src", "href", "srcset") if "//" in tag.attributes.get(name, "")]


def test_every_symbol_that_a_page_uses_is_on_it() -> None:
    for page in SITE.values():
        found = read_page(page)
        used = {tag.attributes["href"].removeprefix("#") for tag in found.all("use")}
        assert used <= set(found.ids()), page.path


def test_header_and_footer_lead_to_pages_that_exist() -> None:
    facts = site_facts(archive(*RECORDS), SETTINGS)
    assert {path for _, _, path in (*facts.header, *facts.footer)} <= set(SITE)
    sections = {page.section for page in SITE.values()}
    assert {section for section, _, _ in facts.header} <= sections


def test_the_page_of_problems_has_every_code() -> None:
    assert set(CODES) <= set(read_page(SITE["problems"]).ids())


def test_the_page_of_fields_has_every_field_with_its_meaning() -> None:
    found = read_page(SITE["fields"])
    assert {path for path, _ in walk()} <= set(found.ids())
    assert not [field.meaning for _, field in walk() if field.meaning.replace("`", "") not in found.words]


def test_the_page_of_figures_has_every_figure_with_its_meaning() -> None:
    found = read_page(SITE["figures"])
    assert {kind.name for kind in FIGURE_KINDS} <= set(found.ids())
    assert not [kind.name for kind in FIGURE_KINDS if kind.meaning.replace("`", "") not in found.words]


def test_the_page_of_cautions_has_every_caution_and_the_groups_own_words() -> None:
    found = read_page(SITE["cautions"])
    assert {caution.key for caution in CAUTIONS} <= set(found.ids())
    assert "Nobody lights alone." in found.words


@pytest.mark.parametrize("path", SITE)
def test_no_page_says_that_anything_is_safe(path: str) -> None:
    words = read_page(SITE[path]).words.casefold()
    assert not [phrase for phrase in ("is safe", "are safe", "safe to", "safely") if phrase in words]


def test_an_entry_that_was_left_out_is_named_with_its_fault() -> None:
    words = read_page(SITE["about"]).words
    assert "content/firings/x/entry.md" in words
    assert "Line 3: The date is not one." in words


def test_attempts_at_a_ware_are_followed_whatever_its_capitals() -> None:
    found = read_page(SITE["potters/wren"])
    assert "Attempts at pale jar" in found.words
    assert len([tag for tag in found.all("ol", "attempt-line") if tag]) == 1
    assert found.words.count("judged pieces succeeded") == 2


def test_a_helper_finds_the_firing_on_their_page_too() -> None:
    assert "Lit one fire with 6 pieces, helped at two" in read_page(SITE["potters/ode"]).words.replace("\u00a0", " ")


def test_an_empty_archive_is_a_whole_site_too() -> None:
    """A group's first day: no firing at all, and every page still says something true."""
    empty = archive()
    for page in site_pages(empty, SETTINGS, (), (), {}, find_out(empty, SETTINGS)):
        assert read_page(page).faults == [], page.path
    words = {
        page.path: read_page(page).words for page in site_pages(empty, SETTINGS, (), (), {}, find_out(empty, SETTINGS))
    }
    assert "No firing has been written up yet." in words["firings/index"]
    assert "None of the pieces can be judged yet." in words["results"]


def test_one_piece_that_cannot_be_judged_makes_no_rate() -> None:
    one = unread(1, pieces=(Piece("jar", "sound"),))
    pages = {page.path: read_page(page).words for page in site_pages(archive(one, rates=()), SETTINGS, (), (), {})}
    assert "None of the pieces can be judged yet." in pages["results"]
    assert "%" not in pages["index"]


def test_with_an_address_every_page_has_a_picture_for_previews_and_without_one_none_has() -> None:
    """A page without a picture of its own shows the newest firing's."""
    with_url = replace(SETTINGS, group=replace(SETTINGS.group, url="https://thornlode.example/"))
    shelf = archive(*RECORDS)
    assert {page.image for page in site_pages(shelf, with_url, (), (), {})} == {"firings/three/preview.png"}
    assert {page.image for page in site_pages(shelf, SETTINGS, (), (), {})} == {""}
