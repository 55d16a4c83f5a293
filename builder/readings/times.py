"""Times as they stand in a log: elapsed, on the clock, full timestamps, or numbers under a heading with a unit."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from functools import lru_cache

import numpy as np

from builder.base.quantity import Quantity, parse_quantity
from builder.readings.curve import Floats

DAY_S = 86_400.0

_SECONDS = r"\d{1,2}(?:[.,]\d+)?"
_HALF = r"(?: ?([ap])\.? ?m\.?)?"
_CLOCK = re.compile(rf"(\d{{1,4}}):({_SECONDS})(?::({_SECONDS}))?{_HALF}", re.IGNORECASE | re.ASCII)
_MINUTES_AND_SECONDS = re.compile(r"([0-9]{1,4}):([0-5][0-9])")
"""The commonest elapsed time; everything else goes the long way."""
_STAMP = re.compile(
    rf"(\d{{1,4}}[-/.]\d{{1,2}}[-/.]\d{{1,4}})(?:T|,? +)(\d{{1,2}}):(\d{{1,2}})(?::({_SECONDS}))?{_HALF}"
    r"(?: ?Z| ?[+-]\d\d:?\d\d)?",
    re.IGNORECASE | re.ASCII,
)
_DATE = re.compile(r"(\d{1,4})[-/.](\d{1,2})[-/.](\d{1,4})", re.ASCII)
_NUMBER = re.compile(r"-?\d{1,12}(?:[.,]\d{1,9})?", re.ASCII)
_HEADING_UNITS = {
    "ms": 0.001, "milliseconds": 0.001, "msec": 0.001,
    "s": 1.0, "sec": 1.0, "secs": 1.0, "second": 1.0, "seconds": 1.0,
    "min": 60.0, "mins": 60.0, "minute": 60.0, "minutes": 60.0, "m": 60.0,
    "h": 3600.0, "hr": 3600.0, "hrs": 3600.0, "hour": 3600.0, "hours": 3600.0,
}  # fmt: skip
_HALF_SECONDS_FROM = 20
"""So many readings with `.0` and with `.1`, and none with another decimal, show that the decimal counts halves."""


@dataclass(frozen=True, slots=True)
class TimeFault:
    """Why a text is no time, and what to write instead."""

    message: str
    help: str


@dataclass(frozen=True, slots=True)
class Times:
    """The times of a log on its own clock."""

    seconds: Floats
    """Shape (n,): seconds from the log's zero, or from midnight of its first day; NaN where unreadable."""
    on_clock: bool
    """True where they count from a midnight."""
    faults: tuple[tuple[int, TimeFault], ...]
    """Index and reason of each that cannot be read."""
    notes: tuple[str, ...] = ()
    """How the times were understood, where that is not plain."""


def looks_like_time(text: str) -> bool:
    """Tell whether a text is a time with a colon: a timestamp, a clock time or minutes and seconds."""
    return bool(_CLOCK.fullmatch(text) or _STAMP.fullmatch(text))


def looks_like_date(text: str) -> bool:
    """Tell whether a text is a date without a time."""
    return bool(_DATE.fullmatch(text))


def heading_unit_s(heading: str) -> float | None:
    """Return the seconds in the unit that a time's heading names (`time (s)`, `minutes`), or None.

    >>> heading_unit_s("Elapsed (min)"), heading_unit_s("Time")
    (60.0, None)
    """
    words = re.findall(r"[a-z]+", heading.casefold())
    return next((_HEADING_UNITS[word] for word in words if word in _HEADING_UNITS), None)


def read_times(texts: Sequence[str], mode: str | None, heading: str = "") -> Times:
    """Read a log's times, in its own order.

    `mode` is `elapsed` or `clock`, and decides what `12:30` means; None where the texts say it themselves. A clock
    that falls back by more than half a day has passed midnight.
    """
    seconds = np.full(len(texts), np.nan)
    faults: list[tuple[int, TimeFault]] = []
    unit_s = heading_unit_s(heading)
    stamps = False
    clocks = False
    for index, text in enumerate(texts):
        usual = _MINUTES_AND_SECONDS.fullmatch(text) if mode == "elapsed" else None
        if usual is not None:
            seconds[index] = int(usual[1]) * 60 + int(usual[2])
            continue
        read = _one(text, mode, unit_s)
        if isinstance(read, TimeFault):
            faults.append((index, read))
            continue
        seconds[index], kind = read
        stamps = stamps or kind == "stamp"
        clocks = clocks or kind == "clock"
    notes: tuple[str, ...] = ()
    if stamps or clocks:
        seconds, notes = _halves(texts, seconds)
    if stamps:
        seconds = _from_first_midnight(seconds)
    elif clocks:
        seconds = past_midnight(seconds)
    return Times(seconds, stamps or clocks, tuple(faults), notes)


def past_midnight(seconds: Floats) -> Floats:
    """Add a day to every clock time after one that falls back by more than half a day."""
    known = ~np.isnan(seconds)
    unwrapped = seconds.copy()
    falls = np.diff(seconds[known]) < -DAY_S / 2
    unwrapped[known] += DAY_S * np.concatenate(([0.0], np.cumsum(falls)))[: known.sum()]
    return unwrapped


