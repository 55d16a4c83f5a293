"""Test tiles in rows: whole, grey inside, cracked, flaked, broken, painted."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from pen import ASH, CLAY, INK, PALE_INK, PAPER, SOOT, Colour, Pen, Point, smooth
from pots import STRENGTH


@dataclass(frozen=True)
class Tile:
    """One tile to draw."""

    fault: str = ""
    """`core`, `crack`, `flake`, `soot`, `broken` or nothing."""
    paint: str = "none"
    """`held`, `faded`, `ghost` or `none`."""
    colour: Colour = CLAY


def rows_of_tiles(pen: Pen, rows: tuple[tuple[Tile, ...], ...], labels: tuple[str, ...] = ()) -> None:
    """Lay the rows out over the whole sheet."""
    size = min((pen.width - 200) / (max(map(len, rows)) * 1.25), (pen.height - 100) / (len(rows) * 1.3))
    for r, row in enumerate(rows):
        y = pen.height * (r + 0.5) / len(rows)
        for k, tile in enumerate(row):
            x = 120 + (pen.width - 160) * (k + 0.5) / len(row)
            _tile(pen, tile, (x, y), size)
        if r < len(labels):
            pen.words((76, y), labels[r], 24)


def _square(pen: Pen, middle: Point, size: float) -> list[Point]:
    h = size / 2
    corners = [(-h, -h), (h, -h), (h, h), (-h, h)]
    return [(middle[0] + x + float(pen.rng.normal(0, 3)), middle[1] + y + float(pen.rng.normal(0, 3)))
            for x, y in corners]  # fmt: skip


def _tile(pen: Pen, tile: Tile, middle: Point, size: float) -> None:
    corners = _square(pen, middle, size)
    pen.shape(corners, tile.colour, 3.0)
    ink = STRENGTH[tile.paint]
    if ink is not None:
        _lattice(pen, middle, size, ink)
    x, y, h = *middle, size / 2
    if tile.fault == "core":
        pen.shape([(x - h, y + h * 0.62), (x + h, y + h * 0.62), (x + h, y + h), (x - h, y + h)], PAPER, 2.0)
        pen.fill([(x - h + 6, y + h * 0.74), (x + h - 6, y + h * 0.74), (x + h - 6, y + h * 0.88),
                  (x - h + 6, y + h * 0.88)], SOOT)  # fmt: skip
    elif tile.fault == "crack":
        pen.line(_split(pen, x, y, h), 3.4)
    elif tile.fault == "flake":
        blob = smooth([(x + h * 0.5 + 0.32 * h * float(np.cos(t)), y - h * 0.4 + 0.28 * h * float(np.sin(t)))
                       for t in np.linspace(0, 2 * np.pi, 8, endpoint=False)], closed=True)  # fmt: skip
        pen.shape(blob, ASH, 2.4)
        pen.hatch(blob, 8, ink=PALE_INK)
    elif tile.fault == "soot":
        pen.hatch([corners[0], corners[1], (x - h * 0.2, y + h), corners[3]], 8, width=3.0, ink=SOOT)
    elif tile.fault == "broken":
        split = _split(pen, x, y, h)
        pen.line(split, 13.0, PAPER)
        for shift in (-8, 8):
            pen.line([(px + shift, py) for px, py in split], 2.6)


def _split(pen: Pen, x: float, y: float, h: float) -> list[Point]:
    down = np.linspace(-h, h, 10)
    across = np.cumsum(pen.rng.normal(0, h * 0.07, len(down))) - h * 0.1
    return [(x + float(a), y + float(d)) for a, d in zip(across, down, strict=True)]


def _lattice(pen: Pen, middle: Point, size: float, ink: Colour) -> None:
    x, y = middle
    reach = size * 0.38
    for k in (-0.75, -0.25, 0.25, 0.75):
        pen.line([(x + k * reach, y - reach), (x + k * reach, y + reach)], 4.2, ink)
        pen.line([(x - reach, y + k * reach), (x + reach, y + k * reach)], 4.2, ink)


__all__ = ["INK", "Tile", "rows_of_tiles"]
