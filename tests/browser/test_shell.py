"""What every page has in common, in a real browser: the header, the two schemes, the search, the narrow screen."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

import pytest
from playwright.sync_api import Page, expect

from builder.publish.publish import publish
from builder.publish.site import Page as SitePage
from tests.browser.conftest import OpenPage
from tests.publish.small_site import small_site

Serve = Callable[[Path], str]
JAR = "firings/2026-01-0005-jar.html"


@pytest.fixture(params=["host", "folder"])
def root(request: pytest.FixtureRequest, shell_dir: Path, serve: Serve) -> str:
    """The site's address: on a web host, and in a folder as on a memory stick."""
    return serve(shell_dir) if request.param == "host" else shell_dir.as_uri() + "/"


def _find(page: Page, words: str) -> None:
    page.get_by_role("searchbox").fill(words)
    expect(page.get_by_role("status")).to_contain_text(words)


def test_search_finds_prose_from_a_host_and_from_a_folder(open_page: OpenPage, root: str) -> None:
    """Every fifth of twelve firings has a spalled jar: two."""
    page = open_page(root + JAR)
    _find(page, "spalled")
    expect(page.get_by_role("status")).to_have_text("2 pages with “spalled”.")
    links = page.locator(".search-results a")
    expect(links).to_have_count(2)
    expect(links.first.locator("mark")).to_have_text("spalled")
    links.last.click()
    expect(page).to_have_title(re.compile("Pale jar, attempt (5|10) · Alder Fen ashbook"))


def test_search_finds_titles_and_tags_and_the_beginnings_of_words(open_page: OpenPage, root: str) -> None:
    page = open_page(root + "index.html")
    _find(page, "attempt 11")
    expect(page.locator(".search-results a").first).to_contain_text("Pale jar, attempt 11")
    _find(page, "haz")
    expect(page.locator(".search-results a").first).to_contain_text("hazel")


def test_search_leaves_tables_out(open_page: OpenPage, root: str) -> None:
    page = open_page(root + JAR)
    _find(page, "tablewordonly")
    expect(page.get_by_role("status")).to_contain_text("Nothing with “tablewordonly”")


def test_words_that_are_nowhere_get_help_and_a_way_on(open_page: OpenPage, root: str) -> None:
    page = open_page(root + JAR)
    _find(page, "zzzz")
    expect(page.get_by_role("status")).to_contain_text("the beginning of a word is enough")
    page.get_by_role("link", name="Look through all firings").click()
    expect(page).to_have_title("Firings · Alder Fen ashbook")


def test_a_title_with_html_in_it_is_shown_as_the_words_it_is(open_page: OpenPage, root: str) -> None:
    page = open_page(root + JAR)
    _find(page, "wren")
    expect(page.locator(".search-title").first).to_have_text('About <us> & "Wren"')


@pytest.mark.parametrize("words", ["title:", "*", "+ -", "~1", '"', "a^b", "x:y:z", "(((", "\\", "<mark>", "__proto__"])
def test_no_words_break_the_search(open_page: OpenPage, root: str, words: str) -> None:
    page = open_page(root + JAR)
    page.get_by_role("searchbox").fill(words)
    expect(page.get_by_role("status")).not_to_be_empty()
    _find(page, "soot")
    expect(page.locator(".search-results a")).to_have_count(4)


def test_the_keyboard_alone_is_enough(open_page: OpenPage, root: str) -> None:
    page = open_page(root + JAR)
    page.keyboard.press("/")
    field = page.get_by_role("searchbox")
    expect(field).to_be_focused()
    page.keyboard.type("soot")
    links = page.locator(".search-results a")
    expect(links).to_have_count(4)
    page.keyboard.press("ArrowDown")
    expect(links.nth(0)).to_be_focused()
    page.keyboard.press("ArrowDown")
    expect(links.nth(1)).to_be_focused()
    page.keyboard.press("ArrowUp")
    page.keyboard.press("ArrowUp")
    expect(field).to_be_focused()
    page.keyboard.press("Escape")
    expect(links).to_have_count(0)
    expect(field).to_have_value("")
    page.keyboard.type("spalled")
    page.keyboard.press("Enter")
    expect(page).to_have_url(re.compile(r"jar\.html$"))
    expect(page.locator("main")).to_contain_text("spalled")


