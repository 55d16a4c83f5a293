"""Constants of nature and of measure, each with its unit, source and year."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Constant:
    """One number that comes from outside."""

    value: float
    unit: str
    """Unit of the value; empty for a bare ratio."""
    meaning: str
    source: str
    year: int
    """Year of the source."""


_SP811 = "NIST Special Publication 811, appendix B.8: exact by definition"

# Measures

ICE_POINT_K = Constant(
    273.15, "K", "0 °C on the thermodynamic scale, exact by definition", "BIPM, The SI Brochure, 9th edition", 2019
)
FAHRENHEIT_ICE_POINT = Constant(32.0, "°F", "0 °C on the Fahrenheit scale", _SP811, 2008)
INCH_MM = Constant(25.4, "mm", "one inch", _SP811, 2008)
FOOT_MM = Constant(304.8, "mm", "one foot", _SP811, 2008)
YARD_MM = Constant(914.4, "mm", "one yard", _SP811, 2008)
POUND_KG = Constant(0.45359237, "kg", "one pound avoirdupois", _SP811, 2008)
MILE_KM = Constant(1.609344, "km", "one mile", _SP811, 2008)
NAUTICAL_MILE_KM = Constant(1.852, "km", "one nautical mile", _SP811, 2008)

# Heat

GAS_CONSTANT = Constant(
    8.31446261815324,
    "J/(mol·K)",
    "molar gas constant, exact by definition",
    "BIPM, The SI Brochure, 9th edition",
    2019,
)

# Radiation

FIRST_RADIATION_CONSTANT = Constant(
    1.1910429723971884e-16,
    "W·m²/sr",
    "first radiation constant for spectral radiance, 2hc², exact by definition",
    "CODATA 2018, NIST Special Publication 961",
    2019,
)
SECOND_RADIATION_CONSTANT = Constant(
    1.4387768775039336e-2,
    "m·K",
    "second radiation constant, hc/k, exact by definition",
    "CODATA 2018, NIST Special Publication 961",
    2019,
)
