"""The colour of the glow as a temperature: two published scales, and what they are worth together."""

from __future__ import annotations

import re
from typing import NamedTuple

WORTH_C = (50.0, 100.0)
"""What a temperature read from the glow is worth, ± °C: the scales differ by so much, and eyes and daylight more."""


class Shade(NamedTuple):
    """One line of a scale."""

    name: str
    low_c: float
    high_c: float
    """Equal where the scale prints one value."""


class Scale(NamedTuple):
    """One published scale of the colours of hot iron, by which potters read a fire."""

    author: str
    source: str
    shades: tuple[Shade, ...]


CHAPMAN = Scale(
    "Chapman 1972",
    "Chapman, Workshop Technology, part 1, 5th edition 1972",
    (
        Shade("black red", 426.0, 593.0),
        Shade("very dark red", 594.0, 704.0),
        Shade("dark red", 705.0, 814.0),
        Shade("cherry red", 815.0, 870.0),
        Shade("light cherry red", 871.0, 981.0),
        Shade("orange", 982.0, 1092.0),
        Shade("yellow", 1093.0, 1258.0),
    ),
)
STIRLING = Scale(
    "Stirling 1905",
    "Stirling Consolidated Boiler Company, A Book of Steam for Engineers, 1905, page 50",
    (
        Shade("red just visible", 525.0, 525.0),
        Shade("dull red", 699.0, 699.0),
        Shade("dull cherry red", 800.0, 800.0),
        Shade("full cherry red", 900.0, 900.0),
        Shade("clear cherry red", 1000.0, 1000.0),
        Shade("deep orange", 1100.0, 1100.0),
        Shade("clear orange", 1200.0, 1200.0),
    ),
)
SCALES = (CHAPMAN, STIRLING)
"""Both scales; neither is of clay, and they disagree."""

_FAMILIES = ("cherry", "yellow", "orange", "red")
"""Colours in the order in which a shade's name is asked for them: a cherry red is a cherry."""
_DENIED = re.compile(r"\b(?:no|not|never|without)\s+(?:\w+\s+)?$")


class Read(NamedTuple):
    """What one scale says of a colour."""

    scale: Scale
    shades: tuple[Shade, ...]

    @property
    def low_c(self) -> float:
        """The coolest that it says, °C."""
        return min(shade.low_c for shade in self.shades)

    @property
    def high_c(self) -> float:
        """The hottest that it says, °C."""
        return max(shade.high_c for shade in self.shades)


def read_glow(words: str) -> tuple[Read, ...]:
    """Give what each scale says of a potter's colour; none for a colour that neither has.

    A scale that has the very shade is taken at it; else all its shades of that colour are: `dark red` is one shade of
    Chapman's, and any red of Stirling's.

    >>> [(read.scale.author, read.low_c, read.high_c) for read in read_glow("Dark red")]
    [('Chapman 1972', 705.0, 814.0), ('Stirling 1905', 525.0, 699.0)]
    """
    told = f" {' '.join(re.findall(r'[a-z]+', words.casefold()))} "
    found = (Read(scale, _shades(scale, told)) for scale in SCALES)
    return tuple(read for read in found if read.shades)


def glow_range_c(reads: tuple[Read, ...]) -> tuple[float, float] | None:
    """Give what all scales say together, widened by the least that such a reading is worth, °C; None without any.

    >>> glow_range_c(read_glow("orange"))
    (932.0, 1250.0)
    """
    if not reads:
        return None
    return min(read.low_c for read in reads) - WORTH_C[0], max(read.high_c for read in reads) + WORTH_C[0]


def _shades(scale: Scale, told: str) -> tuple[Shade, ...]:
    """Give the shade of a scale that the words name, the longest name first, or else all of the colours named."""
    for shade in sorted(scale.shades, key=lambda one: -len(one.name)):
        if len(shade.name.split()) > 1 and _names(told, shade.name):
            return (shade,)
    families = [family for family in _FAMILIES if _names(told, family)]
    if "cherry" in families and not _names(told.replace(" cherry red ", " cherry "), "red"):
        families = [family for family in families if family != "red"]
    return tuple(shade for shade in scale.shades if _family(shade) in families)


def _names(told: str, name: str) -> bool:
    at = told.find(f" {name} ")
    return at >= 0 and not _DENIED.search(told[: at + 1])


def _family(shade: Shade) -> str:
    return next(family for family in _FAMILIES if family in shade.name)
