"""Records of firings made from bare counts, for the tests of the archive and of the exports."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date, timedelta

from builder.archive.archive import Record
from builder.checks.firing import Firing, Piece
from builder.heat.figures import FiringHeat
from builder.readings.curve import NO_CURVES
from builder.settings import Group, Method, Potter, Settings
from builder.ware.outcome import judge

METHODS = {
    "open-fire": Method(
        "open-fire", "Open fire", "ground", "", {"survival": ("sound",), "carbon": ("cleared",)}, 650.0, 800.0
    ),
    "pit": Method("pit", "Pit", "pit", "", {"survival": ("sound", "cracked")}),
    "kiln": Method("kiln", "Kiln", "kiln", "", {"survival": ("sound",)}),
}
SETTINGS = Settings(Group("The Ash Lane potters"), {"wren": Potter("wren", "Wren A.")}, METHODS)


def record(number: int, pieces: Sequence[Piece], method: str = "open-fire") -> Record:
    day = date(2024, 3, 1) + timedelta(days=7 * number)
    firing = Firing(f"{day}-firing", "", f"Firing {number}", day, "wren", method, tuple(pieces), "")
    judged = tuple(judge(piece, METHODS[method], firing.painted) for piece in pieces)
    return Record(number, firing, NO_CURVES, FiringHeat((), None), judged)


def counted(counts: Sequence[tuple[int, int]], method: str = "kiln", first: int = 1) -> list[Record]:
    """One record a (successes, pieces): so many sound tiles and so many broken ones."""
    return [
        record(
            number,
            [
                Piece("tiles", survival, count)
                for survival, count in (("sound", hits), ("broken", pieces - hits))
                if count
            ],
            method,
        )
        for number, (hits, pieces) in enumerate(counts, first)
    ]
