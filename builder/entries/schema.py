"""The JSON Schema (2020-12) of an entry's front matter, made from the one definition of the fields.

It is for editors and other programs, which read YAML in the ordinary way: there `count: 4` is a whole number, `lit:
10:42` may be one too (YAML 1.1 counts in sixties), and a key with nothing after it is null. So the schema takes every
form in which such a reader may hand over a sound entry. It judges shapes, keys, lists and forms; what takes
reckoning or looking (units, limits, files, one field against another) only `ashbook check` can tell.
"""

from __future__ import annotations

from builder.entries.fields import FIELDS, Field
from builder.settings import Settings

DIALECT = "https://json-schema.org/draft/2020-12/schema"

Schema = dict[str, object]

_DATE = r"^[0-9]{4}-(0[1-9]|1[0-2])-(0[1-9]|[12][0-9]|3[01])$"
_CLOCK = r"^([01]?[0-9]|2[0-3]):[0-5][0-9]$"
_FIGURE = r"[0-9¼-¾⅐-⅞]"
_FIGURE_AND_UNIT = rf"{_FIGURE}.*[A-Za-zµμ°º℃℉%′″'\"]"
_FILE = r"^[^./\\:*?\"<>|%][^/\\:*?\"<>|]*\.[A-Za-z]+$"
_TO_TEN = r"(10|[0-9](\.[0-9]+)?)"
_HUE = r"(R|YR|Y|GY|G|BG|B|PB|P|RP|r|yr|y|gy|g|bg|b|pb|p|rp)"
_MUNSELL = rf"^({_TO_TEN} ?{_HUE} ?{_TO_TEN} ?/ ?[0-9]{{1,2}}(\.[0-9]+)?|[Nn] ?{_TO_TEN} ?/? ?0?)$"


def entry_schema(settings: Settings) -> Schema:
    """Return the JSON Schema of the front matter of one group's entries."""
    return {
        "$schema": DIALECT,
        "$id": f"{settings.group.url}data/entry.schema.json" if settings.group.url else "entry.schema.json",
        "title": f"A firing entry of {settings.group.name}",
        "description": "The front matter of one firing's entry.md.",
        **_group(FIELDS, "", settings),
        "$defs": _definitions(settings),
    }


def _definitions(settings: Settings) -> Schema:
    """Return what several fields share, and every list of fields that repeats."""
    shared: Schema = {
        "text": {"type": ["string", "number", "boolean", "null"]},
        "nothing": {
            "description": "Nothing after the colon, or empty quotes or brackets: not recorded.",
            "type": ["null", "string", "array", "object"],
            "pattern": r"^\s*$",
            "maxItems": 0,
            "maxProperties": 0,
        },
        "words": {
            "anyOf": [
                {"$ref": "#/$defs/text"},
                {"type": "array", "items": {"$ref": "#/$defs/text"}},
            ]
        },
        "potter": _choice(tuple(settings.potters), [potter.name for potter in settings.potters.values()]),
        "method": _choice(tuple(settings.methods), [method.name for method in settings.methods.values()]),
    }
    for name, field in _lists(FIELDS):
        shared[name] = {"description": field.meaning, **_group(field.fields, f"{name}.", settings)}
    return shared


def _lists(fields: tuple[Field, ...], prefix: str = "") -> list[tuple[str, Field]]:
    found = []
    for field in fields:
        if field.kind == "list":
            found.append((f"{prefix}{field.name}", field))
        found += _lists(field.fields, f"{prefix}{field.name}.")
    return found


def _group(fields: tuple[Field, ...], prefix: str, settings: Settings) -> Schema:
    required = [field.name for field in fields if field.required]
    schema: Schema = {
        "type": "object",
        "properties": {field.name: _field(field, f"{prefix}{field.name}", settings) for field in fields},
        "additionalProperties": False,
    }
    return {**schema, "required": required} if required else schema


