"""site_config.yml to Settings, collecting every problem with its place."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Mapping
from dataclasses import replace
from pathlib import Path
from typing import TypeVar

from builder.base.codes import problem
from builder.base.located_yaml import Node, Scalar, Sequence, compose
from builder.base.problem import Place, Problem
from builder.base.quantity import Quantity, parse_quantity
from builder.base.units import KINDS
from builder.entries.fields import OUTCOMES, walk
from builder.entries.front_matter import read_text
from builder.settings import NOBODY, Group, HeatSettings, Method, Potter, Settings
from builder.settings_reader import KEY, SettingsReader
from builder.settings_sources import SOURCES, source_places
from builder.shown_names import WAYS, set_apart, shown_name, told_elsewhere

SETTINGS_FILE = "site_config.yml"
KINDS_OF_FIRE = ("ground", "pit", "trench", "kiln")
PARTS = ("group", "potters", "methods", "words", "units", "heat", "window", "places")
"""What a group decides, and publishes beside its data."""
_T = TypeVar("_T")


def load_settings(project: Path) -> tuple[Settings | None, tuple[Problem, ...]]:
    """Read the settings of an archive. Returns None for them where an error leaves nothing to work with."""
    place = Place(SETTINGS_FILE)
    path = project / SETTINGS_FILE
    if not path.is_file():
        return None, (
            problem(
                "settings-missing",
                place,
                "",
                f"There is no {SETTINGS_FILE} in this folder.",
                "Run the command in the archive's folder, or name that folder with `--project`.",
            ),
        )
    text, refused = read_text(path, SETTINGS_FILE)
    if refused:
        return None, (refused,)
    root, problems = compose(text, SETTINGS_FILE)
    reader = SettingsReader(SETTINGS_FILE, list(problems))
    if root is None and problems:
        return None, problems
    parts = {key: value for key, (_, value) in reader.group(root, "", (*PARTS, SOURCES)).items()}
    sources = tuple(source_places(reader, parts.get(SOURCES)))
    settings = replace(settings_of(reader, parts, potters=not sources), asked=sources)
    reader.problems += told_elsewhere(root, settings.potters)
    settings = set_apart(settings, root)
    broken = any(found.severity == "error" for found in reader.problems)
    return (None if broken else settings), tuple(reader.problems)


def settings_of(reader: SettingsReader, parts: Mapping[str, Node], *, potters: bool = True) -> Settings:
    """Read what a group decides from the parts of its settings; what is wrong stays with the reader.

    `potters` says whether at least one must be named.
    """
    level = reader.text(reader.group(parts.get("window"), "window", ("level",)).get("level", (None, None))[1], "level")
    settings = Settings(
        group=_group(reader, parts.get("group")),
        potters=dict(_keyed(reader, parts.get("potters"), "potters", _potter, potters)),
        methods=dict(_keyed(reader, parts.get("methods"), "methods", _method)),
        words=dict(_words(reader, parts.get("words"))),
        units=dict(_units(reader, parts.get("units"))),
        heat=_heat(reader, parts.get("heat")),
        window_level=_share(reader, parts.get("window"), level, 0.5),
    )
    return _places(reader, parts.get("places"), settings)


def _places(reader: SettingsReader, node: Node | None, settings: Settings) -> Settings:
    items = {key: value for key, (_, value) in reader.group(node, "places", ("rule", "coordinates")).items()}
    rule = reader.text(items.get("rule"), "places.rule", settings.place_rule)
    coordinates = reader.text(items.get("coordinates"), "places.coordinates", "refuse")
    decimals = re.fullmatch(r"([0-3]) decimals?", coordinates)
    if decimals is None and coordinates != "refuse":
        reader.fault(
            items["coordinates"].place,
            "places.coordinates",
            f"`{coordinates}` does not say what becomes of coordinates.",
            "Write `refuse`, or how they are rounded: `1 decimal` is about ten kilometres, `0 decimals` a hundred.",
        )
    return replace(settings, place_rule=rule, place_decimals=int(decimals[1]) if decimals else None)


def _group(reader: SettingsReader, node: Node | None) -> Group:
    known = ("name", "title", "about", "url", "contact", "language", "licence", "notice")
    items = reader.group(node, "group", known)
    told = {key: reader.text(value, f"group.{key}") for key, (_, value) in items.items() if key in known}
    if not told.get("name"):
        place = node.place if node is not None else Place(reader.file)
        reader.fault(
            place,
            "group.name",
            "The group has no name.",
            "Write `group:` and under it `name: Our group`.",
            "settings-required",
        )
        return Group(name="")
    told["url"] = told["address"] = reader.address(items["url"][1], "group.url") if "url" in items else ""
    return Group(**{key: value for key, value in told.items() if value})


def _keyed(
    reader: SettingsReader,
    node: Node | None,
    path: str,
    make: Callable[[SettingsReader, Scalar, Node, str], _T],
    needed: bool = True,
) -> Iterator[tuple[str, _T]]:
    """Yield what is kept under keys of the group's own choice; where `needed`, at least one."""
    items = reader.group(node, path)
    if not items and needed:
        place = node.place if node is not None else Place(reader.file)
        reader.fault(
            place,
            path,
            f"The archive names no {path}.",
            f"Write `{path}:` and one of them under it.",
            "settings-required",
        )
    for key, (scalar, value) in items.items():
        if not KEY.match(key):
            reader.fault(
                scalar.place,
                f"{path}.{key}",
                f"`{key}` also becomes an address, so it is plain words.",
                "Use lower-case letters, digits and hyphens: `open-fire`.",
            )
        yield key, make(reader, scalar, value, f"{path}.{key}")


