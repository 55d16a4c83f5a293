"""How large a value can be, and how large it mostly is: past the first is an error, past the second a question.

A limit whose source is PRACTICE is a judgement of what hand-built ware and small wood fires come to; nobody has
published it, and a firing that stands outside it is published with a question beside it.
"""

from __future__ import annotations

from dataclasses import dataclass

from builder.base.quantity import Quantity, parse_quantity
from builder.base.units import KINDS
from builder.checks.fault import Fault, either, shown
from builder.entries.fields import Field, walk

PRACTICE = "common practice, no source"
BY_DEFINITION = "by definition"


@dataclass(frozen=True, slots=True)
class Limit:
    """The range of one field, in the field's own unit."""

    what: str
    """What the value measures, as a sentence names it: `the thickness of a wall`."""
    possible: tuple[str, str]
    """Outside it lies an error."""
    usual: tuple[str, str]
    """Outside it lies a warning."""
    reason: str
    """Why, as the end of a sentence."""
    source: str = PRACTICE


LIMITS: dict[str, Limit] = {
    "weather.air": Limit(
        "the temperature of the air", ("-40 °C", "55 °C"), ("-15 °C", "40 °C"),
        "nobody tends a fire out of doors beyond that"),
    "weather.humidity": Limit(
        "relative humidity", ("0 %", "100 %"), ("5 %", "100 %"),
        "it is a share of what the air can hold", BY_DEFINITION),
    "weather.wind": Limit(
        "the speed of the wind", ("0 km/h", "150 km/h"), ("0 km/h", "45 km/h"),
        "an open fire in a stronger wind is out of hand"),
    "weather.dry_days": Limit(
        "a spell without rain", ("0 days", "400 days"), ("0 days", "120 days"),
        "a longer one is rare where pots are fired"),
    "clay.temper_share": Limit(
        "the share of temper", ("0 %", "90 %"), ("0 %", "50 %"),
        "with more of it a body no longer holds together"),
    "clay.wall": Limit(
        "the thickness of a wall", ("1 mm", "60 mm"), ("2 mm", "40 mm"),
        "a thinner one does not stand up, and a thicker one bursts in an open fire"),
    "clay.dried": Limit(
        "the time of drying", ("1 min", "3650 d"), ("6 h", "365 d"),
        "ware dries in days or weeks"),
    "fuel.mass": Limit(
        "the mass of one firing's wood", ("0.05 kg", "20000 kg"), ("0.5 kg", "2000 kg"),
        "one small fire takes no more"),
    "fuel.moisture": Limit(
        "the water in wood, on its dry mass,", ("0 %", "250 %"), ("4 %", "60 %"),
        "stacked wood dries to about 10 to 20 %, and green wood holds from about 30 % to more than 200 %",
        "Wood Handbook, FPL-GTR-282, chapter 4 (the range of green wood from memory)"),
    "setting.depth": Limit(
        "the depth of a pit", ("0 mm", "5 m"), ("0 mm", "2 m"),
        "a deeper one is not dug by hand for pots"),
    "warm_up.length": Limit(
        "the length of a warm-up", ("0 min", "7 d"), ("1 min", "24 h"),
        "pots are warmed for minutes or hours"),
    "warm_up.pot_temperature": Limit(
        "the temperature of a warmed pot", ("-40 °C", "700 °C"), ("20 °C", "400 °C"),
        "a hotter one is being fired already"),
    "readings.probes.cold_junction": Limit(
        "the temperature of a meter's terminals", ("-40 °C", "100 °C"), ("-10 °C", "60 °C"),
        "a meter does not stand greater heat"),
    "readings.probes.emissivity_set": Limit(
        "the emissivity", ("0.05", "1"), ("0.3", "1"),
        "it is a share of what a black body gives off", BY_DEFINITION),
    "readings.probes.emissivity": Limit(
        "the emissivity", ("0.05", "1"), ("0.3", "1"),
        "it is a share of what a black body gives off, and handbooks print none of clay or brick below 0.39",
        BY_DEFINITION),
    "readings.probes.background": Limit(
        "the temperature of what the ware mirrors", ("-80 °C", "1500 °C"), ("-60 °C", "1300 °C"),
        "a clear night sky is the coldest, the fire itself the hottest"),
    "readings.probes.limit": Limit(
        "the highest temperature of a thermometer", ("30 °C", "2500 °C"), ("200 °C", "1850 °C"),
        "with less it could not follow a fire, and none in use shows more"),
    "readings.probes.accuracy": Limit(
        "the maker's plus-or-minus", ("0.01 °C", "150 °C"), ("0.1 °C", "40 °C"),
        "thermometers for fire are sold with a few degrees"),
    "readings.probes.accuracy_share": Limit(
        "the maker's plus-or-minus", ("0 %", "50 %"), ("0 %", "10 %"),
        "thermometers for fire are sold with a few percent"),
    "readings.probes.resolution": Limit(
        "the smallest step of a thermometer", ("0.001 °C", "100 °C"), ("0.01 °C", "25 °C"),
        "a coarser one would not show a firing"),
    **{f"readings.probes.calibrated.{name}": Limit(
        "a temperature of a calibration", ("-80 °C", "1700 °C"), ("-30 °C", "1300 °C"),
        "thermometers are checked between ice and the heat of a kiln")
       for name in ("shown", "known")},
    "pieces.count": Limit(
        "the number of pieces in one line", ("1", "500"), ("1", "100"),
        "more do not go into one small fire"),
    **{f"pieces.weighed.{name}": Limit(
        "the mass of a pot", ("0.1 g", "200 kg"), ("1 g", "60 kg"),
        "a heavier one is not lifted by hand")
       for name in ("dry", "soaked", "hung")},
    **{f"pieces.marks.{name}": Limit(
        "the distance between two marks", ("1 mm", "2 m"), ("10 mm", "1 m"),
        "both marks stand on one piece")
       for name in ("wet", "dry", "fired")},
}  # fmt: skip
"""The limit of every quantity and count, by dotted path."""

