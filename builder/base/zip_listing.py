"""A zip judged by its end and its listing, before anything of it is believed: sizes, names, kinds, places.

A listing of millions of members fills the memory before a single one is looked at, so its size is judged first. What
comes out of a member is counted again while it is unpacked: a listing may lie.
"""

from __future__ import annotations

import os
import re
import stat
import struct
import zipfile
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import BinaryIO

MAX_RATIO = 200
"""A member that grows more than so many times is a bomb: logs grow about 20 times, deflate can reach 1,032."""
SMALL = 1_000_000
"""Whatever it grows from, a member below so many bytes harms nobody."""
DAMAGED = (zipfile.BadZipFile, EOFError, NotImplementedError, RuntimeError, ValueError, OverflowError)
"""What zipfile raises over damaged or hostile members, beside zlib.error."""

_STEP = 1 << 16
_FIRST = b"PK\x03\x04"
_END = struct.Struct("<4s4H2LH")
"""End of central directory record (APPNOTE.TXT 6.3.10, section 4.3.16)."""
_END_SIGN = b"PK\x05\x06"
_ZIP64_SIGN = b"PK\x06\x07"
_ZIP64_SIZE = 20
_LONGEST_COMMENT = 0xFFFF
_BYTES_LISTED = 1_000
"""Most bytes of a listing a member, which takes 46 bytes and its name."""
_METHODS = (zipfile.ZIP_STORED, zipfile.ZIP_DEFLATED)
_LOCKED = 0x1 | 0x40 | 0x2000
"""Flags of encryption (APPNOTE.TXT 6.3.10, section 4.4.4: bits 0, 6 and 13)."""
_UTF8 = 0x800

Fault = tuple[str, str, str]
"""Code, message, help."""


class ZipRefused(Exception):
    """A zip that cannot be taken in: `code`, what is wrong, and what to do."""

    def __init__(self, code: str, message: str, help_: str) -> None:
        super().__init__(message)
        self.code, self.message, self.help = code, message, help_


@dataclass(frozen=True, slots=True)
class ZipLimits:
    """How large a zip of one kind may be, and what to do about one that cannot be taken."""

    packed: int
    """Most bytes of the zip itself."""
    unpacked: int
    """Most bytes of all its files together."""
    members: int
    """Most files."""
    smaller: str
    """Help where it is too large."""
    again: str
    """Help where it is damaged or strange."""


def refuse_at_sight(path: Path, limits: ZipLimits) -> None:
    """Raise ZipRefused where the file is no zip, or its size or its listing is beyond the limits."""
    try:
        with path.open("rb") as file:
            size = os.fstat(file.fileno()).st_size
            if size > limits.packed:
                message = f"The zip has {size / 1e6:.0f} MB; the most is {limits.packed / 1e6:.0f} MB."
                raise ZipRefused("zip-too-large", message, limits.smaller)
            if file.read(4) != _FIRST:
                raise ZipRefused("zip-unreadable", "This is not a zip file.", limits.again)
            _refuse_listing(file, size, limits)
    except OSError as error:
        message = f"The file cannot be read: {error.strerror or error}."
        raise ZipRefused("zip-unreadable", message, "Look at its permissions.") from error


def _refuse_listing(file: BinaryIO, size: int, limits: ZipLimits) -> None:
    start = max(0, size - _END.size - _LONGEST_COMMENT - _ZIP64_SIZE)
    file.seek(start)
    tail = file.read()
    at = tail.rfind(_END_SIGN)
    if at < 0 or len(tail) < at + _END.size:
        message = "The zip breaks off before its end."
        raise ZipRefused("zip-unreadable", message, "Copy it again; the last copy did not finish.")
    _, _, _, _, members, listing, _, comment = _END.unpack_from(tail, at)
    if at + _END.size + comment != len(tail):
        raise ZipRefused("zip-unreadable", "The zip has something behind its end.", limits.again)
    large = tail[max(0, at - _ZIP64_SIZE) : at].startswith(_ZIP64_SIGN)
    if large or members > limits.members or listing > limits.members * _BYTES_LISTED:
        raise ZipRefused("zip-too-large", f"The zip lists more than {limits.members} files.", limits.smaller)


