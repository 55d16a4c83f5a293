"""Pyrometric cones: the published columns, from the softest cone to the harder ones.

The temperatures hold for a steady rise at the column's rate over the last 100 °C in a kiln. A bonfire heats many times
faster than the fastest column, so a cone in it is only a witness: it bears out which of two fires did more.
"""

from __future__ import annotations

from typing import NamedTuple


class Cone(NamedTuple):
    """One cone and the temperatures at which it goes down, °C; None where nothing is published."""

    name: str
    large_60_c: int | None
    """Large cone, last 100 °C at 60 °C an hour."""
    large_150_c: int | None
    """Large cone, at 150 °C an hour."""
    small_300_c: int
    """Small cone, at 300 °C an hour."""
    seen: bool = True
    """Read in the published chart; else from memory of it, its rows not having been seen."""


SOURCE = "a maker's public chart of temperature equivalents, regular cones, edition of about 2016"
FASTEST_C_PER_H = 300.0
"""Rate of the fastest published column, °C an hour: that of the small cones."""

COLUMNS_HOLD_C = 100.0
"""The columns hold for the rate over this last stretch before a cone goes down, °C."""

CONES: tuple[Cone, ...] = (
    Cone("022", None, None, 630),
    Cone("021", None, None, 643),
    Cone("020", None, None, 666),
    Cone("019", 676, 693, 723),
    Cone("018", 712, 732, 752),
    Cone("017", 736, 761, 784),
    Cone("016", 769, 794, 825),
    Cone("015", 788, 816, 843),
    Cone("014", 807, 836, 870),
    Cone("013", 837, 859, 880),
    Cone("012", 858, 880, 900),
    Cone("011", 873, 892, 915),
    Cone("010", 898, 913, 919),
    Cone("09", 917, 928, 955),
    Cone("08", 942, 954, 983),
    Cone("07", 973, 985, 1008, seen=False),
    Cone("06", 995, 1011, 1023, seen=False),
    Cone("05.5", 1012, 1023, 1043, seen=False),
    Cone("05", 1030, 1046, 1062, seen=False),
    Cone("04", 1060, 1070, 1098, seen=False),
    Cone("03", 1086, 1101, 1131, seen=False),
    Cone("02", 1101, 1120, 1148, seen=False),
    Cone("01", 1117, 1137, 1178, seen=False),
    Cone("1", 1136, 1154, 1184, seen=False),
)
"""Every cone, the softest first."""

RANK = {cone.name: place for place, cone in enumerate(CONES)}
"""Place of each cone in the order of going down."""


def cone_named(text: str) -> Cone | None:
    """Give the cone that a potter's word means, or None.

    >>> cone_named("Cone 018").name, cone_named("05½").name, cone_named("18")
    ('018', '05.5', None)
    """
    bare = text.casefold().removeprefix("cone").strip().removeprefix("δ").strip()
    bare = bare.replace("½", ".5").replace(" 1/2", ".5").replace(",", ".")
    return CONES[RANK[bare]] if bare in RANK else None
