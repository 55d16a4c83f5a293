"""What one firing gives by itself, packed: the firings of a large archive are held so until somebody asks for one."""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import date
from typing import TypeAlias

from builder.archive.archive import Record
from builder.checks.firing import Firing
from builder.heat.figures import Figure, FiringHeat, ProbeHeat
from builder.kept.digest import bytes_digest
from builder.kept.packed import packed, unpacked
from builder.readings.curve import FiringCurves
from builder.ware.outcome import JudgedPiece

_Facts: TypeAlias = tuple[Firing, tuple[JudgedPiece, ...]]
_Figure: TypeAlias = tuple[float | None, float | None, float | None, bool, str]
"""A figure as plain values: a fifth of the time to unpack, and most of a firing's figures nobody asks for."""
_Probe: TypeAlias = tuple[str, dict[str, _Figure]]
_Heat: TypeAlias = tuple[tuple[_Probe, ...], int | None]


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
    """The firing without its story and the readings as written, and its pieces."""
    heat: bytes
    """Its figures."""
    outline: str
    """Digest of all but the story, the only part that no other page and no reckoning sees."""

    def opened(self) -> Measured:
        """Unpack all of it."""
        firing, pieces = unpacked(self.facts)
        whole = replace(firing, story=self.story, readings=unpacked(self.readings))
        return Measured(whole, unpacked(self.curves), _heat(unpacked(self.heat)), pieces)


def parcel(measured: Measured, sketch: str | None = None) -> Parcel:
    """Pack what one firing gives, with its small curve where it is drawn."""
    firing = measured.firing
    facts = (replace(firing, story="", readings=None), measured.pieces)
    told = packed(firing.readings), packed(measured.curves), packed(facts), packed(_plain(measured.heat))
    return Parcel(firing.slug, firing.title, firing.date, firing.story, sketch, *told, bytes_digest(*told))


def _plain(heat: FiringHeat) -> _Heat:
    """Take figures apart into plain values."""
    probes = (
        (one.probe, {name: (f.value, f.low, f.high, f.at_least, f.remark) for name, f in one.figures.items()})
        for one in heat.probes
    )
    return tuple(probes), heat.ware


def _heat(plain: _Heat) -> FiringHeat:
    """Put them together again."""
    probes, ware = plain
    made = (ProbeHeat(name, {key: Figure(*told) for key, told in figures.items()}) for name, figures in probes)
    return FiringHeat(tuple(made), ware)


class PackedRecord(Record):
    """A record that is unpacked where it is asked for: facts and single figures once, all figures and curves each time.

    Its firing has no story and no readings as written; `opened` gives those too.
    """

    __slots__ = ("_facts", "_figures", "_parcel")

    _facts: _Facts | None
    _figures: dict[str, _Figure] | None
    """Of the probe that stands for the ware."""
    _parcel: Parcel

    def __init__(self, number: int, content: Parcel) -> None:
        for name, value in (("number", number), ("_parcel", content), ("_facts", None), ("_figures", None)):
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
        return _heat(unpacked(self._parcel.heat))

    def figure(self, name: str) -> Figure | None:
        """Give one figure of the probe that stands for the ware."""
        if self._figures is None:
            probes, ware = unpacked(self._parcel.heat)
            object.__setattr__(self, "_figures", {} if ware is None else probes[ware][1])
        told = (self._figures or {}).get(name)
        return None if told is None else Figure(*told)

    @property
    def pieces(self) -> tuple[JudgedPiece, ...]:
        """The pieces, judged."""
        return self._unpacked()[1]

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
