"""Files that an entry names: inside its own folder, really there, and of a kind that the archive takes."""

from __future__ import annotations

import os
import re
import unicodedata
from collections.abc import Mapping
from pathlib import Path, PurePosixPath

from builder.checks.fault import Fault, either, shown
from builder.checks.limits import MOST_READINGS_BYTES
from builder.checks.review import Review
from builder.checks.shape import Slot
from builder.checks.words import nearest

PICTURES = (".jpg", ".jpeg", ".png", ".webp")
READINGS = (".csv", ".txt", ".tsv", ".log", ".dat")
LONGEST_NAME = 100

_ADDRESS = re.compile(r"[a-z][a-z0-9+.-]+://|www\.|mailto:", re.IGNORECASE)
_DRIVE = re.compile(r"[A-Za-z]:")
_PERCENT = re.compile(r"%[0-9A-Fa-f]{2}")
_SIGNS = re.compile(r"[:*?\"<>|\x00-\x1f\x7f]")
"""Signs that some file systems refuse or read as something else (MS-FSCC section 2.1.5)."""


def read_file(text: str, slot: Slot, review: Review) -> str | Fault:
    """Take the name of a file beside the entry, after looking at the file itself."""
    pictures = slot.path.startswith("photos.")
    fault = name_fault(text) or kind_fault(text, pictures)
    if fault is not None:
        return fault
    item = review.listing().get(text)
    if item is None:
        return _missing(text, review.listing(), PICTURES if pictures else READINGS)
    return _item_fault(item, pictures) or text


def name_fault(text: str) -> Fault | None:
    """Say why a name could lead out of the entry's folder, or trouble another system; None where it is plain."""
    beside = f"Copy the file beside the entry and write its name alone: {shown(_base(text))}."
    outside = _outside(text)
    if outside:
        return Fault("file-outside", f"{shown(text)} {outside}; an entry's files lie beside it.", beside)
    percent = _PERCENT.search(text)
    if percent:
        plain = _PERCENT.sub("-", text)
        message = f"{shown(text)} holds the code `{percent.group()}`, which could stand for any sign."
        return Fault("file-name", message, f"Rename the file to {shown(plain)} and write that.", percent.start())
    sign = _SIGNS.search(text)
    if sign:
        plain = _SIGNS.sub("-", text)
        message = f"{shown(text)} holds `{sign.group()}`, which not every system takes in a file's name."
        return Fault("file-name", message, f"Rename the file to {shown(plain)} and write that.", sign.start())
    if text.startswith(".") or text.endswith((".", " ")) or len(text) > LONGEST_NAME:
        message = f"{shown(text)} is not a name that every system takes: it begins or ends with a dot, or is too long."
        return Fault("file-name", message, "Rename the file with a short plain name like `drawn.jpg`.")
    return None


def _outside(text: str) -> str:
    """Say in words how a name leads elsewhere; empty where it does not."""
    if _ADDRESS.match(text):
        return "is an address on the web"
    if _DRIVE.match(text):
        return "begins with a drive's letter"
    if "\\" in text:
        return "holds a backslash"
    if text.startswith(("/", "~")):
        return "begins at the top of the disk" if text.startswith("/") else "begins in somebody's home folder"
    if ".." in text.split("/"):
        return "climbs out of the entry's folder with `..`"
    return "lies in a folder of its own" if "/" in text else ""


def _base(text: str) -> str:
    """Return the last part of any path, for a suggestion."""
    last = re.split(r"[/\\]", text.rstrip("/\\"))[-1]
    return _DRIVE.sub("", last, count=1).strip(". ") or "drawn.jpg"


def kind_fault(text: str, pictures: bool) -> Fault | None:
    """Say why the archive does not take a file of this ending; None where it does."""
    suffix = PurePosixPath(text).suffix.lower()
    if suffix in (PICTURES if pictures else READINGS):
        return None
    if pictures:
        why = {
            ".svg": "an SVG drawing, which can carry scripts",
            ".heic": "a HEIC photo, which most browsers cannot show",
            ".heif": "a HEIF photo, which most browsers cannot show",
        }.get(suffix, f"a file ending in `{suffix}`" if suffix else "a file without an ending")
        stem = PurePosixPath(text).stem
        message = f"{shown(text)} is {why}; the archive takes JPEG, PNG and WebP."
        return Fault("file-kind", message, f"Save or export it as {shown(stem + '.jpg')} and write that.")
    message = f"{shown(text)} is not a file of readings: the archive takes {', '.join(READINGS)}."
    return Fault("file-kind", message, "Save the table as CSV (in a spreadsheet: Save as, CSV) and write its name.")


def _missing(text: str, listing: Mapping[str, os.DirEntry[str]], suffixes: tuple[str, ...]) -> Fault:
    """Say that no such file lies beside the entry, and which one may be meant."""
    folded = unicodedata.normalize("NFC", text).casefold()
    for name in sorted(listing):
        if unicodedata.normalize("NFC", name).casefold() == folded:
            if name.casefold() == text.casefold():
                message = f"There is no {shown(text)} here, but {shown(name)}: capital and small letters count."
                return Fault("file-missing", message, f"Write {shown(name)}.")
            message = f"The file {shown(name)} spells its accents otherwise than {shown(text)}, though both look alike."
            return Fault("file-missing", message, "Rename the file with plain letters, and write that name.")
    offered = sorted(name for name in listing if PurePosixPath(name).suffix.lower() in suffixes)
    near = nearest(text, offered)
    message = f"There is no file {shown(text)} beside the entry."
    if near:
        return Fault("file-missing", message, f"Did you mean {shown(near)}?")
    if offered:
        return Fault(
            "file-missing", message, f"Put it into the entry's folder; there now: {either(offered[:4], 'and')}."
        )
    return Fault("file-missing", message, f"Put {shown(text)} into the entry's folder, or take this away.")


def _item_fault(item: os.DirEntry[str], pictures: bool) -> Fault | None:
    """Say what is wrong with a file that is there."""
    if item.is_symlink():
        message = f"{shown(item.name)} is a link to somewhere else; an archive keeps its own copy of everything."
        return Fault("file-link", message, "Copy the file itself into the entry's folder.")
    if not item.is_file(follow_symlinks=False):
        return Fault("file-kind", f"{shown(item.name)} is not a file.", "Write the name of a file beside the entry.")
    size = item.stat(follow_symlinks=False).st_size
    if size == 0:
        return Fault("file-empty", f"{shown(item.name)} is empty.", "Copy it again; the last copy did not finish.")
    if pictures:
        from builder.publish.pictures import look_at  # only now: most entries have no photo

        wrong = look_at(Path(item.path))
        help_ = "Open it, save it again as JPEG, PNG or WebP, and look whether it shows."
        return Fault("picture", f"{shown(item.name)} {wrong}.", help_) if wrong else None
    if size > MOST_READINGS_BYTES:
        message = f"{shown(item.name)} is {size / 1e6:.0f} MB large; the most is {MOST_READINGS_BYTES / 1e6:.0f} MB."
        return Fault("file-too-large", message, "Keep the hours of the fire, and a reading a second at most.")
    return None
