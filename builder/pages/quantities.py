"""How a recorded quantity is written: as the potter wrote it, converted only where that helps a reader elsewhere."""

from __future__ import annotations

from itertools import pairwise

from builder.base.quantity import Quantity
from builder.pages.numbers import NBSP, minutes, plain, with_unit

_PUBLISHED = {"temperature": "°C", "temperature_step": "°C", "rate": "°C/min", "speed": "km/h"}
_METRIC = frozenset(["°C", "mm", "cm", "m", "g", "kg", "t", "%", "km/h", "m/s", "mV"])


def quantity_words(quantity: Quantity) -> str:
    """Write a recorded quantity: as written where it is metric, else converted with the written value beside it.

    >>> quantity_words(Quantity("1450 °F", "temperature", 1450, "°F", 787.78, 787.78, 787.78))
    '788\\xa0°C (written 1450\\xa0°F)'
    """
    written = as_written(quantity)
    return written if shown_as_written(quantity) else f"{converted(quantity)} (written {written})"


def as_written(quantity: Quantity) -> str:
    """Write a quantity in the potter's own words; a bare number gets the unit that the group declared for it."""
    raw = " ".join(quantity.raw.split())
    if any(letter.isalpha() or letter in "°%\"'′″" for letter in raw) or not quantity.unit:
        return _tied(raw)
    return with_unit(raw, quantity.unit)


def converted(quantity: Quantity) -> str:
    """Write a quantity in the unit that the site uses, range and `about` kept."""
    scale, unit, decimals = _published_unit(quantity)
    if quantity.kind == "time":
        words = minutes(quantity.canonical)
    elif quantity.high > quantity.low:
        words = with_unit(f"{plain(quantity.low * scale, decimals)} to {plain(quantity.high * scale, decimals)}", unit)
    else:
        words = with_unit(plain(quantity.canonical * scale, decimals), unit)
    return f"about {words}" if quantity.approximate else words


def _published_unit(quantity: Quantity) -> tuple[float, str, int]:
    """Factor, unit and digits in which a canonical value is shown: grams below a kilogram, tenths of thin walls."""
    size = abs(quantity.canonical)
    if quantity.kind == "mass":
        return (1000, "g", 0) if size < 1 else (1, "kg", 2 if size < 10 else 0)
    if quantity.kind == "length":
        return (1, "mm", 1 if size < 10 else 0)
    return (1, _PUBLISHED.get(quantity.kind, quantity.unit), 0)


def shown_as_written(quantity: Quantity) -> bool:
    """Tell whether the potter's own unit is one that the site uses too, so that nothing need be converted."""
    return quantity.unit in _METRIC or not quantity.unit or quantity.kind in {"time", "share", "voltage", "emissivity"}


def _tied(raw: str) -> str:
    """Put a no-break space between each number and what follows it, unless that is a joining word."""
    words = raw.split(" ")
    tied = words[0] if words else ""
    for before, word in pairwise(words):
        glue = NBSP if before[-1:].isdigit() and word not in {"to", "or", "and"} and not word[:1].isdigit() else " "
        tied += glue + word
    return tied
