"""Finding room for words in a chart: off the curves, off one another, inside the frame.

Every label offers the places it could stand at, best first; the first that is free is taken. Lines of the frame are
lesser evils: a place that only touches one is kept in case no better comes.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field

import numpy as np

from builder.charts.frame import Frame
from builder.readings.curve import Floats

_CLEAR_PX = 3.0
"""Room kept between words and a curve."""
HIT = 100.0
"""Cost of words standing on a curve, on other words or outside the frame."""
_TOUCH = 8.0
"""Cost of words crossed by a rule of the frame or an edge of the window."""


@dataclass(frozen=True, slots=True)
class Box:
    """A rectangle of pixels; rows count downwards."""

    left: float
    top: float
    right: float
    bottom: float

    def meets(self, other: Box) -> bool:
        """Tell whether two rectangles share a pixel."""
        return (
            self.left < other.right
            and other.left < self.right
            and self.top < other.bottom
            and other.top < self.bottom
        )


@dataclass(slots=True)
class Room:
    """What is already drawn in a frame, and so not free."""

    frame: Frame
    rows: list[list[float]] = field(default_factory=list)
    """Of each curve its pixel row at each pixel column of the frame; NaN where it has none."""
    taken: list[Box] = field(default_factory=list)
    lines: list[float] = field(default_factory=list)
    """Pixel rows of rules and edges."""

    def add_curve(self, minutes: Floats, celsius: Floats) -> None:
        """Keep words off a curve."""
        frame = self.frame
        columns = np.arange(int(frame.layout.width) + 1)
        x = frame.layout.left + minutes * frame.x_step
        rows = np.interp(columns, x, frame.ground + celsius * frame.y_step, left=np.nan, right=np.nan)
        self.rows.append(rows.tolist())

    def cost(self, box: Box) -> float:
        """Say how bad it would be to put words here: 0 is free."""
        layout = self.frame.layout
        outside = box.left < layout.left or box.right > layout.width - 2 or box.top < 0
        if outside or box.bottom > self.frame.ground:
            return 2 * HIT
        cost = HIT * sum(box.meets(other) for other in self.taken)
        cost += HIT * sum(_crosses(rows, box) for rows in self.rows)
        # Letters fill the middle of their box; a line along its upper or lower rim is beside them.
        return cost + _TOUCH * sum(box.top + 3 < line < box.bottom - 4 for line in self.lines)

    def best(self, places: Iterable[tuple[Box, Sequence[Box]]]) -> tuple[int, float]:
        """Take the first free place of several, or else the least bad; gives its number and its cost.

        A place is the box of the words and boxes that come with it (the staff of a flag), which may cross curves
        but not words.
        """
        best, least = 0, float("inf")
        found: tuple[Box, Sequence[Box]] | None = None
        for index, (box, others) in enumerate(places):
            cost = self.cost(box) + HIT * sum(other.meets(taken) for other in others for taken in self.taken)
            if cost < least:
                best, least, found = index, cost, (box, others)
            if cost == 0:
                break
        if found is not None and least < HIT:
            self.taken += (found[0], *found[1])
        return best, least


def _crosses(rows: list[float], box: Box) -> bool:
    """Tell whether a curve passes through a box; between two columns it is taken as unbroken."""
    part = [row for row in rows[max(0, int(box.left) - 2) : int(box.right) + 4] if row == row]  # NaN is unlike itself
    return bool(part) and min(part) <= box.bottom + _CLEAR_PX and max(part) >= box.top - _CLEAR_PX
