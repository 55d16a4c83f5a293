"""What the write-up form's script needs to judge an entry as the check does: fields, units, limits, and words.

All of it comes from the definitions that the check itself uses, and goes into the page as one block of JSON.
"""

from __future__ import annotations

import json
from collections.abc import Mapping

from builder.base.codes import CODES
from builder.base.cones import CONES
from builder.base.located_yaml import UNPRINTABLE
from builder.base.problem import Severity
from builder.base.quantity import MAX_LENGTH, Quantity
from builder.base.quantity_faults import DEGREES_ALONE
from builder.base.units import KINDS, Kind, Unit
from builder.checks.fault import LONGEST_SHOWN
from builder.checks.form_words import Json, Words, gapped, quantity_words, said_words
from builder.checks.hidden import HIDDEN, TURNING
from builder.checks.limits import BOUNDS, MOST_ITEMS, MOST_PIECES, MOST_ROWS, MOST_WORDS, Bounds, longest_text
from builder.checks.pieces import MOST_ABSORBED, MOST_SHRINKAGE
from builder.checks.thermometers import OF_ANOTHER
from builder.checks.values import LICENCES, MOST_CHROMA, MUNSELL, NUMBER_WORDS
from builder.checks.words import NOT_RECORDED
from builder.entries.fields import FIELDS, Field
from builder.entries.find import MAX_SLUG
from builder.settings import Settings


def form_rules(settings: Settings) -> dict[str, Json]:
    """Gather all that the form's script judges by, for a block of JSON in the page."""
    return {
        "fields": [_field(field, field.name, settings) for field in FIELDS],
        "kinds": {name: _kind(kind) for name, kind in KINDS.items() if name != "rate"},
        "rate": KINDS["rate"].words,
        "quantity": quantity_words(),
        "warnings": list[Json](sorted(name for name, code in CODES.items() if code.severity is not Severity.ERROR)),
        "said": said_words(settings),
        "notRecorded": list[Json](sorted(NOT_RECORDED)),
        "numberWords": dict(NUMBER_WORDS),
        "degreesAlone": list[Json](sorted(DEGREES_ALONE)),
        "munsell": MUNSELL.pattern.replace("?P<", "?<"),
        "hidden": HIDDEN.pattern,
        "turning": TURNING.pattern,
        "unprintable": UNPRINTABLE.pattern,
        "ofAnother": {instrument: list(names) for instrument, names in OF_ANOTHER.items()},
        "cones": [cone.name for cone in CONES],
        "licences": list(LICENCES),
        "units": dict(settings.units),
        "limits": {
            "quantity": MAX_LENGTH,
            "shown": LONGEST_SHOWN,
            "words": MOST_WORDS,
            "pieces": MOST_PIECES,
            "rows": MOST_ROWS,
            "chroma": MOST_CHROMA,
            "absorbed": MOST_ABSORBED,
            "shrinkage": MOST_SHRINKAGE,
            "slug": MAX_SLUG,
        },
    }


def as_json(words: Mapping[str, Json]) -> str:
    """Write the words as JSON that can stand in a page: nothing in it closes the block or needs an encoding."""
    return json.dumps(words, ensure_ascii=True, separators=(",", ":")).replace("<", "\\u003c")


# The fields


def _field(field: Field, path: str, settings: Settings) -> Json:
    told: dict[str, Json] = {
        "name": field.name,
        "path": path,
        "kind": field.kind,
        "label": field.heading,
        "required": field.required,
        "condition": field.condition,
        "many": field.many,
        "quantity": field.quantity,
        "longest": longest_text(path),
        "most": MOST_ITEMS.get(path, 0),
        "words": list(listed_words(field, path, settings)),
        "fields": [_field(inner, f"{path}.{inner.name}", settings) for inner in field.fields],
    }
    kept = {name: value for name, value in told.items() if value not in (False, 0, "", [])}
    if kept["longest"] == longest_text(""):
        del kept["longest"]
    if field.kind == "count":
        kept["least"] = field.least
    if path in BOUNDS:
        kept["bounds"] = _bounds(BOUNDS[path])
    return kept


def listed_words(field: Field, path: str, settings: Settings) -> tuple[str, ...]:
    """Return the words of a field that takes them from a list, the group's own among them."""
    if field.words_from:
        return tuple(settings.potters if field.words_from == "potters" else settings.methods)
    return (*field.words, *settings.words.get(path, ())) if field.words else ()


def _bounds(bounds: Bounds) -> Json:
    """The ranges of one quantity or count, with what is said outside them."""
    beyond = bounds.high * 2 + 1
    told: dict[str, Json] = {
        "low": bounds.low,
        "high": bounds.high,
        "usualLow": bounds.usual_low,
        "usualHigh": bounds.usual_high,
        "impossible": _outside(bounds, beyond),
    }
    if bounds.low >= 0:
        told["nothing"] = _outside(bounds, -1)
    if bounds.usual_high < bounds.high:
        told["unlikely"] = _outside(bounds, (bounds.usual_high + bounds.high) / 2)
    elif bounds.low < bounds.usual_low:
        told["unlikely"] = _outside(bounds, (bounds.low + bounds.usual_low) / 2)
    return told


_MADE_UP = 987_654


def _outside(bounds: Bounds, value: float) -> Words:
    if not bounds.kind:
        number = int(value)
        fault = bounds.judge(number)
        shown = f"`{number}`"
    else:
        # A range has no other unit to suggest, so that the bare help comes out.
        width = abs(value) / _MADE_UP or 1 / _MADE_UP
        unit = KINDS[bounds.kind].canonical
        fault = bounds.judge(Quantity("⟦raw⟧", bounds.kind, value, unit, value, value - width, value + width))
        shown = "`⟦raw⟧`"
    if fault is None:
        raise ValueError(f"{value} lies within {bounds}")
    return gapped(fault, {shown: "⟦told⟧"})


# Quantities


def _kind(kind: Kind) -> Json:
    return {
        "words": kind.words,
        "example": kind.example,
        "compound": kind.compound,
        "grouped": kind.grouped,
        "units": [_unit(unit) for unit in kind.units],
    }


def _unit(unit: Unit) -> Json:
    return {
        "symbol": unit.symbol,
        "words": list(unit.words),
        "times": unit.times,
        "per": unit.per,
        "zero": unit.zero,
    }
