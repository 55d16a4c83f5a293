"""A place is told as coarsely as the group's rule: coordinates are refused, or rounded before anything sees them."""

from __future__ import annotations

import re

from builder.checks.fault import Fault

_DEGREES = re.compile(r"[-+−]?\d{1,3}[.,]\d{3,}(?!\d)|\d{1,3}[.,]\d+\s*[°º˚]\s*[NSEWO]?", re.IGNORECASE)
"""Decimal degrees by themselves."""

_PAIR = re.compile(r"[-+−]?\d{1,3}[.,]\d+\s*°?\s*[NSEWOnsewo]?\s*[,;/ ]\s*[-+−]?\d{1,3}[.,]\d+(?!\d)")
"""Two numbers with decimals beside one another."""

_OTHER_SYSTEMS = re.compile(
    r"\d{1,3}\s*[°º˚]\s*\d{1,2}(?:[.,]\d+)?\s*['′’]"  # degrees and minutes
    r"|\b[A-HJ-Z]{2}\s?(?:\d{3}\s?\d{3}|\d{4}\s?\d{4}|\d{5}\s?\d{5})\b"  # a national grid
    r"|\b\d{1,2}[C-HJ-NP-X]\s?[A-HJ-NP-Z]{2}\s?\d{2,5}\s?\d{2,5}\b"  # military grid
    r"|\b\d{1,2}[C-HJ-NP-X]\s+\d{5,7}\s+\d{6,8}\b"  # UTM
    r"|\b[23456789CFGHJMPQRVWX]{4,8}\+[23456789CFGHJMPQRVWX]{2,3}\b"  # open location code
    r"|///|\bgeo:|\bhttps?:",
    re.IGNORECASE,
)
"""Ways to tell a spot that cannot be made coarser by leaving off decimals."""


def read_place(text: str, decimals: int | None) -> str | Fault:
    """Take a place in words, its coordinates rounded to the decimals that the group allows, or refuse them.

    >>> read_place("Alder Fen, 52.41237 N 0.11984 E", 1)
    'Alder Fen, 52.4 N 0.1 E'
    """
    other = _OTHER_SYSTEMS.search(text)
    if other is not None:
        return _refused(other.start(), decimals)
    found = _PAIR.search(text) or _DEGREES.search(text)
    if found is None:
        return text
    if decimals is None:
        return _refused(found.start(), decimals)
    return re.sub(r"[-+−]?\d{1,3}[.,]\d+", lambda number: _rounded(number[0], decimals), text)


def _rounded(number: str, decimals: int) -> str:
    value = float(number.replace(",", ".").replace("−", "-"))
    return f"{value:.{decimals}f}"


def _refused(at: int, decimals: int | None) -> Fault:
    """Say that a place is told too exactly, without repeating it: the message may be read by others."""
    message = "The place is told more exactly than this archive publishes."
    degrees = f"write decimal degrees, which are rounded to {decimals} decimals" if decimals is not None else ""
    help_ = "Write it in words, as coarse as the group's rule: a parish, a valley"
    return Fault("place-exact", message, f"{help_}; or {degrees}." if degrees else f"{help_}.", at)
