"""How a number, its unit and its interval are written in words: the one place for it.

Everything here is plain text; `marked_numbers.py` says the same in HTML. An interval decides how many digits its
value gets (`decimals_for`), and no value gets more than a potter's readings can carry.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from functools import lru_cache

from builder.heat.figures import Figure

NBSP = "\u00a0"
MINUS = "\u2212"
NOT_RECORDED = "not recorded"

_WORDS = ("no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve")
_MONTHS = (
    "January",
    "February",
    "March",
    "April",
    "May",
    "June",
    "July",
    "August",
    "September",
    "October",
    "November",
    "December",
)


@dataclass(frozen=True, slots=True)
class Style:
    """How one kind of figure is written."""

    unit: str
    """Its unit as it follows the number; empty for none."""
    most_decimals: int
    """No more digits after the point than the readings can carry."""


STYLES = {
    "temperature": Style("°C", 0),
    "temperature_step": Style("°C", 0),
    "rate": Style("°C/min", 1),
    "time": Style("min", 1),
    "degree_minutes": Style("°C·min", 0),
    "count": Style("", 0),
    "share": Style("%", 1),
    "density": Style("g/cm³", 2),
    "energy": Style("MJ", 0),
    "pressure": Style("kPa", 2),
    "mass": Style("kg", 1),
}
"""By the `quantity` of a figure: readings are whole degrees and, at best, seconds; weights are whole grams."""


def decimals_for(low: float | None, high: float | None, most: int) -> int:
    """Digits after the point that an interval lets its value have.

    The half-width keeps two figures where they begin below 3.55 and one above, the rounding rule of the Particle Data
    Group (Review of Particle Physics 2022, 5.3); never more than `most`.

    >>> decimals_for(719, 765, 0), decimals_for(11.6, 14.2, 1), decimals_for(41, 66, 1)
    (0, 1, 0)
    """
    if low is None or high is None or high <= low:
        return most
    half = (high - low) / 2
    power = math.floor(math.log10(half))
    figures = 2 if half / 10**power < 3.55 else 1
    return max(0, min(most, figures - 1 - power))


def plain(value: float, decimals: int = 0) -> str:
    """Write a number with a real minus and a comma in the thousands from 10,000 on; never a minus before zero.

    >>> plain(-0.04, 1), plain(-12.3), plain(12345.6), plain(1234)
    ('0.0', '−12', '12,346', '1234')
    """
    size = abs(value)
    words = f"{size:.{decimals}f}"
    if size > 9_999 and round(size, decimals) >= 10_000:
        words = f"{size:,.{decimals}f}"
    return f"{MINUS}{words}" if value < 0 and words.strip("0.") else words


def with_unit(number: str, unit: str) -> str:
    """Join a number and its unit so that no line breaks between them."""
    return f"{number}{NBSP}{unit}" if unit else number


def minutes(value: float, decimals: int = 0) -> str:
    """Write a time: `12 min`, `3.4 min`, `1 h 50 min`; whole minutes from an hour on.

    >>> minutes(12), minutes(110), minutes(60), minutes(0.5, 1)
    ('12\\xa0min', '1\\xa0h 50\\xa0min', '1\\xa0h', '0.5\\xa0min')
    """
    if value >= 59.5 and round(value) >= 60:
        hours, rest = divmod(round(value), 60)
        return with_unit(str(hours), "h") + (f" {with_unit(str(rest), 'min')}" if rest else "")
    return with_unit(_trimmed(value, decimals), "min")


@lru_cache(maxsize=4096)
def clock(value: float) -> str:
    """Write a minute from lighting as a log does: `4:30`, `1:02:00`, `−0:30`.

    >>> clock(4.5), clock(62), clock(-0.5)
    ('4:30', '1:02:00', '−0:30')
    """
    seconds = round(abs(value) * 60)
    hours, rest = divmod(seconds, 3600)
    words = f"{hours}:{rest // 60:02d}:{rest % 60:02d}" if hours else f"{rest // 60}:{rest % 60:02d}"
    return f"{MINUS}{words}" if value < 0 and seconds else words


def figure_decimals(figure: Figure, quantity: str) -> tuple[int, bool]:
    """Digits after the point for a figure, from its interval, its size and its kind.

    Beside them whether the interval says more than its value: its ends differ in the digits that are written.
    """
    most, low, high = STYLES[quantity].most_decimals, figure.low, figure.high
    if low is None or high is None or low >= high:
        return (0 if figure.value is None or abs(figure.value) >= 10 else most), False
    decimals = decimals_for(low, high, most)
    if plain(low, decimals) != plain(high, decimals):
        return decimals, True
    return decimals + 1, plain(low, decimals + 1) != plain(high, decimals + 1)


def value_and_interval(figure: Figure, quantity: str) -> tuple[str, str]:
    """Write a figure's value with its unit, and its 95 % interval.

    The value says `at least` where it is that, and `not known` where there is none. The interval is empty where the
    figure has none, or none wider than the digits shown.

    >>> value_and_interval(Figure(742.3, 719.2, 765.1), "temperature")
    ('742\\xa0°C', '719 to 765')
    """
    decimals, tells_more = figure_decimals(figure, quantity)
    value, interval = "not known", ""
    if figure.value is not None:
        timed = quantity == "time"
        value = minutes(figure.value, decimals) if timed else _measured(figure.value, quantity, decimals)
        value = f"at least {value}" if figure.at_least else value
    if tells_more and figure.low is not None and figure.high is not None:
        write = minutes if quantity == "time" and figure.high >= 59.5 else plain
        interval = f"{write(figure.low, decimals)} to {write(figure.high, decimals)}"
    return value, interval


def figure_words(figure: Figure, quantity: str) -> str:
    """Write a figure with its interval: `742 °C (719 to 765)`."""
    value, interval = value_and_interval(figure, quantity)
    return f"{value} ({interval})" if interval else value


def percent(share: float) -> str:
    """Write a share from 0 to 1 in whole percent, with a tenth where only that keeps it from 0 or 100.

    >>> percent(0.727), percent(0.997), percent(0), percent(1)
    ('73\\xa0%', '99.7\\xa0%', '0\\xa0%', '100\\xa0%')
    """
    return with_unit(_percent_number(share), "%")


def percent_range(low: float, high: float) -> str:
    """Write the two ends of a share's interval without the sign: `43 to 90`."""
    return f"{_percent_number(low)} to {_percent_number(high)}"