def _potter(reader: SettingsReader, key: Scalar, node: Node, path: str) -> Potter:
    if isinstance(node, Scalar):
        _keep_nobody(reader, key, path, "full")
        return Potter(key.text, reader.text(node, path, key.text.capitalize()))
    items = reader.group(node, path, ("name", "about", "shown"))
    told = {name: reader.text(value, f"{path}.{name}") for name, (_, value) in items.items()}
    shown = told.get("shown") or "full"
    if shown not in WAYS:
        reader.fault(
            items["shown"][1].place,
            f"{path}.shown",
            f"`{shown}` is not a way to show a name.",
            f"Write one of: {', '.join(WAYS)}.",
        )
        shown = "key"
    _keep_nobody(reader, key, path, shown)
    name = shown_name(told.get("name") or key.text.capitalize(), shown, key.text)
    return Potter(key.text, name, told.get("about", ""), shown)


def _keep_nobody(reader: SettingsReader, key: Scalar, path: str, shown: str) -> None:
    """Refuse to let somebody who is named have the key that stands for all who are not."""
    if key.text == NOBODY and shown != NOBODY:
        message = f"`{NOBODY}` stands for all potters who are shown as nobody."
        reader.fault(key.place, path, message, f"Take another word, or write `shown: {NOBODY}` under it.")


def _method(reader: SettingsReader, key: Scalar, node: Node, path: str) -> Method:
    items = {
        name: value
        for name, (_, value) in reader.group(node, path, ("name", "kind", "summary", "window", "success")).items()
    }
    kind = reader.text(items.get("kind"), f"{path}.kind", "ground")
    if kind not in KINDS_OF_FIRE:
        reader.fault(
            items["kind"].place,
            f"{path}.kind",
            f"`{kind}` is not a kind of fire.",
            f"Write one of: {', '.join(KINDS_OF_FIRE)}.",
        )
    window = reader.quantity(items.get("window"), f"{path}.window", "temperature")
    if window is not None and not window.low < window.high:
        reader.fault(
            items["window"].place,
            f"{path}.window",
            "A window has two ends, the lower one first.",
            "Write `660 °C to 800 °C`.",
        )
    return Method(
        key=key.text,
        name=reader.text(items.get("name"), f"{path}.name", key.text.replace("-", " ").capitalize()),
        kind=kind,
        summary=reader.text(items.get("summary"), f"{path}.summary"),
        success=_success(reader, key, items.get("success"), f"{path}.success"),
        window_low_c=window.low if window else None,
        window_high_c=window.high if window else None,
    )


def _success(reader: SettingsReader, key: Scalar, node: Node | None, path: str) -> dict[str, tuple[str, ...]]:
    items = reader.group(node, path, OUTCOMES)
    if not items:
        reader.fault(
            key.place,
            path,
            f"Nobody can tell what counts as success with `{key.text}`.",
            "Write `success: {survival: [sound]}`, and the other outcomes that count.",
            "settings-required",
        )
    return {
        outcome: reader.texts(value, f"{path}.{outcome}")
        for outcome, (_, value) in items.items()
        if outcome in OUTCOMES
    }


def _words(reader: SettingsReader, node: Node | None) -> Iterator[tuple[str, tuple[str, ...]]]:
    listed = tuple(path for path, found in walk() if found.kind == "word" and found.words)
    for path, (_, value) in reader.group(node, "words", listed).items():
        if path in listed:
            yield path, reader.texts(value, f"words.{path}")


def _units(reader: SettingsReader, node: Node | None) -> Iterator[tuple[str, str]]:
    for kind, (_, value) in reader.group(node, "units", tuple(KINDS)).items():
        unit = reader.text(value, f"units.{kind}")
        if kind in KINDS and isinstance(parse_quantity(f"1 {unit}", kind), Quantity):
            yield kind, unit
        elif kind in KINDS:
            reader.fault(
                value.place,
                f"units.{kind}",
                f"`{unit}` is no unit of {kind.replace('_', ' ')}.",
                "Write a unit as in `units: {temperature: °C, mass: kg}`.",
            )


def _heat(reader: SettingsReader, node: Node | None) -> HeatSettings:
    items = {
        key: value for key, (_, value) in reader.group(node, "heat", ("rise_window", "levels", "soak_within")).items()
    }
    plain = HeatSettings()
    window = reader.quantity(items.get("rise_window"), "heat.rise_window", "time")
    soak = reader.quantity(items.get("soak_within"), "heat.soak_within", "temperature_step")
    levels = items.get("levels")
    nodes = levels.items if isinstance(levels, Sequence) else (levels,) if levels is not None else ()
    found = tuple(reader.quantity(item, "heat.levels", "temperature") for item in nodes)
    temperatures = sorted({level.canonical for level in found if level is not None})
    if window is not None and window.canonical <= 0:
        reader.fault(
            items["rise_window"].place, "heat.rise_window", "The window is longer than nothing.", "Write `1 min`."
        )
    return replace(
        plain,
        rise_window_min=window.canonical if window else plain.rise_window_min,
        soak_within_c=soak.canonical if soak else plain.soak_within_c,
        levels_c=tuple(temperatures) or plain.levels_c,
    )


def _share(reader: SettingsReader, node: Node | None, text: str, default: float) -> float:
    if not text or node is None:
        return default
    try:
        value = float(text)
    except ValueError:
        value = 0.0
    if not 0 < value < 1:
        reader.fault(
            node.place, "window.level", f"`{text}` is no chance.", "Write a number between 0 and 1, such as `0.5`."
        )
        return default
    return value
