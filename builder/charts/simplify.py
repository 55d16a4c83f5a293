"""Leaving out the points of a long curve that no eye could miss, without moving its peak."""

from __future__ import annotations

from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from builder.readings.curve import Floats

Indices = NDArray[np.intp]

FEW = 80
"""So few points are left as they are: they cost next to nothing."""
COLUMN_PX = 2.0
"""Width of a column, in pixels: about the width of the line."""
TOLERANCE_PX = 0.4
"""How far the line that is drawn may lie from the readings, in pixels: less than a quarter of its own width."""


def points_to_keep(x: Floats, y: Floats) -> Indices:
    """Choose the points of a line worth drawing; x and y, shape (n,), in pixels, x increasing; gives indices, rising.

    First and last, highest and lowest point are always among them. Long records are first thinned to the highest and
    lowest point of each column of COLUMN_PX, which is as fine as a line of that width can show; then by Douglas and
    Peucker's (1973) rule: a point stays where the line without it would lie further than TOLERANCE_PX off.
    """
    if x.size <= FEW:
        return np.arange(x.size)
    crowded = x.size > 2 * (x[-1] - x[0]) / COLUMN_PX
    kept = extremes_by_column(x, y) if crowded else np.arange(x.size)
    extremes = {0, kept.size - 1, int(np.argmin(y[kept])), int(np.argmax(y[kept]))}
    return kept[_far_points(x[kept], y[kept], sorted(extremes))]


def extremes_by_column(x: Floats, y: Floats) -> Indices:
    """Indices of the highest and lowest point of each column, and of both ends, rising, each once."""
    column = np.floor(x / COLUMN_PX).astype(np.intp)
    first = np.flatnonzero(np.diff(column, prepend=column[0] - 1))
    last = np.append(first[1:], x.size) - 1
    by_height = np.lexsort((y, column))
    return np.unique(np.concatenate([[0, x.size - 1], by_height[first], by_height[last]]))


def _far_points(x: Floats, y: Floats, fixed: list[int]) -> Indices:
    """Douglas and Peucker's points between each two fixed ones, distances measured square to the line."""
    keep = set(fixed)
    spans = list(pairwise(fixed))
    while spans:
        start, end = spans.pop()
        if end - start < 2:
            continue
        across, down = x[end] - x[start], y[end] - y[start]
        inside = slice(start + 1, end)
        distance = np.abs(across * (y[inside] - y[start]) - down * (x[inside] - x[start])) / np.hypot(across, down)
        furthest = int(np.argmax(distance))
        if distance[furthest] > TOLERANCE_PX:
            middle = start + 1 + furthest
            keep.add(middle)
            spans += [(start, middle), (middle, end)]
    return np.array(sorted(keep), dtype=np.intp)
