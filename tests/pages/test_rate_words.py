"""Rates in words: with counts and interval, in no order that they do not have, and too few said as such."""

from __future__ import annotations

import pytest

from builder.pages.rate_words import is_wide, overlap_sentence, rate_sentence, rates_by_outcome
from builder.pages.results_page import results_page
from tests.pages.invented import SETTINGS, archive, rate, record
from tests.pages.reading_html import read

OPEN, CLAMP = "open-fire", "turf-clamp"


def plain(words: str) -> str:
    return words.replace("\u00a0", " ")


def test_a_rate_is_said_with_counts_firings_and_interval() -> None:
    assert plain(rate_sentence(rate(OPEN, low=0.46), "Open fire")) == (
        "Open fire: 8 of 11 judged pieces from 5 firings succeeded, 73 %, likely 46 to 90; "
        "2 more pieces could not be judged."
    )


def test_an_interval_over_half_of_the_scale_is_called_too_little_to_tell() -> None:
    wide = rate(OPEN, low=0.2, high=0.95)
    assert is_wide(wide)
    assert rate_sentence(wide, "Open fire").endswith("Too few firings to tell much.")


def test_a_method_without_judged_pieces_has_no_rate() -> None:
    none = rate(OPEN, successes=0, pieces=1, rate=None, low=None, high=None, unjudged=3)
    words = plain(rate_sentence(none, "Open fire"))
    assert words == "Open fire: no piece could be judged yet; 3 more pieces could not be judged."
    assert "%" not in words


@pytest.mark.parametrize(
    ("other", "words"),
    [
        ((0.3, 0.6), "All intervals overlap"),
        ((0.9, 1.0), "All intervals overlap"),  # they touch at 0.90: not apart
        ((0.91, 1.0), "Intervals that lie wholly apart: Open fire on the ground and Turf clamp."),
        ((0.1, 0.42), "Intervals that lie wholly apart"),
    ],
)
def test_only_intervals_that_lie_apart_are_called_different(other: tuple[float, float], words: str) -> None:
    """The first method's interval is 0.43 to 0.90."""
    rates = [rate(OPEN), rate(CLAMP, low=other[0], high=other[1])]
    assert overlap_sentence(rates, SETTINGS.methods).startswith(words)


def test_methods_stand_in_the_settings_order_whatever_their_rates() -> None:
    shelf = archive(rates=(rate(CLAMP, successes=11), rate(OPEN, successes=1), rate("all")))
    assert [one.method for one in rates_by_outcome(shelf, SETTINGS)["success"]] == [OPEN, CLAMP]


def test_the_table_names_the_calculation_and_what_it_stands_on() -> None:
    shelf = archive(record(1), rates=(rate(OPEN), rate("all")))
    found = read(results_page(shelf, SETTINGS).lead)
    heads = [tag.words for tag in found.all("th") if tag.attributes.get("scope") == "col"]
    assert heads == [
        "Method",
        "Outcome",
        "Firings",
        "Judged pieces",
        "Succeeded",
        "Not judged",
        "Rate",
        "95 % interval",
        "Design effect",
        "Effective n",
        "Calculation",
    ]
    assert len([tag for tag in found.all("td") if tag.words == "Agresti"]) == 2
    assert "Read with care" in found.words
