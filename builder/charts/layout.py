"""The sizes that charts are drawn in: three for a page, a tiny one for a row."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Layout:
    """The size of a drawing and what stands around its axes, in pixels at its natural width."""

    key: str
    width: float
    height: float
    left: float
    right: float
    top: float
    bottom: float
    letter: float
    """Size of its lettering."""


WIDE = Layout("wide", 840, 346, 44, 10, 22, 30, 14)
MIDDLING = Layout("middling", 560, 312, 42, 8, 22, 30, 14)
PHONE = Layout("phone", 340, 286, 38, 8, 22, 28, 14)
SMALL = Layout("small", 168, 52, 1, 1, 4, 16, 12)
"""The tiny frame of a row in a list: a ground line, ticks and the frame's duration."""
LAYOUTS = (WIDE, MIDDLING, PHONE)
"""The three drawings of a chart, of which the style sheet shows the one that fits."""
