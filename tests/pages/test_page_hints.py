"""Hints on every page but the firings': the first use of a word, once where it is seen and once where it is folded."""

from __future__ import annotations

import re

import pytest

from builder.fire.words import WORDS
from builder.pages.page_hints import explained
from builder.publish.site import Page
from tests.pages.every_page import site_pages
from tests.pages.invented import SETTINGS, archive, record
from tests.pages.reading_html import read_page


def marked(html: str, path: str = "results") -> str:
    return explained(Page(path, "Results", "What they say.", rest=html)).rest


def hinted(page: Page) -> list[str]:
    return re.findall(r'<a class="hint"[^>]*>([^<]*)</a>', page.lead + page.prose + page.rest)


def test_a_counting_word_is_explained_at_its_first_use_over_all_parts_of_a_page() -> None:
    page = explained(
        Page("results", "R", "S", "<p>Its design effect.</p>", "<p>Design effect</p>", "<p>Effective n</p>")
    )
    assert hinted(page) == ["design effect", "Effective n"]
    assert page.rest.count(WORDS["design-effect"].meaning) == 1
    assert page.scripts == ("words.js",)


def test_a_folded_part_explains_its_words_again_since_the_first_use_may_be_far_away() -> None:
    html = marked("<p>an interval</p><details><summary>interval</summary><p>interval, interval</p></details>")
    assert html.count('class="hint"') == 2
    assert html.count('id="word-interval"') == 1


@pytest.mark.parametrize("element", ["h2", "button", "label", "summary", "option", "svg", "a", "dt"])
def test_words_in_headings_controls_drawings_and_links_are_left_alone(element: str) -> None:
    assert 'class="hint"' not in marked(f"<{element}>interval</{element}>")


def test_words_within_tags_and_parts_of_longer_words_are_left_alone() -> None:
    before = '<p title="interval > interval">subinterval interval-like &interval;</p> <img alt="Interval"> '
    html = marked(f"{before}<b><i>Interval</i></b> interval")
    assert html.startswith(before)
    assert html.removeprefix(before).startswith('<b><i><a class="hint"')
    assert ">Interval</a></i></b> interval" in html


def test_lists_of_firings_are_left_alone() -> None:
    html = '<ol class="firing-lines"><li>temper</li></ol>'
    assert marked(html) == html
    assert marked(f"{html}<p>temper</p>").startswith(html)


def test_a_page_without_such_words_is_not_touched() -> None:
    page = Page("about", "About", "Us.", prose="<p>We dig clay on Saturdays.</p>")
    assert explained(page) is page


@pytest.mark.parametrize("path", ["words", "write-up", "fireside", "before-you-light"])
def test_pages_that_explain_their_words_themselves_have_no_hints(path: str) -> None:
    assert 'class="hint"' not in marked("<p>interval</p>", path)


def test_every_hint_of_the_site_is_described_by_a_meaning_on_its_own_page() -> None:
    records = [record(number=1), record(number=2, slug="two")]
    pages = site_pages(archive(*records), SETTINGS, (), (), {})
    with_hints = [page for page in pages if hinted(page)]
    assert {"results", "methods/open-fire", "materials/index", "figures"} <= {page.path for page in with_hints}
    for page in with_hints:
        found = read_page(page)
        described = {tag.attributes["aria-describedby"] for tag in found.all("a", "hint")}
        assert described <= set(found.ids())
        assert len(set(found.ids())) == len(found.ids())


def test_results_and_methods_explain_what_their_tables_count() -> None:
    pages = {page.path: page for page in site_pages(archive(record(number=1)), SETTINGS, (), (), {})}
    for path in ("results", "methods/open-fire"):
        assert {"Design effect", "Effective n", "Rate"} <= set(hinted(pages[path]))
