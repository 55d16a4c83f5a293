"""Pots as they are drawn for a record: the wall cut open on the left, the outside on the right."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray
from pen import ASH, CLAY, INK, PALE_INK, PAPER, SOOT, Colour, Pen, Point, smooth

PROFILES: dict[str, tuple[Point, ...]] = {
    "jar": ((0.19, 0.0), (0.36, 0.12), (0.52, 0.38), (0.53, 0.58), (0.37, 0.80), (0.26, 0.89), (0.31, 1.0)),
    "small jar": ((0.19, 0.0), (0.35, 0.14), (0.47, 0.42), (0.41, 0.70), (0.27, 0.85), (0.31, 1.0)),
    "pot": ((0.06, 0.0), (0.34, 0.08), (0.57, 0.36), (0.57, 0.62), (0.44, 0.86), (0.50, 1.0)),
    "bowl": ((0.22, 0.0), (0.52, 0.22), (0.72, 0.60), (0.80, 1.0)),
    "cup": ((0.34, 0.0), (0.41, 0.20), (0.46, 0.60), (0.50, 1.0)),
    "dish": ((0.50, 0.0), (0.95, 0.40), (1.20, 1.0)),
    "lamp": ((0.30, 0.0), (0.62, 0.30), (0.72, 0.70), (0.60, 1.0)),
}
"""Half profiles from foot to rim: distance from the axis and height, both in pot heights (a dish is drawn low)."""

STRENGTH: dict[str, Colour | None] = {"held": INK, "faded": (176, 150, 120), "ghost": (226, 222, 214), "none": None}
"""How dark the paint is drawn."""


@dataclass(frozen=True)
class Pot:
    """One pot to draw."""

    form: str
    height: float
    """In pixels."""
    pattern: str = "plain"
    """`zigzag`, `dots`, `leaves` or `plain`."""
    paint: str = "none"
    """`held`, `faded`, `ghost` or `none`."""
    fault: str = ""
    """`crack`, `hairline`, `belly`, `flake`, `foot` or nothing."""
    colour: Colour = PAPER


class Placed:
    """A pot with its foot's middle at a point of the sheet."""

    def __init__(self, pot: Pot, foot: Point) -> None:
        half = np.asarray(smooth(PROFILES[pot.form]))
        self.pot, self.x, self.y = pot, *foot
        self.radius: NDArray[np.float64] = half[:, 0] * pot.height
        self.rise: NDArray[np.float64] = half[:, 1] * pot.height

    def at(self, around: float, up: float) -> Point:
        """A point of the outside: `around` from 0 (middle) to 1 (right edge), `up` from 0 (foot) to 1 (rim)."""
        rise = up * self.pot.height
        radius = float(np.interp(rise, self.rise, self.radius))
        return self.x + radius * float(np.sin(around * np.pi / 2)), self.y - rise

    def side(self, sign: int, inward: float = 0.0) -> list[Point]:
        """The outline of one side, foot to rim, moved inward by the wall."""
        lift = inward * 0.9
        rise = np.maximum(self.rise, lift)
        return [(self.x + sign * max(0.0, float(r) - inward), self.y - float(h))
                for r, h in zip(self.radius, rise, strict=True)]  # fmt: skip


def draw_pot(pen: Pen, pot: Pot, foot: Point) -> None:
    """Draw one pot, its foot's middle at `foot`."""
    placed = Placed(pot, foot)
    wall = max(7.0, pot.height * 0.035)
    left, right = placed.side(-1), placed.side(1)
    pen.fill([*left, *reversed(right)], pot.colour)
    inner = placed.side(-1, wall)
    cut = [*left, *reversed(inner), (placed.x, inner[0][1]), (placed.x, placed.y)]
    pen.shape(cut, SOOT, 2.0)
    pen.line(right, 3.2)
    pen.line([left[0], right[0]], 3.2)
    pen.line([left[-1], right[-1]], 2.4)
    pen.line([(placed.x, placed.y), (placed.x, placed.y - pot.height)], 1.6)
    _paint(pen, placed)
    _fault(pen, placed)


def _paint(pen: Pen, placed: Placed) -> None:
    ink = STRENGTH[placed.pot.paint]
    if ink is None or placed.pot.pattern == "plain":
        return
    low, high = 0.40, 0.66
    around = np.linspace(0.03, 0.97, 30)
    for up in (low - 0.05, high + 0.05):
        pen.line([placed.at(float(a), up) for a in around], 4.0, ink)
    steps = np.linspace(0.03, 0.97, 9)
    if placed.pot.pattern == "zigzag":
        pen.line([placed.at(float(a), high if i % 2 else low) for i, a in enumerate(steps)], 5.0, ink, waver=0.8)
    elif placed.pot.pattern == "dots":
        for a in steps:
            x, y = placed.at(float(a), (low + high) / 2)
            pen.line([(x - 2, y), (x + 2, y + 1)], 9.0, ink)
    else:
        for a in steps[:-1]:
            _leaf(pen, placed.at(float(a), low + 0.03), placed.at(float(a) + 0.08, high - 0.02), ink)


