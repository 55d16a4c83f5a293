"""Fires in section, before lighting: open ground, pit, trench, kiln and clamp, with the pots where they stood."""

from __future__ import annotations

import numpy as np
from pen import ASH, CLAY, EMBER, INK, PALE_INK, PAPER, Colour, Pen, Point, smooth
from pots import PROFILES

GROUND = 620.0
"""Height of the ground line on the sheet."""


def standing(pen: Pen, form: str, foot: Point, height: float, upside_down: bool = True, fill: Colour = PAPER) -> None:
    """A pot in outline, as it stood in the fire; `foot` is the middle of the side it stands on."""
    half = np.asarray(smooth(PROFILES[form])) * height
    up = height - half[:, 1] if upside_down else half[:, 1]
    right = [(foot[0] + float(r), foot[1] - float(h)) for r, h in zip(half[:, 0], up, strict=True)]
    left = [(2 * foot[0] - x, y) for x, y in right]
    pen.shape([*left, *reversed(right)], fill, 2.8)


def ground(pen: Pen, dip: tuple[float, float, float] | None = None, wavy: tuple[float, float] | None = None) -> None:
    """The ground's surface, hatched below; `dip` is a hollow as left, right and depth, `wavy` a damp stretch."""
    surface: list[Point] = [(50, GROUND), (pen.width - 50, GROUND)]
    if dip:
        left, right, depth = dip
        hollow = [(left, GROUND), (left + 30, GROUND + depth * 0.7), (left + 90, GROUND + depth),
                  (right - 90, GROUND + depth), (right - 30, GROUND + depth * 0.7), (right, GROUND)]  # fmt: skip
        surface = [(50, GROUND), *smooth(hollow), (pen.width - 50, GROUND)]
    base = max(y for _, y in surface) + 34
    pen.hatch([*surface, (pen.width - 50, base), (50, base)], 13, 0.8, 1.3, PALE_INK)
    pen.line(surface, 3.6)
    if wavy:
        for k in range(3):
            xs = np.linspace(*wavy, 40)
            pen.line([(float(x), base + 16 + 13 * k + 4 * float(np.sin(x / 11))) for x in xs], 1.8, waver=0.4)


def bricks(pen: Pen, xs: tuple[float, ...], top: float, wide: float = 56, high: float = 22) -> None:
    """Bricks whose upper faces lie at `top`."""
    for x in xs:
        pen.shape([(x - wide / 2, top), (x + wide / 2, top), (x + wide / 2, top + high), (x - wide / 2, top + high)],
                  CLAY, 2.2)  # fmt: skip


def cone_of_sticks(
    pen: Pen, middle: float, wide: float, high: float, count: int, lean: float = 0.0, bare: float = 0.0,
    base: float = GROUND,
) -> None:  # fmt: skip
    """Thin wood leaned together; `lean` pushes the top sideways, `bare` leaves that share of the left side open."""
    for _ in range(count):
        across = float(pen.rng.uniform(-1 + 2 * bare, 1))
        top_at = middle + lean + float(pen.rng.normal(0, wide * 0.06)) - across * wide * 0.05
        rise = high * float(pen.rng.uniform(0.72, 1.05))
        foot = middle + across * wide / 2
        bend = float(pen.rng.normal(0, 8))
        path = [(foot, base), ((foot + top_at) / 2 + bend, base - rise * 0.5), (top_at, base - rise)]
        pen.line(smooth(path), float(pen.rng.uniform(1.6, 3.4)), INK if pen.rng.random() < 0.7 else PALE_INK)


def sherd_roof(pen: Pen, middle: float, wide: float, high: float, count: int = 7, base: float = GROUND) -> None:
    """Old sherds laid over the pots."""
    for t in np.linspace(0.12, 0.88, count) * np.pi:
        x, y = middle - wide / 2 * float(np.cos(t)), base - high * float(np.sin(t))
        along = np.array([np.sin(t), -np.cos(t)]) * 34
        bulge = np.array([-np.cos(t), -np.sin(t)]) * 9
        ends = [(x - along[0], y - along[1]), (x + bulge[0], y + bulge[1]), (x + along[0], y + along[1])]
        pen.line(smooth([(float(a), float(b)) for a, b in ends]), 7.0, INK, waver=0.5)


def wind(pen: Pen, top: float, bottom: float) -> None:
    """Long lines from the left."""
    for y in np.linspace(top, bottom, 6):
        start, reach = float(pen.rng.uniform(60, 110)), float(pen.rng.uniform(190, 290))
        path = [(start, float(y)), (start + reach * 0.6, float(y) - 8), (start + reach, float(y) + 6)]
        pen.line(smooth(path), 1.6, PALE_INK)


