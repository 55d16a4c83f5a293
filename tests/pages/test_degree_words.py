"""Degrees in the program's own sentences: which turn with the 32, which without, and which words are left alone."""

from __future__ import annotations

import re

import pytest

from builder.pages.degree_words import degree_words


def kinds(words: str) -> list[str]:
    """The kind of every number marked in a sentence, in order."""
    return re.findall(r'<span class="t ?([a-z ]*)"', str(degree_words(words)))


@pytest.mark.parametrize(
    ("words", "found"),
    [
        ("It never reached 600 °C.", [""]),
        ("Inside the working window 660–800 °C.", ["bare", ""]),
        ("100 to 200 °C at 30 °C a minute.", ["bare", "", "rate"]),
        ("Class 2 for type K, 7.5 °C either way at the widest.", ["step"]),
        ("At 60 °C a minute each second of its time constant is 1 °C.", ["rate", "step"]),
        ("reads higher with time, by about 1 °C after minutes and 4 °C after hours", ["step", "step"]),
        ("700 °C shown stands for 720 °C. At 0.9 it would be 5 °C less, at 0.8 7 °C more", ["", "", "step", "step"]),
        ("+2 °C at 100 °C and −1 °C at 700 °C shown", ["step", "", "step", ""]),
        ("The hottest reading, at 4:30, stands 200 °C above both readings beside it", ["step"]),
        ("The hottest reading stayed 12 °C below the method's window.", ["step"]),
        ("Fired below 750 °C throughout, some of it below 500 °C.", ["", ""]),
        ("differed by up to 390 °C", ["step"]),
        ("15 minutes by 1000 °C.", [""]),
        ("in a kiln at 60 to 300 °C an hour", ["rate bare", "rate"]),
        ("80 °C/min or more: 3 of 4 pieces", ["rate"]),
        ("slope 2 for every 100 °C from 770 °C", ["step", ""]),
        ("The mean of the air was −5 °C.", [""]),
        ("12 °C·min above the window", ["area"]),
        ("read 1450 °F", []),
    ],
)
def test_a_temperature_a_difference_a_rate_and_an_area_are_told_apart_by_their_words(
    words: str, found: list[str]
) -> None:
    """Each judged by reading the sentence: only a temperature by itself turns with the 32."""
    assert kinds(words) == found


def test_the_words_stay_as_they_were_and_what_is_hostile_stays_words() -> None:
    words = "<b>600 °C</b> & 4 °C either way"
    assert "<b>" not in str(degree_words(words))
    assert degree_words(words).unescape().count("°C") == 2


def test_the_number_that_a_script_turns_is_exact() -> None:
    assert 'data-c="-1"' in degree_words("−1 °C at 700 °C shown")
    assert 'data-c="12346"' in degree_words("12,346 °C·min")
