"""Invented firings for the tests of the pages: every value is made up, and none is a measurement."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from datetime import date
from typing import Any

import numpy as np

from builder.archive.archive import Archive, Rate, Record
from builder.base.quantity import Quantity, parse_quantity
from builder.checks.firing import Firing, Photo, Piece, Probe
from builder.heat.figures import Figure, FiringHeat, ProbeHeat
from builder.readings.curve import NO_CURVES, Curve, Event, FiringCurves, Repair
from builder.settings import Group, Method, Potter, Settings
from builder.ware.outcome import judge

NO_HEAT = FiringHeat((), None)

SETTINGS = Settings(
    group=Group(
        name="The Thornlode Fire Study Group", title="The Thornlode Ashbook", about="Eight potters, one ditch."
    ),
    potters={"wren": Potter("wren", "Wren Oddie", "The same jar since April."), "ode": Potter("ode", "Ode Marrish")},
    methods={
        "open-fire": Method(
            "open-fire",
            "Open fire on the ground",
            "ground",
            "A loose cone of thin wood.",
            {"survival": ("sound",), "carbon": ("cleared",), "paint": ("held", "faded")},
            660.0,
            800.0,
        ),
        "turf-clamp": Method("turf-clamp", "Turf clamp", "pit", "Under turf.", {"survival": ("sound",)}),
    },
)


def quantity(words: str, kind: str) -> Quantity:
    """Read a quantity that is known to be well written."""
    found = parse_quantity(words, kind)
    assert isinstance(found, Quantity)
    return found


def curve(name: str = "wall", minutes: Iterable[float] = (0, 2, 4.5, 9, 12), unit: str = "°C", **changes: Any) -> Curve:
    """Make a probe's curve that rises to 742 °C and falls again."""
    times = np.array(list(minutes), dtype=float)
    celsius = np.interp(times, [0, 4.5, 9, 12], [14, 565, 742, 640])
    made = Curve(
        Probe(name, "spot thermometer"),
        times,
        celsius,
        tuple(f"{degrees:.0f} {unit}" for degrees in celsius),
        unit,
        ("",) * len(times),
        (),
        np.full(len(times), 3.0),
        notes=("Takes in aim and resolution.",),
    )
    return replace(made, **changes)


CURVES = FiringCurves(
    (curve(),), 0, (Event(4.5, "flames over the rim"),), (Repair("spike", "A spike was dropped.", 6.0),)
)

FIGURES = {
    "start_c": Figure(14.0, 8.0, 20.0),
    "peak_c": Figure(742.3, 719.2, 765.1),
    "heating_rate_c_per_min": Figure(80.9, 78.1, 83.4),
    "minutes_above_600_c": Figure(6.4, 5.9, 6.8),
    "short_c": Figure(0.0),
    "wall_lag_c": Figure(None, remark="The thickness of the wall was not recorded."),
    "n_readings": Figure(5.0),
}
HEAT = FiringHeat((ProbeHeat("wall", FIGURES),), 0)

FIRING = Firing(
    slug="2026-05-02-pale-jar",
    file="content/firings/2026-05-02-pale-jar/entry.md",
    title="Pale-slipped jar, third attempt",
    date=date(2026, 5, 2),
    potter="wren",
    method="open-fire",
    pieces=(
        Piece("jar", "sound", carbon="cleared", paint="held", ring="clear", colour="10YR 8/2"),
        Piece("bowl", "cracked", carbon="cleared", paint="held", remark="fire cloud on the shoulder"),
        Piece("test tiles", "sound", count=4, carbon="core"),
    ),
    story="The wind dropped at nine.",
    helpers=("ode",),
    place="Alder Fen",
    ware="pale-slipped jar",
    lit="10:42",
    conditions={"clay.body": "red river clay", "fuel.wood": ("hazel", "birch")},
    photos=(Photo("drawn.jpg", "The jar just drawn", "Drawn at twelve minutes", "Wren"),),
)


def record(
    number: int = 1, firing: Firing = FIRING, curves: FiringCurves = CURVES, heat: FiringHeat = HEAT, **changes: Any
) -> Record:
    """Make a record of a firing; `changes` go into the firing."""
    changed = replace(firing, **changes)
    method = SETTINGS.methods[changed.method]
    pieces = tuple(judge(piece, method, changed.painted) for piece in changed.pieces)
    return Record(number, changed, curves, heat, pieces)


def unread(number: int = 1, **changes: Any) -> Record:
    """Make a record of a firing whose temperature nobody wrote down."""
    return record(number, curves=NO_CURVES, heat=NO_HEAT, **changes)


def rate(method: str, outcome: str = "success", successes: int = 8, pieces: int = 11, **changes: Any) -> Rate:
    """Make a rate; its interval is invented."""
    made = Rate(method, outcome, 5, pieces, successes, 2, successes / pieces, 0.43, 0.90, 1.4, pieces / 1.4, "Agresti")
    return replace(made, **changes)


def archive(*records: Record, rates: tuple[Rate, ...] | None = None) -> Archive:
    """Put records together; without rates given, one for each method that has firings."""
    methods = dict.fromkeys(one.firing.method for one in records)
    made = tuple(rate(method) for method in (*methods, "all")) if records else ()
    return Archive(tuple(records), made if rates is None else rates, 0.21, 7)
