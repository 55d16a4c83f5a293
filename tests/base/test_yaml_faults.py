"""A slip in the YAML is told in plain words at the line where it is mended, and does not hide the next one."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from builder.base.located_yaml import MAX_MENDS, Mapping, Scalar, compose
from builder.base.yaml_faults import quoted


# Each text is one slip; line and column count from 1, by looking at the text. The help ends in what to write.
@pytest.mark.parametrize(
    ("text", "line", "column", "help_"),
    [
        ("title: Third: the jar\n", 1, 13, 'Put the value in quotes: `title: "Third: the jar"`.'),
        ("title: Third:\ndate: x\n", 1, 13, 'Put the value in quotes: `title: "Third:"`.'),
        ("- name: jar: big\n", 1, 12, 'Put the value in quotes: `name: "jar: big"`.'),
        ("w:\n  a: 1\n   b: 2\n", 3, 4, "Begin `b` in column 3."),
        ("title:Pale\ndate: x\n", 1, 1, "Write `title: Pale`."),
        ("a: 1\nlicence:x\n", 2, 1, "Write `licence: x`."),
        ("a: 1\nplace Alder Fen\nb: 2\n", 2, 1, "Write `place: Alder Fen`."),
        ("place Alder Fen\nb: 2\n", 1, 1, "Write `place: Alder Fen`."),
        ("p:\n  -name: jar\n   s: x\n", 2, 3, "Write `- name: jar`."),
        ("p:\n  - name: jar\n   s: x\n", 3, 4, "Begin it in the same column as the other keys of its group."),
        ("r:\n  rows: |\n    0:00 14\n  2:00 20\n", 4, 3, "Begin it in the same column as the readings above it."),
        ("r:\n  rows: |\n    0:00 14\n 2:00 20\n", 4, 2, "Begin it in the same column as the readings above it."),
        ("w:\n\ta: 1\n", 2, 1, "Indent with spaces, two for each step."),
        ("w:\n  a: 1\n\tb: 1\n", 3, 1, "Indent with spaces, two for each step."),
        ('t: "Pale\nd: 1\n', 1, 4, 'Close it: `t: "Pale"`.'),
        ("t: 'Wren's jar'\n", 1, 10, 'Put all of it in quotes: `t: "Wren\'s jar"`.'),
        ('t: "Pale" jar\n', 1, 11, "Put all of it in quotes: `t: '\"Pale\" jar'`."),
        ("t: [sic] jar\n", 1, 10, 'Put all of it in quotes: `t: "[sic] jar"`.'),
        ("w: {a: 1, b: 2\nd: 1\n", 1, 4, "Close it: `w: {a: 1, b: 2}`, with a comma between each two."),
        ("w: [a, b}\n", 1, 4, "Put a comma between each two and `]` after the last."),
        ("t: @home\n", 1, 4, 'Put the value in quotes: `t: "@home"`.'),
        ("t: - what\n", 1, 4, 'Put the value in quotes: `t: "- what"`.'),
        ("t: > best\n", 1, 4, 'Put the value in quotes: `t: "> best"`.'),
        ("t: & b\n", 1, 4, 'Put the value in quotes: `t: "& b"`.'),
        ("t: &b c\n", 1, 4, 'If you meant the sign itself, put the value in quotes: `t: "&b c"`.'),
        ("t: !b c\n", 1, 4, 'If you meant the sign itself, put the value in quotes: `t: "!b c"`.'),
        ("a: 1\n...\nb: 2\n", 2, 1, "Take it away."),
        ("%YAML 1.2\na: 1\n", 1, 1, "Take the line away."),
    ],
)
def test_a_slip_is_told_where_it_is_mended(text: str, line: int, column: int, help_: str) -> None:
    node, (told,) = compose(text, "f.yml")
    assert node is None
    assert (told.place.line, told.place.column, told.help) == (line, column, help_)


@pytest.mark.parametrize(
    ("line", "mended"),
    [
        ("title: a: b", 'title: "a: b"'),
        ('title: "a" b', "title: '\"a\" b'"),
        ('title: it\'s "b": c', "title: 'it''s \"b\": c'"),
        ("  - name: a: b", 'name: "a: b"'),
        ("@home", '"@home"'),
    ],
)
def test_what_is_put_in_quotes_reads_back_as_it_was(line: str, mended: str) -> None:
    assert quoted(line) == mended
    node, problems = compose(mended + "\n", "f.yml")
    assert problems == ()
    value = node.items[0][1] if isinstance(node, Mapping) else node
    assert isinstance(value, Scalar)
    assert value.text == (line.strip().removeprefix("- ").partition(": ")[2] or line)


def test_a_part_that_cannot_be_read_does_not_hide_the_rest() -> None:
    node, problems = compose("a: b: c\nd: 1\ne: @x\nf: [1\ng: 2\n", "f.yml", 10, mend=True)
    assert [(told.place.line, told.code) for told in problems] == [
        (11, "yaml-syntax"),
        (13, "yaml-syntax"),
        (14, "yaml-syntax"),
    ]
    assert isinstance(node, Mapping)
    assert {key.text: value.text for key, value in node.items if isinstance(value, Scalar) and not value.broken} == {
        "d": "1",
        "g": "2",
    }
    assert {key.text for key, value in node.items if isinstance(value, Scalar) and value.broken} == {"a", "e", "f"}


def test_a_problem_beside_a_part_that_cannot_be_read_is_told_once() -> None:
    _, problems = compose("d: 1\nd: 2\na: b: c\n", "f.yml", mend=True)
    assert [told.code for told in problems] == ["key-twice", "yaml-syntax"]


def test_what_is_read_beside_a_slip_keeps_its_lines() -> None:
    node, _ = compose("a: 'b\nd:\n  e: 1\n", "f.yml", mend=True)
    assert isinstance(node, Mapping)
    inner = node.get("d")
    assert isinstance(inner, Mapping)
    assert inner.items[0][0].place.line == 3


def test_mending_has_an_end() -> None:
    node, problems = compose("".join(f"k{number}: b: c\n" for number in range(100)), "f.yml", mend=True)
    assert node is None
    assert len(problems) == MAX_MENDS + 1


def test_without_mending_a_slip_ends_the_reading() -> None:
    node, problems = compose("a: b: c\nd: @x\n", "f.yml")
    assert node is None
    assert len(problems) == 1


@given(st.text(st.sampled_from("abc:-[]{}\"'|>&*!%@`# \n\t,?"), max_size=60), st.booleans())
def test_no_text_whatever_raises_and_none_is_refused_without_a_reason(text: str, mend: bool) -> None:
    node, problems = compose(text, "f.yml", mend=mend)
    for told in problems:
        assert told.message.endswith(".")
        assert told.help.endswith(".")
        assert told.place.line is not None
        assert told.place.line <= text.count("\n") + 1
    if node is None and any(line.strip() and not line.lstrip().startswith("#") for line in text.split("\n")):
        assert problems or set(text.split()) <= {"---", "...", "%"} or text.lstrip().startswith("---")
