"""What the comparisons found is said with counts and intervals, and "too few" in words."""

from __future__ import annotations

from dataclasses import replace

import pytest

from builder.archive.archive import Archive, Record, gather
from builder.archive.conditions import try_conditions
from builder.archive.findings import Findings, find_out
from builder.archive.likeness import likeness
from builder.archive.progress import progress
from builder.archive.soaking import Soaking
from builder.archive.tallies import Tally
from builder.archive.traits import traits
from builder.archive.window import Finding, working_window
from builder.pages.conditions_page import conditions_page, conditions_sentence, tried_row
from builder.pages.entry_page import entry_page
from builder.pages.finding_words import condition_label, of_a_hundred, pair_sentence
from builder.pages.findings_parts import plan_lines
from builder.pages.likeness_part import like_lines
from builder.pages.method_pages import method_pages
from builder.pages.people_pages import potter_pages
from builder.pages.progress_part import trend_sentence
from builder.pages.results_page import results_page
from builder.pages.window_part import window_part
from builder.pages.window_words import end_words, plain_words, soaking_sentence, window_sentence
from tests.archive.records import SETTINGS as PLAIN
from tests.archive.records import counted
from tests.archive.tried import Trial, trials_of
from tests.archive.window_check import fixed_check
from tests.pages.every_page import made
from tests.pages.reading_html import read, read_page
from tests.simulation.archive_maker import SETTINGS, Truth, make_records

RECORDS = make_records(Truth(), 40, 3)
ARCHIVE = gather(RECORDS, SETTINGS)
FINDINGS = find_out(ARCHIVE, SETTINGS)
FOUND = working_window(fixed_check())


def words(html: str) -> str:
    return " ".join(html.replace("\u00a0", " ").split())


def test_the_window_comes_first_in_one_sentence_with_both_ranges() -> None:
    """The fixed check of the window: 626 to 720 and 802 to 922 °C, within 4 °C."""
    assert FOUND.low is not None
    assert FOUND.high is not None
    low, high = FOUND.low, FOUND.high
    told = words(window_sentence(FOUND).striptags())
    assert told == (
        f"Between {low.low_c:.0f}–{low.high_c:.0f} and {high.low_c:.0f}–{high.high_c:.0f} °C at least half of the pots "
        "come out with carbon cleared and paint held."
    )


def test_an_open_end_is_said_to_be_open() -> None:
    window = working_window([replace(one, destroyed=(9, 9)) for one in fixed_check()])
    told = words(window_sentence(window).striptags())
    assert told.startswith("From ")
    assert "to somewhere above" in told or "to the hottest that was tried" in told
    assert "above" in words(end_words(window.high).striptags()) or "open" in end_words(window.high)


@pytest.mark.parametrize("number", [0, 1, 4])
def test_too_few_firings_are_counted_in_words_and_no_degree_is_named(number: int) -> None:
    told = window_sentence(working_window(fixed_check()[:number])).striptags()
    assert told.startswith("Too few firings to tell")
    assert "°C" not in told


def test_no_window_is_said_to_be_none() -> None:
    window = working_window([replace(one, needs_heat=(0, 5), destroyed=(0, 5)) for one in fixed_check()])
    assert window.finding is Finding.NONE
    assert window_sentence(window).striptags().startswith("No window in the temperatures tried")


def test_another_level_is_said_in_percent() -> None:
    told = window_sentence(working_window(fixed_check(), 0.4)).striptags()
    assert "at least 40 % of the pots" in words(told)


def test_the_plain_fits_say_where_they_pass_one_half() -> None:
    """Worked by hand from the fixed check's fits: 770 − 100 · 2.524281/2.793414 = 679.6, 770 + 77.4 = 847.4."""
    rising, falling = plain_words(FOUND)
    assert "680 °C" in rising
    assert "847 °C" in falling


@pytest.mark.parametrize(
    ("gain", "said"), [(4.0, "clearly more"), (-4.0, "clearly less"), (1.0, "no more and no less")]
)
def test_minutes_are_called_better_only_from_odds_of_twenty_to_one(gain: float, said: str) -> None:
    assert said in soaking_sentence(Soaking(700.0, 14, gain, FOUND)).striptags()


def test_minutes_that_explain_more_have_a_chart_of_their_own() -> None:
    records = [record for record in RECORDS if record.firing.method == "first"]
    told = FINDINGS.windows["first"]
    assert window_part(told, records, "first", "First").minutes is None
    part = window_part(told, records, "first", "First", Soaking(700.0, 24, 4.0, working_window([])))
    assert part.minutes is not None
    assert part.minutes.anchor != part.anchor


def test_each_pair_is_one_sentence_with_counts_and_what_the_interval_allows() -> None:
    for pair in FINDINGS.differences:
        told = words(pair_sentence(pair, SETTINGS))
        assert f"{pair.first.successes} of {pair.first.pieces} pieces" in told
        assert f"{pair.second.successes} of {pair.second.pieces} (" in told
        assert of_a_hundred(pair.low, pair.high) in told
        assert told.endswith("old apart.")


