"""The one definition of an entry's fields, with a sentence each.

Validation, the JSON Schema, the page of fields, the columns of the exports and the write-up form all come
from `FIELDS`. To add a field, add it here; the tests then say where else it is missed.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Field:
    """One field of an entry."""

    name: str
    """Its key."""
    kind: str
    """`text`, `date`, `clock`, `count`, `quantity`, `word`, `words` (one or many open words), `file`, `rows`,
    `munsell`, `licence`, `group` (fields inside) or `list` (a list of such groups)."""
    meaning: str
    """What to write, in one sentence."""
    example: str = ""
    """A value as it would be written."""
    required: bool = False
    quantity: str = ""
    """For a quantity: its kind in `base/units.py`."""
    words: tuple[str, ...] = ()
    """For a word: the fixed list."""
    words_from: str = ""
    """For a word whose list the settings hold: `potters` or `methods`."""
    many: bool = False
    """For a word: one or several may be given."""
    least: int = 1
    """For a count: the smallest."""
    fields: tuple[Field, ...] = ()
    """For a group or a list: the fields inside."""
    part: str = ""
    """Where a potter would look for it: ware, ready, set, fire, drawn, learned."""
    condition: bool = False
    """Recorded before or at the fire, and so compared between firings."""
    label: str = ""
    """How a page names it; the key with spaces where empty."""

    @property
    def heading(self) -> str:
        """How a page names it."""
        return self.label or self.name.replace("_", " ").capitalize()


SURVIVAL = ("sound", "cracked", "spalled", "broken")
CARBON = ("cleared", "core", "patches", "black")
PAINT = ("held", "faded", "burnt off", "none")
RING = ("clear", "dull")
TOLERANCES = ("IEC 1", "IEC 2", "IEC 3", "ASTM standard", "ASTM special")
OUTCOMES = ("survival", "carbon", "paint", "ring")
"""The outcomes of a piece that a method may count."""

_PROBE = (
    Field("name", "text", "What you call the probe.", "wall", required=True),
    Field(
        "instrument",
        "word",
        "What kind of thermometer it is.",
        "spot thermometer",
        words=("thermocouple", "spot thermometer", "other"),
    ),
    Field(
        "column",
        "text",
        "In a readings file: the number of its column, from 1, or the words at its head.",
        "3",
    ),
    Field("unit", "word", "The unit of bare numbers in a readings file.", "°C", words=("°C", "°F", "mV")),
    Field("type", "word", "The letter of a thermocouple's type.", "K", words=tuple("KNJSRBTE")),
    Field("tolerance", "word", "The class it was sold in.", "IEC 2", words=TOLERANCES),
    Field(
        "cold_junction",
        "quantity",
        "For millivolts: the temperature of the meter's own terminals.",
        "24 °C",
        quantity="temperature",
    ),
    Field(
        "emissivity_set",
        "quantity",
        "The emissivity that a spot thermometer was set to.",
        "0.95",
        quantity="emissivity",
    ),
    Field(
        "emissivity",
        "quantity",
        "The emissivity of what it was pointed at; a range is welcome.",
        "0.85 to 0.95",
        quantity="emissivity",
    ),
    Field(
        "background",
        "quantity",
        "How hot the surroundings were that the ware mirrors.",
        "20 °C",
        quantity="temperature",
    ),
    Field("limit", "quantity", "The highest temperature it can show.", "1100 °C", quantity="temperature"),
    Field(
        "accuracy",
        "quantity",
        "The maker's plus-or-minus in degrees, where no class is named.",
        "3 °C",
        quantity="temperature_step",
    ),
    Field(
        "accuracy_share",
        "quantity",
        "The maker's plus-or-minus as a share of the reading.",
        "2 %",
        quantity="share",
    ),
    Field(
        "resolution",
        "quantity",
        "The smallest step that it shows, or that you wrote down.",
        "1 °C",
        quantity="temperature_step",
    ),
    Field("position", "text", "Where it sat or was pointed.", "against the jar's shoulder"),
    Field(
        "calibrated",
        "list",
        "Your own check of it: what it showed where the temperature was known. One point gives an offset, two or more "
        "a line.",
        fields=(
            Field("shown", "quantity", "What it showed.", "101 °C", required=True, quantity="temperature"),
            Field(
                "known",
                "quantity",
                "How hot it was: melting ice, boiling water, a better thermometer.",
                "99.6 °C",
                required=True,
                quantity="temperature",
            ),
        ),
    ),
)

_READINGS = (
    Field(
        "time",
        "word",
        "Whether times count from a start or are clock times.",
        "elapsed",
        words=("elapsed", "clock"),
    ),
    Field(
        "lit",
        "text",
        "When the main fire was lit, on the same clock as the readings; else the row marked `lit`, else the first row.",
        "10:42",
    ),
    Field("file", "file", "A readings file beside the entry, instead of rows.", "log.csv"),
    Field(
        "time_column",
        "text",
        "In a readings file: the number of the time's column, from 1, or its heading.",
        "2",
    ),
    Field(
        "ware_probe",
        "text",
        "The name of the probe that stands for the ware; the first where none is named.",
        "wall",
    ),
    Field("probes", "list", "The thermometers.", fields=_PROBE),
    Field(
        "rows",
        "rows",
        "The readings, a row each: time, a temperature for each probe, then words if any.",
        "0:00 14 °C lit",
    ),
)

_PIECE = (
    Field("name", "text", "What you call the piece.", "jar", required=True),
    Field("count", "count", "How many alike ones this line stands for.", "4"),
    Field("form", "text", "Its form.", "jar"),
    Field("survival", "word", "How it came through.", "sound", required=True, words=SURVIVAL),
    Field("carbon", "word", "What is left of soot and of the clay's own carbon.", "cleared", words=CARBON),
    Field("paint", "word", "How the paint fared; `none` on a piece without paint.", "held", words=PAINT),
    Field("ring", "word", "How it sounds when tapped.", "clear", words=RING),
    Field("colour", "munsell", "Its colour in Munsell's notation.", "10YR 8/2"),
    Field("hardness", "text", "What scratches it.", "fingernail no, copper yes"),
    Field(
        "weighed",
        "group",
        "Three weighings for its porosity.",
        fields=(
            Field("dry", "quantity", "Dry.", "812 g", required=True, quantity="mass"),
            Field("soaked", "quantity", "Soaked and wiped.", "921 g", required=True, quantity="mass"),
            Field("hung", "quantity", "Soaked and hung in water.", "505 g", quantity="mass"),
        ),
    ),
    Field(
        "marks",
        "group",
        "The distance between two marks, for its shrinkage.",
        fields=(
            Field("wet", "quantity", "In the wet clay.", "100 mm", quantity="length"),
            Field("dry", "quantity", "In the dry clay.", "95 mm", quantity="length"),
            Field("fired", "quantity", "After the fire.", "93 mm", quantity="length"),
        ),
    ),
    Field("remark", "text", "Anything else about it.", "fire cloud on the shoulder"),
)

FIELDS: tuple[Field, ...] = (
    Field(
        "title",
        "text",
        "A title, as you would say it to a friend.",
        "Pale-slipped jar, third attempt",
        required=True,
        part="ware",
    ),
    Field("date", "date", "The day of the main fire: year-month-day.", "2026-05-02", required=True, part="fire"),
    Field(
        "potter",
        "word",
        "Who fired: one of the names under `potters` in site_config.yml.",
        "wren",
        required=True,
        words_from="potters",
        part="ware",
    ),
    Field(
        "helpers",
        "word",
        "Who else tended the fire.",
        "[ode, tam]",
        words_from="potters",
        many=True,
        part="fire",
    ),
    Field(
        "method",
        "word",
        "How: one of the methods in site_config.yml.",
        "open-fire",
        required=True,
        words_from="methods",
        part="set",
    ),
    Field("place", "text", "Where, in words, as coarse as the group's rule.", "Alder Fen", part="set"),
    Field(
        "ware",
        "text",
        "The ware, in the same words each time, so that attempts can be followed.",
        "pale-slipped jar",
        part="ware",
    ),
    Field("lit", "clock", "The clock time at which the main fire was lit.", "10:42", part="fire"),
    Field(
        "weather",
        "group",
        "The weather at lighting.",
        part="set",
        fields=(
            Field("air", "quantity", "Temperature of the air.", "14 °C", quantity="temperature", condition=True),
            Field("humidity", "quantity", "Relative humidity.", "55 %", quantity="share", condition=True),
            Field(
                "wind",
                "quantity",
                "Speed of the wind. By eye, after Beaufort: smoke drifts, 1 to 5 km/h; leaves rustle, 6 to 11; "
                "small twigs move, 12 to 19; dust and loose paper rise, 20 to 28.",
                "8 km/h",
                quantity="speed",
                condition=True,
            ),
            Field(
                "dry_days",
                "count",
                "Days since the last rain.",
                "3",
                least=0,
                condition=True,
                label="Days without rain",
            ),
        ),
    ),
    Field(
        "clay",
        "group",
        "The clay and the wall.",
        part="ware",
        fields=(
            Field(
                "body",
                "text",
                "The clay body, in the group's usual words.",
                "red river clay",
                condition=True,
                label="Clay body",
            ),
            Field("temper", "words", "What was mixed in.", "[crushed sherd]", condition=True),
            Field(
                "temper_share",
                "quantity",
                "How much of it, by volume.",
                "20 %",
                quantity="share",
                condition=True,
            ),
            Field("wall", "quantity", "Thickness of the wall.", "6 mm", quantity="length", condition=True),
            Field("dried", "quantity", "How long the ware dried.", "9 days", quantity="time", condition=True),
        ),
    ),
    Field(
        "surface",
        "group",
        "Slip, paint and finish.",
        part="ware",
        fields=(
            Field("slip", "text", "The slip.", "white", condition=True),
            Field("paint", "text", "The paint: plant, mineral, none …", "plant", condition=True),
            Field("finish", "text", "How the surface was worked.", "burnished", condition=True),
        ),
    ),
    Field(
        "fuel",
        "group",
        "The wood and how it was laid.",
        part="set",
        fields=(
            Field("wood", "words", "The kinds of wood, or other fuel.", "[hazel, birch]", condition=True),
            Field(
                "form",
                "text",
                "Twigs, thin branches, splits, logs …",
                "thin branches",
                condition=True,
                label="Form of the wood",
            ),
            Field(
                "mass",
                "quantity",
                "How much of it.",
                "14 kg",
                quantity="mass",
                condition=True,
                label="Mass of the wood",
            ),
            Field(
                "moisture",
                "quantity",
                "Water in the wood, as a share of its dry mass.",
                "14 %",
                quantity="share",
                condition=True,
                label="Moisture of the wood",
            ),
            Field(
                "stack",
                "word",
                "How open the stack was.",
                "open",
                words=("open", "middling", "dense"),
                condition=True,
            ),
        ),
    ),
    Field(
        "setting",
        "group",
        "How the pots stood.",
        part="set",
        fields=(
            Field("ground", "text", "What the fire lay on or in.", "shallow pit", condition=True),
            Field("depth", "quantity", "Depth below the ground.", "12 cm", quantity="length", condition=True),
            Field(
                "damp",
                "word",
                "How damp the ground was.",
                "dry",
                words=("dry", "damp", "wet"),
                condition=True,
                label="Dampness of the ground",
            ),
            Field("support", "text", "What the pots stood on.", "dry brick", condition=True),
            Field("pots", "text", "How they were turned.", "mouth down", condition=True, label="Pots set"),
        ),
    ),
    Field(
        "warm_up",
        "group",
        "The first, small fire.",
        part="ready",
        fields=(
            Field(
                "length",
                "quantity",
                "How long the pots were warmed.",
                "45 min",
                quantity="time",
                condition=True,
                label="Warm-up",
            ),
            Field(
                "pot_temperature",
                "quantity",
                "How hot the pots were when the main fire was lit.",
                "160 °C",
                quantity="temperature",
                condition=True,
                label="Pots warmed to",
            ),
            Field(
                "way",
                "text",
                "How they were warmed.",
                "at the edge of a small fire, turned",
                condition=True,
                label="Way of warming",
            ),
        ),
    ),
    Field("readings", "group", "What the thermometers said.", part="fire", fields=_READINGS),
    Field(
        "witness",
        "group",
        "What else told of the heat.",
        part="drawn",
        fields=(
            Field("cones_down", "words", "Witness cones that went down.", "[020, 019]"),
            Field("cones_standing", "words", "Witness cones that stood.", "[018]"),
            Field("glow", "text", "The colour of the glow at its brightest.", "dark red"),
        ),
    ),
    Field(
        "pieces",
        "list",
        "The pots and tiles, and how each came out.",
        required=True,
        part="drawn",
        fields=_PIECE,
    ),
    Field(
        "photos",
        "list",
        "Pictures beside the entry.",
        part="learned",
        fields=(
            Field("file", "file", "The picture's file, beside the entry.", "drawn.jpg", required=True),
            Field(
                "alt",
                "text",
                "What it shows, for those who cannot see it.",
                "The jar just drawn, white slip clear of soot",
                required=True,
            ),
            Field("caption", "text", "Words under it.", "Drawn at twelve minutes"),
            Field("credit", "text", "Who made it.", "Wren"),
        ),
    ),
    Field(
        "licence",
        "licence",
        "The licence of the entry as an SPDX id, where it is not the group's.",
        "CC-BY-4.0",
        part="learned",
    ),
)
"""Every field of an entry, in the order of the page of fields."""


def walk(fields: tuple[Field, ...] = FIELDS, prefix: str = "") -> Iterator[tuple[str, Field]]:
    """Yield each field with its dotted path, groups and lists before what is inside them."""
    for field in fields:
        path = f"{prefix}{field.name}"
        yield path, field
        yield from walk(field.fields, f"{path}.")


CONDITIONS: dict[str, Field] = {path: field for path, field in walk() if field.condition}
"""The conditions that are compared between firings, by dotted path."""
