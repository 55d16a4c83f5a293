"""The words: a page that explains all, and hints that explain a word once where an entry uses it."""

from __future__ import annotations

import re

import pytest

from builder.fire.words import CHAPTERS, WORDS
from builder.pages.entry_page import entry_page
from builder.pages.words_page import Hints, words_page
from builder.publish.clean_html import clean_markdown
from tests.pages.invented import SETTINGS, archive, record
from tests.pages.reading_html import read, read_page


def story(markdown: str) -> str:
    return str(Hints("firings/one").story(clean_markdown(markdown)))


def test_every_word_has_an_anchor_a_meaning_and_known_neighbours() -> None:
    ids = read_page(words_page()).ids()
    for word in WORDS.values():
        assert word.key in ids
        assert word.meaning.endswith(".")
        assert set(word.see) <= set(WORDS)


def test_no_key_and_no_form_stands_for_two_words() -> None:
    words = [word for chapter in CHAPTERS for word in chapter.words]
    forms = [form.casefold() for word in words for form in {word.name, *word.forms}]
    keys = [chapter.key for chapter in CHAPTERS] + [word.key for word in words]
    assert len(keys) == len(set(keys))
    repeated = sorted({form for form in forms if forms.count(form) > 1})
    assert repeated == []


@pytest.mark.parametrize(
    "key",
    "firing piece ware clay-body temper slip paint burnish wall warm-up main-fire draw setting stack fuel draught "
    "fire-cloud carbon-core spall dunting ring waster witness-cone soak probe thermocouple spot-thermometer emissivity "
    "cold-junction interval design-effect".split(),
)
def test_the_words_of_the_trade_are_all_there(key: str) -> None:
    assert key in WORDS


def test_a_story_explains_a_word_at_its_first_use_only() -> None:
    html = story("The jar spalled. A second spall came with the draught.")
    assert html.count('class="hint"') == 2
    assert '>spalled</a>. A second spall came with the <a class="hint"' in html


def test_words_in_links_code_and_headings_are_left_alone() -> None:
    html = story("# Temper\n\n[our temper](https://example.org/temper) and `temper`\n\nThe temper.")
    assert html.count('class="hint"') == 1
    assert html.endswith('aria-describedby="word-temper">temper</a>.</p>')


def test_an_attribute_with_a_bracket_in_it_is_not_taken_for_text() -> None:
    html = story('[see](https://example.org "a > temper") there')
    assert 'class="hint"' not in html


@pytest.mark.parametrize("words", ["distemper", "temperature", "co-temper", "sherdlike"])
def test_a_part_of_a_longer_word_is_no_use_of_the_word(words: str) -> None:
    assert 'class="hint"' not in story(f"Said {words} there.")


def test_of_forms_that_begin_alike_the_longest_that_ends_with_the_word_is_explained() -> None:
    """“Bone” alone is no word; “quartz inversions” is none as a whole, and its “quartz” is one."""
    marked = Hints("firings/a").story("<p>Clay BODIES, bone-dry; quartz inversions, a main fire of stacked dung.</p>")
    assert re.findall(r">([^<>]+)</a>", marked) == ["Clay BODIES", "bone-dry", "quartz", "main fire", "stacked"]


def test_a_word_that_everyday_speech_uses_otherwise_is_left_alone_in_stories() -> None:
    assert 'class="hint"' not in story("A piece of bread, a slip of the tongue, the setting sun, a golden ring.")


def test_hints_change_no_word_of_a_story() -> None:
    markdown = "Draught & *temper*: a <b>fire cloud</b> at 5 < 6, dunted.\n\n- sherds\n- quartz"
    plain = re.compile(r"<[^>]*>")
    assert plain.sub("", story(markdown)) == plain.sub("", clean_markdown(markdown))


def test_an_entry_describes_each_hint_by_a_meaning_that_stands_on_the_page_once() -> None:
    one = record(story="It spalled; the temper was coarse.", conditions={"clay.temper": "shell", "fuel.stack": "open"})
    found = read_page(entry_page(one, archive(one), SETTINGS, ()))
    described = [tag.attributes["aria-describedby"] for tag in found.all("a", "hint")]
    assert {"word-temper", "word-spall", "word-stack", "word-interval"} <= set(described)
    assert len(described) == len(set(described))
    assert set(described) <= set(found.ids())


def test_a_hint_leads_to_its_word_without_scripts() -> None:
    hints = Hints("firings/one")
    assert read(str(hints.hint("temper", "Temper"))).all("a")[0].attributes["href"] == "../words.html#temper"
