"""What stands in an entry's folder, told without reading it again where nothing was written since."""

from __future__ import annotations

import hashlib
import os
import stat
import time
from dataclasses import dataclass
from pathlib import Path

from builder.base.own_file import open_own
from builder.kept.digest import SIZE, plain_digest

RESTED_NS = 3_000_000_000
"""A file younger than this when it was read is read again next time: some systems count time in steps of 2 s, and it
could have been written again within the same step."""


LARGEST_BYTES = 64_000_000
"""Larger than any photo or log that the archive takes; a film left beside an entry is not read each time."""


@dataclass(frozen=True, slots=True)
class Fingerprint:
    """What stood in a file or a folder, and how the system described it then."""

    look: str
    """Digest of sizes, times and places on the disk."""
    content: str
    """Digest of names and contents."""
    rested: bool
    """The same look later means the same content."""


def folder_look(folder: Path) -> tuple[str, int] | None:
    """Return how the system describes all files of a folder, and when the last was written (ns).

    None for a folder that holds anything else than files (what stands behind a link is not told by the link), or a file
    larger than any that is read.
    """
    described: list[object] = []
    newest = 0
    try:
        items = sorted(os.scandir(folder), key=lambda item: item.name)
        for item in items:
            status = item.stat(follow_symlinks=False)
            if not stat.S_ISREG(status.st_mode) or status.st_size > LARGEST_BYTES:
                return None
            described += (item.name, *_look(status))
            newest = max(newest, status.st_mtime_ns, status.st_ctime_ns)
    except OSError:
        return None
    return plain_digest(tuple(described)), newest


def folder_fingerprint(folder: Path, known: Fingerprint | None) -> Fingerprint | None:
    """Return the fingerprint of a folder of files; None where it cannot be told."""
    now = time.time_ns()
    found = folder_look(folder)
    if found is None:
        return None
    look, newest = found
    if known is not None and known.rested and known.look == look:
        return known
    try:
        names = sorted(item.name for item in os.scandir(folder))
        content = plain_digest(tuple((name, file_content(folder / name)) for name in names))
    except OSError:
        return None
    if folder_look(folder) != found:
        return None
    return Fingerprint(look, content, now - newest > RESTED_NS)


def file_content(path: Path) -> str:
    """Return the digest of a file's content, read a piece at a time: a film may lie beside the photos."""
    found = hashlib.blake2b(digest_size=SIZE)
    with open_own(path) as file:
        while piece := file.read(1 << 20):
            found.update(piece)
    return found.hexdigest()


def _look(status: os.stat_result) -> tuple[int, ...]:
    return status.st_size, status.st_mtime_ns, status.st_ctime_ns, status.st_ino, status.st_mode
