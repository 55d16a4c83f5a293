"""What has to change for a potter to leave the archive: the settings, the entries, and what only a person can judge."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

from builder.base.located_yaml import Mapping, Node, Scalar, Sequence, compose
from builder.checks.files import READINGS
from builder.entries.compose import yaml_words
from builder.entries.find import FIRINGS, EntryFile, find_entries, suggest_words
from builder.entries.front_matter import parse_entry
from builder.settings import NOBODY, Potter, Settings
from builder.settings_file import SETTINGS_FILE

_ENDS = re.compile(r"(\r\n|\r|\n)")
_TEXTS = (".md", *READINGS)
_MOST_BYTES = 5_000_000


class CannotForget(Exception):
    """The files stand so that they cannot be changed by a program; the message says what to do."""


@dataclass(frozen=True, slots=True)
class Mention:
    """A place where the name stands in somebody's words."""

    file: str
    line: int
    """0 where the name stands in the file's or the folder's own name."""
    text: str


@dataclass(frozen=True, slots=True)
class Plan:
    """All that would change."""

    key: str
    """The word that entries use from now on; empty where none needs one."""
    writes: dict[Path, bytes]
    """New contents by file."""
    gone: tuple[EntryFile, ...]
    """Entries that leave the archive."""
    mentions: tuple[Mention, ...]
    """What only a person can judge, after the change."""


def plan(project: Path, settings: Settings, potter: Potter, words: str, with_entries: bool) -> Plan:
    """Work out every change. Raises CannotForget."""
    key = _free_key(suggest_words(words) or "a-potter", settings, potter.key)
    gone, writes = [], {}
    entries, _ = find_entries(project)
    for entry in entries:
        text = _decoded(entry.path)
        whose, places = _places(text, potter.key)
        if whose and with_entries:
            gone.append(entry)
        elif places:
            writes[entry.path] = _encoded(entry.path, _replaced(text, places, potter.key, key, entry.file))
    needed = bool(writes) or len({*settings.potters, *settings.unnamed} - {NOBODY, potter.key}) == 0
    path = project / SETTINGS_FILE
    new = _settings_without(_decoded(path), potter.key, key if needed or not with_entries else "", words)
    writes = {path: _encoded(path, new), **writes}
    mentions = tuple(_mentions(project, potter, writes, {entry.folder for entry in gone}))
    return Plan(key if needed or not with_entries else "", writes, tuple(gone), mentions)


def _free_key(wanted: str, settings: Settings, leaving: str) -> str:
    key, number = wanted, 1
    while key in settings.potters or key in settings.unnamed or key == leaving:
        number += 1
        key = f"{wanted}-{number}"
    return key


# Texts with their own line ends


def _decoded(path: Path) -> str:
    try:
        return path.read_bytes().decode("utf-8-sig")
    except UnicodeDecodeError as error:
        raise CannotForget(f"{path.name} in {path.parent.name} is not UTF-8; save it again first.") from error


def _encoded(path: Path, text: str) -> bytes:
    mark = b"\xef\xbb\xbf" if path.read_bytes().startswith(b"\xef\xbb\xbf") else b""
    return mark + text.encode("utf-8")


def _lines(text: str) -> list[str]:
    """Return a text's lines, each followed by its own line end as an item."""
    return _ENDS.split(text)


# Entries


def _places(text: str, key: str) -> tuple[bool, list[Scalar]]:
    """Tell whether an entry is the potter's own, and where it names the potter as potter or helper."""
    root = parse_entry(_ENDS.sub("\n", text), "entry.md").root
    if root is None:
        return False, []
    own = [node for node in _scalars(root.get("potter")) if _same(node.text, key)]
    helping = [node for node in _scalars(root.get("helpers")) if _same(node.text, key)]
    return bool(own), [*own, *helping]


def _scalars(node: Node | None) -> Iterator[Scalar]:
    if isinstance(node, Scalar):
        yield node
    elif isinstance(node, Sequence):
        for item in node.items:
            yield from _scalars(item)


