"""A colour in Munsell's notation as a swatch for the screen.

The notation is looked up in the renotation of 1943 (seen under illuminant C), given the lightness of ASTM D1535,
adapted to the screen's white and written as sRGB. It shows what the notation means, not how the pot was photographed.
"""

from __future__ import annotations

import csv
import math
import re
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

RENOTATION = Path(__file__).with_name("munsell_renotation.csv")
"""The table; `munsell_renotation.md` beside it says where it comes from."""

FAMILIES = ("R", "YR", "Y", "GY", "G", "BG", "B", "PB", "P", "RP")
"""Families of hue in the order of the circle, ten steps each."""

WHITE_C = (0.31006, 0.31616)
"""Chromaticity of illuminant C, for which the renotation holds (CIE 15, 2° observer)."""
WHITE_D65 = (0.3127, 0.3290)
"""Chromaticity of the screen's white, D65 (IEC 61966-2-1)."""

BRADFORD = np.array([[0.8951, 0.2664, -0.1614], [-0.7502, 1.7135, 0.0367], [0.0389, -0.0685, 1.0296]])
"""XYZ to the sharpened cone responses in which whites are exchanged (Lam 1985, the Bradford transform)."""
TO_SRGB = np.array([[3.2406, -1.5372, -0.4986], [-0.9689, 1.8758, 0.0415], [0.0557, -0.2040, 1.0570]])
"""XYZ under D65 to linear sRGB (IEC 61966-2-1:1999)."""

_NOTATION = re.compile(r"(?:(\d+(?:\.\d+)?)\s*(R|YR|Y|GY|G|BG|B|PB|P|RP)\s*(\d+(?:\.\d+)?)\s*/\s*(\d+(?:\.\d+)?))")
_GREY = re.compile(r"N\s*(\d+(?:\.\d+)?)\s*/?\s*0?")


class Notation(NamedTuple):
    """A Munsell colour taken apart."""

    hue: float
    """Steps round the circle from 0 (10RP) to 100, 5R being 5 and 10YR 20; of no meaning for greys."""
    value: float
    """Lightness, 0 black to 10 white."""
    chroma: float
    """Distance from grey."""


@dataclass(frozen=True, slots=True)
class Swatch:
    """A colour for the screen."""

    notation: str
    """As it was written."""
    rgb: tuple[int, int, int]
    """sRGB, 0 to 255 each."""
    within_screen: bool
    """False where the colour is stronger than a screen can show and was cut back."""

    @property
    def hex(self) -> str:
        """The colour as SVG and CSS write it."""
        return "#{:02x}{:02x}{:02x}".format(*self.rgb)


def swatch(notation: str) -> Swatch | None:
    """Give the swatch of a Munsell colour; None where the notation cannot be read or lies beyond the renotation.

    >>> swatch("10YR 7/3").hex
    '#c2aa8b'
    """
    parts = read_notation(notation)
    place = None if parts is None else chromaticity(parts)
    if parts is None or place is None:
        return None
    linear = TO_SRGB @ _adapted(_xyz(place, luminance(parts.value) / 100.0))
    within = bool(np.all(linear > -0.0005) and np.all(linear < 1.0005))
    red, green, blue = (round(255.0 * _companded(float(part))) for part in linear)
    return Swatch(notation, (red, green, blue), within)


def read_notation(text: str) -> Notation | None:
    """Take a notation such as `7.5YR 5/4` or `N 4` apart; None where it cannot be read.

    >>> read_notation("7.5YR 5/4")
    Notation(hue=17.5, value=5.0, chroma=4.0)
    """
    upper = text.strip().upper()
    if grey := _GREY.fullmatch(upper):
        value = float(grey[1])
        return Notation(0.0, value, 0.0) if value <= 10.0 else None
    if not (found := _NOTATION.fullmatch(upper)):
        return None
    step, value, chroma = float(found[1]), float(found[3]), float(found[4])
    if step > 10.0 or value > 10.0:
        return None
    return Notation((FAMILIES.index(found[2]) * 10.0 + step) % 100.0, value, chroma)


