"""A small archive with every kind of gap, for the tests of the exports."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

from builder.archive.archive import Archive, Record, gather
from builder.base.quantity import Quantity
from builder.checks.firing import ConditionValue, Firing, Marks, Piece, Weighed
from builder.heat.firing_heat import measure
from builder.readings.curve import NO_CURVES, Curve, FiringCurves
from builder.settings import Group, Settings
from builder.ware.outcome import judge
from tests.archive.records import METHODS, SETTINGS
from tests.heat.curves import HAND_LOG, curve

GROUP = Group(
    "The Ash Lane potters",
    "Ash Lane: a book of fires",
    about="What we fired & what came out.",
    notice="This archive is invented.",
)
NO_URL = replace(SETTINGS, group=GROUP)
WITH_URL = replace(NO_URL, group=replace(GROUP, url="https://ash-lane.example/"))


def quantity(kind: str, canonical: float, raw: str = "", unit: str = "") -> Quantity:
    return Quantity(raw or str(canonical), kind, canonical, unit, canonical, canonical, canonical)


CONDITIONS: dict[str, ConditionValue] = {
    "weather.air": quantity("temperature", (57 - 32) / 1.8, "57 °F"),
    "weather.dry_days": 3,
    "clay.body": "red river clay",
    "clay.temper": ("crushed sherd", "sand"),
    "clay.temper_share": quantity("share", 20.0),
    "clay.wall": quantity("length", 6.35, "1/4 in"),
    "clay.dried": quantity("time", 9 * 24 * 60.0, "9 days"),
    "fuel.mass": quantity("mass", 14.0),
    "setting.support": "=HYPERLINK(dry brick)",
    "warm_up.length": quantity("time", 45.0),
    "warm_up.pot_temperature": quantity("temperature", 160.0),
}
PIECES = (
    Piece(
        "jar",
        "sound",
        form="jar",
        carbon="cleared",
        paint="held",
        ring="clear",
        colour="10YR 8/2",
        # 85.32, 96.40 and 51.18 g: absorption 12.986404 %, porosity 24.502433 %, density 1.886776 g/cm³ by the
        # definitions of ASTM C373; 100 to 90 mm: 10 %.
        weighed=Weighed(quantity("mass", 0.08532), quantity("mass", 0.0964), quantity("mass", 0.05118)),
        marks=Marks(wet=quantity("length", 100.0), fired=quantity("length", 90.0)),
    ),
    Piece("test tiles", "sound", 4, carbon="core"),
    Piece("@bowl", "sound"),
)


def firing(
    slug: str, day: date, title: str, method: str = "open-fire", pieces: tuple[Piece, ...] = PIECES, **more: object
) -> Firing:
    base = Firing(slug, f"content/firings/{slug}/entry.md", title, day, "wren", method, pieces, "<b>story</b>")
    return replace(base, **more)  # type: ignore[arg-type]


def record(number: int, fired: Firing, *probes: Curve) -> Record:
    curves = FiringCurves(probes, 0, (), ()) if probes else NO_CURVES
    method = METHODS[fired.method]
    judged = tuple(judge(piece, method, fired.painted) for piece in fired.pieces)
    return Record(number, fired, curves, measure(fired, curves, method, NO_URL.heat), judged)


def archive(settings: Settings = NO_URL) -> Archive:
    """Three firings: one told in full, one that topped out, one of which nothing but its pieces is known."""
    full = firing(
        "2026-05-02-pale-jar",
        date(2026, 5, 2),
        'Pale-slipped jar, "third" attempt\x0b',
        place="Alder Fen",
        conditions=CONDITIONS,
        licence="CC0-1.0",
    )
    hot = firing(
        "2026-06-01-hot", date(2026, 6, 1), "<script>alert(1)</script> & hot", pieces=(Piece("cup", "cracked"),)
    )
    bare = firing("2026-07-01-bare", date(2026, 7, 1), "+441 pots", "pit", (Piece("bowl", "broken", 2),))
    read = replace(
        curve(*HAND_LOG),
        as_read=tuple(f"{value:.0f} °C" for value in HAND_LOG[1]),
        remarks=("lit", "=1+1", *("",) * 11),
    )
    limit = replace(curve([0, 2, 4.123456], [-20, 700, 700], at_least=True), as_read=("-20", "-4 °F", "700"))
    return gather([record(1, full, read), record(2, hot, limit), record(3, bare)], settings)
