"""Which field a column's heading means: by the field's own name, by words that potters use for it, by likeness."""

from __future__ import annotations

import re
from dataclasses import dataclass

from builder.base.units import find_unit
from builder.checks.words import bare, nearest
from builder.entries.fields import Field, walk

STORY = "story"
"""Stands for the words below the front matter."""
LEFT_OUT = "leave out"
UNDECIDED = "?"

_NOT_IN_A_TABLE = ("readings", "photos", "pieces.weighed", "pieces.marks")


def _told() -> dict[str, Field]:
    """Return the fields that one cell can hold, by dotted path."""
    whole = {"group", "list", "rows", "file"}
    return {
        path: field
        for path, field in walk()
        if field.kind not in whole and not path.startswith(("readings.", "photos."))
    }


TARGETS: dict[str, Field] = _told()
"""Every field that a column may fill, by dotted path."""

SYNONYMS: dict[str, str] = {
    "title": "name of firing|firing name|firing title|heading|subject",
    "date": "day|fired on|date of firing|firing date|when",
    "potter": "who|maker|made by|fired by|artist|person|firer",
    "helpers": "helper|with|assistants|help",
    "method": "firing method|kind of firing|type of firing|way of firing|how",
    "place": "where|location|site",
    "ware": "kind of ware|ware type|pot type",
    "lit": "lit at|lighting time|time lit|start time|started",
    "weather.air": "air temperature|air temp|outside temperature|ambient|ambient temperature|weather temperature",
    "weather.humidity": "relative humidity|rh",
    "weather.wind": "wind speed",
    "weather.dry_days": "days since rain|dry days|days without rain|days dry",
    "clay.body": "clay|clay type|body|kind of clay",
    "clay.temper": "temper type|inclusions|grog",
    "clay.temper_share": "temper share|temper percent|percent temper|temper amount",
    "clay.wall": "wall thickness|thickness|wall",
    "clay.dried": "drying|drying time|dried for|days dried",
    "surface.slip": "engobe",
    "surface.paint": "paint type|pigment|kind of paint",
    "surface.finish": "burnish|surface",
    "fuel.wood": "wood|kind of wood|fuel|species|fuel type",
    "fuel.form": "wood form|size of wood",
    "fuel.mass": "wood mass|weight of wood|wood weight|fuel weight|amount of wood",
    "fuel.moisture": "wood moisture|moisture of the wood|moisture",
    "fuel.stack": "stacking|stack density",
    "setting.ground": "ground|bed",
    "setting.depth": "pit depth|depth of pit",
    "setting.damp": "ground damp|dampness|damp ground",
    "setting.support": "stood on|supports",
    "setting.pots": "position of pots|pots set",
    "warm_up.length": "warm up|warm up time|preheat|preheating|preheat time|warming",
    "warm_up.pot_temperature": "pot temperature|preheat temperature|warmed to|pots warmed to",
    "warm_up.way": "way of warming",
    "witness.glow": "glow|colour of glow|color",
    "pieces.name": "piece|pot|piece name|object|item|pot name",
    "pieces.count": "number of pieces|pieces|how many|quantity|number of pots|pots",
    "pieces.form": "form|shape|vessel form",
    "pieces.survival": "survival|result|outcome|condition|how it came through",
    "pieces.carbon": "carbon|core|carbon core|soot",
    "pieces.paint": "paint result|paint outcome|paint after",
    "pieces.ring": "ring|ring test|sound when tapped",
    "pieces.colour": "munsell|fired colour|fired color|colour",
    "pieces.hardness": "hardness|scratch",
    "pieces.weighed.dry": "dry weight|weight dry|mass dry",
    "pieces.weighed.soaked": "soaked weight|weight soaked|wet weight|saturated weight",
    "pieces.weighed.hung": "hung weight|weight in water|suspended weight",
    "pieces.marks.wet": "mark wet|wet length|length wet",
    "pieces.marks.dry": "mark dry|dry length|length dry",
    "pieces.marks.fired": "mark fired|fired length|length fired",
    "pieces.remark": "piece remark|piece note|remark",
    STORY: "notes|note|remarks|comments|comment|description|what happened|observations|text",
    "licence": "license",
}
"""Words that tables use, by field."""

KEYS = "firing|firing no|firing number|firing id|fire|fire no|fire number|no|number|nr|id|burn|session"
"""Headings that tell which rows are one firing."""

_TIMES = re.compile(r"\b(days|hours|minutes|weeks)\b", re.IGNORECASE)
_IN_BRACKETS = re.compile(
    r"[(\[]\s*([^)\]]+?)\s*[)\]]\s*\Z|,\s*(?:in\s+)?(\S+)\s*\Z|\s(?:in\s+)(\S+)\s*\Z|(%|°[CF])\s*\Z"
)


@dataclass(frozen=True, slots=True)
class Guess:
    """What a heading seems to mean."""

    field: str
    """A dotted path, `story`, or `?` where nothing is near."""
    unit: str = ""
    """Unit that the heading names, for a quantity."""
    sure: bool = True
    """False where it is only like the name of a field."""


def _names() -> dict[str, str]:
    """Return every way to name a field, in bare letters, the field's own names first."""
    found: dict[str, str] = {}
    for path, field in TARGETS.items():
        for name in (path, field.heading if "." not in path or field.label else "", path.replace(".", " ")):
            if name:
                found.setdefault(bare(name), path)
    for path, words in SYNONYMS.items():
        for word in words.split("|"):
            found.setdefault(bare(word), path)
    for path in TARGETS:
        found.setdefault(bare(path.rpartition(".")[2]), path)
    return found


_BY_NAME = _names()
_KEY_NAMES = frozenset(bare(word) for word in KEYS.split("|"))


def is_key(heading: str) -> bool:
    """Tell whether a heading is that of a firing's own number or name."""
    return bare(heading) in _KEY_NAMES or heading.strip() in ("#", "№")


def guess(heading: str) -> Guess:
    """Say which field a heading seems to mean.

    >>> guess("Air temp (°F)")
    Guess(field='weather.air', unit='°F', sure=True)
    """
    words, unit = _part_unit(heading)
    exact = _BY_NAME.get(bare(words)) or _BY_NAME.get(bare(heading))
    if exact is not None:
        return Guess(exact, _unit_of(heading, unit, exact))
    near = nearest(words, _BY_NAME, 0.8)
    if near is None:
        return Guess(UNDECIDED, unit)
    return Guess(_BY_NAME[near], _unit_of(heading, unit, _BY_NAME[near]), sure=False)


def _part_unit(heading: str) -> tuple[str, str]:
    found = _IN_BRACKETS.search(heading)
    if found is None:
        return heading, ""
    return heading[: found.start()], next(part for part in found.groups() if part)


def _unit_of(heading: str, unit: str, path: str) -> str:
    field = TARGETS.get(path)
    if field is not None and field.quantity == "time" and not unit and (named := _TIMES.search(heading)):
        return named.group().lower()
    return unit if unit and field is not None and field.kind == "quantity" and find_unit(unit, field.quantity) else ""