MOST_PIECES = 1000
"""Pieces in one firing, counted; more do not go into one small fire (common practice, no source)."""

MOST_ITEMS = {"pieces": 300, "photos": 60, "readings.probes": 16, "readings.probes.calibrated": 50}
"""Lines of a list; a page with more could not be read."""

MOST_WORDS = 24
"""Words in one list of words."""

MOST_ROWS = 5000
"""Readings written into an entry: one a second for an hour and more; longer logs are files."""

MOST_READINGS_BYTES = 20_000_000
"""Largest readings file: a day of eight probes read every second is about 6 MB."""

_LONGEST = {
    "title": 160, "pieces.name": 80, "pieces.remark": 1000, "photos.alt": 500, "photos.caption": 500,
    "readings.probes.name": 60, "readings.probes.column": 120, "readings.time_column": 120,
}  # fmt: skip
_LONGEST_ELSE = 240


def longest_text(path: str) -> int:
    """Return how many characters a text field takes."""
    return _LONGEST.get(path, _LONGEST_ELSE)


@dataclass(frozen=True, slots=True)
class Bounds:
    """A limit made ready for comparing: canonical numbers."""

    limit: Limit
    kind: str
    """Kind of quantity; empty for a count."""
    low: float
    high: float
    usual_low: float
    usual_high: float

    def judge(self, value: Quantity | int) -> Fault | None:
        """Say whether a value lies outside what is possible, or outside what is usual, or neither (None)."""
        low, high = (value.low, value.high) if isinstance(value, Quantity) else (value, value)
        if self.usual_low <= low and high <= self.usual_high:
            return None
        limit, other = self.limit, self.other_unit(value)
        if not (self.low <= low and high <= self.high):
            reason = "less than nothing cannot be" if low < 0 <= self.low else limit.reason
            message = f"{self.told(value)} cannot be: {limit.what} is {_between(limit.possible)}; {reason}."
            return Fault("impossible", message, other or "Look at the number and its unit again.")
        message = f"{self.told(value)} is unusual: {limit.what} is mostly {_between(limit.usual)}; {limit.reason}."
        return Fault(
            "unlikely", message, f"{other or 'Look at the number and its unit again.'} If it is right, leave it."
        )

    def told(self, value: Quantity | int) -> str:
        """Show a value as it was written, and converted where that says more."""
        if not isinstance(value, Quantity):
            return f"`{value}`"
        unit = KINDS[self.kind].canonical
        converted = f" ({value.canonical:.4g} {unit})" if unit and unit != value.unit else ""
        return f"{shown(value.raw)}{converted}"

    def other_unit(self, value: Quantity | int) -> str:
        """Suggest the units in which the same number would be usual."""
        if not isinstance(value, Quantity) or value.low != value.high:
            return ""
        meant = [
            f"{value.value:.6g} {unit.symbol}".strip()
            for unit in KINDS[self.kind].units
            if unit.symbol != value.unit and self.usual_low <= unit.canonical(value.value) <= self.usual_high
        ]
        return f"If you meant {either(meant[:3])}, write that." if meant else ""


def _between(ends: tuple[str, str]) -> str:
    low, high = ends
    (number, _, unit), (_, _, other) = low.partition(" "), high.partition(" ")
    return f"{number if unit == other else low} to {high}".replace("-", "−")


def bounds_of(path: str, field: Field) -> Bounds:
    """Make a field's limit ready for comparing. Raises KeyError for a field without a limit (a bug)."""
    limit = LIMITS[path]
    low, high = (_canonical(words, field) for words in limit.possible)
    usual_low, usual_high = (_canonical(words, field) for words in limit.usual)
    return Bounds(limit, field.quantity, low, high, usual_low, usual_high)


def _canonical(words: str, field: Field) -> float:
    if not field.quantity:
        return float(words.partition(" ")[0])
    read = parse_quantity(words, field.quantity)
    if not isinstance(read, Quantity):
        raise ValueError(f"{words!r} is not {KINDS[field.quantity].words}: {read.message}")
    return read.canonical


BOUNDS: dict[str, Bounds] = {
    path: bounds_of(path, field) for path, field in walk() if field.kind in ("quantity", "count")
}
"""Every quantity's and count's limit, ready for comparing."""