def _one(text: str, mode: str | None, unit_s: float | None) -> tuple[float, str] | TimeFault:
    match = _CLOCK.fullmatch(text)
    if match:
        return _colons(text, match, mode)
    match = _STAMP.fullmatch(text)
    if match:
        return _stamp(text, match)
    if _NUMBER.fullmatch(text):
        if unit_s is not None:
            return float(text.replace(",", ".")) * unit_s, "elapsed"
        if mode != "clock":
            return TimeFault(
                f"`{text}` does not say whether it counts minutes or seconds.",
                f"Write `{text.replace('.', ':') if '.' in text else text + ':00'}` or `{text} min`; in a file, name "
                "the unit at the head of the column: `time (min)`.",
            )
    quantity = parse_quantity(text, "time")
    if isinstance(quantity, Quantity):
        return quantity.canonical * 60.0, "elapsed"
    wanted = "a clock time, like `18:05`" if mode == "clock" else "minutes and seconds, like `4:30`"
    return TimeFault(f"`{text[:40]}` is not a time.", f"Write {wanted}.")


def _colons(text: str, match: re.Match[str], mode: str | None) -> tuple[float, str] | TimeFault:
    first, second, third, half = match.groups()
    if half or mode == "clock":
        return _clock(text, int(first), second, third, half)
    if mode is None:
        return TimeFault(
            f"`{text}` may be a time of day or minutes and seconds.",
            "Say which under `readings`: `time: elapsed` or `time: clock`.",
        )
    if third is None and len(second.split(".")[0]) == 1:
        return TimeFault(
            f"`{text}` has one digit for its seconds.", f"Write `{first}:0{second}` or `{first}:{second}0`."
        )
    parts = (0.0, float(first), _float(second)) if third is None else (float(first), _float(second), _float(third))
    hours, minutes, seconds = parts
    if seconds >= 60 or (third is not None and minutes >= 60):
        over = second if third is None else f"{second}:{third}"
        return TimeFault(
            f"`{text}` counts to sixty and beyond in `{over}`.",
            "Write minutes and seconds (`4:30`), or hours, minutes and seconds (`1:04:30`).",
        )
    return hours * 3600 + minutes * 60 + seconds, "elapsed"


def _clock(text: str, hour: int, minute: str, second: str | None, half: str | None) -> tuple[float, str] | TimeFault:
    fault = TimeFault(f"`{text}` is not a time of day.", "Write hours and minutes, like `18:05` or `6:05 pm`.")
    if half:
        if not 1 <= hour <= 12:
            return fault
        hour = hour % 12 + (12 if half.casefold() == "p" else 0)
    minutes, seconds = _float(minute), _float(second or "0")
    if hour > 23 or minutes >= 60 or seconds >= 60 or minutes != int(minutes):
        return fault
    if second is None and len(minute) == 1:
        return TimeFault(f"`{text}` has one digit for its minutes.", f"Write `{hour}:0{minute}` or `{hour}:{minute}0`.")
    return hour * 3600 + minutes * 60 + seconds, "clock"


def _stamp(text: str, match: re.Match[str]) -> tuple[float, str] | TimeFault:
    day_text, hour, minute, second, half = match.groups()
    day = _day(day_text)
    time = _clock(text, int(hour), minute.zfill(2), second, half)
    if day is None:
        return TimeFault(f"`{text[:40]}` has no such day.", "Write year, month, day: `2026-05-02 18:05:00`.")
    if isinstance(time, TimeFault):
        return time
    return day * DAY_S + time[0], "stamp"


@lru_cache(maxsize=256)
def _day(text: str) -> int | None:
    """Count a date's day. Of `3/4/2026` it matters only that the next day is one more, so day first is tried."""
    match = _DATE.fullmatch(text)
    if match is None:
        return None
    first, second, third = (int(part) for part in match.groups())
    orders = [(first, second, third)] if len(match[1]) > 2 else [(third, second, first), (third, first, second)]
    for year, month, day in orders:
        try:
            return date(year + 2000 if year < 100 else year, month, day).toordinal()
        except ValueError:
            continue
    return None


def _float(text: str) -> float:
    return float(text.replace(",", "."))


def _from_first_midnight(seconds: Floats) -> Floats:
    if np.isnan(seconds).all():
        return seconds
    first = seconds[~np.isnan(seconds)][0]
    shifted: Floats = seconds - np.floor(first / DAY_S) * DAY_S
    return shifted


_TENTH = re.compile(r":\d{1,2}\.(\d+)(?!\d)")


def _halves(texts: Sequence[str], seconds: Floats) -> tuple[Floats, tuple[str, ...]]:
    """Read `.1` as the half second where the only decimals of a whole log are many `.0` and many `.1`."""
    decimals = [match[1] if (match := _TENTH.search(text)) else "" for text in texts]
    if set(decimals) != {"0", "1"} or min(decimals.count("0"), decimals.count("1")) < _HALF_SECONDS_FROM:
        return seconds, ()
    half = np.array([decimal == "1" for decimal in decimals])
    return np.where(half, seconds + 0.4, seconds), (
        "The decimal of the seconds is only ever 0 or 1, so it was read as counting half seconds.",
    )
