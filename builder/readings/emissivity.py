"""Emissivities that handbooks give for what stands in a fire, as ranges, because the handbooks disagree.

No value for wood ash or a slip, and none for fired clay at red heat between 8 and 14 µm, was found in print, so none is
given.
"""

from __future__ import annotations

from typing import NamedTuple


class Emissivity(NamedTuple):
    """One line of the table."""

    material: str
    low: float
    high: float
    """Bare numbers; equal where one value is printed."""
    band: str
    """`8 to 14 µm`, or `total` (over all wavelengths: only a hint at what a spot thermometer sees)."""
    source: str


_MAKERS = "emissivity tables of spot thermometer makers, 8 to 14 µm column"
_MANUALS = "instrument manuals' tables, which disagree where two values stand"
_TRANSACTIONS = "Transactions in Measurement and Control, vol. 1, emissivity table"

EMISSIVITIES: tuple[Emissivity, ...] = (
    Emissivity("ceramic", 0.95, 0.95, "8 to 14 µm", _MAKERS),
    Emissivity("clay", 0.95, 0.95, "8 to 14 µm", _MAKERS),
    Emissivity("soil", 0.90, 0.98, "8 to 14 µm", _MAKERS),
    Emissivity("sand", 0.90, 0.90, "8 to 14 µm", _MAKERS),
    Emissivity("gravel", 0.95, 0.95, "8 to 14 µm", _MAKERS),
    Emissivity("limestone", 0.98, 0.98, "8 to 14 µm", _MAKERS),
    Emissivity("basalt", 0.70, 0.70, "8 to 14 µm", _MAKERS),
    Emissivity("carbon, not oxidised", 0.80, 0.90, "8 to 14 µm", _MAKERS),
    Emissivity("fired clay, 70 °C", 0.91, 0.91, "total", "Bramson 1968, in a thermography manual"),
    Emissivity("earthenware, matte", 0.93, 0.93, "total", _MANUALS),
    Emissivity("earthenware, glazed", 0.90, 0.90, "total", _MANUALS),
    Emissivity("brick, red and rough, 21 °C", 0.93, 0.93, "total", _MANUALS),
    Emissivity("brick, any", 0.93, 0.96, "total", _MANUALS),
    Emissivity("brick, light buff, 538 °C", 0.80, 0.80, "total", _TRANSACTIONS),
    Emissivity("fire clay, 1371 °C", 0.75, 0.75, "total", _MANUALS),
    Emissivity("lime clay, 1371 °C", 0.43, 0.43, "total", _MANUALS),
    Emissivity("clay, not fired, 20 °C (implausibly low)", 0.39, 0.39, "total", _TRANSACTIONS),
    Emissivity("fire brick, 1000 °C", 0.75, 0.80, "total", _MANUALS),
    Emissivity("brick, grey, 1100 °C", 0.75, 0.75, "total", _MANUALS),
    Emissivity("adobe, 20 °C", 0.90, 0.90, "total", _TRANSACTIONS),
    Emissivity("silica, unglazed", 0.75, 0.80, "total", _MANUALS),
    Emissivity("charcoal powder", 0.96, 0.96, "total", "Bramson 1968, in a thermography manual"),
    Emissivity("candle soot, 20 °C", 0.95, 0.95, "total", "Wolfe and Zissis, in a thermography manual"),
    Emissivity("soil, dry", 0.92, 0.92, "total", _MANUALS),
    Emissivity("sand, over all wavelengths", 0.76, 0.90, "total", _MANUALS),
)
"""What was seen in print; for the page of how figures are worked out."""

WARE = ("ceramic", "clay", "fired clay, 70 °C", "brick, light buff, 538 °C", "fire brick, 1000 °C")
"""The lines that come nearest to a pot in the fire."""


def ware_range() -> tuple[float, float]:
    """Give the lowest and the highest value printed for something like a pot in the fire.

    >>> ware_range()
    (0.75, 0.95)
    """
    lines = [line for line in EMISSIVITIES if line.material in WARE]
    return min(line.low for line in lines), max(line.high for line in lines)
