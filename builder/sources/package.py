"""A source opened: the folder in which a group's published data lies, unpacked first where it comes as a zip."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from builder.base.codes import problem
from builder.base.problem import Place, Problem
from builder.checks.fault import shown
from builder.entries.find import MAX_SLUG, SLUG
from builder.exports.published_entry import DATA, ENTRIES, PUBLISHED_ENTRY
from builder.exports.published_settings import PUBLISHED_SETTINGS
from builder.settings import SourcePlace
from builder.sources.unpacking import unpack

_AGAIN = "Copy the source again, or ask its group to publish again."


@dataclass(frozen=True, slots=True)
class Package:
    """The published data of one group, on this machine's disk."""

    key: str
    data: Path
    """Its data folder."""
    told: str
    """That folder as it is told to people: the source's key, and the path inside."""


@dataclass(frozen=True, slots=True)
class PublishedEntry:
    """Where one published entry lies."""

    name: str
    """Name of its folder: the firing's lasting name in its own group's archive."""
    folder: Path
    file: str
    """Its file as it is told to people."""


def open_package(place: SourcePlace, project: Path, aside: Path) -> tuple[Package | None, tuple[Problem, ...]]:
    """Find the data of a source, whose zip is unpacked into a folder in `aside`; None where there is none."""
    path = (project / place.path).resolve()
    if path.is_file():
        unpacked = aside / place.key
        data, problems = unpack(path, unpacked, place.key)
        return (None if data is None else _package(place.key, data, unpacked)), problems
    for data in (path / DATA, path):
        if (data / PUBLISHED_SETTINGS).is_file():
            return _package(place.key, data, path), ()
    there = f"{shown(place.path)} holds no published archive: there is no `{DATA}/{PUBLISHED_SETTINGS}` in it."
    if (path / "site_config.yml").is_file():
        help_ = "That is a group's own folder, with what it does not publish; name the `site` folder in it."
    else:
        help_ = "Name the folder of a published site, its `data` folder, or the zip that `ashbook pack` made."
    message = there if path.exists() else f"There is nothing at {shown(place.path)}."
    return None, (problem("source-missing", Place(place.key), "", message, help_),)


def _package(key: str, data: Path, root: Path) -> Package:
    inside = data.relative_to(root).as_posix()
    return Package(key, data, key if inside == "." else f"{key}/{inside}")


def published_entries(package: Package) -> tuple[tuple[PublishedEntry, ...], tuple[Problem, ...]]:
    """List the published entries of a source in the order of their names, and what lies among them that is none."""
    root, told = package.data / ENTRIES, f"{package.told}/{ENTRIES}"
    if root.is_symlink():
        return (), (_linked(told),)
    if not root.is_dir():
        return (), ()
    entries, problems = [], []
    for item in sorted(root.iterdir(), key=lambda path: path.name):
        if item.name.startswith("."):
            continue
        here = f"{told}/{_printable(item.name)}"
        if item.is_symlink():
            problems.append(_linked(here))
        elif not item.is_dir() or not SLUG.match(item.name) or len(item.name) > MAX_SLUG:
            message = f"{shown(item.name)} lies among the published entries and is no firing's folder."
            problems.append(problem("source-entry", Place(here), "", message, _AGAIN))
        elif not (item / PUBLISHED_ENTRY).exists():
            message = f"The published firing {shown(item.name)} has no `{PUBLISHED_ENTRY}`."
            problems.append(problem("source-entry", Place(here), "", message, _AGAIN))
        else:
            entries.append(PublishedEntry(item.name, item, f"{here}/{PUBLISHED_ENTRY}"))
    return tuple(entries), tuple(problems)


def _linked(told: str) -> Problem:
    message = "This is a link to somewhere else; a published archive holds its own files."
    return problem("file-link", Place(told), "", message, _AGAIN)


def _printable(name: str) -> str:
    return "".join(letter if letter.isprintable() else "�" for letter in name)
