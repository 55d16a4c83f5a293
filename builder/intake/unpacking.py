"""A zip with one firing, unpacked into a folder aside: streamed under limits, whatever its headers claim."""

from __future__ import annotations

import os
import zipfile
import zlib
from pathlib import Path

from builder.base.codes import problem
from builder.base.problem import Place, Problem
from builder.checks.fault import shown
from builder.entries.find import ENTRY, MAX_SLUG, SLUG
from builder.intake.slugs import slug_of_entry
from builder.intake.zip_head import NotASubmission, refuse_at_sight
from builder.intake.zip_members import MAX_RATIO, MAX_UNPACKED, SMALL, Member, folder_and_members

_STEP = 1 << 16
_DAMAGED = (zipfile.BadZipFile, zlib.error, EOFError, NotImplementedError, RuntimeError, ValueError, OverflowError)
"""What zipfile raises over damaged or hostile members."""


def unpack(path: Path, aside: Path) -> tuple[Path | None, tuple[Problem, ...]]:
    """Unpack a zip's one firing into a new folder in `aside`; the folder is None where anything is wrong."""
    place = Place(path.name)
    try:
        refuse_at_sight(path)
        with zipfile.ZipFile(path) as file:
            folder, members, faults = folder_and_members(file.infolist())
            if faults:
                return None, tuple(problem(code, place, "", message, help_) for code, message, help_ in faults)
            loose = aside / "unpacked"
            loose.mkdir(parents=True)
            _write_all(file, members, loose)
    except NotASubmission as refused:
        return None, (problem(refused.code, place, "", refused.message, refused.help),)
    except _DAMAGED as error:
        return None, (_damaged(place, error),)
    slug = folder if SLUG.match(folder) and len(folder) <= MAX_SLUG else slug_of_entry(loose / ENTRY, path.stem)
    return loose.rename(aside / slug), ()


def _damaged(place: Place, error: Exception) -> Problem:
    message = "The zip is damaged: what is inside does not agree with its own listing."
    help_ = "Save the hand-over from the write-up page again, or copy it again."
    return problem("zip-unreadable", place, "", message, help_)


def _write_all(file: zipfile.ZipFile, members: tuple[Member, ...], folder: Path) -> None:
    left = MAX_UNPACKED
    for member in members:
        left -= _write(file, member, folder / member.name, left)


def _write(file: zipfile.ZipFile, member: Member, target: Path, left: int) -> int:
    """Write one member, counting what really comes out of it; raise NotASubmission past a limit."""
    written = 0
    with file.open(member.info) as source, target.open("xb") as out:
        while chunk := source.read(_STEP):
            written += len(chunk)
            if written > min(member.most, left):
                raise NotASubmission(
                    "zip-too-large",
                    f"{shown(member.name)} is larger than {min(member.most, left) / 1e6:.0f} MB.",
                    "Make it smaller: a picture through the write-up page, a log by keeping the hours of the fire.",
                )
            if written > SMALL and written > MAX_RATIO * max(member.info.compress_size, 1):
                raise NotASubmission(
                    "zip-too-large",
                    f"{shown(member.name)} grows more than {MAX_RATIO} times when it is unpacked.",
                    "Zip the firing's folder again.",
                )
            out.write(chunk)
        out.flush()
        os.fsync(out.fileno())
    return written
