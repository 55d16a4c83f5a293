"""The members of a zip judged by the listing alone: names, kinds, places, sizes as they are claimed."""

from __future__ import annotations

import re
import unicodedata
import zipfile
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from pathlib import PurePosixPath

from builder.base.zip_listing import Fault, faults_of_member, faults_of_whole, leads_away, name_of
from builder.checks.fault import shown
from builder.checks.files import PICTURES, READINGS, name_fault
from builder.checks.limits import MOST_READINGS_BYTES
from builder.entries.find import ENTRY
from builder.entries.front_matter import MAX_BYTES as MAX_ENTRY_BYTES
from builder.intake.zip_head import LIMITS
from builder.publish.pictures import MAX_BYTES as MAX_PICTURE_BYTES

_LEFT_BY_SYSTEMS = re.compile(r"(?:.*/)?(?:__MACOSX(?:/.*)?|\.DS_Store|\._[^/]*|Thumbs\.db|desktop\.ini)\Z")
"""What desktop systems put into zips by themselves."""
_RESERVED = re.compile(r"(?:con|prn|aux|nul|com[0-9]|lpt[0-9])(?:\.|\Z)", re.IGNORECASE)
"""Names that stand for devices on Windows, whatever their ending."""
_MAX_NAME_BYTES = 200
"""Most file systems take 255."""
_ZIPS = (".zip", ".7z", ".rar", ".gz", ".tgz", ".tar", ".bz2", ".xz", ".zst", ".jar", ".docx", ".xlsx", ".odt", ".ods")


@dataclass(frozen=True, slots=True)
class Member:
    """One file of a zip that may be unpacked."""

    info: zipfile.ZipInfo
    name: str
    """Its name beside the entry."""
    most: int
    """The most bytes that are taken out of it."""


def most_bytes(name: str) -> int:
    """Return the most bytes that a file of this name may have."""
    if name == ENTRY:
        return MAX_ENTRY_BYTES
    return MAX_PICTURE_BYTES if PurePosixPath(name).suffix.lower() in PICTURES else MOST_READINGS_BYTES


def folder_and_members(infos: Sequence[zipfile.ZipInfo]) -> tuple[str, tuple[Member, ...], tuple[Fault, ...]]:
    """Return the one folder's name (empty where the entry is at the top), its files, and all that is wrong."""
    faults: list[Fault] = []
    if len(infos) > LIMITS.members:
        return "", (), (("zip-too-large", f"The zip holds more than {LIMITS.members} files.", LIMITS.smaller),)
    kept: list[tuple[zipfile.ZipInfo, str]] = []
    for info in infos:
        name = name_of(info)
        found = list(faults_of_member(info, shown(name), LIMITS))
        faults += found
        if not found and not _LEFT_BY_SYSTEMS.match(name) and not name.endswith("/"):
            kept.append((info, name))
    faults += faults_of_whole(infos, LIMITS)
    names = [name for _, name in kept]
    folder, shape = _folder(names, [name_of(info) for info in infos])
    faults += [] if faults and not names else shape
    members = tuple(Member(info, name.rpartition("/")[2], most_bytes(name.rpartition("/")[2])) for info, name in kept)
    faults += _same_names([member.name for member in members])
    faults += [fault for member in members if (fault := _kind_fault(member.name)) is not None]
    return folder, members, tuple(faults)


def _folder(names: Sequence[str], listed: Sequence[str]) -> tuple[str, list[Fault]]:
    """Find the one folder; faults where the zip is not one entry with its files beside it."""
    entries = [name for name in names if name.rpartition("/")[2] == ENTRY]
    if not entries:
        other = next((name for name in names if name.lower().endswith((".md", ".markdown"))), "")
        help_ = f"Rename {shown(other)} to `{ENTRY}`." if other else "Zip the firing's whole folder."
        return "", [("zip-shape", f"The zip has no `{ENTRY}`.", help_)]
    if len(entries) > 1:
        message = f"The zip has {len(entries)} entries: {shown(entries[0])}, {shown(entries[1])} …"
        return "", [("zip-shape", message, "Zip each firing's folder by itself, and accept the zips together.")]
    folder = entries[0].rpartition("/")[0]
    if "/" in folder:
        return "", [
            ("zip-shape", f"{shown(entries[0])} lies too deep.", "Zip the firing's own folder, not the one around it.")
        ]
    inside = [name for name in listed if not _LEFT_BY_SYSTEMS.match(name)]
    stray = [name for name in inside if name.rstrip("/") != folder and name.rpartition("/")[0] != folder]
    return folder, [
        ("zip-shape", f"{shown(name)} does not lie beside the entry.", "Put all files of the firing into one folder.")
        for name in stray[:5]
        if not leads_away(name)
    ]


def _same_names(names: Sequence[str]) -> Iterator[Fault]:
    seen: dict[str, str] = {}
    for name in names:
        same = unicodedata.normalize("NFC", unicodedata.normalize("NFKC", name).casefold())
        other = seen.setdefault(same, name)
        if other is not name:
            differs = (
                "twice in the zip"
                if other == name
                else f"in the zip beside {shown(other)}, which some systems take for the same"
            )
            yield (
                "zip-name-twice",
                f"{shown(name)} stands {differs}.",
                "Rename one of them, and name it so in the entry.",
            )


def _kind_fault(name: str) -> Fault | None:
    if name == ENTRY:
        return None
    plain = name_fault(name)
    if plain is not None:
        return "zip-kind", plain.message, plain.help
    if _RESERVED.match(name) or len(name.encode()) > _MAX_NAME_BYTES:
        return "zip-kind", f"{shown(name)} is not a name that every system takes.", "Rename it: `drawn.jpg`, say."
    suffix = PurePosixPath(name).suffix.lower()
    if suffix in (*PICTURES, *READINGS):
        return None
    if suffix in _ZIPS:
        return (
            "zip-kind",
            f"{shown(name)} holds files of its own.",
            "Unpack it, and put what belongs to the firing beside the entry.",
        )
    return (
        "zip-kind",
        f"{shown(name)} is not a file of an entry.",
        "Keep `entry.md`, readings as CSV or text, and pictures as JPEG, PNG or WebP.",
    )
