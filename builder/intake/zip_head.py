"""The end of a zip file, looked at before anything of it is believed: how many members it lists, and in how many bytes.

A listing of millions of members fills the memory before a single one is looked at, so its size is judged first.
"""

from __future__ import annotations

import os
import struct
from pathlib import Path
from typing import BinaryIO

MAX_ZIP_BYTES = 200_000_000
"""Largest zip: six pictures of the largest size that the site takes, with room to spare."""
MAX_MEMBERS = 100
"""Most files of one firing; a dozen pictures are many."""
_MAX_LISTING = MAX_MEMBERS * 1_000
"""Most bytes of the listing at the zip's end, where a member takes 46 bytes and its name."""

_FIRST = b"PK\x03\x04"
_END = struct.Struct("<4s4H2LH")
"""End of central directory record (APPNOTE.TXT 6.3.10, section 4.3.16)."""
_END_SIGN = b"PK\x05\x06"
_ZIP64_SIGN = b"PK\x06\x07"
_ZIP64_SIZE = 20
_LONGEST_COMMENT = 0xFFFF


class NotASubmission(Exception):
    """A zip that cannot be taken in: `code`, what is wrong, and what to do."""

    def __init__(self, code: str, message: str, help_: str) -> None:
        super().__init__(message)
        self.code, self.message, self.help = code, message, help_


_NO_ZIP = ("zip-unreadable", "This is not a zip file.", "Save the hand-over from the write-up page again.")


def refuse_at_sight(path: Path) -> None:
    """Raise NotASubmission where the zip's size or its listing is beyond any firing's."""
    try:
        with path.open("rb") as file:
            size = os.fstat(file.fileno()).st_size
            _refuse_size(size)
            if file.read(4) != _FIRST:
                raise NotASubmission(*_NO_ZIP)
            _refuse_listing(file, size)
    except OSError as error:
        raise NotASubmission(
            "zip-unreadable", f"The file cannot be read: {error.strerror or error}.", "Look at its permissions."
        ) from error


def _refuse_size(size: int) -> None:
    if size > MAX_ZIP_BYTES:
        raise NotASubmission(
            "zip-too-large",
            f"The zip has {size / 1e6:.0f} MB; the most is {MAX_ZIP_BYTES / 1e6:.0f} MB.",
            "Make the pictures smaller.",
        )


def _refuse_listing(file: BinaryIO, size: int) -> None:
    start = max(0, size - _END.size - _LONGEST_COMMENT - _ZIP64_SIZE)
    file.seek(start)
    tail = file.read()
    at = tail.rfind(_END_SIGN)
    if at < 0 or len(tail) < at + _END.size:
        raise NotASubmission(
            "zip-unreadable", "The zip breaks off before its end.", "Copy it again; the last copy did not finish."
        )
    _, _, _, _, members, listing, _, comment = _END.unpack_from(tail, at)
    if at + _END.size + comment != len(tail):
        raise NotASubmission(
            "zip-unreadable", "The zip has something behind its end.", "Zip the firing's folder again."
        )
    if tail[max(0, at - _ZIP64_SIZE) : at].startswith(_ZIP64_SIGN) or members > MAX_MEMBERS or listing > _MAX_LISTING:
        raise NotASubmission(
            "zip-too-large",
            f"The zip lists more than {MAX_MEMBERS} files.",
            "Zip the one firing alone: its entry, its readings and a few pictures.",
        )
