"""The fixed check of the working window: fourteen firings, computed with a second program of the same procedure."""

from __future__ import annotations

from builder.archive.window_curves import WindowFiring

PEAKS = (612, 655, 668, 690, 705, 722, 741, 760, 778, 795, 812, 838, 861, 902)
SDS = (10, 20, 8, 15, 25, 10, 30, 12, 18, 10, 22, 9, 15, 28)
NEEDS = "0/3 1/4 1/2 3/5 1/1 2/3 6/6 2/2 4/4 2/3 5/5 2/2 4/4 3/3"
DESTROYED = "3/3 3/3 2/2 4/4 1/1 2/3 5/5 2/2 4/4 3/3 4/5 1/3 2/4 0/3"


def counts(text: str) -> list[tuple[int, int]]:
    return [(int(good), int(recorded)) for good, recorded in (pair.split("/") for pair in text.split())]


def fixed_check() -> list[WindowFiring]:
    rows = zip(PEAKS, SDS, counts(NEEDS), counts(DESTROYED), strict=True)
    return [WindowFiring(*row) for row in rows]