@pytest.mark.parametrize(
    ("asked", "found"),
    [
        ("brulee", "Crème brûlée"),
        ("BRÛLÉE", "Crème brûlée"),
        ("土", "赤い土の壺"),
        ("赤い土", "赤い土の壺"),
        ("глин", "Глина и песок"),
    ],
)
def test_any_script_is_searched_with_or_without_its_accents(
    open_page: OpenPage, serve: Serve, tmp_path: Path, asked: str, found: str
) -> None:
    titles = ("Crème brûlée", "赤い土の壺", "Глина и песок")
    pages = [SitePage(f"page-{number}", title, "One.", prose="<p>Words.</p>") for number, title in enumerate(titles)]
    site = small_site(1)
    publish(replace(site, pages=(*site.pages, *pages)), tmp_path / "site", tmp_path / "work")
    for root in (serve(tmp_path / "site"), (tmp_path / "site").as_uri() + "/"):
        page = open_page(root + "index.html")
        _find(page, asked)
        expect(page.locator(".search-results a")).to_have_count(1)
        expect(page.locator(".search-title")).to_have_text(found)
        expect(page.locator(".search-title mark").first).to_be_visible()


def test_where_no_page_has_all_words_those_with_the_most_are_shown_and_say_what_they_lack(
    open_page: OpenPage, root: str
) -> None:
    """Two of the twelve spalled, and no title goes to 99."""
    page = open_page(root + JAR)
    _find(page, "spalled 99")
    expect(page.get_by_role("status")).to_have_text("No page with all of “spalled 99”; 2 pages with some of it.")
    expect(page.locator(".search-lacking").first).to_have_text("without 99")


def test_a_find_below_a_heading_leads_to_that_heading(open_page: OpenPage, root: str) -> None:
    page = open_page(root + "index.html")
    _find(page, "upwind")
    expect(page.locator(".search-title")).to_have_text("Cautions: Smoke")
    expect(page.locator(".search-results a")).to_have_attribute("href", re.compile(r"cautions\.html#smoke$"))


def test_without_scripts_all_is_readable_and_no_dead_control_is_shown(open_page: OpenPage, root: str) -> None:
    for width in (360, 1280):
        page = open_page(root + JAR, width=width, scripts=False)
        expect(page.locator("form.search")).to_be_hidden()
        expect(page.locator(".scheme-switch")).to_be_hidden()
        expect(page.locator(".search-open")).to_be_hidden()
        expect(page.locator("main")).to_contain_text("One jar spalled at the foot.")
        if width == 360:
            page.get_by_text("Contents").click()
        page.get_by_role("link", name="Results").click()
        expect(page).to_have_title("Results · Alder Fen ashbook")


def _ground(page: Page) -> str:
    return str(page.evaluate("getComputedStyle(document.body).backgroundColor"))


LIGHT, DARK = "rgb(232, 232, 228)", "rgb(23, 20, 18)"  # #e8e8e4 and #171412, the two grounds


def test_the_scheme_follows_the_system_until_the_reader_chooses(open_page: OpenPage, root: str) -> None:
    page = open_page(root + "index.html", scheme="dark")
    assert _ground(page) == DARK
    page.get_by_role("button", name="Light colours").click()
    assert _ground(page) == LIGHT
    page.goto(root + JAR)
    assert _ground(page) == LIGHT
    page.get_by_role("button", name="Dark colours").click()
    assert _ground(page) == DARK
    light = open_page(root + "index.html", scheme="light")
    assert _ground(light) == LIGHT


def test_paper_is_white_whatever_the_reader_chose(open_page: OpenPage, root: str) -> None:
    page = open_page(root + JAR, scheme="dark")
    page.get_by_role("button", name="Light colours").click()
    page.get_by_role("button", name="Dark colours").click()
    page.emulate_media(media="print")
    assert _ground(page) == "rgb(255, 255, 255)"
    expect(page.locator(".contents-line")).to_be_hidden()
    expect(page.locator("form.search")).to_be_hidden()


