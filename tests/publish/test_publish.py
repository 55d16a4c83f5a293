"""A Site becomes a folder that a browser opens: the same bytes each time, and never a broken one."""

from __future__ import annotations

import html
import json
import os
import re
import subprocess
import sys
import xml.etree.ElementTree as etree
from dataclasses import replace
from pathlib import Path

import pytest

from builder.publish.publish import PublishError, publish, theme_folder
from builder.publish.site import Page, Site
from builder.publish.swap import MARKER
from tests.publish.reading_index import read_index
from tests.publish.small_site import FACTS, offline, small_site

POLICY = (
    "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' data:; "
    "connect-src 'self'; worker-src 'self'; base-uri 'none'; form-action 'none'"
)


@pytest.fixture(scope="module")
def built(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("built")
    publish(small_site(), folder / "site", folder / "work")
    return folder / "site"


def _bytes(site: Path) -> dict[str, bytes]:
    return {path.relative_to(site).as_posix(): path.read_bytes() for path in site.rglob("*") if path.is_file()}


def _pages(site: Path) -> list[Path]:
    return sorted(site.rglob("*.html"))


def test_every_page_and_file_is_there(built: Path) -> None:
    found = _bytes(built)
    site = small_site()
    assert {f"{page.path}.html" for page in site.pages} | {*site.files, "404.html", MARKER} <= found.keys()
    assert all(found[address] == content for address, content in site.files.items())


def test_every_page_carries_the_strict_policy_and_nothing_inline(built: Path) -> None:
    for path in _pages(built):
        text = path.read_text(encoding="utf-8")
        assert f'<meta http-equiv="Content-Security-Policy" content="{POLICY}">' in text
        assert text.index("Content-Security-Policy") < text.index("<title>") < text.index("<script")
        assert not re.search(r"\sstyle=|\son\w+=|<style|javascript:", text)
        for script in re.findall(r"<script([^>]*)>", text):
            assert "src=" in script or "application/ld+json" in script


def test_no_page_asks_another_host_for_anything(built: Path) -> None:
    """The site's own address may stand in links that are not followed while the page loads, and nowhere else."""
    for path in [*_pages(built), *built.glob("styles/*.css"), *built.glob("scripts/*.js")]:
        text = path.read_text(encoding="utf-8").replace('"http://www.w3.org/2000/svg"', "")
        for line in text.splitlines():
            if re.search(r"https?://|[\"'(]//", line):
                assert re.search(r'rel="canonical"|property="og:', line), line


def test_nothing_of_the_borrowed_theme_is_published(built: Path) -> None:
    """Of mkdocs-material no style sheet, script, picture or icon goes out, nor its search index."""
    assert not [path for path in _bytes(built) if path.startswith("assets/") or "search_index" in path]


def test_text_is_escaped_wherever_it_stands(built: Path) -> None:
    text = (built / "about.html").read_text(encoding="utf-8")
    assert "<us>" not in text and "<b>" not in text
    assert html.escape("About <us> & ") in text
    firing = (built / "firings/2026-01-0001-jar.html").read_text(encoding="utf-8")
    block = re.search(r'<script type="application/ld\+json">(.*?)</script>', firing, re.DOTALL)
    assert block is not None
    assert json.loads(block[1])["name"] == "</script><script>alert(1)</script>"


def test_a_page_without_a_heading_of_its_own_gets_its_title_as_one(built: Path) -> None:
    for path in _pages(built):
        assert len(re.findall(r"<h1[ >]", path.read_text(encoding="utf-8"))) == 1, path


def test_links_of_a_page_lead_to_files_of_the_site(built: Path) -> None:
    for path in _pages(built):
        if path.name == "404.html":
            continue
        for address in re.findall(r'(?:href|src|data-[a-z-]+)="([^"#:]+)"', path.read_text(encoding="utf-8")):
            if address.endswith(("feed.xml", "feed.json")):  # written by the exports, not by the shell
                continue
            assert (path.parent / address).resolve().is_file(), f"{path.name}: {address}"


def test_the_page_for_lost_addresses_has_links_that_hold_anywhere(built: Path) -> None:
    text = (built / "404.html").read_text(encoding="utf-8")
    assert all(address.startswith("/fen/") for address in re.findall(r'(?:href|src)="([^"#]+)"', text))


def test_the_section_of_a_page_is_marked_in_the_header(built: Path) -> None:
    text = (built / "firings/2026-01-0001-jar.html").read_text(encoding="utf-8")
    assert re.search(r'<a href="index.html" aria-current="true"><span>Firings</span><svg class="ember"', text)
    assert text.count("aria-current") == 2  # in the line and in the folded contents


def test_search_knows_prose_titles_and_tags_but_no_table(built: Path) -> None:
    index = read_index(built)
    jar = index.page("firings/2026-01-0003-jar.html")
    assert jar[1] == "Pale jar, attempt 3"
    assert "Soot stayed" in jar[3][0][2]
    assert jar[2] == ["crushed sherd", "hazel"]
    assert index.page("index.html")[1] == FACTS.name
    assert not {"tablewordonly", "secretword"} & set(index.words)
    assert "data.html" not in [page[0] for page in index.pages]


def test_the_sitemap_names_every_page_and_no_day(built: Path) -> None:
    root = etree.fromstring((built / "sitemap.xml").read_text(encoding="utf-8"))
    places = [element.text for element in root.iter("{http://www.sitemaps.org/schemas/sitemap/0.9}loc")]
    assert sorted(places) == sorted(f"{FACTS.url}{page.path}.html" for page in small_site().pages)  # type: ignore[type-var]
    assert "lastmod" not in (built / "sitemap.xml").read_text(encoding="utf-8")


def test_without_an_address_there_is_nothing_that_needs_one(tmp_path: Path) -> None:
    publish(offline(small_site(1)), tmp_path / "site", tmp_path / "work")
    found = _bytes(tmp_path / "site")
    assert not {"sitemap.xml", "sitemap.xml.gz", "404.html"} & found.keys()
    for address, content in found.items():
        if address.endswith(".html"):
            assert b"canonical" not in content and b"og:" not in content and b"feed.xml" not in content


def test_the_same_content_gives_the_same_bytes_in_any_folder(built: Path, tmp_path: Path) -> None:
    publish(small_site(), tmp_path / "deeper" / "other name", tmp_path / "w o r k")
    assert _bytes(tmp_path / "deeper" / "other name") == _bytes(built)


def test_no_path_of_this_machine_is_published(built: Path) -> None:
    here = [str(built.parent), str(theme_folder().parent), str(Path.home()) + os.sep]
    for address, content in _bytes(built).items():
        assert not [path for path in here if path.encode() in content], address


def test_the_date_comes_from_the_content_or_the_environment_never_from_the_clock(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Bytes 4 to 8 of a gzip file are its time (RFC 1952, 2.3.1). 2 May 2026 is 1777680000 seconds after 1970."""
    monkeypatch.delenv("SOURCE_DATE_EPOCH", raising=False)
    publish(small_site(1), tmp_path / "a", tmp_path / "work")
    assert int.from_bytes((tmp_path / "a/sitemap.xml.gz").read_bytes()[4:8], "little") == 1_777_680_000
    assert "SOURCE_DATE_EPOCH" not in os.environ
    monkeypatch.setenv("SOURCE_DATE_EPOCH", "86400")
    publish(small_site(1), tmp_path / "b", tmp_path / "work")
    assert int.from_bytes((tmp_path / "b/sitemap.xml.gz").read_bytes()[4:8], "little") == 86_400


def test_plain_mkdocs_builds_the_same_pages_without_a_warning(built: Path, tmp_path: Path) -> None:
    publish(small_site(), tmp_path / "site", tmp_path / "work")
    command = [sys.executable, "-m", "mkdocs", "build", "--strict", "-q", "-f", str(tmp_path / "work/mkdocs.yml")]
    quiet = {**os.environ, "NO_MKDOCS_2_WARNING": "1"}
    done = subprocess.run(command, capture_output=True, text=True, check=False, env=quiet)
    assert (done.returncode, done.stderr) == (0, "")
    plain = _bytes(tmp_path / "work/site-new")
    ours = _bytes(built)
    for address, content in ours.items():
        if address.endswith((".html", ".css", ".json", "in_page.js", ".csv", ".xml")):
            assert plain[address] == content, address


def test_template_syntax_in_a_page_is_inert(tmp_path: Path) -> None:
    words = "{{ 7*7 }} {% include 'main.html' %} {{ config.site_dir }}"
    page = Page("index", words, words, lead=f"<p>{words}</p>", prose=f"<p>{words}</p>", rest=f"<p>{words}</p>")
    publish(Site(FACTS, (page,)), tmp_path / "site", tmp_path / "work")
    text = html.unescape((tmp_path / "site/index.html").read_text(encoding="utf-8"))
    assert text.count(words) >= 5  # title, heading, description, lead, prose, rest
    assert "49" not in text


def test_prose_passes_through_markdown_unchanged(tmp_path: Path) -> None:
    prose = (
        "<p>*stars* _lines_ `ticks` [x](y) &amp; &lt;b&gt; &lt;script&gt;</p>\n\n"
        "<pre><code>a\n\n    b\n# c\n</code></pre>"
        "\n\n<ul>\n<li>one\n\n</li></ul>\n\n---\n\n<p>1. not a list</p>\n<blockquote>\n<p>x</p>\n</blockquote>"
    )
    publish(Site(FACTS, (Page("index", "t", "d", prose=prose),)), tmp_path / "site", tmp_path / "work")
    assert f'<div class="prose">{prose}</div>' in (tmp_path / "site/index.html").read_text(encoding="utf-8")


def test_a_fault_that_mkdocs_finds_stops_the_build_and_leaves_the_last_good_site(tmp_path: Path) -> None:
    publish(small_site(1), tmp_path / "site", tmp_path / "work")
    before = _bytes(tmp_path / "site")
    broken = replace(small_site(1), pages=small_site(1).pages[1:])  # without its first page
    with pytest.raises(PublishError, match="mkdocs"):
        publish(broken, tmp_path / "site", tmp_path / "work")
    assert _bytes(tmp_path / "site") == before


def test_progress_is_told_page_by_page(tmp_path: Path) -> None:
    told: list[tuple[int, int]] = []
    site = small_site(3)
    publish(site, tmp_path / "site", tmp_path / "work", progress=lambda done, of: told.append((done, of)))
    assert told == [(step, len(site.pages)) for step in range(1, len(site.pages) + 1)]
