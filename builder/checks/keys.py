"""The keys of one group: which fields they name, and what a key means that is none."""

from __future__ import annotations

import difflib
from dataclasses import dataclass, replace

from builder.base.located_yaml import Mapping, Node, Scalar
from builder.checks.fault import LONGEST_SHOWN, Fault, either, shown
from builder.checks.hidden import HIDDEN
from builder.checks.review import Review
from builder.checks.shape import PLACES_OF, Shape, Slot
from builder.checks.words import bare

Entered = tuple[Slot, Scalar, Node]
"""A field with its key and its value as they were entered."""

_ALSO = {
    "pieces": "pots pot piece wares vessels vessel items objects results",
    "photos": "photo foto fotos images image pictures picture",
    "potter": "author by who maker",
    "method": "technique type kind way",
    "place": "location where site",
    "date": "day when fired_on",
    "title": "name heading",
    "readings": "temperatures temperature_log log thermometer pyrometer",
    "weather.air": "temperature air_temperature temp",
    "weather.humidity": "rh relative_humidity",
    "weather.wind": "wind_speed",
    "weather.dry_days": "rain last_rain days_dry days_without_rain",
    "clay.wall": "thickness wall_thickness",
    "clay.dried": "drying dry_time drying_time",
    "clay.temper_share": "temper_percent temper_amount",
    "fuel.wood": "woods species",
    "fuel.moisture": "wood_moisture",
    "warm_up.length": "duration preheat warmup_time",
    "pieces.survival": "result outcome status state condition",
    "pieces.count": "number quantity qty amount how_many",
    "pieces.remark": "notes note comment comments remarks",
    "pieces.weighed": "weight weights masses",
    "pieces.marks": "shrinkage",
    "photos.alt": "description text alt_text",
    "photos.file": "src path filename",
    "readings.probes.calibrated": "calibration calibrate",
    "readings.probes.calibrated.known": "true actual real reference",
    "readings.probes.instrument": "device tool thermometer",
    "readings.probes": "probe sensors thermocouples",
    "readings.rows": "data values table",
    "witness.cones_down": "cones cone",
}
_MEANT = {word: path for path, words in _ALSO.items() for word in words.split()}
"""Other words for a field, with the field's dotted path: for suggestions only."""

_STORY = frozenset(
    {"story", "notes", "note", "text", "body", "description", "comments", "summary", "remarks", "remark"}
)
_COMMA_KINDS = frozenset({"text", "words", "word", "quantity", "munsell"})


def entered(mapping: Mapping, shape: Shape, review: Review, path: str) -> list[Entered]:
    """Return the fields that the keys of a group name, and report the keys that name none."""
    slots = shape.slots
    found: list[Entered] = []
    strange: list[tuple[Scalar, Node]] = []
    for key, value in mapping.items:
        slot = slots.get(key.text)
        if slot is not None:
            found.append((slot, key, value))
        elif not key.broken and not _join_comma(found, key, value, shape, review):
            strange.append((key, value))
    if strange:
        _Strange(shape, review, path, found).take(strange)
    return found


def _join_comma(found: list[Entered], key: Scalar, value: Node, shape: Shape, review: Review) -> bool:
    """Give words after a comma inside braces back to the value before them.

    `{alt: The jar just drawn, slip clear of soot}` is one sentence to whoever wrote it; YAML takes `slip clear of
    soot` for a key without colon or value. Nothing else can be meant, unless its first word is a key of this group.
    """
    if not found or not _without_colon(key, value, review) or _key_before(key.text.split(), shape):
        return False
    slot, key_before, before = found[-1]
    if not isinstance(before, Scalar) or before.quoted or before.block or slot.field.kind not in _COMMA_KINDS:
        return False
    line = review.line(before.place)
    if key.place.line == before.place.line and before.place.column and value.place.column:
        joined = line[before.place.column - 1 : value.place.column - 1]
    else:
        joined = f"{before.text}, {key.text}"
    found[-1] = (slot, key_before, replace(before, text=joined))
    return True


def _without_colon(key: Scalar, value: Node, review: Review) -> bool:
    if not isinstance(value, Scalar) or value.text or value.quoted or value.place.column is None:
        return False
    return not review.line(value.place)[: value.place.column - 1].rstrip().endswith(":")


def _key_before(words: list[str], shape: Shape) -> str:
    """Return the key that the first words of a text make, or nothing."""
    for end in range(min(3, len(words) - 1), 0, -1):
        key = "_".join(words[:end]).casefold()
        if key in shape.slots:
            return key
    return ""