@pytest.mark.parametrize("width", [320, 360, 768, 1000, 1280, 1920])
def test_no_page_scrolls_sideways(open_page: OpenPage, shell_dir: Path, width: int) -> None:
    for path in ("index.html", JAR, "cautions.html", "about.html"):
        page = open_page((shell_dir / path).as_uri(), width=width)
        assert page.evaluate("document.documentElement.scrollWidth") <= width, path


@pytest.mark.parametrize("name", ["The Thornlode Ashbook", "Vorratsgefäßbrenngemeinschaft"])
def test_the_archive_s_name_never_runs_into_the_words_beside_it(
    open_page: OpenPage, shell_dir: Path, name: str
) -> None:
    page = open_page((shell_dir / JAR).as_uri(), width=320)
    page.locator(".archive-name span").evaluate("(span, name) => { span.textContent = name; }", name)
    room = page.locator(".archive-name").evaluate("(link) => [link.scrollWidth, link.clientWidth]")
    assert room[0] <= room[1]


def test_very_large_letters_do_not_scroll_a_phone_sideways(open_page: OpenPage, shell_dir: Path) -> None:
    page = open_page((shell_dir / JAR).as_uri(), width=360)
    page.evaluate("document.documentElement.style.fontSize = '200%'")
    page.get_by_text("Contents").click()
    assert page.evaluate("document.documentElement.scrollWidth") <= 360


def test_on_a_phone_search_and_contents_fold_out(open_page: OpenPage, root: str) -> None:
    page = open_page(root + JAR, width=360)
    expect(page.get_by_role("searchbox")).to_be_hidden()
    opener = page.get_by_role("button", name="Search")
    opener.click()
    expect(opener).to_have_attribute("aria-expanded", "true")
    _find(page, "soot")
    page.keyboard.press("Escape")
    page.keyboard.press("Escape")
    expect(page.get_by_role("searchbox")).to_be_hidden()
    expect(opener).to_be_focused()
    page.get_by_text("Contents").click()
    page.get_by_role("navigation", name="folded").get_by_role("link", name="Cautions").click()
    expect(page).to_have_title("Cautions · Alder Fen ashbook")


def test_the_ember_lies_in_the_ground_line_under_the_reader_s_section(open_page: OpenPage, root: str) -> None:
    for width, mark in ((1280, ".contents-line .ember"), (360, "summary .ember")):
        page = open_page(root + JAR, width=width)
        ember, ground = page.locator(mark).bounding_box(), page.locator("header.shell").bounding_box()
        assert ember and ground
        assert abs(ember["y"] - (ground["y"] + ground["height"] - 2)) <= 2
        assert page.locator(".ember:visible").count() == 1


def test_the_first_tab_leads_past_the_header(open_page: OpenPage, root: str) -> None:
    page = open_page(root + JAR)
    page.keyboard.press("Tab")
    expect(page.get_by_role("link", name="To the page itself")).to_be_focused()
    page.keyboard.press("Enter")
    expect(page.locator("main")).to_be_focused()


def test_the_guard_sees_what_the_policy_forbids(open_page: OpenPage, shell_dir: Path) -> None:
    """A script written into a page does not run, and a picture of another host is not asked for."""
    page = open_page((shell_dir / JAR).as_uri())
    said: list[str] = []
    page.on("console", lambda line: said.append(line.text))
    page.evaluate(
        """() => {
          document.body.insertAdjacentHTML("beforeend", "<p id=x onclick='window.ran = 1'>x</p>");
          document.getElementById("x").click();
        }"""
    )
    assert page.evaluate("window.ran") is None
    assert any("Content Security Policy" in line for line in said)
    with pytest.raises(AssertionError, match="Content Security Policy"):
        open_page.guard.check()  # type: ignore[attr-defined]
    open_page.guard.faults.clear()  # type: ignore[attr-defined]
