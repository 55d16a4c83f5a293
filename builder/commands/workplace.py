"""What one run of a command makes ready aside, to be put in its place by a single rename.

Names of such places are always the same, so that the next run finds what a killed one left there and clears it.
"""

from __future__ import annotations

import contextlib
import os
import shutil
from collections.abc import Iterator
from pathlib import Path


@contextlib.contextmanager
def emptied(folder: Path) -> Iterator[Path]:
    """Give a folder with nothing in it, and take it away at the end."""
    clear(folder)
    folder.mkdir(parents=True)
    try:
        yield folder
    finally:
        clear(folder)


def clear(path: Path) -> None:
    """Take away a file, a link or a whole folder, where there is one."""
    if path.is_dir() and not path.is_symlink():
        shutil.rmtree(path)
    else:
        path.unlink(missing_ok=True)


def write_whole(path: Path, data: bytes) -> None:
    """Write a file so that it is there whole, or not at all, or as it was."""
    aside = path.with_name(f".{path.name}.ashbook-new")
    try:
        with aside.open("wb") as out:
            out.write(data)
            out.flush()
            os.fsync(out.fileno())
        aside.replace(path)
    except BaseException:
        aside.unlink(missing_ok=True)
        raise
