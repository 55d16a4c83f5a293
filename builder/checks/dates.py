"""Days of the calendar and times of the clock, in the one form each that cannot be misread."""

from __future__ import annotations

import calendar
import re
from collections.abc import Iterator
from datetime import date

from builder.checks.fault import Fault, either, shown

EARLIEST_YEAR, LATEST_YEAR = 1900, 2199
"""Years that an archive takes; no clock is asked, so that the same entry is judged alike on any day."""

_ISO = re.compile(r"([0-9]{4})-([0-9]{2})-([0-9]{2})\Z")
_CLOCK = re.compile(r"([01]?[0-9]|2[0-3]):([0-5][0-9])\Z")
_SEPARATOR = r"\s*[-/.,\s‐-―−]\s*"
_THREE_NUMBERS = re.compile(rf"([0-9]{{1,4}}){_SEPARATOR}([0-9]{{1,2}}){_SEPARATOR}([0-9]{{1,4}})\.?\Z")
_COMPACT = re.compile(r"([0-9]{4})([0-9]{2})([0-9]{2})\Z")
_WITH_TIME = re.compile(r"(.*[0-9])(?:T|\s+(?:at\s+)?)([0-9]{1,2}[:.h][0-9]{2}\S*)\s*\Z")
_NAMED_MONTH = re.compile(r"[a-z]{3,}", re.IGNORECASE)
_LOOSE_CLOCK = re.compile(
    r"([0-9]{1,2})\s*(?:[:.h ]?\s*([0-9]{2}))?(?::[0-9]{2})?\s*(am|pm|a\.m\.|p\.m\.|h|hrs)?\Z", re.I
)
_MONTHS = [name.casefold() for name in calendar.month_name]


def read_date(text: str) -> date | Fault:
    """Read a day written year-month-day.

    >>> read_date("2026-05-02")
    datetime.date(2026, 5, 2)
    >>> read_date("2/5/2026").help
    'Write `2026-05-02` for 2 May 2026, or `2026-02-05` for 5 February 2026.'
    """
    written = _ISO.match(text)
    if written is None:
        return _other_form(text)
    year, month, day = (int(part) for part in written.groups())
    if not EARLIEST_YEAR <= year <= LATEST_YEAR:
        return Fault(
            "date-calendar",
            f"The year {year:04} cannot be: an archive holds firings of {EARLIEST_YEAR} to {LATEST_YEAR}.",
            "Write the year in full, then month and day: `2026-05-02`.",
        )
    try:
        return date(year, month, day)
    except ValueError:
        return _no_such_day(year, month, day)


def _no_such_day(year: int, month: int, day: int) -> Fault:
    if not 1 <= month <= 12:
        help_ = "Write a month from 01 to 12."
        if 1 <= day <= 12 and 1 <= month <= 31:
            help_ = f"If day and month changed places, write `{year}-{day:02}-{month:02}`."
        return Fault("date-calendar", f"There is no month {month:02}; a date is year-month-day.", help_, 5)
    last = calendar.monthrange(year, month)[1]
    message = f"{calendar.month_name[month]} {year} has {last} days, so there is no day {day:02}."
    span = f"from `{year}-{month:02}-01` to `{year}-{month:02}-{last}`"
    return Fault("date-calendar", message, f"Write the day of the fire, {span}.", 8)


def _other_form(text: str) -> Fault:
    """Say how a date in another form is written here."""
    message = f"{shown(text)} is not a date as entries have it: year-month-day, with two figures for month and day."
    timed = _WITH_TIME.match(text)
    days = list(dict.fromkeys(_days_meant(timed.group(1) if timed else text)))
    if not days:
        return Fault("date-form", message, "Write it like `2026-05-02`.")
    if len(days) == 1:
        clock = f" and the time in a field of its own, `lit: {timed.group(2)[:5]}`" if timed else ""
        return Fault("date-form", message, f"Write `{days[0]}`{clock}.")
    first, second = days[:2]
    return Fault("date-form", message, f"Write `{first}` for {_long(first)}, or `{second}` for {_long(second)}.")


def _long(day: date) -> str:
    return f"{day.day} {calendar.month_name[day.month]} {day.year}"


def _days_meant(text: str) -> Iterator[date]:
    """Yield the days that another way of writing may mean, the likeliest first."""
    compact = _COMPACT.match(text)
    numbers = compact or _THREE_NUMBERS.match(text)
    if numbers:
        first, second, third = numbers.groups()
        if len(first) == 4:
            # With the year first nobody writes the day before the month, unless it can be read in no other way.
            yield from list(_real(first, second, third)) or list(_real(first, third, second))
        elif len(third) in (2, 4):
            yield from _real(third, second, first)
            yield from _real(third, first, second)
        return
    named = [word[:3].casefold() for word in _NAMED_MONTH.findall(text)]
    figures = re.findall(r"[0-9]+", text)
    month = next((number for number, name in enumerate(_MONTHS) if number and name[:3] in named), 0)
    if month and len(figures) == 2:
        day, year = sorted(figures, key=len) if len(figures[0]) != len(figures[1]) else figures
        yield from _real(year, str(month), day)


def _real(year: str, month: str, day: str) -> Iterator[date]:
    full = int(year) if len(year) == 4 else 2000 + int(year)
    try:
        found = date(full, int(month), int(day))
    except ValueError:
        return
    if EARLIEST_YEAR <= found.year <= LATEST_YEAR:
        yield found


def read_clock(text: str) -> str | Fault:
    """Read a time of day to the minute, on the 24-hour clock.

    >>> read_clock("9:05")
    '09:05'
    """
    written = _CLOCK.match(text)
    if written:
        return f"{int(written.group(1)):02}:{written.group(2)}"
    meant = _clock_meant(text)
    return Fault(
        "clock-form",
        f"{shown(text)} is not a time of day to the minute on the 24-hour clock.",
        f"Write {either(meant)}." if meant else "Write it like `10:42` or `16:05`.",
    )


def _clock_meant(text: str) -> list[str]:
    loose = _LOOSE_CLOCK.match(text.strip())
    if loose is None:
        return []
    hour, minute, half = int(loose.group(1)), int(loose.group(2) or 0), (loose.group(3) or "").casefold()[:1]
    if half == "p" and hour < 12:
        hour += 12
    if half == "a" and hour == 12:
        hour = 0
    if hour > 23 or minute > 59 or (loose.group(2) is None and not half):
        return []
    return [f"{hour}:{minute:02}"]
