"""Imports point one way: a room may use what lies below it, never what stands above."""

from __future__ import annotations

import ast
import re
from pathlib import Path

import pytest

BUILDER = Path(__file__).parent.parent / "builder"

FLOORS = (
    ("__main__",),
    ("commands",),
    ("intake",),
    ("renew",),
    ("build",),
    ("stages",),
    ("own_pages",),
    ("whole",),
    ("render",),
    ("examine",),
    ("sources",),
    ("charts",),
    ("exports",),
    ("pages",),
    ("archive",),
    ("fire",),
    ("ware",),
    ("heat",),
    ("readings",),
    ("checks",),
    ("settings_file",),
    ("settings_sources",),
    ("settings_reader",),
    ("entries",),
    ("shown_names",),
    ("settings",),
    ("standing",),
    ("publish",),
    ("kept",),
    ("workers",),
    ("asked",),
    ("base",),
)
"""The rooms from the top floor down. Rooms side by side share a floor and do not know each other."""

NEIGHBOURS: dict[str, set[str]] = {
    "pages": {"charts", "exports"},
}
"""Rooms that may look up or sideways all the same, with whom."""

LEVEL = {room: len(FLOORS) - number for number, rooms in enumerate(FLOORS) for room in rooms}

ONLY_IN = {
    "matplotlib": {"charts"},
    "mkdocs": {"publish"},
    "nh3": {"publish"},
    "PIL": {"charts", "publish"},
    "yaml": {"base"},
}
"""Libraries that these rooms alone may know."""


def _files() -> list[Path]:
    return sorted(path for path in BUILDER.rglob("*.py") if path.relative_to(BUILDER).parts[0] != "theme")


def _room(path: Path) -> str:
    return path.relative_to(BUILDER).parts[0].removesuffix(".py")


def _imported(path: Path) -> set[str]:
    found = set()
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.ImportFrom) and node.module:
            found.add(node.module)
        elif isinstance(node, ast.Import):
            found.update(name.name for name in node.names)
    return found


@pytest.mark.parametrize("path", _files(), ids=lambda path: path.relative_to(BUILDER).as_posix())
def test_a_room_imports_only_from_the_floors_below_it(path: Path) -> None:
    room = _room(path)
    if room == "__init__":
        return
    for module in _imported(path):
        if not module.startswith("builder."):
            continue
        other = module.split(".")[1]
        allowed = other == room or LEVEL[other] < LEVEL[room] or other in NEIGHBOURS.get(room, set())
        assert allowed, f"{room} may not import {module}"


@pytest.mark.parametrize("path", _files(), ids=lambda path: path.relative_to(BUILDER).as_posix())
def test_a_library_is_known_to_its_own_room_alone(path: Path) -> None:
    for module in _imported(path):
        library = module.split(".")[0]
        assert _room(path) in ONLY_IN.get(library, {_room(path)}), f"{library} belongs to {ONLY_IN[library]}"


def test_no_import_hides_in_a_block_for_type_checkers() -> None:
    for path in _files():
        assert "TYPE_CHECKING" not in path.read_text(encoding="utf-8"), path


def test_every_room_has_a_floor() -> None:
    assert {_room(path) for path in _files()} - {"__init__"} == set(LEVEL)


def test_the_house_is_described_in_this_order() -> None:
    table = (BUILDER.parent / "DEVELOPERS.md").read_text(encoding="utf-8")
    told = re.findall(r"^\| `builder/(\w+)(?:/|\.py)`", table, re.MULTILINE)
    assert told == [room for floor in FLOORS for room in floor]