def name_of(info: zipfile.ZipInfo) -> str:
    """Return a member's whole name; one that is UTF-8 without saying so is read as that."""
    if info.flag_bits & _UTF8:
        return info.orig_filename
    try:
        return info.orig_filename.encode("cp437").decode("utf-8")
    except UnicodeError:
        return info.orig_filename


def leads_away(name: str) -> str:
    """Say in words how a name leads out of the folder that it is unpacked to; empty where it does not."""
    if not name.isprintable():
        return "holds a character that cannot be seen"
    if "\\" in name:
        return "holds a backslash"
    if re.match(r"[A-Za-z]:", name):
        return "begins with a drive's letter"
    if name.startswith("/"):
        return "begins at the top of the disk"
    parts = name.removesuffix("/").split("/")
    if ".." in parts:
        return "climbs out with `..`"
    if "" in parts or "." in parts:
        return "has a part without a name"
    return ""


def faults_of_member(info: zipfile.ZipInfo, shown: str, limits: ZipLimits) -> Iterator[Fault]:
    """Yield what is wrong with one member by its listing; `shown` is its name as it is told."""
    name = name_of(info)
    why = leads_away(name)
    if why:
        yield "zip-path", f"{shown} {why}; it would not land in the folder that it is meant for.", limits.again
        return
    mode = info.external_attr >> 16
    if stat.S_IFMT(mode) not in (0, stat.S_IFREG, stat.S_IFDIR) or (stat.S_ISDIR(mode) and not name.endswith("/")):
        kind = "a link to somewhere else" if stat.S_ISLNK(mode) else "no plain file"
        yield "zip-special", f"{shown} is {kind}.", "Put the file itself into the folder, and zip it again."
    if info.flag_bits & _LOCKED:
        yield "zip-encrypted", f"{shown} is locked with a password.", "Zip the folder again without a password."
    elif info.compress_type not in _METHODS:
        message = f"{shown} is packed in a way that few programs can read."
        yield "zip-unreadable", message, "Zip the folder again in the plain way (deflate)."
    if info.file_size > SMALL and info.file_size > MAX_RATIO * max(info.compress_size, 1):
        yield "zip-too-large", f"{shown} grows more than {MAX_RATIO} times when it is unpacked.", limits.smaller


def faults_of_whole(infos: Sequence[zipfile.ZipInfo], limits: ZipLimits) -> Iterator[Fault]:
    """Judge the sizes and places that the listing claims of all members together."""
    if sum(info.file_size for info in infos) > limits.unpacked:
        yield "zip-too-large", f"Unpacked, the zip is larger than {limits.unpacked // 1_000_000} MB.", limits.smaller
    ends = 0
    for info in sorted(infos, key=lambda info: info.header_offset):
        if info.header_offset < ends:
            yield "zip-unreadable", "Files in the zip lie over one another.", limits.again
            return
        ends = info.header_offset + info.compress_size


def pieces_of(
    file: zipfile.ZipFile, info: zipfile.ZipInfo, most: int, shown: str, limits: ZipLimits
) -> Iterator[bytes]:
    """Yield what really comes out of a member, piece by piece; raises ZipRefused past `most` bytes, or for a bomb."""
    told = 0
    with file.open(info) as source:
        while piece := source.read(_STEP):
            told += len(piece)
            if told > most:
                message = f"{shown} is larger than {most / 1e6:.0f} MB."
                raise ZipRefused("zip-too-large", message, limits.smaller)
            if told > SMALL and told > MAX_RATIO * max(info.compress_size, 1):
                message = f"{shown} grows more than {MAX_RATIO} times when it is unpacked."
                raise ZipRefused("zip-too-large", message, limits.again)
            yield piece
