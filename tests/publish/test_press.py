"""Pages are read and made the short way, to what mkdocs' own readers and functions give."""

from __future__ import annotations

import json
from pathlib import Path
from types import SimpleNamespace
from typing import Any

import pytest
from hypothesis import example, given
from hypothesis import strategies as st
from markdown import Markdown
from material.plugins.search.plugin import SearchIndex  # type: ignore[import-untyped]
from mkdocs.utils import normalize_url
from mkdocs.utils.meta import get_data

from builder.publish.clean_html import clean_markdown
from builder.publish.mkdocs_site import page_markdown, write_site
from builder.publish.publish import theme_folder
from builder.publish.read_back import read_page
from builder.publish.search_index import searched_pages
from builder.publish.searched import search_entries
from builder.publish.shell import Shell, page_url
from builder.publish.site import Page
from tests.publish.small_site import small_site

_BITS = st.sampled_from(
    "word|*em*|**s**|`x`|```|~~~\n|\n|\n\n|    code|# head|- item|1. one|> said|¦a¦b¦|¦-¦-¦|<b>|</div>|<!-- x -->|<?|"
    "]]>|&|&amp;|&#9;|&lt|<p id=a>|\t|  \n|\x02|\x0b|\x0c|\x1c|\x85|\u2028|\u00a0|[TOC]|[a](b)|![p](q)|{: .x }|{{ x }}|"
    "*[HTML]: x|[^1]|\\".replace("¦", "\0").split("|")
).map(lambda bit: bit.replace("\0", "|"))
STORIES = st.lists(_BITS | st.text(max_size=8), max_size=14).map("".join)


def _as_mkdocs_reads(markdown: str) -> tuple[dict[str, Any], str]:
    """Read a page as mkdocs does, with the extensions that it always has."""
    body, meta = get_data(markdown)
    return meta, Markdown(extensions=["toc", "tables", "fenced_code"]).convert(body)


@given(STORIES)
@example("```\na\n```\n\n```\n\n    ```\n    ~~~ \n")
@example("a\n\n    x\n       \n    ```\n    y\n    ```\n")
def test_a_story_is_read_as_mkdocs_reads_it(story: str) -> None:
    markdown = page_markdown(Page("a", "A title", "said", lead="<p>{{ x }}</p>", prose=clean_markdown(story)))
    assert read_page(markdown) == _as_mkdocs_reads(markdown)


@given(st.text(st.characters(exclude_categories=["Cs"])))
def test_any_finished_part_is_read_as_mkdocs_reads_it(part: str) -> None:
    markdown = page_markdown(Page("a", part, part, lead=part, rest=part, tags=(part, "b"), json_ld=part))
    assert read_page(markdown)[0] == _as_mkdocs_reads(markdown)[0]


PARTED = (
    "<h2>No address</h2><p>One.</p>",
    '<p>First.</p><h2 id="smoke">Smoke <em>and</em> wind</h2><p>Upwind.</p><h3 id=ash>Ash</h3><ul><li>a</li></ul>',
    "<p>Seen.</p><div data-search-exclude><p>Left out.</p></div><p>Seen again.</p>",
    '<div>\n<div class="a" data-search-exclude>\n<ol><li><b>0:10</b> x</li></ol> y\n</div>z<p>Seen.</p></div> again',
    "<p>Seen.</p><div data-search-exclude>a<div>b</div>c</div>d<div data-search-exclude>e</div>f<div>g</div>",
    "<p>fo<strong>o</strong>ba<br>r</p><table><tr><td>a</td><td>b</td></tr></table><pre>x\n  y</pre>",
    '<p>a &lt; b &amp;amp; c <a href="x?a=1&amp;b=2" title="&gt;">link</a> &copy; &#233; &notit; &nbsp;</p>',
    "<p>H<sub>2</sub>O and <code>a_b</code>c</p>\n\n<blockquote>\n<p></p>\n</blockquote>",
    "",
)


@pytest.mark.parametrize("prose", PARTED)
def test_search_takes_down_what_the_plugin_would(prose: str) -> None:
    _searched_alike(prose)


@given(STORIES)
def test_search_takes_down_of_a_story_what_the_plugin_would(story: str) -> None:
    _searched_alike(clean_markdown(story))


def _searched_alike(prose: str) -> None:
    meta, content = read_page(page_markdown(Page("a b", "A & <title>", "d", prose=prose, tags=("hazel", "a<b"))))
    index = SearchIndex()
    index.add_entry_from_context(SimpleNamespace(meta=meta, content=content, toc=[], url="a%20b.html", title=""))
    told = ",".join(json.dumps(entry) for entry in index.entries)
    assert list(searched_pages([search_entries(page_url("a b.md"), meta, content)])) == list(searched_pages([told]))


def test_a_page_that_is_left_out_of_search_is_not_taken_down() -> None:
    meta, content = read_page(page_markdown(Page("a", "A", "d", prose="<p>x</p>", searched=False)))
    assert search_entries("a.html", meta, content) == ""


def test_what_pages_share_of_the_shell_is_right_in_every_folder_and_section(tmp_path: Path) -> None:
    pages = small_site(3).pages
    shell = Shell(write_site(small_site(3), tmp_path, theme_folder()))
    for page in (*pages, *reversed(pages)):
        meta, prose = read_page(page_markdown(page))
        alone = Shell(tmp_path / "mkdocs.yml")
        assert shell.page(f"{page.path}.md", meta, prose) == alone.page(f"{page.path}.md", meta, prose)


@pytest.mark.parametrize("page", ["index.md", "results.md", "firings/index.md", "firings/a b/ü.md", "a/b/c.md"])
@pytest.mark.parametrize(
    "address",
    [
        "index.html",
        "firings/index.html",
        "firings/a b/x.csv",
        "a/b/c.html",
        "styles/x.css",
        "#main",
        "/x",
        "https://a.example/",
    ],
)
def test_addresses_are_written_as_mkdocs_writes_them(page: str, address: str, tmp_path: Path) -> None:
    shell = Shell(write_site(small_site(1), tmp_path, theme_folder()))
    made = shell.env.from_string("{{ address | url }}").render(address=address, page={"url": page_url(page)})
    assert made == normalize_url(address, SimpleNamespace(url=page_url(page)))  # type: ignore[arg-type]
