"""Cells of a table: how a value is written in CSV, and how a cell is kept from running as a formula."""

from __future__ import annotations

import re
from functools import lru_cache

_BARE_NUMBER = re.compile(r"[+-]?\d+([.,]\d+)?\Z")
_FORMULA_STARTS = ("=", "+", "-", "@", "\t", "\r", "\n", "＝", "＋", "－", "＠")
"""What a spreadsheet may take for the beginning of a formula, the full-width signs included (OWASP, CSV injection)."""


def inert(text: str) -> str:
    """Put an apostrophe before a text that a spreadsheet would run as a formula; a bare number is left alone.

    >>> inert("=1+1"), inert("-12"), inert("dry brick")
    ("'=1+1", '-12', 'dry brick')
    """
    if text.startswith(_FORMULA_STARTS) and not _BARE_NUMBER.match(text):
        return f"'{text}"
    return text


@lru_cache(maxsize=4096)
def number_words(value: float, decimals: int) -> str:
    """Write a number with at most so many digits after the point, none of them idle, never a minus before zero.

    >>> number_words(812.0, 1), number_words(-0.04, 1), number_words(0.125, 4)
    ('812', '0', '0.125')
    """
    words = f"{value:.{decimals}f}"
    if decimals:
        words = words.rstrip("0").rstrip(".")
    return "0" if words == "-0" else words
