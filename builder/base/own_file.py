"""Open a file of the archive itself: never through a link, never a pipe or a device, however late it was put there."""

from __future__ import annotations

import errno
import os
import stat
from pathlib import Path
from typing import BinaryIO


def open_own(path: Path) -> BinaryIO:
    """Open a file for reading; raises OSError where it, or the folder it lies in, is a link, or it is no plain file.

    The check of an entry refuses links with words. This is the fence behind it: what was a file when it was checked
    may have become a link since.
    """
    if path.parent.is_symlink():
        raise OSError(errno.ELOOP, "its folder is a link to somewhere else")
    flags = os.O_RDONLY | getattr(os, "O_NOFOLLOW", 0) | getattr(os, "O_NONBLOCK", 0) | getattr(os, "O_BINARY", 0)
    try:
        handle = os.open(path, flags)
    except OSError as error:
        if error.errno == errno.ELOOP:
            raise OSError(errno.ELOOP, "it is a link to somewhere else") from error
        raise
    if not stat.S_ISREG(os.fstat(handle).st_mode):
        os.close(handle)
        raise OSError(errno.EINVAL, "it is not a plain file")
    return os.fdopen(handle, "rb")
