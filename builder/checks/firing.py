"""A firing that has been checked: frozen, typed, every value sound. Later stages need not look again."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date

from builder.base.quantity import Quantity
from builder.entries.find import JOINT

ConditionValue = str | tuple[str, ...] | Quantity | int
"""What a condition can be: words, a list of words, a quantity, or a count."""


@dataclass(frozen=True, slots=True)
class Weighed:
    """Three weighings of one piece (ASTM C373 and C20): dry, soaked and wiped, hung in water."""

    dry: Quantity
    soaked: Quantity
    hung: Quantity | None = None


@dataclass(frozen=True, slots=True)
class Marks:
    """The distance between two marks: in wet clay, in dry clay, after the fire."""

    wet: Quantity | None = None
    dry: Quantity | None = None
    fired: Quantity | None = None


@dataclass(frozen=True, slots=True)
class Piece:
    """One pot, or `count` alike ones, and how it came out. None means not recorded."""

    name: str
    survival: str
    count: int = 1
    form: str | None = None
    carbon: str | None = None
    paint: str | None = None
    ring: str | None = None
    colour: str | None = None
    """Munsell notation as written, its form checked."""
    hardness: str | None = None
    weighed: Weighed | None = None
    marks: Marks | None = None
    remark: str | None = None


@dataclass(frozen=True, slots=True)
class CalibrationPoint:
    """One temperature that was known, and what a thermometer showed at it."""

    shown: Quantity
    known: Quantity


@dataclass(frozen=True, slots=True)
class Probe:
    """One thermometer: what it is and what is known of it."""

    name: str
    instrument: str | None = None
    """`thermocouple`, `spot thermometer` or `other`."""
    column: str | None = None
    """In a readings file: the number of its column, from 1, or the words of its header."""
    unit: str | None = None
    """Unit of its bare numbers in a readings file: °C, °F or mV."""
    type: str | None = None
    """Letter of a thermocouple's type."""
    tolerance: str | None = None
    """Tolerance class: `IEC 1`, `IEC 2`, `IEC 3`, `ASTM standard`, `ASTM special`."""
    cold_junction: Quantity | None = None
    emissivity_set: Quantity | None = None
    emissivity: Quantity | None = None
    background: Quantity | None = None
    """What the ware reflects to a spot thermometer: the temperature of the surroundings it sees."""
    limit: Quantity | None = None
    """The highest temperature it can show."""
    accuracy: Quantity | None = None
    """The maker's ± in degrees, where no class is named."""
    accuracy_share: Quantity | None = None
    """The maker's ± as a share of the reading in °C."""
    resolution: Quantity | None = None
    position: str | None = None
    calibrated: tuple[CalibrationPoint, ...] = ()
    """The potter's own calibration: one point for an offset, more for a straight line."""


@dataclass(frozen=True, slots=True)
class RawReadings:
    """The readings as the potter gave them, before anything is made of them."""

    time: str | None
    """`elapsed` or `clock`; None where the file has full timestamps and says it itself."""
    lit: Quantity | None
    """When the main fire was lit, as minutes after midnight (clock) or as elapsed time on the log's own clock."""
    probes: tuple[Probe, ...]
    ware_probe: str
    """Name of the probe that stands for the ware."""
    rows: tuple[tuple[int, str], ...] = ()
    """Inline rows: line number in the entry, text."""
    file: str | None = None
    """Name of the readings file in the entry's folder."""
    time_column: str | None = None
    """In a readings file: number (from 1) or header of the time's column."""
    rows_column: int = 1
    """Column of the entry at which the inline rows start, for places."""
    bare_unit: str | None = None
    """Unit of numbers of which neither probe nor log says one: the group's own for temperatures, where declared."""


@dataclass(frozen=True, slots=True)
class Witness:
    """What else told of the heat, in the potter's words."""

    cones_down: tuple[str, ...] = ()
    cones_standing: tuple[str, ...] = ()
    glow: str | None = None


@dataclass(frozen=True, slots=True)
class Photo:
    """A picture beside the entry."""

    file: str
    alt: str
    caption: str | None = None
    credit: str | None = None


@dataclass(frozen=True, slots=True)
class Firing:
    """One firing as its entry tells it, checked."""

    slug: str
    """Name of its folder: the firing's identity and its address on the site."""
    file: str
    """Path of its entry from the project's folder, with forward slashes."""
    title: str
    date: date
    potter: str
    """Key under `potters` in the settings."""
    method: str
    """Key under `methods` in the settings."""
    pieces: tuple[Piece, ...]
    story: str
    """The Markdown after the front matter, not yet cleaned."""
    helpers: tuple[str, ...] = ()
    """Others at the fire: keys under `potters`, but for those who are shown as nobody."""
    place: str | None = None
    ware: str | None = None
    lit: str | None = None
    """Clock time of lighting as `HH:MM`, where it was recorded."""
    conditions: Mapping[str, ConditionValue] = field(default_factory=dict)
    """Every recorded condition by its dotted path (`weather.wind`, `clay.body`); absent means not recorded."""
    readings: RawReadings | None = None
    witness: Witness | None = None
    photos: tuple[Photo, ...] = ()
    licence: str | None = None
    source: str = ""
    """Key of the source that it came from, whose own page of it made its story HTML; empty for the archive's own."""

    @property
    def own_name(self) -> str:
        """Its lasting name in its own group's archive: the name of its folder there."""
        return self.slug.partition(JOINT)[2] if self.source else self.slug

    @property
    def painted(self) -> bool:
        """False where the entry says that its ware carries no paint; then paint is not judged."""
        paint = self.conditions.get("surface.paint")
        return not (isinstance(paint, str) and paint.strip().casefold() in {"none", "no", "no paint"})
