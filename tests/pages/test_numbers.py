"""How numbers are written: digits from the interval, units that hold on, never a rate without its counts."""

from __future__ import annotations

from datetime import date

import pytest

from builder.heat.figures import Figure
from builder.pages import numbers

NB = "\u00a0"


@pytest.mark.parametrize(
    ("low", "high", "most", "decimals"),
    [
        (719, 765, 0, 0),  # half-width 23: whole degrees, the most that readings carry
        (11.6, 14.2, 1, 1),  # half-width 1.3 begins below 3.55: two figures, so tenths
        (41, 66, 1, 0),  # half-width 12.5: two figures are whole numbers
        (47.0, 59.0, 1, 0),  # half-width 6: one figure
        (0.70, 0.73, 2, 2),  # half-width 0.015 asks for four digits, held to the most
        (5, 5, 1, 1),  # no width: as many as the kind may have
    ],
)
def test_the_interval_decides_the_digits(low: float, high: float, most: int, decimals: int) -> None:
    """By hand, from the rounding rule of the Particle Data Group (two figures below 3.55, one above)."""
    assert numbers.decimals_for(low, high, most) == decimals


@pytest.mark.parametrize(
    ("figure", "quantity", "words"),
    [
        (Figure(742.3, 719.2, 765.1), "temperature", f"742{NB}°C (719 to 765)"),
        (Figure(1013.0, at_least=True), "temperature", f"at least 1013{NB}°C"),
        (Figure(12.94, 11.6, 14.2), "rate", f"12.9{NB}°C/min (11.6 to 14.2)"),
        (Figure(110.2, 108.0, 112.0), "time", f"1{NB}h 50{NB}min (1{NB}h 48{NB}min to 1{NB}h 52{NB}min)"),
        (Figure(48.1, 43.0, 53.0), "time", f"48{NB}min (43 to 53)"),
        (Figure(None, remark="no second probe"), "temperature", "not known"),
        (Figure(5.0), "count", "5"),
        (Figure(4.98, 4.7, 5.3), "temperature", f"5.0{NB}°C (4.7 to 5.3)"),
        (Figure(-0.2, -1.4, 1.0), "temperature", f"0{NB}°C (−1 to 1)"),
    ],
)
def test_a_figure_is_written_with_its_unit_and_interval(figure: Figure, quantity: str, words: str) -> None:
    """Each by hand; an interval that would vanish in rounding gets one digit more, and zero never carries a minus."""
    assert numbers.figure_words(figure, quantity) == words


@pytest.mark.parametrize(
    ("value", "decimals", "words"),
    [
        (0.0, 0, "0 min"),
        (12.0, 1, "12 min"),
        (3.44, 1, "3.4 min"),
        (59.4, 1, "59.4 min"),
        (59.6, 1, "1 h"),
        (60.0, 0, "1 h"),
        (125.0, 0, "2 h 5 min"),
    ],
)
def test_times_are_minutes_and_from_an_hour_on_hours(value: float, decimals: int, words: str) -> None:
    assert numbers.minutes(value, decimals).replace(NB, " ") == words


@pytest.mark.parametrize(
    ("share", "words"),
    [(0.0, "0 %"), (1.0, "100 %"), (0.727, "73 %"), (0.997, "99.7 %"), (0.9999, "99.9 %"), (0.0002, "0.1 %")],
)
def test_only_what_is_certain_is_written_as_0_or_100_percent(share: float, words: str) -> None:
    assert numbers.percent(share).replace(NB, " ") == words


def test_minus_signs_are_real_and_thousands_have_a_comma_from_ten_thousand_on() -> None:
    assert (numbers.plain(-12), numbers.plain(1234), numbers.plain(12345)) == ("−12", "1234", "12,345")
    assert numbers.plain(-0.4) == "0"
    assert (numbers.plain(9999.96, 1), numbers.plain(-9999.94, 1), numbers.plain(-0.04, 1)) == (
        "10,000.0",
        "−9999.9",
        "0.0",
    )


def test_clock_times_count_from_lighting() -> None:
    assert [numbers.clock(minute) for minute in (0, 4.5, 62, -0.5)] == ["0:00", "4:30", "1:02:00", "−0:30"]


def test_dates_and_lists_are_written_as_a_sentence_has_them() -> None:
    assert numbers.day(date(2026, 5, 2)) == f"2{NB}May 2026"
    assert numbers.listed(["hazel", "birch", "oak"]) == "hazel, birch and oak"
    assert numbers.listed(["hazel"]) == "hazel"
    assert numbers.listed([]) == ""


def test_a_unit_never_parts_from_its_number() -> None:
    """A line must not end between a number and its unit: the space between is a no-break space."""
    for words in (
        numbers.with_unit("742", "°C"),
        numbers.minutes(110),
        numbers.percent(0.5),
        numbers.counted(3, "pot"),
    ):
        assert NB in words