def flames(pen: Pen, middle: float, wide: float, high: float, lean: float = 0.0) -> None:
    """A few tongues in red ink."""
    for x in np.linspace(middle - wide / 2, middle + wide / 2, 5):
        rise = high * float(pen.rng.uniform(0.6, 1.0))
        path = [(float(x), GROUND - 40), (float(x) + lean * 0.4 - 12, GROUND - 40 - rise * 0.5),
                (float(x) + lean, GROUND - 40 - rise)]  # fmt: skip
        pen.line(smooth(path), 2.6, EMBER)


def logs(pen: Pen, xs: tuple[float, ...], y: float, size: float) -> None:
    """Ends of logs with their rings."""
    for x in xs:
        r = size * float(pen.rng.uniform(0.85, 1.1))
        for share, width in ((1.0, 2.8), (0.62, 1.2), (0.28, 1.2)):
            ring = [(x + r * share * float(np.cos(t)), y + r * share * float(np.sin(t)))
                    for t in np.linspace(0, 2 * np.pi, 10, endpoint=False)]  # fmt: skip
            curve = smooth(ring, closed=True)
            if share == 1.0:
                pen.fill(curve, PAPER)
            pen.line([*curve, curve[0]], width)


def probe(pen: Pen, tip: Point, end: Point, letter: str) -> None:
    """A probe's wire in red, with its letter."""
    pen.line(smooth([tip, ((tip[0] + end[0]) / 2, (tip[1] + end[1]) / 2 - 18), end]), 2.6, EMBER)
    pen.line([(tip[0] - 2, tip[1]), (tip[0] + 2, tip[1])], 10, EMBER, waver=0.2)
    pen.words((end[0] + 18, end[1] - 6), letter, 26, EMBER)


def thick_ring(pen: Pen, middle: Point, size: float) -> None:
    """A net weight on edge."""
    for share, colour in ((1.0, CLAY), (0.36, PAPER)):
        curve = smooth([(middle[0] + size * share * float(np.cos(t)), middle[1] + size * share * float(np.sin(t)))
                        for t in np.linspace(0, 2 * np.pi, 10, endpoint=False)], closed=True)  # fmt: skip
        pen.shape(curve, colour, 2.8)


def kiln(pen: Pen) -> None:
    """The small round kiln: firebox, floor with holes, chamber and flue."""
    outer = smooth([(360, GROUND), (350, 430), (430, 250), (560, 180), (570, 110)])
    outer_right = smooth([(650, 110), (660, 180), (800, 250), (880, 430), (870, GROUND)])
    inner = smooth([(420, GROUND), (412, 440), (480, 292), (592, 226), (596, 110)])
    inner_right = smooth([(624, 110), (628, 226), (740, 292), (818, 440), (810, GROUND)])
    for wall in ([*outer, *reversed(inner)], [*inner_right, *reversed(outer_right)]):
        pen.fill(wall, CLAY)
        pen.hatch(wall, 10, 0.7, 1.2, PALE_INK)
        pen.line([*wall, wall[0]], 3.0)
    pen.fill([(340, 540), (424, 540), (424, GROUND - 2), (340, GROUND - 2)], PAPER)
    pen.line([(230, 540), (430, 536)], 3.0)
    for x in np.linspace(428, 778, 6):
        bricks(pen, (float(x) + 12,), 500, 44, 20)
    logs(pen, (270, 320, 372), GROUND - 24, 22)


def turf_mound(pen: Pen, middle: float, wide: float, high: float) -> None:
    """Turves in a skin over the clamp, with a gap at the top."""
    for t in np.linspace(0.02, 0.98, 13) * np.pi:
        if abs(t - np.pi / 2) < 0.14:
            continue
        x, y = middle - wide / 2 * float(np.cos(t)), GROUND - high * float(np.sin(t))
        turf = smooth([(x - 36, y + 14), (x - 30, y - 14), (x + 30, y - 16), (x + 38, y + 12)], closed=True)
        pen.shape(turf, ASH, 2.4)
        pen.hatch(turf, 8, 0.3, 1.0, PALE_INK)


def smoke(pen: Pen, foot: Point, high: float) -> None:
    """Smoke from one place."""
    for shift in (-14, 0, 16):
        ys = np.linspace(0, high, 9)
        path = [(foot[0] + shift + 14 * float(np.sin(y / 34 + shift)) + y * 0.12, foot[1] - float(y)) for y in ys]
        pen.line(smooth(path), 1.8, PALE_INK)
