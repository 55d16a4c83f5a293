"""Finding room for words in a chart: off the curves, off one another, inside the frame.

Every label offers the places it could stand at, best first; the first that is free is taken. Lines of the frame are
lesser evils: a place that only touches one is kept in case no better comes.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field
from typing import NamedTuple

import numpy as np

from builder.charts.frame import Frame
from builder.readings.curve import Floats

_CLEAR_PX = 3.0
"""Room kept between words and a curve."""
HIT = 100.0
"""Cost of words standing on a curve, on other words or outside the frame."""
_TOUCH = 8.0
"""Cost of words crossed by a rule of the frame or an edge of the window."""


class Box(NamedTuple):
    """A rectangle of pixels; rows count downwards."""

    left: float
    top: float
    right: float
    bottom: float

    def meets(self, other: Box) -> bool:
        """Tell whether two rectangles share a pixel."""
        return (
            self.left < other.right and other.left < self.right and self.top < other.bottom and other.top < self.bottom
        )


class Place(NamedTuple):
    """One place where a label could stand."""

    words: Box
    """The words' own room."""
    staff: Box | None = None
    """The room of a flag's staff, which may cross curves but no words."""
    end: float = 0.0
    """Pixel row of the staff's far end."""
    side: int = 1
    """1 with the words right of the staff, −1 left."""


@dataclass(slots=True)
class Room:
    """What is already drawn in a frame, and so not free."""

    frame: Frame
    rows: list[list[float]] = field(default_factory=list)
    """Of each curve its pixel row at each pixel column of the frame; NaN where it has none."""
    taken: list[Box] = field(default_factory=list)
    """Where words stand."""
    staffs: list[Box] = field(default_factory=list)
    """Staffs of flags; two of them may stand in one, with a flag above the other."""
    lines: list[float] = field(default_factory=list)
    """Pixel rows of rules and edges."""

    def add_curve(self, minutes: Floats, celsius: Floats) -> None:
        """Keep words off a curve."""
        frame = self.frame
        columns = np.arange(int(frame.layout.width) + 1)
        x = frame.layout.left + minutes * frame.x_step
        rows = np.interp(columns, x, frame.ground + celsius * frame.y_step, left=np.nan, right=np.nan)
        self.rows.append(rows.tolist())

    def cost(self, place: Place) -> float:
        """Say how bad it would be to put words here: 0 is free, HIT and more is no room."""
        box, staff, layout = place.words, place.staff, self.frame.layout
        if box.left < layout.left or box.right > layout.width - 2 or box.top < 0 or box.bottom > self.frame.ground:
            return 3 * HIT
        for other in self.taken:
            if box.meets(other) or (staff is not None and staff.meets(other)):
                return 2 * HIT
        for other in self.staffs:
            if box.meets(other):
                return 2 * HIT
        for rows in self.rows:
            if _crosses(rows, box):
                return HIT
        # Letters fill the middle of their box; a line along its upper or lower rim is beside them.
        return sum(_TOUCH for line in self.lines if box.top + 3 < line < box.bottom - 4)

    def best(self, places: Iterable[Place]) -> tuple[Place, float]:
        """Take the first free place of several, or else the least bad; gives it with its cost."""
        least: tuple[Place, float] | None = None
        for place in places:
            cost = self.cost(place)
            if least is None or cost < least[1]:
                least = (place, cost)
            if cost == 0:
                break
        if least is None:
            raise ValueError("a label must offer at least one place")
        if least[1] < HIT:
            self.taken.append(least[0].words)
            if least[0].staff is not None:
                self.staffs.append(least[0].staff)
        return least


def _crosses(rows: list[float], box: Box) -> bool:
    """Tell whether a curve passes through a box; between two columns it is taken as unbroken."""
    part = rows[max(0, int(box.left) - 2) : int(box.right) + 4]
    if part[0] != part[0] or part[-1] != part[-1]:  # NaN, unlike itself: the curve begins or ends here
        part = [row for row in part if row == row]
    return bool(part) and min(part) <= box.bottom + _CLEAR_PX and max(part) >= box.top - _CLEAR_PX
