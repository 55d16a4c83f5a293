"""Pages are written down so that a YAML reader and a Markdown reader give back what was put in."""

from __future__ import annotations

from pathlib import Path

import pytest
import yaml
from hypothesis import given
from hypothesis import strategies as st
from mkdocs.utils.meta import get_data

from builder.publish.mkdocs_site import page_markdown, write_site, yaml_value
from builder.publish.publish import theme_folder
from builder.publish.site import Page, Site
from tests.publish.small_site import FACTS, small_site

TEXT = st.text(st.characters(exclude_categories=["Cs"]), max_size=60)


@given(TEXT)
def test_any_text_survives_the_front_matter(text: str) -> None:
    assert "\n" not in yaml_value(text)
    assert yaml.load(f"lead: {yaml_value(text)}\n", yaml.CSafeLoader) == {"lead": text}


@pytest.mark.parametrize(
    "text",
    [
        "\x85\u2028\u2029\ufeff",
        "\x00\x07\x1b\x7f\x9f",
        "\U0001d518 \U0001f525",
        "---\n...\n---",
        "!tag &a *a # %",
        "\t{{ x }}",
    ],
)
def test_hard_text_survives_mkdocs_own_reader(text: str) -> None:
    body, meta = get_data(page_markdown(Page("a", text, text, lead=text, rest=text, tags=(text,), json_ld=text)))
    assert (meta["title"], meta["description"], meta["lead"], meta["rest"], meta["tags"]) == (
        text,
        text,
        text,
        text,
        [text],
    )
    assert body == '<div class="prose"></div>\n'


def test_half_of_a_letter_becomes_the_mark_for_an_unreadable_one() -> None:
    assert yaml.load(yaml_value("a\ud83d"), yaml.CSafeLoader) == "a\ufffd"


def test_words_that_yaml_would_type_stay_text() -> None:
    _, meta = get_data(page_markdown(Page("a", "12:30", "NO", tags=("0600", "null", "2026-05-02"))))
    assert (meta["title"], meta["description"], meta["tags"]) == ("12:30", "NO", ["0600", "null", "2026-05-02"])


@pytest.mark.parametrize(
    "address",
    ["../x.csv", "/etc/x", "a\\b", ".hidden/x", "a/../x", "./a", "a//b", "a/", "", "notes.md", "a/B.Markdown"],
)
def test_an_address_that_leaves_the_site_or_reads_as_a_page_is_refused(tmp_path: Path, address: str) -> None:
    site = Site(FACTS, small_site(1).pages, {address: b"x"})
    with pytest.raises(ValueError, match=r"address of a site|must not be Markdown"):
        write_site(site, tmp_path / "work", theme_folder())
    assert not (tmp_path / "x.csv").exists()


def test_the_configuration_keeps_the_pages_out_of_the_navigation(tmp_path: Path) -> None:
    config = yaml.safe_load(write_site(small_site(), tmp_path, theme_folder()).read_text(encoding="utf-8"))
    assert config["nav"] == [{FACTS.name: "index.md"}]
    assert config["not_in_nav"] == "/**"
    assert config["use_directory_urls"] is False
    assert config["theme"]["font"] is False
    assert "hooks" not in config
    assert config["plugins"] == ["search"]


def test_style_sheets_come_in_their_order(tmp_path: Path) -> None:
    config = yaml.safe_load(write_site(small_site(), tmp_path, theme_folder()).read_text(encoding="utf-8"))
    sheets = config["extra_css"]
    assert sheets[:4] == ["styles/tokens.css", "styles/base.css", "styles/shell.css", "styles/search.css"]
    assert sheets[-1] == "styles/print.css"
