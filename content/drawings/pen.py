"""A pen with a hand behind it: lines that waver, hatching, washes, a few words of lettering."""

from __future__ import annotations

import hashlib
from collections.abc import Sequence
from pathlib import Path

import matplotlib
import numpy as np
from numpy.typing import NDArray
from PIL import Image, ImageDraw, ImageFont

PAPER = (244, 243, 238)
INK = (38, 32, 28)
PALE_INK = (120, 110, 100)
EMBER = (168, 62, 24)
CLAY = (222, 205, 178)
ASH = (205, 202, 194)
SOOT = (74, 68, 64)

OVERSAMPLE = 2
"""Everything is drawn this many times too large and shrunk, which smooths the lines."""
MARGIN = 50
"""Empty paper left above and below a drawing, in pixels."""

Point = tuple[float, float]
Colour = tuple[int, int, int]


def smooth(points: Sequence[Point], closed: bool = False, steps: int = 14) -> list[Point]:
    """Run a Catmull-Rom curve through the points."""
    p = np.asarray(points, dtype=float)
    padded = np.vstack([p[-1], p, p[:2]]) if closed else np.vstack([p[0], p, p[-1]])
    t = np.linspace(0, 1, steps, endpoint=False)[:, None]
    runs = [_run(padded[i : i + 4], t) for i in range(len(padded) - 3)]
    curve = np.vstack(runs) if closed else np.vstack([*runs, p[-1:]])
    return [(float(x), float(y)) for x, y in curve]


def _run(four: NDArray[np.float64], t: NDArray[np.float64]) -> NDArray[np.float64]:
    a, b, c, d = four
    return 0.5 * (2 * b + (c - a) * t + (2 * a - 5 * b + 4 * c - d) * t**2 + (3 * b - a - 3 * c + d) * t**3)


class Pen:
    """Draws on one sheet; the same words make the same sheet."""

    def __init__(self, words: str, width: int = 1200, height: int = 800) -> None:
        seed = int.from_bytes(hashlib.sha256(words.encode()).digest()[:8], "big")
        self.rng = np.random.default_rng(seed)
        self.width, self.height = width, height
        self.sheet = Image.new("RGB", (width * OVERSAMPLE, height * OVERSAMPLE), PAPER)
        self.draw = ImageDraw.Draw(self.sheet)

    def line(self, points: Sequence[Point], width: float = 3.0, ink: Colour = INK, waver: float = 1.2) -> None:
        """Draw through the points with a hand that wavers and presses unevenly."""
        p = self._along(np.asarray(points, dtype=float))
        n = len(p)
        phase = self.rng.uniform(0, 2 * np.pi, (2, 3))
        far = np.cumsum(np.r_[0, np.hypot(*np.diff(p, axis=0).T)])
        for axis in (0, 1):
            p[:, axis] += waver * sum(
                np.sin(far / length + phase[axis, k]) / (k + 1) for k, length in enumerate((60.0, 23.0, 9.0))
            )
        press = width * (1 + 0.22 * np.sin(far / 47 + phase[0, 0]) + 0.1 * np.sin(far / 13 + phase[1, 1]))
        for i in range(n):
            x, y, r = p[i, 0] * OVERSAMPLE, p[i, 1] * OVERSAMPLE, press[i] * OVERSAMPLE / 2
            self.draw.ellipse((x - r, y - r, x + r, y + r), fill=ink)

    @staticmethod
    def _along(p: NDArray[np.float64], step: float = 0.8) -> NDArray[np.float64]:
        far = np.r_[0, np.cumsum(np.hypot(*np.diff(p, axis=0).T))]
        at = np.linspace(0, far[-1], max(2, int(far[-1] / step)))
        return np.column_stack([np.interp(at, far, p[:, 0]), np.interp(at, far, p[:, 1])])

    def fill(self, points: Sequence[Point], colour: Colour) -> None:
        """Lay a flat wash inside the outline."""
        self.draw.polygon([(x * OVERSAMPLE, y * OVERSAMPLE) for x, y in points], fill=colour)

    def shape(self, points: Sequence[Point], colour: Colour, width: float = 3.0, ink: Colour = INK) -> None:
        """Lay a wash and draw its outline."""
        self.fill(points, colour)
        self.line([*points, points[0]], width, ink)

    def hatch(
        self, points: Sequence[Point], spacing: float = 9.0, slope: float = 1.0, width: float = 1.4,
        ink: Colour = INK,
    ) -> None:  # fmt: skip
        """Hatch the inside of an outline with slanting lines."""
        mask = Image.new("L", self.sheet.size, 0)
        ImageDraw.Draw(mask).polygon([(x * OVERSAMPLE, y * OVERSAMPLE) for x, y in points], fill=255)
        clean = self.sheet.copy()
        xs, ys = [x for x, _ in points], [y for _, y in points]
        left, right, top, bottom = min(xs), max(xs), min(ys), max(ys)
        at = left - (bottom - top) * abs(slope)
        while at < right + (bottom - top) * abs(slope):
            shift = float(self.rng.normal(0, spacing * 0.12))
            self.line([(at + shift, bottom), (at + shift + (bottom - top) * slope, top)], width, ink, waver=0.6)
            at += spacing
        self.sheet.paste(Image.composite(self.sheet, clean, mask))
        self.draw = ImageDraw.Draw(self.sheet)

    def words(self, at: Point, text: str, size: int = 24, ink: Colour = INK) -> None:
        """Letter a few words, a little off the level."""
        face = Path(matplotlib.get_data_path()) / "fonts" / "ttf" / "DejaVuSerif-Italic.ttf"
        font = ImageFont.truetype(str(face), size * OVERSAMPLE)
        box = font.getbbox(text)
        tag = Image.new("L", (int(box[2]) + 20, int(box[3]) + 20), 0)
        ImageDraw.Draw(tag).text((8, 6), text, font=font, fill=255)
        tag = tag.rotate(float(self.rng.normal(0, 0.7)), expand=True, resample=Image.Resampling.BICUBIC)
        corner = (int(at[0] * OVERSAMPLE - tag.width / 2), int(at[1] * OVERSAMPLE - tag.height / 2))
        self.sheet.paste(ink, corner, tag)

    def save(self, path: Path) -> None:
        """Shrink the sheet, cut off the empty paper above and below, and write a PNG or a JPEG."""
        done = self.sheet.resize((self.width, self.height), Image.Resampling.LANCZOS)
        drawn = np.flatnonzero((np.asarray(done) != PAPER).any(axis=(1, 2)))
        top, bottom = max(0, int(drawn[0]) - MARGIN), min(self.height, int(drawn[-1]) + MARGIN)
        done = done.crop((0, top, self.width, bottom))
        if path.suffix == ".png":
            done.quantize(48, dither=Image.Dither.NONE).save(path, optimize=True)
        else:
            done.save(path, quality=80, optimize=True)
