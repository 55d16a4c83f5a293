"""A zip with one firing, unpacked into a folder aside: streamed under limits, whatever its headers claim."""

from __future__ import annotations

import os
import zipfile
import zlib
from pathlib import Path

from builder.base.codes import problem
from builder.base.problem import Place, Problem
from builder.base.zip_listing import DAMAGED, ZipRefused, pieces_of, refuse_at_sight
from builder.checks.fault import shown
from builder.entries.find import ENTRY, MAX_SLUG, SLUG
from builder.intake.slugs import slug_of_entry
from builder.intake.zip_head import LIMITS
from builder.intake.zip_members import Member, folder_and_members


def unpack(path: Path, aside: Path) -> tuple[Path | None, tuple[Problem, ...]]:
    """Unpack a zip's one firing into a new folder in `aside`; the folder is None where anything is wrong."""
    place = Place(path.name)
    try:
        refuse_at_sight(path, LIMITS)
        with zipfile.ZipFile(path) as file:
            folder, members, faults = folder_and_members(file.infolist())
            if faults:
                return None, tuple(problem(code, place, "", message, help_) for code, message, help_ in faults)
            loose = aside / "unpacked"
            loose.mkdir(parents=True)
            _write_all(file, members, loose)
    except ZipRefused as refused:
        return None, (problem(refused.code, place, "", refused.message, refused.help),)
    except (*DAMAGED, zlib.error) as error:
        return None, (_damaged(place, error),)
    slug = folder if SLUG.match(folder) and len(folder) <= MAX_SLUG else slug_of_entry(loose / ENTRY, path.stem)
    return loose.rename(aside / slug), ()


def _damaged(place: Place, error: Exception) -> Problem:
    message = "The zip is damaged: what is inside does not agree with its own listing."
    help_ = "Save the hand-over from the write-up page again, or copy it again."
    return problem("zip-unreadable", place, "", message, help_)


def _write_all(file: zipfile.ZipFile, members: tuple[Member, ...], folder: Path) -> None:
    left = LIMITS.unpacked
    for member in members:
        left -= _write(file, member, folder / member.name, left)


def _write(file: zipfile.ZipFile, member: Member, target: Path, left: int) -> int:
    """Write one member, counting what really comes out of it; raises ZipRefused past a limit."""
    written = 0
    with target.open("xb") as out:
        for piece in pieces_of(file, member.info, min(member.most, left), shown(member.name), LIMITS):
            out.write(piece)
            written += len(piece)
        out.flush()
        os.fsync(out.fileno())
    return written
