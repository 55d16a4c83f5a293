"""Sound values to a Firing. Called only for an entry without an error, so what is required is there."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from datetime import date

from builder.base.quantity import Quantity
from builder.checks.firing import (
    CalibrationPoint,
    ConditionValue,
    Firing,
    Marks,
    Photo,
    Piece,
    Probe,
    RawReadings,
    Weighed,
    Witness,
)
from builder.checks.found import Group
from builder.entries.fields import CONDITIONS
from builder.settings import NOBODY

LONE_PROBE = "thermometer"
"""What a probe is called that the entry does not name."""


def assemble(entry: Group, slug: str, file: str, story: str, lit: Quantity | None) -> Firing:
    """Make the Firing of an entry whose values are all sound; `lit` is on the readings' own clock."""
    day = entry.day("date")
    if day is None:
        raise ValueError(f"{file}: assembled without a date")
    readings = entry.inside("readings")
    return Firing(
        slug=slug,
        file=file,
        title=entry.text("title") or "",
        date=day,
        potter=entry.text("potter") or "",
        method=entry.text("method") or "",
        pieces=tuple(_piece(piece) for piece in entry.items("pieces")),
        story=story,
        helpers=tuple(key for key in dict.fromkeys(entry.words("helpers")) if key != NOBODY),
        place=entry.text("place"),
        ware=entry.text("ware"),
        lit=entry.text("lit"),
        conditions=_conditions(entry),
        readings=None if readings is None else _readings(readings, lit),
        witness=_witness(entry.inside("witness")),
        photos=tuple(_photo(photo) for photo in entry.items("photos")),
        licence=entry.text("licence"),
    )


def readings_only(entry: Group, slug: str, file: str, lit: Quantity | None) -> Firing:
    """Make a firing of nothing but its readings, to look at them where the rest of the entry has errors.

    Times of rows that do not say how they count are taken to count from the start: that they do not is told already.
    """
    readings = entry.inside("readings")
    raw = None if readings is None else _readings(readings, lit)
    return Firing(
        slug=slug,
        file=file,
        title="",
        date=entry.day("date") or date.min,
        potter="",
        method="",
        pieces=(),
        story="",
        lit=entry.text("lit"),
        readings=None if raw is None else replace(raw, time=raw.time or ("elapsed" if raw.rows else None)),
    )


def _conditions(entry: Group) -> dict[str, ConditionValue]:
    """Return every recorded condition, in the order of the fields."""
    found: dict[str, ConditionValue] = {}
    for path in CONDITIONS:
        home, _, name = path.rpartition(".")
        group = entry.groups.get(home) if home else entry
        leaf = group.leaves.get(name) if group is not None else None
        if leaf is not None and isinstance(leaf.value, str | tuple | Quantity | int):
            found[path] = leaf.value
    return found


def _witness(witness: Group | None) -> Witness | None:
    if witness is None or not witness.leaves:
        return None
    return Witness(witness.words("cones_down"), witness.words("cones_standing"), witness.text("glow"))


def _piece(piece: Group) -> Piece:
    weighed, marks = piece.inside("weighed"), piece.inside("marks")
    return Piece(
        name=piece.text("name") or "",
        survival=piece.text("survival") or "",
        count=piece.count("count") or 1,
        form=piece.text("form"),
        carbon=piece.text("carbon"),
        paint=piece.text("paint"),
        ring=piece.text("ring"),
        colour=piece.text("colour"),
        hardness=piece.text("hardness"),
        weighed=None if weighed is None else _weighed(weighed),
        marks=None if marks is None else Marks(*(marks.quantity(name) for name in ("wet", "dry", "fired"))),
        remark=piece.text("remark"),
    )


def _weighed(weighed: Group) -> Weighed | None:
    dry, soaked = weighed.quantity("dry"), weighed.quantity("soaked")
    return None if dry is None or soaked is None else Weighed(dry, soaked, weighed.quantity("hung"))


def _readings(readings: Group, lit: Quantity | None) -> RawReadings:
    probes = tuple(_probe(probe) for probe in readings.items("probes")) or (Probe(LONE_PROBE),)
    rows = readings.rows("rows")
    return RawReadings(
        time=readings.text("time"),
        lit=lit,
        probes=probes,
        ware_probe=_ware_probe(readings.text("ware_probe"), probes),
        rows=rows.rows if rows is not None else (),
        file=readings.text("file"),
        time_column=readings.text("time_column"),
        rows_column=rows.column if rows is not None else 1,
    )


def _ware_probe(named: str | None, probes: tuple[Probe, ...]) -> str:
    wanted = probes[0].name if named is None else named
    return next((probe.name for probe in probes if probe.name.casefold() == wanted.casefold()), probes[0].name)


def _probe(probe: Group) -> Probe:
    return Probe(
        name=probe.text("name") or LONE_PROBE,
        instrument=probe.text("instrument"),
        column=probe.text("column"),
        unit=probe.text("unit"),
        type=probe.text("type"),
        tolerance=probe.text("tolerance"),
        cold_junction=probe.quantity("cold_junction"),
        emissivity_set=probe.quantity("emissivity_set"),
        emissivity=probe.quantity("emissivity"),
        background=probe.quantity("background"),
        limit=probe.quantity("limit"),
        accuracy=probe.quantity("accuracy"),
        accuracy_share=probe.quantity("accuracy_share"),
        resolution=probe.quantity("resolution"),
        position=probe.text("position"),
        calibrated=tuple(_points(probe)),
    )


def _points(probe: Group) -> Iterator[CalibrationPoint]:
    for point in probe.items("calibrated"):
        shown, known = point.quantity("shown"), point.quantity("known")
        if shown is not None and known is not None:
            yield CalibrationPoint(shown, known)


def _photo(photo: Group) -> Photo:
    return Photo(photo.text("file") or "", photo.text("alt") or "", photo.text("caption"), photo.text("credit"))
