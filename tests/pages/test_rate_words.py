"""Rates in words: with counts and interval, in no order that they do not have, and too few said as such."""

from __future__ import annotations

from dataclasses import replace

import pytest

from builder.archive.archive import Rate
from builder.pages.rate_words import difference_sentence, is_wide, rate_counts, rate_sentence, rates_by_outcome
from builder.pages.results_page import results_page
from tests.pages.invented import SETTINGS, archive, rate, record
from tests.pages.reading_html import read

OPEN, CLAMP = "open-fire", "turf-clamp"


def plain(words: str) -> str:
    return words.replace("\u00a0", " ")


def test_a_rate_is_said_with_counts_firings_and_interval() -> None:
    assert plain(rate_sentence(rate(OPEN, low=0.46, unjudged=0), "Open fire", bounds=True)) == (
        "Open fire: 8 of 11 judged pieces from 5 firings succeeded, 73 %, likely 46 to 90."
    )


def test_pieces_that_could_not_be_judged_are_said_with_what_they_could_make_of_the_rate() -> None:
    """Worked by hand: 8 and 10 of 13 pieces are 62 and 77 %."""
    assert plain(rate_sentence(rate(OPEN, low=0.46), "Open fire", bounds=True)) == (
        "Open fire: 8 of 11 judged pieces from 5 firings succeeded; 2 more could not be judged. "
        "With them counted in part that makes 73 %, likely 46 to 90. "
        "Had all of them failed it would be 62 %, had they succeeded 77 %."
    )
    assert plain(rate_sentence(rate(OPEN, "carbon", low=0.46, unjudged=1))) == (
        "8 of 11 judged pieces from 5 firings succeeded, 73 %, likely 46 to 90; 1 more could not be judged."
    )


def test_a_rate_is_never_written_without_its_counts() -> None:
    assert plain(rate_counts(rate(OPEN, unjudged=0))) == "8 of 11 · 73 %, 43 to 90"
    assert plain(rate_counts(rate(OPEN, rate=0.75))) == "8 of 11, 2 not judged · 75 %, 43 to 90"
    failed = rate(OPEN, successes=0, pieces=1, rate=None, low=None, high=None, unjudged=3)
    assert rate_counts(failed) == "0 of 1, 3 not judged · rate not known"
    nothing = Rate(OPEN, "success", 0, 0, 0, 0, None, None, None, None, None, "Agresti")
    assert rate_counts(nothing) == "none judged yet"


def test_an_interval_over_half_of_the_scale_is_called_too_little_to_tell() -> None:
    wide = rate(OPEN, low=0.2, high=0.95)
    assert is_wide(wide)
    assert rate_sentence(wide, "Open fire").endswith("Too few firings to tell much.")


def test_a_method_without_judged_pieces_has_no_rate() -> None:
    nothing = Rate(OPEN, "success", 0, 0, 0, 3, None, None, None, None, None, "Agresti")
    words = plain(rate_sentence(nothing, "Open fire"))
    assert words == "Open fire: no piece could be judged yet; of 3 pieces an outcome that counts was not recorded."
    assert "%" not in words


def test_failures_alone_make_no_rate_of_nought() -> None:
    failed = rate(OPEN, successes=0, pieces=1, rate=None, low=None, high=None, unjudged=3)
    assert plain(rate_sentence(failed, "Open fire", bounds=True)) == (
        "Open fire: 1 piece failed and 3 could not be judged, none like them being recorded in full, "
        "so that no rate can be given."
    )


@pytest.mark.parametrize(
    ("other", "words"),
    [
        # 0.727 − 0.5 = 0.227, less √(0.297² + 0.3²) = 0.422: takes in nought
        ((0.5, 0.20, 0.80), "No two methods can be told apart"),
        # 0.95 − 0.727 = 0.223, less √(0.05² + 0.173²) = 0.180, more √(0.04² + 0.297²) = 0.300
        (
            (0.95, 0.90, 0.99),
            "Told apart, in points of a hundred: Turf clamp above Open fire on the ground by 22 (4 to 52).",
        ),
        # 0.727 − 0.1 = 0.627, less √(0.297² + 0.1²) = 0.314, more √(0.173² + 0.05²) = 0.180
        (
            (0.1, 0.05, 0.20),
            "Told apart, in points of a hundred: Open fire on the ground above Turf clamp by 63 (31 to 81).",
        ),
    ],
)
def test_only_methods_whose_difference_leaves_out_nought_are_told_apart(
    other: tuple[float, float, float], words: str
) -> None:
    """By hand, Newcombe 1998, method 10; the first method's rate is 0.727 (0.43 to 0.90)."""
    rates = [rate(OPEN), rate(CLAMP, rate=other[0], low=other[1], high=other[2])]
    assert difference_sentence(rates, SETTINGS.methods).startswith(words)


def test_several_pairs_come_with_a_word_on_chance() -> None:
    """Of three methods there are three pairs."""
    third = rate("kiln", rate=0.1, low=0.05, high=0.2)
    methods = {**SETTINGS.methods, "kiln": replace(SETTINGS.methods[OPEN], key="kiln", name="Kiln")}
    words = difference_sentence([rate(OPEN), rate(CLAMP), third], methods)
    assert "No other two can be." in words
    assert "Of 3 pairs compared, one in twenty would come out so by chance." in words


def test_methods_stand_in_the_settings_order_whatever_their_rates() -> None:
    shelf = archive(rates=(rate(CLAMP, successes=11), rate(OPEN, successes=1), rate("all")))
    assert [one.method for one in rates_by_outcome(shelf, SETTINGS)["success"]] == [OPEN, CLAMP]


def test_the_table_names_the_calculation_and_what_it_stands_on() -> None:
    shelf = archive(record(1), rates=(rate(OPEN), rate("all")))
    found = read(results_page(shelf, SETTINGS).lead)
    heads = [tag.words for tag in found.all("th") if tag.attributes.get("scope") == "col"]
    assert heads == [
        "Method",
        "Firings",
        "Judged pieces",
        "Succeeded",
        "Not judged",
        "Rate",
        "95 % interval",
        "Had those not judged all failed, or all succeeded",
        "Design effect",
        "Effective n",
        "Calculation",
    ]
    assert len([tag for tag in found.all("td") if tag.words == "Agresti"]) == 2
    assert "Read with care" in found.words