def _leaf(pen: Pen, root: Point, tip: Point, ink: Colour) -> None:
    x, y = (root[0] + tip[0]) / 2, (root[1] + tip[1]) / 2
    for bulge in (-6.0, 6.0):
        pen.line(smooth([root, (x + bulge, y + bulge / 3), tip]), 2.6, ink, waver=0.4)


def _fault(pen: Pen, placed: Placed) -> None:
    fault = placed.pot.fault
    if fault in {"crack", "hairline"}:
        depth, width = (0.45, 3.4) if fault == "crack" else (0.62, 1.2)
        ups = np.linspace(1.0, depth, 11)
        sway = 0.38 + np.cumsum(pen.rng.normal(0, 0.035, len(ups)))
        pen.line([placed.at(float(a), float(u)) for a, u in zip(sway, ups, strict=True)], width, waver=0.8)
        if fault == "hairline":
            x, y = placed.at(0.42, 0.75)
            _arrow(pen, (x + placed.pot.height * 0.62, y - 40), (x + 10, y))
    elif fault == "belly":
        around = np.linspace(0.0, 1.0, 22)
        ups = 0.29 + pen.rng.normal(0, 0.008, len(around))
        pen.line([placed.at(float(a), float(u)) for a, u in zip(around, ups, strict=True)], 3.4, waver=0.8)
    elif fault in {"flake", "foot"}:
        _flake(pen, placed, 0.22 if fault == "flake" else 0.09)


def _flake(pen: Pen, placed: Placed, up: float) -> None:
    x, y = placed.at(0.52, up)
    size = placed.pot.height * 0.085
    turn = np.linspace(0, 2 * np.pi, 9, endpoint=False)
    reach = size * pen.rng.uniform(0.75, 1.2, len(turn))
    rim = smooth([(x + 1.25 * float(r * np.cos(t)), y - 0.7 * float(r * np.sin(t)))
                  for t, r in zip(turn, reach, strict=True)], closed=True)  # fmt: skip
    pen.shape(rim, ASH, 2.4)
    pen.hatch(rim, spacing=7, ink=PALE_INK)


def _arrow(pen: Pen, start: Point, end: Point) -> None:
    pen.line([start, end], 1.8)
    back = np.array(start) - np.array(end)
    back = back / np.hypot(*back) * 16
    for turn in (-0.45, 0.45):
        c, s = np.cos(turn), np.sin(turn)
        barb = (end[0] + float(c * back[0] - s * back[1]), end[1] + float(s * back[0] + c * back[1]))
        pen.line([end, barb], 1.8, waver=0.3)


def shelf(pen: Pen, pots: tuple[Pot, ...], y: float = 660.0) -> None:
    """Stand pots side by side on one line, evenly spread."""
    pen.line([(90, y), (pen.width - 90, y)], 3.0)
    for k, pot in enumerate(pots):
        draw_pot(pen, pot, (pen.width * (k + 1) / (len(pots) + 1), y - 2))


def stone_and_arrow(pen: Pen, foot: Point) -> None:
    """A stone split in two, and the way its splinter went."""
    for dx, lean in ((-46, -12), (44, 14)):
        blob = smooth(
            [(foot[0] + dx + lean + 40 * float(np.cos(t)), foot[1] - 34 - 30 * float(np.sin(t)))
             for t in np.linspace(0, 2 * np.pi, 8, endpoint=False) + pen.rng.normal(0, 0.08, 8)],
            closed=True,
        )  # fmt: skip
        pen.shape(blob, ASH, 2.6)
        pen.hatch(blob, spacing=12, slope=0.5, width=1.0, ink=PALE_INK)
    _arrow(pen, (foot[0] - 110, foot[1] - 60), (foot[0] - 300, foot[1] - 72))


def sherds(pen: Pen, box: tuple[float, float, float, float], count: int, columns: int, lumps: bool = False) -> None:
    """Broken pieces laid out in rows inside a box (left, top, right, bottom)."""
    left, top, right, bottom = box
    rows = -(-count // columns)
    for k in range(count):
        x = left + (right - left) * (k % columns + 0.5) / columns
        y = top + (bottom - top) * (k // columns + 0.5) / rows
        size = min((right - left) / columns, (bottom - top) / rows) * float(pen.rng.uniform(0.34, 0.52))
        corners = int(pen.rng.integers(4, 7))
        turn = np.sort(pen.rng.uniform(0, 2 * np.pi, corners) * 0.25 + np.linspace(0, 2 * np.pi, corners, False))
        piece = [(x + size * float(np.cos(t)), y - size * 0.8 * float(np.sin(t))) for t in turn]
        pen.shape(piece, CLAY if lumps else PAPER, 2.6)
        pen.line([piece[0], ((piece[0][0] + piece[1][0]) / 2 + 5, (piece[0][1] + piece[1][1]) / 2 + 5), piece[1]], 1.6)
        for _ in range(5 if lumps else 0):
            dx, dy = pen.rng.normal(0, size * 0.3, 2)
            pen.line([(x + dx, y + dy), (x + dx + 2, y + dy + 1)], 6.0, PAPER, waver=0.2)