def luminance(value: float) -> float:
    """Give the luminous reflectance Y, 0 to 100, of a Munsell value, 0 to 10.

    Y = 1.1914V − 0.22533V² + 0.23352V³ − 0.020484V⁴ + 0.00081939V⁵. The renotation of 1943 counts Y against
    magnesium oxide and comes out lighter by 1/0.975. Source: ASTM D1535.

    >>> round(luminance(7.0), 4)
    41.9854
    """
    return 1.1914 * value - 0.22533 * value**2 + 0.23352 * value**3 - 0.020484 * value**4 + 0.00081939 * value**5


def chromaticity(colour: Notation) -> tuple[float, float] | None:
    """Look up a colour's chromaticity x, y under illuminant C; None where it lies beyond the renotation.

    Straight between hues and chromas of the table, and between values in step with their reflectance (ASTM D1535).
    The table goes from value 1 to 9; darker and lighter colours take the chromaticity of its end.
    """
    if colour.chroma == 0.0:
        return WHITE_C
    value = min(max(colour.value, 1.0), 9.0)
    below, above = math.floor(value), math.ceil(value)
    dark, light = _at_value(colour.hue, below, colour.chroma), _at_value(colour.hue, above, colour.chroma)
    if dark is None or light is None or below == above:
        return dark if below == above else None
    share = (luminance(value) - luminance(below)) / (luminance(above) - luminance(below))
    return _between(dark, light, share)


def _at_value(hue: float, value: int, chroma: float) -> tuple[float, float] | None:
    """Look up a chromaticity at a whole value, between hues and chromas in even steps."""
    before = math.floor(hue / 2.5) * 2.5
    share = (hue - before) / 2.5
    one = _at_hue(before % 100.0, value, chroma)
    if share == 0.0 or one is None:
        return one
    other = _at_hue((before + 2.5) % 100.0, value, chroma)
    return None if other is None else _between(one, other, share)


def _at_hue(hue: float, value: int, chroma: float) -> tuple[float, float] | None:
    """Look up a chromaticity at a hue and a value of the table, between its even chromas and grey."""
    weak = math.floor(chroma / 2.0) * 2
    share = (chroma - weak) / 2.0
    one = WHITE_C if weak == 0 else _renotation().get((hue, value, weak))
    if share == 0.0 or one is None:
        return one
    other = _renotation().get((hue, value, weak + 2))
    return None if other is None else _between(one, other, share)


def _between(one: tuple[float, float], other: tuple[float, float], share: float) -> tuple[float, float]:
    """Go a share of the straight way from one chromaticity to another."""
    return one[0] + share * (other[0] - one[0]), one[1] + share * (other[1] - one[1])


@cache
def _renotation() -> Mapping[tuple[float, int, int], tuple[float, float]]:
    """Read the table: chromaticity x, y by hue on the circle, value and chroma."""
    with RENOTATION.open(encoding="utf-8", newline="") as table:
        rows = list(csv.DictReader(table))
    found: dict[tuple[float, int, int], tuple[float, float]] = {}
    for row in rows:
        place = read_notation(f"{row['hue']} {row['value']}/{row['chroma']}")
        if place is not None:
            found[place.hue, int(place.value), int(place.chroma)] = float(row["x"]), float(row["y"])
    return found


def _xyz(place: tuple[float, float], luminous: float) -> NDArray[np.float64]:
    """Make tristimulus values of a chromaticity and a luminous reflectance."""
    x, y = place
    return np.array([x / y, 1.0, (1.0 - x - y) / y]) * luminous


def _adapted(xyz: NDArray[np.float64]) -> NDArray[np.float64]:
    """Exchange illuminant C for the screen's white."""
    ratio = (BRADFORD @ _xyz(WHITE_D65, 1.0)) / (BRADFORD @ _xyz(WHITE_C, 1.0))
    return np.asarray(np.linalg.solve(BRADFORD, ratio * (BRADFORD @ xyz)))


def _companded(linear: float) -> float:
    """Bend linear light into sRGB's scale, cut to what a screen can show (IEC 61966-2-1)."""
    light = min(max(linear, 0.0), 1.0)
    return 12.92 * light if light <= 0.0031308 else 1.055 * light ** (1.0 / 2.4) - 0.055