def counted(number: int, one: str, many: str = "") -> str:
    """Write a count with its noun: `1 piece`, `8 pieces`, `1,204 firings`."""
    return f"{number:,}{NBSP}{one if number == 1 else many or one + 's'}"


def in_words(number: int) -> str:
    """Write a count in words up to twelve, in figures above: `eight`, `21`.

    >>> in_words(8), in_words(0), in_words(21)
    ('eight', 'no', '21')
    """
    return _WORDS[number] if 0 <= number < len(_WORDS) else f"{number:,}"


def day(value: date) -> str:
    """Write a date: `2 May 2026`."""
    return f"{value.day}{NBSP}{_MONTHS[value.month - 1]} {value.year}"


def day_and_month(value: date) -> str:
    """Write a date under its year's heading: `2 May`."""
    return f"{value.day}{NBSP}{_MONTHS[value.month - 1]}"


def listed(words: Sequence[str], last: str = "and") -> str:
    """Join words as a sentence does: `hazel, birch and oak`."""
    if len(words) < 2:
        return "".join(words)
    return f"{', '.join(words[:-1])} {last} {words[-1]}"


def _measured(value: float, quantity: str, decimals: int) -> str:
    return with_unit(plain(value, decimals), STYLES[quantity].unit)


def _trimmed(value: float, decimals: int) -> str:
    words = plain(value, decimals)
    return words.removesuffix(".0")


def _percent_number(share: float) -> str:
    words = plain(100 * share)
    at_end = (words == "0" and share > 0) or (words == "100" and share < 1)
    return plain(min(max(100 * share, 0.1), 99.9), 1) if at_end else words
