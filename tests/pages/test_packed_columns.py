"""Columns written as one long word: every number comes back, and what is not known stays unknown."""

from __future__ import annotations

import random

from builder.pages.packed_columns import DIGITS, packed_numbers, packed_sets, packed_words


def unpacked(text: str) -> list[int | None]:
    """Read a column the long way: every letter's place among the digits."""
    width, least, letters = text.split(":")
    codes = []
    for at in range(0, len(letters), int(width)):
        code = 0
        for letter in letters[at : at + int(width)]:
            code = code * 64 + DIGITS.index(letter)
        codes.append(code)
    return [code + int(least) - 1 if code else None for code in codes]


def test_numbers_come_back_whatever_their_size_and_their_sign() -> None:
    chance = random.Random(4)
    for most in (0, 1, 61, 62, 63, 4000, 4094, 4095, 300_000):
        numbers = [chance.choice((None, chance.randint(-5, most), most)) for _ in range(50)]
        assert unpacked(packed_numbers(numbers)) == numbers


def test_nothing_at_all_is_a_column_too() -> None:
    assert unpacked(packed_numbers([])) == []
    assert unpacked(packed_numbers([None, None])) == [None, None]


def test_a_column_of_small_numbers_takes_one_letter_each() -> None:
    assert packed_numbers([61] * 3 + [0]).startswith("1:0:")
    assert packed_numbers([62] * 3 + [-1]).startswith("2:-1:")


def test_words_and_sets_of_words_stand_once() -> None:
    assert packed_words(["pit", "", "pit"]) == {"words": ["pit", ""], "rows": packed_numbers([0, 1, 0])}
    told = packed_sets([("a", "b"), ("b", "a"), (), ("a", "b")], words=("b",))
    assert told == {"words": ["b", "a"], "sets": [[1, 0], [0, 1], []], "rows": packed_numbers([0, 1, 2, 0])}