def _same(text: str, key: str) -> bool:
    return " ".join(text.casefold().split()) == key.casefold()


def _replaced(text: str, places: list[Scalar], old: str, new: str, file: str) -> str:
    lines = _lines(text)
    for node in sorted(places, key=lambda node: (node.place.line or 0, node.place.column or 0), reverse=True):
        at, column = 2 * ((node.place.line or 1) - 1), (node.place.column or 1) - 1
        line = lines[at]
        start = line.find(node.text, column)
        if start < 0 or start > column + 1:
            raise CannotForget(f"{file}, line {node.place.line}: write `{old}` in one word there first.")
        lines[at] = line[:start] + new + line[start + len(node.text) :]
    changed = "".join(lines)
    if _places(changed, old)[1]:
        raise CannotForget(f"{file}: the name could not be changed by a program; change it by hand first.")
    return changed


# Settings


def _settings_without(text: str, key: str, new: str, words: str) -> str:
    """Return the settings with another potter in the place of one, or with none where `new` is empty."""
    root, _ = compose(_ENDS.sub("\n", text), SETTINGS_FILE)
    potters = root.get("potters") if isinstance(root, Mapping) else None
    items = potters.items if isinstance(potters, Mapping) else ()
    found = next((scalar for scalar, _ in items if scalar.text == key), None)
    lines = _lines(text)
    at = 2 * ((found.place.line or 1) - 1) if found is not None else 0
    indent = len(lines[at]) - len(lines[at].lstrip(" "))
    if found is None or indent != (found.place.column or 1) - 1 or not indent:
        raise CannotForget(f"In {SETTINGS_FILE}, write each potter under `potters:` on a line of its own first.")
    end = _end(lines, at, indent)
    line_end = lines[at + 1] if at + 1 < len(lines) else "\n"
    put = (
        [" " * indent + f"{new}:", line_end, " " * (2 * indent) + f"name: {yaml_words(words)}", line_end] if new else []
    )
    return "".join([*lines[:at], *put, *lines[end:]])


def _end(lines: list[str], at: int, indent: int) -> int:
    """Return where the next thing begins after a key's block."""
    end = at + 2
    for place in range(at + 2, len(lines), 2):
        line = lines[place]
        if not line.strip():
            continue
        if len(line) - len(line.lstrip(" ")) <= indent:
            break
        end = place + 2
    return end


# What only a person can judge


def _mentions(project: Path, potter: Potter, writes: dict[Path, bytes], gone: set[Path]) -> Iterator[Mention]:
    name = _pattern(potter)
    for path in _built_from(project, gone):
        file = path.relative_to(project).as_posix()
        if name.search(file):
            yield Mention(file, 0, file)
        if path.suffix.lower() not in (*_TEXTS, ".yml") or path.stat().st_size > _MOST_BYTES:
            continue
        data = writes.get(path) or path.read_bytes()
        for number, line in enumerate(_ENDS.sub("\n", data.decode("utf-8", "replace")).split("\n"), 1):
            if name.search(line):
                yield Mention(file, number, " ".join(line.split()))


def _pattern(potter: Potter) -> re.Pattern[str]:
    """Match the potter's word, the whole name and each longer part of it, as words of their own."""
    parts = {potter.key, potter.name, *(part for part in potter.name.split() if len(part) > 2)}
    either = "|".join(sorted(map(re.escape, parts), key=len, reverse=True))
    return re.compile(rf"(?<![^\W_])(?:{either})(?![^\W_])", re.IGNORECASE)


def _built_from(project: Path, gone: set[Path]) -> Iterator[Path]:
    """Yield every file that a site is built from, in order."""
    yield project / SETTINGS_FILE
    for folder in (project / "content" / "pages", project / FIRINGS):
        for path in sorted(folder.rglob("*")):
            inside = path.relative_to(project)
            hidden = any(part.startswith(".") for part in inside.parts)
            if path.is_file() and not path.is_symlink() and not hidden and not gone & set(path.parents):
                yield path
