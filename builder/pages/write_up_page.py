"""The form in which a firing is written up, made from the one definition of the fields and the group's own lists."""

from __future__ import annotations

from dataclasses import dataclass

from markupsafe import Markup

from builder.base.units import KINDS, find_unit
from builder.checks.form_rules import as_json, form_rules, listed_words
from builder.checks.form_words import Json
from builder.checks.limits import LIMITS, MOST_ITEMS, longest_text
from builder.checks.values import LICENCES
from builder.entries.fields import FIELDS, Field
from builder.pages.fragments import fill
from builder.publish.site import Page
from builder.settings import Settings

PAGE = "write-up"

SCRIPTS = (
    "elements",
    "device_store",
    "fire_log",
    "fire_curve",
    "numeral",
    "units",
    "quantity",
    "entry_check",
    "entry_text",
    "zip_file",
    "file_saving",
    "reading_table",
    "form_state",
    "write_up_photos",
    "write_up_readings",
    "write_up_drafts",
    "write_up_problems",
    "write_up",
    "offline",
)

_PARTS = (
    ("ware", "The ware", "What you made, and of what."),
    ("ready", "Made ready", "What went before the main fire."),
    ("set", "How it was set", "Ground, wood, weather, and how the pots stood."),
    ("fire", "The fire", "When it was lit, and what the thermometers said."),
    ("drawn", "Drawn from the ash", "How each piece came out."),
    ("learned", "What was learned", "Pictures, and the story in your own words."),
)
"""The parts of the form, in a potter's order: key, heading, what belongs there."""


_SENTENCE = (
    "A form for one firing. Only five things are needed: a title, the day, the potter, the method, and how one piece "
    "came through. It checks while you write, keeps a draft on this device, and ends in one file to hand to the group."
)
_SHOWN = frozenset({"readings.probes.name", "readings.probes.instrument"})
_FOLDED = frozenset(f"pieces.{name}" for name in ("form", "colour", "hardness", "weighed", "marks", "remark"))
_BY_THE_SCRIPT = frozenset({"readings.probes.column", "readings.probes.unit", "photos.file"})
"""Fields that the form fills in by itself."""


@dataclass(frozen=True, slots=True)
class Choice:
    """One word of a list."""

    word: str
    shown: str


@dataclass(frozen=True, slots=True)
class Asked:
    """One field as the form asks for it."""

    path: str
    name: str
    kind: str
    label: str
    meaning: str
    example: str
    required: bool
    many: bool
    choices: tuple[Choice, ...]
    units: tuple[str, ...]
    longest: int
    most: int
    plain: bool
    """Shown at once; the others of a piece or a thermometer wait until they are asked for."""
    figures: bool
    """A phone's keys for numbers are enough: they have no minus and no letters."""
    inside: tuple[Asked, ...]

    @property
    def one_of(self) -> str:
        """How one of a list is called."""
        return {"pieces": "piece", "photos": "photo", "readings.probes": "thermometer"}.get(self.path, "point")


@dataclass(frozen=True, slots=True)
class Part:
    """One part of the form."""

    key: str
    heading: str
    words: str
    fields: tuple[Asked, ...]


_ELSEWHERE = (
    "This archive is built from those of other groups and names no potter of its own: hand a firing to the group that "
    "it was fired with."
)


def write_up_page(settings: Settings) -> Page:
    """Make the form."""
    lead = fill(
        "write_up.html",
        PAGE,
        sentence=_SENTENCE if settings.potters else _ELSEWHERE,
        parts=form_parts(settings),
        rules=Markup(as_json(_rules(settings))),  # noqa: S704
        contact=settings.group.contact,
        group=settings.group,
    )
    return Page(
        path=PAGE,
        title="Write up a firing",
        description=_SENTENCE,
        lead=lead,
        section="write-up",
        kind="write-up",
        scripts=SCRIPTS,
        searched=False,
    )


def form_parts(settings: Settings) -> tuple[Part, ...]:
    """Group the fields as a potter thinks of them; every field is in exactly one part."""
    parts = []
    for key, heading, words in _PARTS:
        fields = [field for field in FIELDS if field.part == key]
        fields.sort(key=lambda field: (field.kind in ("group", "list"), not field.required))
        parts.append(Part(key, heading, words, tuple(_asked(field, field.name, settings) for field in fields)))
    return tuple(parts)


def _rules(settings: Settings) -> dict[str, Json]:
    windows: list[Json] = [
        {"key": method.key, "low": method.window_low_c, "high": method.window_high_c}
        for method in settings.methods.values()
    ]
    return {**form_rules(settings), "methods": windows}


def _asked(field: Field, path: str, settings: Settings) -> Asked:
    inside = [inner for inner in field.fields if f"{path}.{inner.name}" not in _BY_THE_SCRIPT]
    return Asked(
        path=path,
        name=field.name,
        kind=field.kind,
        label=field.heading,
        meaning=_meaning(field),
        example=field.example.strip("[]"),
        required=field.required,
        many=field.many,
        choices=_choices(field, path, settings),
        units=_units(field),
        longest=longest_text(path),
        most=MOST_ITEMS.get(path, 0),
        plain=path in _SHOWN or not (path in _FOLDED or path.rpartition(".")[0] == "readings.probes"),
        figures=field.kind == "quantity" and not (" to " in field.example or LIMITS[path].possible[0].startswith("-")),
        inside=tuple(_asked(inner, f"{path}.{inner.name}", settings) for inner in inside),
    )


def _meaning(field: Field) -> str:
    """What to write; where the form offers the choice, without how it would be written in a file."""
    if not field.words_from and field.kind not in ("date", "clock"):
        return field.meaning
    words = field.meaning.rstrip(".").partition(": ")[0]
    return f"{words}." if " " in words else ""


def _choices(field: Field, path: str, settings: Settings) -> tuple[Choice, ...]:
    if field.words_from == "potters":
        return tuple(Choice(potter.key, potter.name) for potter in settings.potters.values())
    if field.words_from == "methods":
        return tuple(Choice(method.key, method.name) for method in settings.methods.values())
    if field.kind == "licence":
        return tuple(Choice(licence, licence) for licence in LICENCES)
    return tuple(Choice(word, word) for word in listed_words(field, path, settings))


def _units(field: Field) -> tuple[str, ...]:
    """The units of a quantity, that of the example first; none for a bare number."""
    if not field.quantity:
        return ()
    symbols = [unit.symbol for unit in KINDS[field.quantity].units]
    if "" in symbols:
        return ()
    usual = find_unit(field.example.rpartition(" ")[2], field.quantity)
    return tuple(sorted(symbols, key=lambda symbol: usual is None or symbol != usual.symbol))
