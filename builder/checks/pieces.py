"""Pieces and photos against the rest of their entry: weighings, marks, paint, how many there are."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise
from pathlib import PurePosixPath

from builder.checks.fault import Fault, shown
from builder.checks.found import Group
from builder.checks.limits import MOST_PIECES
from builder.checks.review import Review

MOST_ABSORBED = 0.5
"""Water that a pot mostly takes up at most, as a share of its dry mass (common practice, no source)."""
MOST_SHRINKAGE = 0.25
"""Shrinkage from wet to fired that is seldom passed (common practice, no source)."""


def check_pieces(entry: Group, review: Review) -> None:
    """Check every piece for what its fields say together."""
    pieces = entry.items("pieces")
    surface = entry.inside("surface")
    unpainted = surface is not None and is_unpainted(surface.text("paint"))
    for piece in pieces:
        weighed, marks = piece.inside("weighed"), piece.inside("marks")
        if weighed is not None:
            _report(weighed, review, _weighed_faults(weighed))
        if marks is not None:
            _report(marks, review, _marks_faults(marks))
        if unpainted and piece.text("paint") not in (None, "none"):
            _report(piece, review, [("paint", _painted_fault(piece.text("paint") or ""))])
    total = sum(piece.count("count") or 1 for piece in pieces)
    if total > MOST_PIECES:
        message = f"The pieces of this firing add up to {total:,}; {MOST_PIECES:,} is the most."
        review.report(Fault("too-many", message, "Look at each `count` again."), entry.at("pieces"), "pieces")


def _report(group: Group, review: Review, faults: Iterator[tuple[str, Fault]] | list[tuple[str, Fault]]) -> None:
    for name, fault in faults:
        review.report(fault, group.at(name), group.path_of(name))


def is_unpainted(paint: str | None) -> bool:
    """Tell whether an entry says that its ware carries no paint.

    >>> is_unpainted("None"), is_unpainted(None)
    (True, False)
    """
    return paint is not None and paint.casefold() in {"none", "no", "no paint"}


def _painted_fault(paint: str) -> Fault:
    message = f"`surface` says that the ware has no paint, and this piece's paint is {shown(paint)}."
    return Fault("paint-none", message, "Write `paint: none` here, or name the paint under `surface`.")


def _weighed_faults(weighed: Group) -> Iterator[tuple[str, Fault]]:
    dry, soaked, hung = (weighed.quantity(name) for name in ("dry", "soaked", "hung"))
    if dry is not None and soaked is not None:
        if soaked.high < dry.low:
            message = f"Soaked ({shown(soaked.raw)}) the piece would weigh less than dry ({shown(dry.raw)})."
            help_ = f"If they changed places, write `dry: {soaked.raw}` and `soaked: {dry.raw}`."
            yield "soaked", Fault("weighed-order", message, help_)
        elif soaked.canonical > dry.canonical * (1 + MOST_ABSORBED):
            share = (soaked.canonical / dry.canonical - 1) * 100
            message = f"The piece would have taken up {share:.0f} % of its mass in water; more than half is unusual."
            yield (
                "soaked",
                Fault("unlikely", message, "Look at both weighings and their units. If they are right, leave them."),
            )
    if dry is not None and hung is not None and hung.low >= dry.high:
        message = f"Hung in water ({shown(hung.raw)}) the piece would weigh no less than dry ({shown(dry.raw)})."
        yield "hung", Fault("weighed-order", message, "Look at both weighings and their units again.")


def _marks_faults(marks: Group) -> Iterator[tuple[str, Fault]]:
    written = [(name, length) for name in ("wet", "dry", "fired") if (length := marks.quantity(name)) is not None]
    for (name, length), (later_name, later) in pairwise(written):
        if later.low > length.high:
            further = f"{later_name} ({shown(later.raw)}) than {name} ({shown(length.raw)})"
            message = f"The marks would stand further apart {further}; clay shrinks."
            help_ = f"If they changed places, write `{name}: {later.raw}` and `{later_name}: {length.raw}`."
            yield later_name, Fault("marks-order", message, help_)
            return
    wet, fired = marks.quantity("wet"), marks.quantity("fired")
    if wet is not None and fired is not None and fired.canonical < wet.canonical * (1 - MOST_SHRINKAGE):
        shrunk = (1 - fired.canonical / wet.canonical) * 100
        message = f"The clay would have shrunk by {shrunk:.0f} %; more than {MOST_SHRINKAGE * 100:.0f} % is unusual."
        yield (
            "fired",
            Fault("unlikely", message, "Look at both distances and their units. If they are right, leave them."),
        )


def check_photos(entry: Group, review: Review) -> None:
    """Check that no two photos would have one address on the site."""
    seen: dict[str, str] = {}
    for photo in entry.items("photos"):
        name = photo.text("file")
        if name is None:
            continue
        stem = PurePosixPath(name).stem.casefold()
        if stem in seen:
            message = f"{shown(name)} and {shown(seen[stem])} have one name, apart from the ending."
            if name == seen[stem]:
                message = f"{shown(name)} is named twice."
            fault = Fault("file-twice", message, "Take one of the two away, or rename its file.")
            review.report(fault, photo.at("file"), photo.path_of("file"))
        seen.setdefault(stem, name)
