"""What one firing gives by itself, packed: the firings of a large archive are held so until somebody asks for one."""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import date
from typing import TypeAlias

from builder.archive.archive import Record
from builder.checks.firing import Firing
from builder.heat.figures import FiringHeat
from builder.kept.digest import bytes_digest
from builder.kept.packed import packed, unpacked
from builder.readings.curve import FiringCurves
from builder.ware.outcome import JudgedPiece

_Facts: TypeAlias = tuple[Firing, FiringHeat, tuple[JudgedPiece, ...]]


@dataclass(frozen=True, slots=True)
class Measured:
    """What one firing gives by itself."""

    firing: Firing
    curves: FiringCurves
    heat: FiringHeat
    pieces: tuple[JudgedPiece, ...]


@dataclass(frozen=True, slots=True)
class Parcel:
    """The same in parts, each packed by itself; beside them what the firings are put in order and named by."""

    slug: str
    title: str
    date: date
    story: str
    sketch: str | None
    """The small curve of lists, as SVG; None where it is not drawn yet."""
    readings: bytes
    """The readings as the potter wrote them, which only the firing's own page and open data need."""
    curves: bytes
    facts: bytes
    """The firing without its story and the readings as written, its figures and its pieces."""
    outline: str
    """Digest of all but the story, the only part that no other page and no reckoning sees."""

    def opened(self) -> Measured:
        """Unpack all of it."""
        firing, heat, pieces = unpacked(self.facts)
        whole = replace(firing, story=self.story, readings=unpacked(self.readings))
        return Measured(whole, unpacked(self.curves), heat, pieces)


def parcel(measured: Measured, sketch: str | None = None) -> Parcel:
    """Pack what one firing gives, with its small curve where it is drawn."""
    firing = measured.firing
    facts = (replace(firing, story="", readings=None), measured.heat, measured.pieces)
    told = packed(firing.readings), packed(measured.curves), packed(facts)
    return Parcel(firing.slug, firing.title, firing.date, firing.story, sketch, *told, bytes_digest(*told))


class PackedRecord(Record):
    """A record that is unpacked where it is asked for: its facts once, its curves each time.

    Its firing has no story and no readings as written; `opened` gives those too.
    """

    __slots__ = ("_facts", "_parcel")

    _facts: _Facts | None
    _parcel: Parcel

    def __init__(self, number: int, content: Parcel) -> None:
        for name, value in (("number", number), ("_parcel", content), ("_facts", None)):
            object.__setattr__(self, name, value)

    def __reduce__(self) -> tuple[type[PackedRecord], tuple[int, Parcel]]:
        return PackedRecord, (self.number, self._parcel)

    @property
    def slug(self) -> str:
        """Name of the firing's folder."""
        return self._parcel.slug

    @property
    def title(self) -> str:
        """The firing's title."""
        return self._parcel.title

    @property
    def date(self) -> date:
        """Day of the firing."""
        return self._parcel.date

    @property
    def firing(self) -> Firing:
        """The firing, without its story and the readings as written."""
        return self._unpacked()[0]

    @property
    def curves(self) -> FiringCurves:
        """What was read; unpacked anew for each who asks, since most who ask look once."""
        found: FiringCurves = unpacked(self._parcel.curves)
        return found

    @property
    def heat(self) -> FiringHeat:
        """The figures."""
        return self._unpacked()[1]

    @property
    def pieces(self) -> tuple[JudgedPiece, ...]:
        """The pieces, judged."""
        return self._unpacked()[2]

    @property
    def sketch(self) -> str | None:
        """The small curve of lists."""
        return self._parcel.sketch

    @property
    def outline(self) -> str:
        """Digest of all of it but its number and its story."""
        return self._parcel.outline

    def opened(self) -> Record:
        """Give the whole record."""
        one = self._parcel.opened()
        return Record(self.number, one.firing, one.curves, one.heat, one.pieces, self.sketch, self.outline)

    def apart(self) -> Record:
        """Give the same record packed: what is unpacked of it goes when it goes."""
        return PackedRecord(self.number, self._parcel)

    def _unpacked(self) -> _Facts:
        facts: _Facts = unpacked(self._parcel.facts) if self._facts is None else self._facts
        object.__setattr__(self, "_facts", facts)
        return facts
