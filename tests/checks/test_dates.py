"""Days and times of day: one form each, and for every other form the right way to write it."""

from __future__ import annotations

from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from builder.checks.dates import EARLIEST_YEAR, LATEST_YEAR, read_clock, read_date
from builder.checks.fault import Fault

DAYS = st.dates(date(EARLIEST_YEAR, 1, 1), date(LATEST_YEAR, 12, 31))


@given(DAYS)
def test_every_real_day_reads_back_from_its_own_form(day: date) -> None:
    assert read_date(day.isoformat()) == day


@given(DAYS)
def test_the_day_after_the_last_of_a_month_is_refused(day: date) -> None:
    last = (day.replace(day=1) + timedelta(days=32)).replace(day=1) - timedelta(days=1)
    found = read_date(f"{last:%Y-%m}-{last.day + 1:02}")
    assert isinstance(found, Fault)
    assert found.code == "date-calendar"
    assert f"`{last.isoformat()}`" in found.help


# The Gregorian rule (ISO 8601:2004, section 3.2.1): 2000 is a leap year, 1900 and 2100 are none.
@pytest.mark.parametrize(
    ("text", "sound"),
    [
        ("2000-02-29", True),
        ("1900-02-29", False),
        ("2024-02-29", True),
        ("2100-02-29", False),
        ("2026-02-29", False),
        ("2024-02-31", False),
    ],
)
def test_leap_days_follow_the_calendar(text: str, sound: bool) -> None:
    assert isinstance(read_date(text), date) is sound


@pytest.mark.parametrize(
    ("text", "help_"),
    [
        ("02/05/2026", "Write `2026-05-02` for 2 May 2026, or `2026-02-05` for 5 February 2026."),
        ("23/05/2026", "Write `2026-05-23`."),
        ("05/23/2026", "Write `2026-05-23`."),
        ("02/02/2026", "Write `2026-02-02`."),
        ("2026-5-2", "Write `2026-05-02`."),
        ("2026/05/02", "Write `2026-05-02`."),
        ("2026.05.02", "Write `2026-05-02`."),
        ("2026–05–02", "Write `2026-05-02`."),
        ("20260502", "Write `2026-05-02`."),
        ("2.5.2026", "Write `2026-05-02` for 2 May 2026, or `2026-02-05` for 5 February 2026."),
        ("2 May 2026", "Write `2026-05-02`."),
        ("May 2, 2026", "Write `2026-05-02`."),
        ("2nd of May 2026", "Write `2026-05-02`."),
        ("Saturday 2 May 2026", "Write `2026-05-02`."),
        ("2026-05-02 10:42", "Write `2026-05-02` and the time in a field of its own, `lit: 10:42`."),
        ("2026-05-02T10:42:30", "Write `2026-05-02` and the time in a field of its own, `lit: 10:42`."),
        ("yesterday", "Write it like `2026-05-02`."),
        ("99/99/2026", "Write it like `2026-05-02`."),
        ("２０２６-05-02", "Write it like `2026-05-02`."),
    ],
)
def test_another_form_of_a_date_is_answered_with_the_right_one(text: str, help_: str) -> None:
    found = read_date(text)
    assert isinstance(found, Fault)
    assert (found.code, found.help) == ("date-form", help_)


@pytest.mark.parametrize(
    ("text", "offset"), [("2026-13-40", 5), ("2026-23-05", 5), ("2026-02-31", 8), ("0226-05-02", 0)]
)
def test_a_day_that_is_none_is_marked_where_it_goes_wrong(text: str, offset: int) -> None:
    found = read_date(text)
    assert isinstance(found, Fault)
    assert (found.code, found.offset) == ("date-calendar", offset)


@given(st.text(max_size=40))
def test_no_text_whatever_raises(text: str) -> None:
    assert isinstance(read_date(text), date | Fault)
    assert isinstance(read_clock(text), str | Fault)


@given(st.integers(0, 23), st.integers(0, 59))
def test_every_minute_of_the_day_is_taken_with_one_or_two_figures(hour: int, minute: int) -> None:
    assert read_clock(f"{hour}:{minute:02}") == read_clock(f"{hour:02}:{minute:02}") == f"{hour:02}:{minute:02}"


@pytest.mark.parametrize(
    ("text", "help_"),
    [
        ("4:30 pm", "Write `16:30`."),
        ("4 pm", "Write `16:00`."),
        ("12:10 am", "Write `0:10`."),
        ("12:10 pm", "Write `12:10`."),
        ("10.42", "Write `10:42`."),
        ("10h42", "Write `10:42`."),
        ("1042", "Write `10:42`."),
        ("10:42:30", "Write `10:42`."),
        ("24:00", "Write it like `10:42` or `16:05`."),
        ("10", "Write it like `10:42` or `16:05`."),
        ("noon", "Write it like `10:42` or `16:05`."),
    ],
)
def test_another_form_of_a_clock_time_is_answered_with_the_right_one(text: str, help_: str) -> None:
    found = read_clock(text)
    assert isinstance(found, Fault)
    assert (found.code, found.help) == ("clock-form", help_)
