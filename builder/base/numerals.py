"""Numbers as people write them: `1,450`, `1 450`, `0,5`, `1 1/2`, `¼`; what can be read in two ways is refused."""

from __future__ import annotations

import re
import unicodedata
from dataclasses import dataclass

MAX_NUMBER = 1e9
"""Largest number of a firing's quantity: ten thousand tonnes in grams is still below it."""


@dataclass(frozen=True, slots=True)
class Numeral:
    """A number found in a text."""

    value: float
    end: int
    """Index of the first character after it."""


class NumeralFault(Exception):
    """A number that cannot be read, with its code and the readings it may have."""

    def __init__(self, code: str, written: str, readings: tuple[str, ...] = ()) -> None:
        super().__init__(written)
        self.code = code
        self.written = written
        self.readings = readings


_SPACED = re.compile(r"\d{1,3}(?: \d{3})+(?:[.,]\d+)?(?![\d/])", re.ASCII)
_RUN = re.compile(r"\d+(?:'\d{3}(?!\d))*(?:[.,]\d+)*|[.,]\d+", re.ASCII)
_FRACTION = re.compile(r"(\d{1,4}) ?/ ?(\d{1,4})(?!\d)", re.ASCII)
_AFTER_WHOLE = re.compile(r"[ -]?(?=\d{1,4} ?/ ?\d|[¼-¾⅐-⅞↉])")
_VULGAR = re.compile(r"[¼-¾⅐-⅞↉]")


def read_numeral(text: str, at: int, grouped: bool = True) -> Numeral | None:
    """Read the number that begins at an index, or return None where none does. Raises NumeralFault.

    `text` has plain spaces, hyphens and slashes. `grouped` tells whether the quantity can reach thousands; where
    it cannot, a single comma or point is the decimal sign.

    >>> read_numeral("1 1/2 in", 0).value, read_numeral("1,450 °F", 0).value, read_numeral("0,5 kg", 0).value
    (1.5, 1450.0, 0.5)
    """
    fraction = _fraction(text, at)
    if fraction is not None:
        return fraction
    match = _SPACED.match(text, at) or _RUN.match(text, at)
    if match is None:
        return None
    written = match.group()
    value = decimal(written.replace(" ", "").replace("'", ""), grouped)
    gap = _AFTER_WHOLE.match(text, match.end()) if written.isdigit() else None
    rest = _fraction(text, gap.end()) if gap else None
    if rest is not None and rest.value < 1:
        return Numeral(value + rest.value, rest.end)
    return Numeral(value, match.end())


def _fraction(text: str, at: int) -> Numeral | None:
    vulgar = _VULGAR.match(text, at)
    if vulgar:
        return Numeral(unicodedata.numeric(vulgar.group()), vulgar.end())
    match = _FRACTION.match(text, at)
    if match is None:
        return None
    if int(match[2]) == 0:
        raise NumeralFault("quantity-none", match.group())
    return Numeral(int(match[1]) / int(match[2]), match.end())


def decimal(written: str, grouped: bool = True) -> float:
    """Return the value of digits with commas and points. Raises NumeralFault where they can be read in two ways.

    A comma before exactly three digits parts thousands; a point there may be either, so it is refused, and so is
    `1,5`, which is one and a half to some and a list of two to others.
    """
    if len(written) > 24:
        raise NumeralFault("quantity-too-large", written)
    signs = [sign for sign in written if sign in ".,"]
    if not signs:
        return _bounded(written, written)
    head, _, tail = written.rpartition(signs[-1])
    if len(signs) == 1:
        return _one_sign(written, head, signs[0], tail, grouped)
    if len(set(signs)) == 1:
        whole, tail = written, ""
    elif len(set(signs[:-1])) == 1 and signs[-1] != signs[0]:
        whole = head
    else:
        raise NumeralFault("quantity-none", written)
    first, *groups = re.split("[.,]", whole)
    if not (1 <= len(first) <= 3 and all(len(group) == 3 for group in groups)):
        raise NumeralFault("quantity-none", written)
    return _bounded(f"{first}{''.join(groups)}.{tail}", written)


def _one_sign(written: str, head: str, sign: str, tail: str, grouped: bool) -> float:
    as_decimal = f"{head or '0'}.{tail}"
    led_by_nought = head.strip("0") == ""
    could_part_thousands = grouped and len(tail) == 3 and len(head) <= 3 and not led_by_nought
    if could_part_thousands and sign == ",":
        return _bounded(head + tail, written)
    if could_part_thousands:
        shorter = as_decimal.rstrip("0").rstrip(".")
        readings = (shorter if shorter != as_decimal else as_decimal + "0", head + tail)
        raise NumeralFault("quantity-ambiguous", written, readings)
    if sign == "," and len(head) == len(tail) == 1 and not led_by_nought:
        raise NumeralFault("quantity-ambiguous", written, (as_decimal, f"{head} to {tail}"))
    return _bounded(as_decimal, written)


def _bounded(number: str, written: str) -> float:
    value = float(number)
    if value > MAX_NUMBER:
        raise NumeralFault("quantity-too-large", written)
    return value
