"""Contributed words are shown as words, whatever they are made of, in every place where they can be given."""

from __future__ import annotations

from dataclasses import replace

import pytest

from builder.archive.archive import Record
from builder.checks.firing import Photo, Piece, Probe
from builder.heat.figures import FiringHeat, ProbeHeat
from builder.pages.entry_page import entry_page
from builder.pages.readings_table import readings_csv
from builder.publish.site import Picture
from builder.readings.curve import Event, FiringCurves, Repair
from builder.settings import Method, Potter, Settings
from tests.pages.every_page import site_pages
from tests.pages.invented import FIGURES, SETTINGS, archive, curve, record
from tests.pages.reading_html import Read, read_page

HOSTILE = (
    "<script>alert(1)</script>",
    '"><img src=x onerror=alert(1)>',
    "{{ 7 * 7 }}{% raw %}",
    "' onmouseover='alert(1)",
    "<svg/onload=alert(1)>",
    "&lt;b&gt; </textarea></style>",
)
PICTURES = (Picture("photo-1-480.jpg", 480, 320, b""),)


def hostile(words: str) -> Record:
    """Put the words into every place of an entry that takes free words."""
    probe = Probe(words, "other", position=words)
    conditions = {"clay.body": words, "clay.temper": (words, words), "fuel.wood": (words,), "setting.support": words}
    made = curve(remarks=(words,) * 5, as_read=(words,) * 5, notes=(words,))
    curves = FiringCurves((replace(made, probe=probe),), 0, (Event(4.0, words),), (Repair("spike", words, 5.0, words),))
    return record(
        1,
        curves=curves,
        heat=FiringHeat((ProbeHeat(words, FIGURES),), 0),
        title=words,
        place=words,
        ware=words,
        licence=words,
        story=words,
        conditions=conditions,
        photos=(Photo("a.jpg", words, words, words),),
        pieces=(Piece(words, "sound", form=words, hardness=words, remark=words, colour="10YR 8/2"),),
    )


def settings(words: str) -> Settings:
    """Put the words into the settings' own words too."""
    return replace(
        SETTINGS,
        group=replace(SETTINGS.group, name=words, title=words, about=words, contact=words),
        potters={"wren": Potter("wren", words, words), "ode": Potter("ode", words, words)},
        methods={
            key: Method(key, words, method.kind, words, method.success, method.window_low_c)
            for key, method in SETTINGS.methods.items()
        },
    )


@pytest.mark.parametrize("words", HOSTILE)
def test_hostile_words_make_no_tag_and_no_attribute_anywhere(words: str) -> None:
    """Beside harmless words the same page has the very same tags and attribute names: nothing was made of them."""
    evil, tame = (
        read_page(entry_page(hostile(w), archive(hostile(w)), settings(w), PICTURES)) for w in (words, "tame")
    )
    assert shape(evil) == shape(tame)
    assert evil.faults == []


@pytest.mark.parametrize("words", HOSTILE)
def test_hostile_words_are_readable_as_they_were_written(words: str) -> None:
    found = rendered(words)
    assert found.all("h1")[0].words == words
    assert found.all("img")[0].attributes["alt"] == words
    assert found.words.count(words) > 20


@pytest.mark.parametrize("words", HOSTILE)
def test_the_lists_and_indexes_are_as_deaf(words: str) -> None:
    shelf = archive(hostile(words), hostile(words))
    for page in site_pages(shelf, settings(words), (), (), {"about": words, "cautions": words}):
        found = read_page(page)
        assert found.faults == [], page.path
        assert all(tag.attributes.get("type") == "application/json" for tag in found.all("script"))
        assert not [tag for tag in found.tags if tag.name == "img"]
        assert not [name for tag in found.tags for name in tag.attributes if name.startswith("on")]


@pytest.mark.parametrize("sign", ["=", "+", "-", "@", "\t", "\r"])
def test_the_readings_file_holds_nothing_that_a_spreadsheet_would_run(sign: str) -> None:
    made = curve(remarks=(f"{sign}cmd|' /C calc'!A0",) * 5)
    one = record(curves=FiringCurves((made,), 0, (), ()))
    cells = [cell.strip('"') for line in readings_csv(one).decode().splitlines() for cell in line.split(",")]
    assert not [cell for cell in cells if cell.startswith(sign)]


def rendered(words: str) -> Read:
    one = hostile(words)
    return read_page(entry_page(one, archive(one), settings(words), PICTURES))


def shape(found: Read) -> list[tuple[str, tuple[str, ...]]]:
    """Tags and attribute names outside the charts, whose words are broken into lines by their length."""
    return [
        (tag.name, tuple(sorted(tag.attributes)))
        for tag in found.tags
        if tag.name not in {"text", "tspan", "path", "g", "svg", "p", "ol", "li", "title", "desc", "strong", "em"}
    ]
