"""The zip of a published archive: only its settings and its entries are unpacked, under limits, whatever it claims.

What was unpacked before is compared with the zip byte for byte, written anew where it differs, and swept of the rest.
"""

from __future__ import annotations

import re
import shutil
import zipfile
import zlib
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path

from builder.base.codes import problem
from builder.base.problem import Place, Problem
from builder.base.zip_listing import (
    DAMAGED,
    Fault,
    ZipLimits,
    ZipRefused,
    faults_of_member,
    faults_of_whole,
    name_of,
    pieces_of,
    refuse_at_sight,
)
from builder.checks.fault import shown
from builder.checks.limits import MOST_READINGS_BYTES
from builder.entries.front_matter import MAX_BYTES as MAX_ENTRY_BYTES
from builder.exports.published_entry import ENTRIES, PUBLISHED_ENTRY, PUBLISHED_READINGS
from builder.exports.published_settings import PUBLISHED_SETTINGS
from builder.kept.folder import Folder

LIMITS = ZipLimits(
    packed=4_000_000_000,
    unpacked=1_000_000_000,
    members=65_000,
    smaller="Unpack it, and name the folder instead.",
    again="Pack that site again with `ashbook pack`, or unpack it and name the folder instead.",
)
"""Of a zip of a whole site. `unpacked` counts what is taken out: a hundred thousand entries have about half of it."""

_MOST_FAULTS = 20
"""So many faults of one zip are told; after that nobody reads on."""
_SETTINGS_PATH = re.compile(rf"(?P<above>(?:[^/]+/)*){re.escape(PUBLISHED_SETTINGS)}\Z")
_ENTRY_PATH = re.compile(rf"{ENTRIES}/[^/]+/(?:{re.escape(PUBLISHED_ENTRY)}|{re.escape(PUBLISHED_READINGS)})\Z")


@dataclass(frozen=True, slots=True)
class _Member:
    """One file that is taken out of a zip."""

    info: zipfile.ZipInfo
    path: str
    """Its path from the zip's top, plain."""
    most: int
    """The most bytes that are taken out of it."""


def unpack(path: Path, folder: Path, key: str) -> tuple[Path | None, tuple[Problem, ...]]:
    """Let a folder hold the settings and the entries of a zip, and return the data folder in it.

    The data folder is None where anything is wrong with the zip; then nothing of it is taken.
    """
    try:
        refuse_at_sight(path, LIMITS)
        with zipfile.ZipFile(path) as file:
            above, members, faults = _members(file.infolist())
            if faults:
                return None, tuple(_problem(key, fault) for fault in faults[:_MOST_FAULTS])
            _take_out(file, members, folder)
    except ZipRefused as refused:
        return None, (_problem(key, (refused.code, refused.message, refused.help)),)
    except (*DAMAGED, zlib.error):
        message = "The zip is damaged: what is inside does not agree with its own listing."
        return None, (_problem(key, ("zip-unreadable", message, LIMITS.again)),)
    return folder / above, ()


def _problem(key: str, fault: Fault) -> Problem:
    code, message, help_ = fault
    return problem(code, Place(key), "", message, help_)


def _members(infos: Sequence[zipfile.ZipInfo]) -> tuple[str, tuple[_Member, ...], tuple[Fault, ...]]:
    """Return the path of the data folder, what is taken out, and all that is wrong with the zip."""
    if len(infos) > LIMITS.members:
        return "", (), (("zip-too-large", f"The zip holds more than {LIMITS.members} files.", LIMITS.smaller),)
    named = [(info, name_of(info)) for info in infos]
    faults = [fault for info, name in named for fault in faults_of_member(info, shown(name), LIMITS)]
    homes = [match["above"] for _, name in named if (match := _SETTINGS_PATH.fullmatch(name))]
    if not homes:
        message = f"The zip holds no published archive: there is no `{PUBLISHED_SETTINGS}` in it."
        help_ = "Pack that site with `ashbook pack`, by a program that publishes entries; or zip its `data` folder."
        return "", (), (*faults, ("source-missing", message, help_))
    above = min(homes, key=lambda home: (home.count("/"), home))
    members = tuple(_wanted(named, above))
    faults += faults_of_whole([member.info for member in members], LIMITS)
    return above, members, (*faults, *_same_paths(members))


def _wanted(named: Sequence[tuple[zipfile.ZipInfo, str]], above: str) -> Iterator[_Member]:
    for info, name in named:
        inside = name.removeprefix(above) if name.startswith(above) else ""
        if inside == PUBLISHED_SETTINGS or _ENTRY_PATH.fullmatch(inside):
            most = MOST_READINGS_BYTES if inside.endswith(PUBLISHED_READINGS) else MAX_ENTRY_BYTES
            yield _Member(info, name, most)


def _same_paths(members: Sequence[_Member]) -> Iterator[Fault]:
    seen: set[str] = set()
    for member in members:
        folded = member.path.casefold()
        if folded in seen:
            yield "zip-name-twice", f"{shown(member.path)} stands twice in the zip.", LIMITS.again
        seen.add(folded)


def _take_out(file: zipfile.ZipFile, members: Sequence[_Member], folder: Path) -> None:
    """Renew the folder; where it is in such a state that this fails, begin it anew."""
    try:
        _renew(file, members, folder)
    except OSError:
        remove(folder)
        _renew(file, members, folder)


def _renew(file: zipfile.ZipFile, members: Sequence[_Member], folder: Path) -> None:
    if folder.is_symlink():
        folder.unlink()
    folder.mkdir(parents=True, exist_ok=True)
    kept = Folder(folder, "source")
    kept.clear_links()
    left = LIMITS.unpacked
    for member in members:
        content = b"".join(pieces_of(file, member.info, min(member.most, left), shown(member.path), LIMITS))
        left -= len(content)
        kept.put(member.path, content)
    kept.sweep([member.path for member in members])


def remove(folder: Path) -> None:
    """Remove a folder, a file or a link, whatever stands there."""
    if folder.is_symlink() or folder.is_file():
        folder.unlink()
    else:
        shutil.rmtree(folder, ignore_errors=True)
