"""Units: how they are written, and what they are in the unit the program reckons with.

Inside the program there is one unit for each kind of quantity (°C, minutes, mm, kg …); conversion happens here, at
the door. Definitions are those of the SI Brochure and of NIST SP 811; the numbers stand in `constants.py`.
"""

from __future__ import annotations

import re
from dataclasses import dataclass

from builder.base.constants import (
    FAHRENHEIT_ICE_POINT,
    FOOT_MM,
    ICE_POINT_K,
    INCH_MM,
    MILE_KM,
    NAUTICAL_MILE_KM,
    POUND_KG,
    YARD_MM,
)


@dataclass(frozen=True, slots=True)
class Unit:
    """One unit of one kind: canonical = (value − zero) · times / per."""

    symbol: str
    """The standard symbol, as pages show it."""
    words: tuple[str, ...]
    """Other ways to write it, in lower case."""
    times: float = 1.0
    per: float = 1.0
    zero: float = 0.0
    """The reading on this scale at the canonical zero; not 0 for °F and K alone."""

    def canonical(self, value: float) -> float:
        """Return a value of this unit in the canonical unit of its kind."""
        return (value - self.zero) * self.times / self.per

    def of_canonical(self, canonical: float) -> float:
        """Return a canonical value in this unit."""
        return canonical * self.per / self.times + self.zero


@dataclass(frozen=True, slots=True)
class Kind:
    """What a quantity measures, and the units it may be written in."""

    name: str
    words: str
    """How a message names it: `a temperature`."""
    units: tuple[Unit, ...]
    """The canonical unit first."""
    example: str
    """A value as a potter would write it."""
    compound: bool = False
    """May be written in two units: `2 lb 3 oz`."""
    grouped: bool = True
    """May reach thousands; where it cannot, a comma or point is always the decimal sign."""

    @property
    def canonical(self) -> str:
        """Symbol of the unit that the program reckons with."""
        return self.units[0].symbol


_CELSIUS = ("c", "℃", "deg c", "degc", "degree c", "degrees c", "celsius", "° celsius", "°celsius", "deg celsius",
            "degree celsius", "degrees celsius", "centigrade", "degrees centigrade", "deg. c", "° c")  # fmt: skip
_FAHRENHEIT = ("f", "℉", "deg f", "degf", "degree f", "degrees f", "fahrenheit", "° fahrenheit", "°fahrenheit",
               "deg fahrenheit", "degree fahrenheit", "degrees fahrenheit", "deg. f", "° f")  # fmt: skip
_KELVIN = ("kelvin", "kelvins", "deg k", "°k")
_SECOND = ("sec", "secs", "second", "seconds", '"')
_MINUTE = ("mins", "minute", "minutes", "m", "'")
_HOUR = ("hr", "hrs", "hour", "hours")

_STEPS = (
    Unit("°C", _CELSIUS),
    Unit("°F", _FAHRENHEIT, 5, 9),
    Unit("K", _KELVIN),
)
_TIMES = (
    Unit("min", _MINUTE),
    Unit("s", _SECOND, 1, 60),
    Unit("h", _HOUR, 60),
    Unit("d", ("day", "days"), 24 * 60),
    Unit("week", ("weeks", "wk", "wks"), 7 * 24 * 60),
)


def _rates() -> tuple[Unit, ...]:
    """Every step of temperature by every short unit of time; a step of a °F is 5/9 °C, without the 32."""
    return tuple(
        Unit(
            f"{step.symbol}/{time.symbol}",
            tuple(
                f"{a}/{b}"
                for a in (step.symbol.lower(), *step.words)
                for b in (time.symbol, *time.words)
                if b.isalpha()
            ),
            step.times * time.per,
            step.per * time.times,
        )
        for step in _STEPS
        for time in _TIMES[:3]
    )


