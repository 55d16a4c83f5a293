"""YAML is read to nodes with places; everything beyond plain data is refused with a place."""

from __future__ import annotations

import pytest
import yaml
from hypothesis import given
from hypothesis import strategies as st

from builder.base.located_yaml import MAX_CHARACTERS, MAX_DEPTH, UNPRINTABLE, Mapping, Scalar, Sequence, compose


def test_every_node_knows_its_line_and_column() -> None:
    node, problems = compose("a: 1\nb:\n  - x\n  - {c: y}\n", "f.yml", 10)
    assert problems == ()
    assert isinstance(node, Mapping)
    assert [(key.text, key.place.line) for key, _ in node.items] == [("a", 11), ("b", 12)]
    items = node.get("b")
    assert isinstance(items, Sequence)
    assert (items.items[0].place.line, items.items[0].place.column) == (13, 5)
    assert isinstance(items.items[1], Mapping)


def test_a_column_counts_letters_not_bytes() -> None:
    node, _ = compose("ä: {öö: ü, b: 1}\n", "f.yml")
    assert isinstance(node, Mapping)
    inner = node.items[0][1]
    assert isinstance(inner, Mapping)
    assert inner.items[1][0].place.column == 12


@pytest.mark.parametrize(
    ("text", "code", "line", "column"),
    [
        ("a: &x 1\nb: *x\n", "yaml-anchor", 1, 4),
        ("b: *x\n", "yaml-anchor", 1, 4),
        ("a: !!python/object:os.system 1\n", "yaml-tag", 1, 4),
        ("a: 1\na: 2\n", "key-twice", 2, 1),
        ("? [a]\n: 1\n", "yaml-key", 1, 3),
        ("a: b: c\n", "yaml-syntax", 1, 5),
        ("a:\n\t- b\n", "yaml-syntax", 2, 1),
        ("a: 'b\n", "yaml-syntax", None, None),
        ("a: [b, c\nd: 1\n", "yaml-syntax", None, None),
        ("a: 1\n---\nb: 2\n", "yaml-syntax", 2, 1),
        ("a: \x07\n", "yaml-syntax", 1, 4),
        ("a: b\u2028c\n", "yaml-syntax", 1, 5),
        ("a: 1\nb: 2\x85\n", "yaml-syntax", 2, 5),
        ("a: @b\n", "yaml-syntax", 1, 4),
        ("a: %b\n", "yaml-syntax", 1, 4),
    ],
)
def test_what_is_not_plain_data_is_refused_with_its_place(
    text: str, code: str, line: int | None, column: int | None
) -> None:
    _, problems = compose(text, "f.yml")
    assert [found.code for found in problems] == [code]
    if line is not None:
        assert (problems[0].place.line, problems[0].place.column) == (line, column)
    assert problems[0].help


@pytest.mark.parametrize("sign", ["\x07", "\u2028", "\u2029", "\x85"])
def test_a_sign_that_cannot_be_read_hides_nothing_below_it_and_moves_no_place(sign: str) -> None:
    node, problems = compose(f"a: b{sign}c\nd: 1\nd: 2\n", "f.yml", 10)
    assert [(found.code, found.place.line, found.place.column) for found in problems] == [
        ("key-twice", 13, 1),
        ("yaml-syntax", 11, 5),
    ]
    assert isinstance(node, Mapping)
    assert [key.text for key, _ in node.items] == ["a", "d"]


@pytest.mark.parametrize("text", ["x" * (MAX_CHARACTERS + 1), "[" * (MAX_DEPTH + 1), "- a\n" * 30_000])
def test_a_document_too_large_or_too_deep_is_refused(text: str) -> None:
    node, problems = compose(text, "f.yml")
    assert node is None
    assert [found.code for found in problems] == ["yaml-too-large"]


@given(st.text(max_size=300))
def test_any_text_gives_nodes_or_problems_and_never_an_exception(text: str) -> None:
    node, problems = compose(text, "f.yml")
    assert problems or node is None or isinstance(node, Scalar | Sequence | Mapping)
    assert all(found.message and found.help and found.place.line for found in problems)


@given(st.text(alphabet=":-[]{}&*!|>'\"#?,%@ \n\tab1", max_size=120))
def test_any_yaml_like_text_gives_nodes_or_problems_and_never_an_exception(text: str) -> None:
    compose(text, "f.yml")


def test_brackets_without_end_are_refused_without_exhausting_the_stack() -> None:
    node, problems = compose("[" * 90_000, "f.yml")
    assert node is None
    assert len(problems) == 1


def test_what_cannot_be_printed_is_what_the_yaml_reader_refuses_and_the_mark_of_byte_order() -> None:
    """YAML 1.1 section 5.1, as PyYAML has it."""
    every = [chr(code) for code in range(0x110000)]
    refused = {letter for letter in every if yaml.reader.Reader.NON_PRINTABLE.match(letter)}
    assert {letter for letter in every if UNPRINTABLE.match(letter)} == refused | {"\ufeff"}
