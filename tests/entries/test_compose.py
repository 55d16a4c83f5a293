"""A new entry reads back as it was meant, whatever its words are."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from builder.base.located_yaml import Mapping, Node, Scalar
from builder.entries.compose import FirstLines, Value, entry_text, nested_text, yaml_words
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


_WORDS = st.text(st.characters(blacklist_categories=["Cs", "Cc"]), min_size=1, max_size=40).map(str.strip).filter(bool)
_VALUES: st.SearchStrategy[dict[str, Value]] = st.fixed_dictionaries(
    {
        "title": _WORDS,
        "weather": st.fixed_dictionaries({"air": _WORDS}),
        "clay": st.fixed_dictionaries({"temper": st.lists(_WORDS, min_size=1, max_size=3)}),
        "pieces": st.lists(
            st.fixed_dictionaries({"name": _WORDS, "weighed": st.fixed_dictionaries({"dry": _WORDS})}),
            min_size=1,
            max_size=3,
        ),
    }
)


def _plain(node: Node) -> Value:
    if isinstance(node, Scalar):
        return node.text
    if isinstance(node, Mapping):
        return {key.text: _plain(value) for key, value in node.items}
    return [_plain(item) for item in node.items]


@given(_VALUES)
def test_nested_values_are_read_back_the_same(values: dict[str, Value]) -> None:
    parsed = parse_entry(nested_text(values, "The story.", "From a table."), "entry.md")
    assert parsed.problems == ()
    assert parsed.root is not None
    assert _plain(parsed.root) == values
    assert parsed.story.strip() == "The story."


def test_readings_are_written_as_a_block() -> None:
    text = nested_text({"readings": {"time": "elapsed", "rows": "0:00 14 °C lit\n2:00 210 °C"}})
    assert text == "---\nreadings:\n  time: elapsed\n  rows: |\n    0:00 14 °C lit\n    2:00 210 °C\n---\n\n"