_ALL = (
    Kind(
        "temperature",
        "a temperature",
        (
            Unit("°C", _CELSIUS),
            Unit("°F", _FAHRENHEIT, 5, 9, FAHRENHEIT_ICE_POINT.value),
            Unit("K", _KELVIN, zero=ICE_POINT_K.value),
        ),
        "785 °C",
    ),
    Kind("temperature_step", "a difference of temperatures", _STEPS, "5 °C"),
    Kind("rate", "a rate of heating", _rates(), "40 °C/min"),
    Kind("time", "a length of time", _TIMES, "45 min", compound=True),
    Kind(
        "length",
        "a length",
        (
            Unit("mm", ("millimetre", "millimetres", "millimeter", "millimeters", "mms")),
            Unit("cm", ("centimetre", "centimetres", "centimeter", "centimeters", "cms"), 10),
            Unit("m", ("metre", "metres", "meter", "meters"), 1000),
            Unit("µm", ("um", "micron", "microns", "micrometre", "micrometres"), 1, 1000),
            Unit("in", ("inch", "inches", '"', "''"), INCH_MM.value),
            Unit("ft", ("foot", "feet", "'"), FOOT_MM.value),
            Unit("yd", ("yard", "yards", "yds"), YARD_MM.value),
        ),
        "6 mm",
        compound=True,
    ),
    Kind(
        "mass",
        "a mass",
        (
            Unit("kg", ("kilogram", "kilograms", "kilogramme", "kilogrammes", "kilo", "kilos", "kgs")),
            Unit("g", ("gram", "grams", "gramme", "grammes", "gm", "gms", "gr"), 1, 1000),
            Unit("mg", ("milligram", "milligrams"), 1, 1_000_000),
            Unit("t", ("tonne", "tonnes"), 1000),
            Unit("lb", ("lbs", "pound", "pounds", "#"), POUND_KG.value),
            Unit("oz", ("ounce", "ounces", "ozs"), POUND_KG.value, 16),
        ),
        "14 kg",
        compound=True,
    ),
    Kind("share", "a share", (Unit("%", ("percent", "per cent", "pct", "pc")),), "14 %", grouped=False),
    Kind(
        "speed",
        "a speed",
        (
            Unit("km/h", ("kmh", "kph", "kmph", "km/hr", "km/hour", "kilometres/hour", "kilometers/hour")),
            Unit("m/s", ("mps", "m/sec", "m/second", "metres/second", "meters/second"), 18, 5),
            Unit("mph", ("mi/h", "mi/hr", "mile/hour", "miles/hour", "miles/hr"), MILE_KM.value),
            Unit("kn", ("kt", "kts", "knot", "knots"), NAUTICAL_MILE_KM.value),
        ),
        "8 km/h",
    ),
    Kind(
        "voltage",
        "a voltage",
        (
            Unit("mV", ("millivolt", "millivolts")),
            Unit("µV", ("uv", "microvolt", "microvolts"), 1, 1000),
            Unit("V", ("volt", "volts"), 1000),
        ),
        "31.21 mV",
        grouped=False,
    ),
    Kind(
        "emissivity",
        "an emissivity",
        (Unit("", ()), Unit("%", ("percent", "per cent"), 1, 100)),
        "0.95",
        grouped=False,
    ),
)

KINDS: dict[str, Kind] = {kind.name: kind for kind in _ALL}
"""Every kind of quantity by its name, with its units."""

_SPACES = re.compile(r"\s+")
_SLASH = re.compile(r" ?/ ?| (?:per|an|a) ")
DEGREE_SIGNS = "°º˚∘⁰ᵒ"
"""The sign of degrees, and what keyboards and loggers write in its place."""
_LOOKALIKES = str.maketrans({**dict.fromkeys(DEGREE_SIGNS, "°"), "µ": "μ",
                             "′": "'", "’": "'", "‘": "'", "″": '"', "”": '"', "“": '"'})  # fmt: skip


def plain_unit(words: str) -> str:
    """Return a unit's words in one spelling: lower case, single spaces, true degree sign, `per` as a slash.

    >>> plain_unit("º C  per Hour")
    '° c/hour'
    """
    text = _SPACES.sub(" ", words.translate(_LOOKALIKES).casefold()).strip()
    return _SLASH.sub("/", text).strip(" .").replace("./", "/")


def _spellings(kind: Kind) -> dict[str, Unit]:
    written = ((word, unit) for unit in kind.units for word in (unit.symbol, *unit.words))
    return {spelling: unit for word, unit in written for spelling in (word, plain_unit(word))}


_BY_WORD: dict[str, dict[str, Unit]] = {name: _spellings(kind) for name, kind in KINDS.items()}


def find_unit(words: str, kind: str) -> Unit | None:
    """Return the unit of a kind that is written so, or None.

    >>> find_unit("inches", "length").symbol
    'in'
    """
    spellings = _BY_WORD[kind]
    return spellings.get(words) or spellings.get(plain_unit(words))


def kinds_of(words: str) -> tuple[Kind, ...]:
    """Return the kinds of quantity that have a unit written so."""
    plain = plain_unit(words)
    return tuple(kind for name, kind in KINDS.items() if plain in _BY_WORD[name])


def spellings(kind: str) -> tuple[str, ...]:
    """Return every way in which a unit of the kind may be written, in lower case, for a suggestion."""
    return tuple(word for word in _BY_WORD[kind] if word == plain_unit(word))


def _unit(words: str, kind: str) -> Unit:
    unit = find_unit(words, kind)
    if unit is None:
        raise ValueError(f"{words!r} is not a unit of {kind}")
    return unit


def to_canonical(value: float, unit: str, kind: str) -> float:
    """Return a value in the canonical unit of its kind. Raises ValueError for a unit the kind does not have.

    >>> to_canonical(212, "°F", "temperature"), to_canonical(18, "°F/min", "rate"), to_canonical(0.25, "in", "length")
    (100.0, 10.0, 6.35)
    """
    return _unit(unit, kind).canonical(value)


def from_canonical(value: float, unit: str, kind: str) -> float:
    """Return a canonical value in another unit of its kind. Raises ValueError for a unit the kind does not have.

    >>> from_canonical(100, "°F", "temperature")
    212.0
    """
    return _unit(unit, kind).of_canonical(value)
