"""What the system refuses, in words, with what to do about it."""

from __future__ import annotations

import errno

_WAYS_OUT = {
    errno.ENOSPC: ("the disk is full", "Free some space and run the command again."),
    errno.EDQUOT: ("your share of the disk is full", "Free some space and run the command again."),
    errno.EROFS: ("the disk can only be read", "Name another folder with `--out`, or make this one writable."),
    errno.EACCES: ("you may not write or read there", "Look at the permissions of the folder."),
    errno.EPERM: ("you may not write or read there", "Look at the permissions of the folder."),
    errno.EMFILE: ("too many files are open", "Close other programs, or try with `--jobs 1`."),
    errno.ENOENT: ("it is not there any more", "Something took it away meanwhile; run the command again."),
    errno.EIO: ("the disk could not be read or written", "Look after the disk before anything else."),
}


def in_words(error: OSError) -> str:
    """Say in words what the system refused, where, and what to do."""
    what, way_out = _WAYS_OUT.get(error.errno or 0, (error.strerror or str(error), "Run the command again."))
    where = f"{error.filename}: " if error.filename else ""
    return f"{where}{what}. {way_out}"