def test_the_page_of_conditions_lists_everything_that_was_tried() -> None:
    page = conditions_page(ARCHIVE, FINDINGS)
    found = read_page(page)
    assert found.faults == []
    rows = found.all("tr")
    assert len(rows) == len(FINDINGS.tried) + 1
    for one in FINDINGS.tried:
        assert condition_label(one.condition) in found.words
    assert "Nobody drew lots" in found.words


def test_a_condition_that_stands_is_named_first_with_both_sides() -> None:
    trials = [Trial("a", Tally(4 * (n % 2), 4, 0), float(n % 2)) for n in range(20)]
    findings = Findings(tried=try_conditions(trials_of({"clay.wall": trials}), 0.3))
    assert conditions_sentence(findings).endswith("one stands: Clay: wall.")
    told = words(read_page(conditions_page(ARCHIVE, findings)).words)
    assert "1 mm or more: 40 of 40 pieces, 10 firings; less: 0 of 40 pieces, 10 firings" in told


def test_a_number_s_row_says_where_it_was_parted_and_a_word_s_does_not() -> None:
    """Worked by hand: 10 firings of 4 of 4 with it, 10 of 0 of 4 without; the difference is a hundred of a hundred."""
    trials = [Trial("a", Tally(4 * (n % 2), 4, 0), float(n % 2)) for n in range(20)]
    both = trials_of({"clay.wall": trials, "fuel.wood: hazel": trials})
    number, word = (tried_row(one) for one in try_conditions(both, 0.3))
    assert (words(number.sides), word.sides) == ("1 mm or more against less", "")
    assert words(word.having) == words(number.having) == "40 of 40 pieces, 10 firings"
    assert words(word.lacking) == "0 of 40 pieces, 10 firings"
    assert word.more == "+100"


def test_nothing_tried_is_said_plainly() -> None:
    assert "No condition has been recorded often enough" in conditions_sentence(Findings())


def test_results_show_windows_pairs_plans_and_published_fires() -> None:
    page = results_page(ARCHIVE, SETTINGS, FINDINGS)
    found = read(page.lead)
    assert found.faults == []
    assert len(found.ids()) == len(set(found.ids()))
    headings = [tag.words.strip() for tag in found.all("h2")]
    for wanted in ("Method by method", "The working window", "What goes with success", "What to try next"):
        assert wanted in headings
    assert "because" in found.words


def test_every_suggestion_says_why() -> None:
    for line in plan_lines(FINDINGS, SETTINGS):
        assert "because" in line or "next step" in line


def test_a_method_page_shows_the_window_apart_from_what_is_aimed_at() -> None:
    page = next(one for one in made(method_pages(ARCHIVE, SETTINGS, FINDINGS)) if one.path == "methods/first")
    found = read_page(page)
    assert "The working window" in [tag.words.strip() for tag in found.all("h2")]
    assert "What the group aims at is another thing" in found.words
    assert found.faults == []


def _series(counts: list[tuple[int, int]]) -> Archive:
    made: list[Record] = counted(counts)
    return gather([replace(one, firing=replace(one.firing, ware="jar")) for one in made], PLAIN)


@pytest.mark.parametrize(
    ("counts", "said"),
    [
        ([(0, 4), (4, 4)], "too few to tell whether they get better"),
        ([(0, 4), (0, 4), (1, 4), (3, 4), (4, 4), (4, 4)], "Later ones did better"),
        ([(4, 4), (4, 4), (3, 4), (1, 4), (0, 4), (0, 4)], "Later ones did worse"),
        ([(2, 4), (1, 4), (2, 4), (1, 4), (2, 4)], "Nothing tells that they get better or worse"),
    ],
)
def test_a_trend_is_told_only_where_there_is_one(counts: list[tuple[int, int]], said: str) -> None:
    assert said in trend_sentence(progress(_series(counts))["wren"][0])


def test_firings_alike_say_in_what() -> None:
    lines = like_lines(RECORDS[5], ARCHIVE, likeness([traits(one) for one in RECORDS]).best, SETTINGS)
    assert len(lines) == 3
    for one in lines:
        assert "things recorded of both" in one.likeness
        assert one.why
    assert like_lines(RECORDS[5], ARCHIVE, (), SETTINGS) == ()


@pytest.mark.parametrize("hostile", ["<img src=x onerror=alert(1)>", '"><script>alert(1)</script>', "{{ 7 * 7 }}"])
def test_wares_titles_and_conditions_of_any_words_stay_words(hostile: str) -> None:
    records = [
        replace(
            one,
            firing=replace(
                one.firing,
                title=hostile,
                ware=hostile,
                conditions={**one.firing.conditions, "fuel.form": hostile if one.number % 2 else "logs"},
            ),
        )
        for one in RECORDS
    ]
    archive = gather(records, SETTINGS)
    findings = find_out(archive, SETTINGS)
    shown = [
        results_page(archive, SETTINGS, findings),
        conditions_page(archive, findings),
        *made(method_pages(archive, SETTINGS, findings)),
        *made(potter_pages(archive, SETTINGS, findings)),
        entry_page(records[3], archive, SETTINGS, (), likeness([traits(one) for one in records]).best),
    ]
    for page in shown:
        found = read_page(page)
        assert found.faults == [], page.path
        assert not found.all("script"), page.path
        assert not found.all("img"), page.path
    assert any(hostile in read_page(page).words for page in shown)
