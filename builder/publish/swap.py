"""The finished site takes the old one's place in one step; nothing that was not made here is ever touched."""

from __future__ import annotations

import contextlib
import ctypes
import os
import shutil
import sys
from collections.abc import Iterator
from pathlib import Path

from builder.publish.errors import OutputRefused

MARKER = ".ashbook-site"
"""File inside a site that says: this folder was made by ashbook, and may be renewed as a whole."""

MARKER_TEXT = "This folder was made by ashbook build and is renewed as a whole: keep nothing of your own in it.\n"
_OWN_FOLDERS = ("content", "builder", "theme", "tests")


def refuse_unsafe(out: Path, work: Path, project: Path | None = None) -> None:
    """Raise OutputRefused where building into `out` could destroy something that a build did not make."""
    out, work = out.resolve(), work.resolve()
    homes = {Path.home().resolve(), Path(out.anchor)}
    if project is not None:
        homes.add(project.resolve())
    for home in sorted(homes):
        if home == out or out in home.parents:
            raise OutputRefused(f"{out} holds more than a site; name a folder of its own, such as {out / 'site'}")
    if work == out or out in work.parents or work in out.parents:
        raise OutputRefused(f"{out} and the working folder {work} must not lie inside one another")
    if project is not None:
        for name in _OWN_FOLDERS:
            own = project.resolve() / name
            if own == out or own in out.parents:
                raise OutputRefused(f"{out} lies inside {own}, which holds the archive's own files")
    if out.exists() and not out.is_dir():
        raise OutputRefused(f"{out} is a file, not a folder")
    if out.is_dir() and any(out.iterdir()) and not (out / MARKER).is_file():
        raise OutputRefused(f"{out} is not empty and was not made by ashbook; name another folder, or empty this one")


def mark(site: Path) -> None:
    """Leave the marker in a finished site."""
    (site / MARKER).write_text(MARKER_TEXT, encoding="utf-8")


@contextlib.contextmanager
def locked(work: Path) -> Iterator[None]:
    """Hold the working folder for one build; a second build at the same time raises OutputRefused.

    The lock ends with the process, however that ends, so a killed build never leaves one behind.
    """
    work.mkdir(parents=True, exist_ok=True)
    with (work / "lock").open("a+b") as file:
        try:
            _lock(file.fileno())
        except OSError as error:
            raise OutputRefused(f"another build is at work in {work}; wait until it has finished") from error
        yield


def _lock(handle: int) -> None:
    """Take the lock of an open file or raise OSError at once."""
    if sys.platform == "win32":
        import msvcrt

        msvcrt.locking(handle, msvcrt.LK_NBLCK, 1)
    else:
        import fcntl

        fcntl.flock(handle, fcntl.LOCK_EX | fcntl.LOCK_NB)


def tidy(out: Path, work: Path) -> None:
    """Clear what a killed build left; where it died between two steps of a swap, the last good site comes back."""
    out = out.resolve()
    kept = _beside(out, "old")
    if kept.is_dir() and not out.exists():
        kept.rename(out)
    for leftover in (kept, _beside(out, "new")):
        if (leftover / MARKER).is_file():
            shutil.rmtree(leftover)


def swap_in(new: Path, out: Path) -> None:
    """Put the finished site `new` in the place of `out`, which is whole before, during and after.

    Where the two lie on one disk the old site then lies where the new one was: the next build renews it.
    """
    out = out.resolve()
    out.parent.mkdir(parents=True, exist_ok=True)
    here = _on_same_disk(new, out)
    if not out.exists():
        here.rename(out)
        return
    if not _exchange(here, out):
        kept = _beside(out, "old")
        out.rename(kept)
        here.rename(out)
        kept.rename(here)
    if here != new:
        shutil.rmtree(here)


def _beside(out: Path, word: str) -> Path:
    """A folder beside the site, hidden, on the same disk."""
    return out.with_name(f".{out.name}.ashbook-{word}")


def _on_same_disk(new: Path, out: Path) -> Path:
    """Carry the new site to the disk of the old one where they differ: only there a rename is one step."""
    if _same_disk(new, out.parent):
        return new
    beside = _beside(out, "new")
    beside.mkdir()
    mark(beside)
    shutil.copytree(new, beside, dirs_exist_ok=True)
    return beside


def _same_disk(one: Path, other: Path) -> bool:
    return one.stat().st_dev == other.stat().st_dev


def _exchange(new: Path, out: Path) -> bool:
    """Exchange two folders in one step where the system can (Linux: renameat2 with RENAME_EXCHANGE)."""
    if sys.platform != "linux":
        return False
    here, exchange = -100, 2  # AT_FDCWD of fcntl.h, RENAME_EXCHANGE of linux/fs.h
    try:
        rename = ctypes.CDLL(None, use_errno=True).renameat2
    except (OSError, AttributeError):
        return False
    return bool(rename(here, os.fsencode(new), here, os.fsencode(out), exchange) == 0)