@dataclass(slots=True)
class _Strange:
    """Finds out what the keys of one group mean that name no field of it."""

    shape: Shape
    review: Review
    path: str
    found: list[Entered]

    def take(self, strange: list[tuple[Scalar, Node]]) -> None:
        """Report each key, and let a value be judged all the same where its field is clear."""
        taken = {slot.name for slot, _, _ in self.found}
        for key, value in strange:
            parted = self.part(key, value)
            if parted is not None:
                self.found.append(parted)
                continue
            fault, name = self.judge(key, value)
            if name and name in taken:
                if fault is None:
                    fault = Fault("key-twice", f"`{name}` stands twice in this group.", "Keep one of the two.")
                name = ""
            if fault is not None:
                at = f"{self.path}.{key.text}" if self.path else key.text
                self.review.report(fault, key.place, HIDDEN.sub("", at))
            if name:
                taken.add(name)
                self.found.append((self.shape.slots[name], key, value))

    def judge(self, key: Scalar, value: Node) -> tuple[Fault | None, str]:
        """Return what is wrong with a key, and which field of this group it stands for (empty where none)."""
        slots = self.shape.slots
        if key.text.casefold() in slots:
            return None, key.text.casefold()  # a telephone begins each line with a capital
        plain = HIDDEN.sub("", key.text).strip()
        folded = "_".join(plain.casefold().replace("-", " ").split())
        if plain != key.text and folded in slots:
            message = f"A character that cannot be seen stands in the key `{folded}`."
            return Fault("hidden-character", message, f"Delete the key and type it again: `{folded}:`."), folded
        list_of_pots = folded == "pots" and not isinstance(value, Scalar)
        if folded in PLACES_OF and folded not in slots and not list_of_pots:
            return self.misplaced(key, value, PLACES_OF[folded]), ""
        return self.unknown(key, value, folded)

    def part(self, key: Scalar, value: Node) -> Entered | None:
        """Part a key from a value that runs together with it (`air:14 °C`, `survival sound`), and report it."""
        first, colon, rest = key.text.partition(":")
        name = first.strip().casefold()
        if colon and rest.strip() and name in self.shape.slots:
            message = f"No space follows the colon of `{name}`, so YAML takes all of it for a key."
        elif not _without_colon(key, value, self.review):
            return None
        else:
            words = key.text.split()
            name = _key_before(words, self.shape)
            rest = " ".join(words[name.count("_") + 1 :])
            message = f"No colon follows `{name}`."
        if not name:
            return None
        slot = self.shape.slots[name]
        fault = Fault("key-colon", message, f"Write `{name}: {rest.strip()}`.")
        self.review.report(fault, key.place, f"{self.path}.{name}" if self.path else name)
        return slot, key, Scalar(rest.strip(), key.place)

    def misplaced(self, key: Scalar, value: Node, paths: tuple[str, ...]) -> Fault:
        inner = tuple(path for path in paths if self.shape.path and path.startswith(f"{self.shape.path}."))
        homes = [path.rpartition(".")[0] for path in inner or paths]
        message = f"{shown(key.text)} is not a field {self.place_words()}"
        if not self.shape.path:
            message = f"{shown(key.text)} does not stand at the left margin"
        named = [home for home in homes if home]
        if not named:
            help_ = f"Move it there, out of `{_last(self.shape.path)}`: {_written(key.text, value)}."
            return Fault("misplaced-key", f"{message}; it stands at the left margin.", help_)
        message += f"; it belongs under {either([_last(home) for home in named])}."
        return Fault("misplaced-key", message, self.move(key, value, named))

    def move(self, key: Scalar, value: Node, homes: list[str]) -> str:
        if len(homes) > 1:
            return f"Move it under {either([_last(home) for home in homes])}."
        home = homes[0]
        each = {"pieces": "piece", "photos": "photo", "probes": "probe"}.get(_last(home))
        if each:
            return f"Move it into the {each} it belongs to, under `{_last(home)}`."
        there = next((found for slot, found, _ in self.found if slot.path == home), None)
        if there is not None:
            return f"Move {_written(key.text, value)} to the fields of `{_last(home)}` in line {there.place.line}."
        return f"Move it under `{_last(home)}`: {_written(key.text, value, home)}."

    def unknown(self, key: Scalar, value: Node, folded: str) -> tuple[Fault, str]:
        name = self.near(folded)
        message = f"{shown(key.text)} is not a field {self.place_words()}."
        if name:
            return Fault("unknown-key", message, f"Did you mean `{name}`?"), name
        meant = _MEANT.get(folded, "")
        elsewhere = difflib.get_close_matches(folded, PLACES_OF, 1, 0.84)
        if not self.shape.path and folded in _STORY:
            help_ = "Tell it in the story, below the second line of `---`."
        elif meant or elsewhere:
            help_ = f"Did you mean {_named(meant or PLACES_OF[elsewhere[0]][0])}?"
        else:
            help_ = f"Fields {self.place_words()}: {', '.join(self.shape.slots)}."
        return Fault("unknown-key", message, help_), ""

    def near(self, folded: str) -> str:
        """Return the field of this group that a misspelt key means."""
        here = {bare(name): name for name in self.shape.slots}
        meant = _MEANT.get(folded, "")
        home, _, name = meant.rpartition(".")
        if meant and home == self.shape.path:
            return name
        close = difflib.get_close_matches(bare(folded), here, 1, 0.72)
        return here[close[0]] if close else ""

    def place_words(self) -> str:
        return f"of `{_last(self.shape.path)}`" if self.shape.path else "of an entry"


def _last(path: str) -> str:
    return path.rpartition(".")[2]


def _named(path: str) -> str:
    """Name a field with the group it belongs to."""
    home, _, name = path.rpartition(".")
    return f"`{name}`, under `{_last(home)}`" if home else f"`{name}`, at the left margin"


def _written(key: str, value: Node, home: str = "") -> str:
    """Write a key with its value as it would stand in its own group, where that is short."""
    short = isinstance(value, Scalar) and value.text and not value.block and len(value.text) <= LONGEST_SHOWN
    told = f"{key.strip()}: {value.text}" if isinstance(value, Scalar) and short else f"{key.strip()}: …"
    if not home:
        return f"`{told}`"
    if "," in told:
        told = told.replace(": ", ': "', 1) + '"'
    return f"`{_last(home)}: {{{told}}}`"
