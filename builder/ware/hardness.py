"""Scratch hardness: what scratches a piece and what does not, as a band on Mohs' scale."""

from __future__ import annotations

import re
from typing import NamedTuple


class Scratcher(NamedTuple):
    """Something that a potter scratches with."""

    name: str
    low: float
    high: float
    """Its hardness on Mohs' scale; equal where it is a mineral of the scale."""
    words: str
    """Pattern of the words for it."""


TOOLS_SOURCE = "common tables of the field, as in Rice 1987, Pottery Analysis; from memory"
SCRATCHERS: tuple[Scratcher, ...] = (
    Scratcher("fingernail", 2.0, 2.5, r"(?:finger\s*)?nails?(?!\s*of)"),
    Scratcher("copper", 3.0, 3.0, r"copper|penny|pennies|coins?"),
    Scratcher("knife", 5.0, 5.5, r"knife|knives|blade|steel needle|needle"),
    Scratcher("window glass", 5.0, 5.5, r"glass"),
    Scratcher("steel file", 6.0, 7.0, r"file"),
    *(
        Scratcher(name, float(number), float(number), name)
        for number, name in enumerate(
            ("talc", "gypsum", "calcite", "fluorite", "apatite", "feldspar", "quartz", "topaz", "corundum", "diamond"),
            1,
        )
    ),
)
"""The tools, and the ten minerals that the scale is made of."""

_SOFTEST, _HARDEST = 1.0, 10.0
_CLAUSES = re.compile(r"[,;.]|\b(?:and|but|yet)\b")
_NOT = re.compile(r"\b(?:no|not|never|nothing|doesn['’]?t|does not|won['’]?t|cannot|can['’]?t|isn['’]?t|hardly)\b")
_MOHS = re.compile(r"\bmohs\D{0,12}(\d+(?:\.\d+)?)(?:\s*(?:to|-|–)\s*(\d+(?:\.\d+)?))?")


class Band(NamedTuple):
    """Where a piece lies on Mohs' scale, which is an order and no measure: 4 is not twice 2."""

    low: float
    high: float

    @property
    def contradicts(self) -> bool:
        """Tell whether something softer scratched it than something that did not."""
        return self.low > self.high


def mohs_band(words: str) -> Band | None:
    """Read a potter's words for what scratches a piece; None where they name nothing of known hardness.

    What scratches it is harder than it, what does not is no harder: the band runs from the hardest that did not (at its
    softest) to the softest that did (at its hardest).

    >>> mohs_band("fingernail no, copper yes"), mohs_band("Mohs 3 to 4"), mohs_band("very hard")
    (Band(low=2.0, high=3.0), Band(low=3.0, high=4.0), None)
    """
    told = words.casefold()
    direct = _MOHS.search(told)
    if direct is not None:
        low, high = float(direct[1]), float(direct[2] or direct[1])
        return Band(low, high) if _SOFTEST <= low <= high <= _HARDEST else None
    low, high, known = _SOFTEST, _HARDEST, False
    for clause in _CLAUSES.split(told):
        denied = _NOT.search(clause) is not None
        for tool in SCRATCHERS:
            if re.search(rf"\b(?:{tool.words})\b", clause):
                known = True
                low, high = (max(low, tool.low), high) if denied else (low, min(high, tool.high))
    return Band(low, high) if known else None


def band_words(band: Band) -> str:
    """Say a band in words.

    >>> band_words(Band(2.0, 3.0)), band_words(Band(1.0, 2.5)), band_words(Band(5.0, 10.0))
    ('between 2 and 3 on Mohs’ scale', '2.5 or less on Mohs’ scale', '5 or more on Mohs’ scale')
    """
    if band.contradicts:
        return "the scratches contradict one another"
    if band.low == band.high:
        return f"{band.low:g} on Mohs’ scale"
    if band.low == _SOFTEST:
        return f"{band.high:g} or less on Mohs’ scale"
    if band.high == _HARDEST:
        return f"{band.low:g} or more on Mohs’ scale"
    return f"between {band.low:g} and {band.high:g} on Mohs’ scale"
