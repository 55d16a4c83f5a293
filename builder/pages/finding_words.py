"""What the comparisons found, in words: differences of a hundred, chances, names and values of conditions."""

from __future__ import annotations

from builder.archive.conditions import WORD, Tried
from builder.archive.differences import Difference
from builder.archive.effects import Side
from builder.archive.planning import Telling
from builder.base.quantity import Quantity
from builder.entries.fields import CONDITIONS, FIELDS
from builder.heat.figures import FIGURE_KINDS
from builder.pages.numbers import MINUS, NBSP, STYLES, counted, plain, with_unit
from builder.pages.quantities import converted
from builder.settings import Settings

_DAY_MIN = 24 * 60
_UNITS = {"share": "%", "mass": "kg", "length": "mm", "speed": "km/h", "temperature": "°C", "time": "min"}
_FIGURES = {kind.name: kind for kind in FIGURE_KINDS}


def of_a_hundred(low: float, high: float) -> str:
    """Write an interval of a difference of two rates: how many more or fewer of a hundred.

    >>> of_a_hundred(-0.04, 0.31), of_a_hundred(0.042, 0.31), of_a_hundred(-0.55, -0.08), of_a_hundred(-1, 1)
    ('between 4 fewer and 31 more', 'between 4 and 31 more', 'between 8 and 55 fewer', 'between 100 fewer and 100 more')
    """
    least, most = round(100 * low), round(100 * high)
    if least < 0 < most:
        return f"between {-least} fewer and {most} more"
    if high > 0 and least >= 0:
        return f"between {least} and {most} more"
    return f"between {-most} and {-least} fewer"


def hundred_number(difference: float) -> str:
    """Write a difference of two rates as a number of a hundred with its sign: `+23`, `−8`, `0`."""
    number = round(100 * difference)
    return "0" if number == 0 else f"{'+' if number > 0 else MINUS}{abs(number)}"


def chance_words(p: float) -> str:
    """Write a p value with no more digits than the shuffles can carry.

    >>> chance_words(0.0005), chance_words(0.0066), chance_words(0.34), chance_words(1.0)
    ('0.0005', '0.007', '0.34', '1')
    """
    return "1" if p >= 0.995 else plain(p, 4 if p < 0.001 else 3 if p < 0.1 else 2)


def pair_sentence(pair: Difference, settings: Settings) -> str:
    """Say one pair of methods in a sentence: both counts, and what the interval of the difference allows."""
    first, second = settings.methods[pair.first.method].name, settings.methods[pair.second.method].name
    told = "Told apart." if pair.told_apart else "Not told apart."
    return (
        f"{first} against {second}: {pair.first.successes} of {counted(pair.first.pieces, 'piece')} "
        f"({counted(pair.first.firings, 'firing')}) against {pair.second.successes} of {pair.second.pieces:,} "
        f"({counted(pair.second.firings, 'firing')}), {of_a_hundred(pair.low, pair.high)} of a hundred. {told}"
    )


def telling_sentence(telling: Telling | None) -> str:
    """Say how many firings would tell a pair apart; empty where they are told apart already."""
    if telling is None:
        return ""
    if telling.firings is None:
        return "So close that no number of firings within reach would tell them apart."
    return (
        f"If these rates are the true ones, {counted(telling.firings, 'firing')} of either would tell them apart, four "
        "times in five."
    )


def condition_label(name: str) -> str:
    """Name a condition for people: `Clay: wall`, `Fuel: wood, hazel`, `Fastest rise`.

    >>> condition_label("clay.wall")
    'Clay: wall'
    """
    path, _, word = name.partition(WORD)
    if path in _FIGURES:
        return _FIGURES[path].label
    if path not in CONDITIONS:
        return path.capitalize()
    group = next((field.heading for field in FIELDS if field.name == path.split(".")[0]), "")
    heading = CONDITIONS[path].heading
    label = f"{group}: {heading[0].lower()}{heading[1:]}" if group else heading
    return f"{label}, {word}" if word else label


def value_words(name: str, value: float) -> str:
    """Write a value of a numeric condition or figure with its unit.

    >>> value_words("clay.wall", 7.0), value_words("clay.dried", 9 * 1440.0), value_words("weather.dry_days", 3.0)
    ('7\\xa0mm', '9\\xa0days', '3')
    """
    if name in _FIGURES:
        style = STYLES[_FIGURES[name].quantity]
        return with_unit(plain(value, style.most_decimals if abs(value) < 10 else 0), style.unit)
    kind = CONDITIONS[name].quantity if name in CONDITIONS else ""
    if not kind:
        return plain(value)
    if kind == "time" and value >= 2 * _DAY_MIN:
        return with_unit(f"{value / _DAY_MIN:.0f}", "days")
    return converted(Quantity("", kind, value, _UNITS.get(kind, ""), value, value, value)).replace(f".0{NBSP}", NBSP)


def side_words(side: Side) -> str:
    """Write one side of an effect with its counts: `19 of 51 pieces, 11 firings`."""
    return f"{side.successes} of {counted(side.pieces, 'piece')}, {counted(side.firings, 'firing')}"


def sides_named(tried: Tried) -> tuple[str, str]:
    """Name the two sides of an effect: `7 mm or more` and `less`, or `with it` and `without`."""
    if tried.effect is None or tried.effect.split is None:
        return "with it", "without"
    return f"{value_words(tried.condition, tried.effect.split)} or more", "less"
