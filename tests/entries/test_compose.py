"""A new entry reads back as it was meant, whatever its words are."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from builder.base.located_yaml import Mapping, Scalar
from builder.entries.compose import FirstLines, entry_text, yaml_words
from builder.entries.front_matter import parse_entry


@given(st.text(st.characters(blacklist_categories=["Cs"]), min_size=1, max_size=80))
def test_any_words_are_read_back_the_same(words: str) -> None:
    parsed = parse_entry(f"---\ntitle: {yaml_words(words)}\n---\n", "entry.md")
    assert parsed.problems == ()
    assert parsed.root is not None
    value = parsed.root.get("title")
    assert isinstance(value, Scalar)
    assert value.text == words


def test_a_new_entry_offers_every_field_that_is_not_filled_in() -> None:
    first = FirstLines("Third try: the jar", "2026-05-02", "wren", "open-fire", (("jar", "sound"),), place="Alder Fen")
    text = entry_text(first)
    assert 'title: "Third try: the jar"' in text
    assert "place: Alder Fen" in text
    assert "# place:" not in text
    for name in ("ware", "weather", "clay", "surface", "fuel", "setting", "warm_up", "photos", "licence"):
        assert f"\n# {name}: " in text


def test_every_offer_can_be_taken_as_it_stands() -> None:
    text = entry_text(FirstLines("Jar", "2026-05-02", "wren", "open-fire", (("jar", "sound"),)))
    lines = [line[2:] if line.startswith("# ") and "More to write" not in line else line for line in text.split("\n")]
    parsed = parse_entry("\n".join(lines), "entry.md")
    assert parsed.problems == ()
    assert isinstance(parsed.root, Mapping)
