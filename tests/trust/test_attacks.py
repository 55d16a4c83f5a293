"""Attacks in every kind of place, looked for in the built bytes; without a browser, so that all of them can be."""

from __future__ import annotations

import html
import re
from collections import Counter
from pathlib import Path

import html5lib
import pytest

from builder.checks.hidden import tidy
from tests.trust.attacks import ATTACKS
from tests.trust.attacks_opened import SINGLE
from tests.trust.built_bytes import Seen, page_faults
from tests.trust.hostile_archive import LONG, Shape, attacking, attacks_for, fits, hostile_files
from tests.trust.rotation import SMALL, assigned, round_of_today, slots_of, turning

MARKDOWN = {
    f"prose {shape}"
    for shape in (
        "a href rel", "a href rel title", "a rel", "blockquote", "br", "code", "em", "em title", "h2", "h3", "h4", "h5",
        "h6", "hr", "li", "ol", "p", "pre", "strong", "ul",
    )
}  # fmt: skip
"""Elements that a story may make by its Markdown; a picture in it is told by its words."""


def test_every_attack_stands_in_each_kind_of_place_that_takes_it() -> None:
    for kind, slots in slots_of(SMALL).items():
        if kind == "photo":
            continue  # notes inside pictures, which are made anew without any: a few are as good as all
        takes = {attack.text for attack in ATTACKS if any(fits(path, attack.text) for path, _ in slots)}
        for turned in (0, 100, round_of_today()):
            given = {text for texts in assigned(slots, turned).values() for text in texts}
            assert not takes - given, kind


def test_over_a_turn_of_the_ring_each_attack_stands_in_every_single_place() -> None:
    fields = slots_of(Shape(entries=2, pieces=1, photos=1, potters=1, refused=1, strays=1))["fields"]
    met: dict[str, set[str]] = {}
    for turned in range(len(ATTACKS)):
        for (path, _), texts in assigned(fields, turned).items():
            met.setdefault(path, set()).update(texts)
    assert [path for path, texts in met.items() if set(attacks_for(path)) - texts] == []


def test_the_long_form_puts_every_attack_into_every_single_place() -> None:
    met: dict[str, set[str]] = {}

    def note(path: str, number: int) -> str:
        text = attacking(path, number)
        met.setdefault(path, set()).add(text)
        return text

    for _ in hostile_files(LONG, note):
        pass
    assert {path for path, texts in met.items() if set(attacks_for(path)) - texts} == SINGLE


def test_nothing_in_the_bytes_is_more_than_words(hostile_bytes: Seen) -> None:
    assert hostile_bytes.faults == [], f"ASHBOOK_ROUND={round_of_today()}"
    assert hostile_bytes.pages > 300
    assert hostile_bytes.size > 5_000_000


def test_attacks_make_no_element_that_harmless_words_do_not_make(hostile_bytes: Seen, tame_bytes: Seen) -> None:
    assert tame_bytes.faults == []
    assert hostile_bytes.shapes - tame_bytes.shapes <= MARKDOWN
    assert len(tame_bytes.shapes) > 200


def test_the_words_of_an_attack_are_read_as_they_were_written(hostile_site: Path) -> None:
    words, pages = turning(SMALL, round_of_today()), sorted((hostile_site / "firings").glob("2026-*-fire-*.html"))
    by_number = {int(page.stem.rpartition("-")[2]): page.read_text(encoding="utf-8") for page in pages}
    assert len(by_number) == SMALL.entries
    for number, page in by_number.items():
        read = " ".join(html.unescape(re.sub(r"<[^>]*>", "", page)).split())
        places = [("title", number), *(("photos.caption", number * SMALL.photos + at) for at in range(SMALL.photos))]
        places += [("pieces.name", number * SMALL.pieces + at) for at in range(SMALL.pieces)]
        assert [place for place in places if tidy(words(*place)) not in read] == []


@pytest.mark.parametrize("attack", [one for one in ATTACKS if one.kind in ("script", "event", "loading", "drawing")])
def test_an_attack_that_got_through_would_be_seen(attack: object) -> None:
    text = getattr(attack, "text", "")
    for page in (f"<main>{text}</main>", f'<main><p title="{text}">x</p></main>'):
        if "<" in text or ('"' in text and "title" in page):
            assert list(page_faults(f"<!doctype html>\n<title>x</title>{page}")), page


@pytest.mark.parametrize(
    "address", ["javascript:ran()", "java\tscript:ran()", "&#106;avascript:ran()", "//evil.invalid"]
)
def test_an_address_that_does_more_than_lead_would_be_seen(address: str) -> None:
    assert list(page_faults(f'<main><a href="{address}">here</a></main>'))
    assert list(page_faults('<main><img src="https://evil.invalid/x.png"></main>'))
    assert list(page_faults(f'<main><a href="x" onclick="{address}">here</a></main>'))


@pytest.mark.parametrize("which", range(3))
def test_the_scan_sees_the_elements_that_a_reader_of_html_sees(hostile_site: Path, which: int) -> None:
    pages = sorted(hostile_site.rglob("*.html"))
    page = pages[(round_of_today() * 3 + which) * 97 % len(pages)].read_text(encoding="utf-8")
    ours = Counter(re.sub("[A-Z]+", lambda found: found[0].lower(), name) for name in _opened(page))
    tree = html5lib.parse(page, treebuilder="etree", namespaceHTMLElements=False)
    theirs = Counter(re.sub(r"{.*}", "", each.tag).lower() for each in tree.iter() if isinstance(each.tag, str))
    assert ours == theirs


def _opened(page: str) -> list[str]:
    without_data = re.sub(r"(<script[^>]*>).*?</script>", r"\1</script>", page, flags=re.DOTALL)
    return re.findall(r"<([a-zA-Z][a-zA-Z0-9-]*)", without_data)