def _field(field: Field, path: str, settings: Settings) -> Schema:
    told: Schema = {"title": field.heading, "description": field.meaning}
    if field.kind == "list":
        items: Schema = {"type": "array", "items": {"$ref": f"#/$defs/{path}"}}
        return {**told, **({**items, "minItems": 1} if field.required else _or_nothing(items))}
    if field.kind == "group":
        return {**told, **_or_nothing(_group(field.fields, f"{path}.", settings))}
    form = _form(field, path, settings)
    return {**told, "examples": [_example(field)], **(form if field.required else _or_nothing(form))}


def _or_nothing(form: Schema) -> Schema:
    """Let a field have nothing after its colon: not recorded."""
    return {"anyOf": [form, {"$ref": "#/$defs/nothing"}]}


def _example(field: Field) -> object:
    if field.kind == "count":
        return int(field.example)
    if field.example.startswith("["):
        return [word.strip() for word in field.example.strip("[]").split(",")]
    return field.example


def _form(field: Field, path: str, settings: Settings) -> Schema:
    """Return the forms in which an ordinary reader of YAML hands over one value of the field."""
    if field.kind == "word":
        one = _word(field, path, settings)
        return (
            {"anyOf": [one, {"type": "array", "items": one}, {"type": "string", "pattern": ","}]} if field.many else one
        )
    if field.kind == "quantity":
        return _quantity(field, settings)
    forms: dict[str, Schema] = {
        "words": {"$ref": "#/$defs/words"},
        "date": {"type": "string", "pattern": _DATE},
        "clock": {"anyOf": [{"type": "string", "pattern": _CLOCK}, {"type": "integer", "minimum": 0, "maximum": 1439}]},
        "count": {"anyOf": [{"type": "integer", "minimum": field.least}, {"type": "string", "pattern": "^[0-9]+$"}]},
        "file": {"type": "string", "pattern": _FILE},
        "rows": {"type": "string", "pattern": _FIGURE},
        "munsell": {"type": "string", "pattern": _MUNSELL},
        "licence": {"type": "string", "pattern": r"^[A-Za-z0-9.]+(-[A-Za-z0-9.]+)+$"},
    }
    if field.kind == "text" and field.required:
        return {"anyOf": [{"type": "string", "pattern": r"\S"}, {"type": ["number", "boolean"]}]}
    return forms.get(field.kind, {"$ref": "#/$defs/text"})


def _word(field: Field, path: str, settings: Settings) -> Schema:
    if field.words_from:
        return {"$ref": f"#/$defs/{field.words_from.removesuffix('s')}"}
    words = (*field.words, *settings.words.get(path, ()))
    return {"enum": [*words, *(bare for word in words for bare in _BARE.get(word.casefold(), ()))]}


_BARE: dict[str, tuple[bool, ...]] = {"yes": (True,), "on": (True,), "y": (True,),
                                      "no": (False,), "off": (False,), "n": (False,)}  # fmt: skip
"""Words of a list that YAML 1.1 hands over as true or false."""


def _choice(keys: tuple[str, ...], names: list[str]) -> Schema:
    """Take one of the keys; where an archive of other groups' firings has none of its own, nothing."""
    if not keys:
        return {"not": {}}
    return {"oneOf": [{"const": key, "title": name} for key, name in zip(keys, names, strict=True)]}


def _quantity(field: Field, settings: Settings) -> Schema:
    """A bare number passes where it needs no unit (emissivity) or the group declared one."""
    if field.quantity == "emissivity":
        number: Schema = {"type": "number", "exclusiveMinimum": 0, "maximum": 1}
        return {"anyOf": [number, {"type": "string", "pattern": _FIGURE}]}
    if field.quantity in settings.units:
        return {"anyOf": [{"type": "number"}, {"type": "string", "pattern": _FIGURE}]}
    return {"type": "string", "pattern": _FIGURE_AND_UNIT}
