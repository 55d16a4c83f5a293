"""The picture that stands for a firing where its address is shared: number, title, curve, 1200 by 630.

Painted with Pillow in the light colours of the site, with fonts that matplotlib brings along, so that the same firing
gives the same bytes on machines with the same libraries, whatever fonts they have.
"""

from __future__ import annotations

import io
import zlib
from functools import cache
from importlib.util import find_spec
from pathlib import Path

import numpy as np
from PIL import Image, ImageDraw, ImageFont

from builder.charts.curve_lines import Shown, shown
from builder.charts.curve_words import band_rows
from builder.charts.frame import TOPS_C, Frame, frame_minutes, frame_top_c
from builder.charts.layout import Layout
from builder.charts.simplify import points_to_keep
from builder.charts.spells import Window, stretches
from builder.readings.curve import Curve, Floats

SIZE = (1200, 630)
"""Width and height in pixels: what sites that show a shared address ask for."""
_GROUND, _CLAY = (0xE8, 0xE8, 0xE4), (0xE6, 0xD6, 0xBD)
_INK, _EMBER = (0x23, 0x1E, 0x1B), (0xC2, 0x4A, 0x16)
_SHADES = 16
"""Steps from bare paper to full ink: enough for smooth edges, and few enough for a small file."""
_MARGIN = 72
_FINER = 2
"""The curve is painted so much larger and then shrunk, which smooths it."""
_CHART = Layout("preview", SIZE[0], 300, _MARGIN, _MARGIN, 12, 8, 0)
_CHART_TOP = 264
_TITLE_LINES = 2
_EMPTY_FRAME_MIN = 60


def preview_picture(title: str, number: int, curve: Curve | None, window_c: Window) -> bytes:
    """Paint the preview picture of a firing as a PNG; the window's edges are in °C."""
    minutes = _EMPTY_FRAME_MIN if curve is None else frame_minutes(float(curve.minutes[-1]))
    hottest = TOPS_C[0] if curve is None else float(curve.celsius.max())
    frame = Frame(minutes, frame_top_c(max(hottest, *(edge for edge in window_c if edge is not None), 0.0)), _CHART, "")
    words = _words(title, number)
    ink, ember = _curve(frame, None if curve is None else shown(curve, minutes), window_c)
    words.paste(ink, (0, _CHART_TOP))
    return _png(words, ember, _band(frame, window_c))


def _words(title: str, number: int) -> Image.Image:
    """Letter the number and the title, as a sheet of ink: 0 bare, 255 full."""
    sheet = Image.new("L", SIZE, 0)
    pen = ImageDraw.Draw(sheet)
    pen.text((_MARGIN - 6, 196), str(number), font=_font(180), fill=255, anchor="ls")
    left = max(_MARGIN + 260, _MARGIN + round(pen.textlength(str(number), font=_font(180))) + 48)
    for at, line in enumerate(_title_lines(title, SIZE[0] - _MARGIN - left)):
        pen.text((left, 118 + 78 * at), line, font=_font(66), fill=255, anchor="ls")
    return sheet


def _band(frame: Frame, window: Window) -> tuple[slice, slice]:
    """Rows and columns of the picture that the window's band covers."""
    if window == (None, None):
        return slice(0, 0), slice(0, 0)
    top, bottom = band_rows(frame, window)
    return slice(_CHART_TOP + round(top), _CHART_TOP + round(bottom)), slice(_MARGIN, SIZE[0] - _MARGIN)


def _png(ink: Image.Image, ember: Image.Image, band: tuple[slice, slice]) -> bytes:
    """Lay ink and ember over paper and band; every mixture of them has its place in one small palette."""
    shade = np.asarray(ink) // _SHADES  # 256 values in 16 steps of 16
    glow = np.asarray(ember) // _SHADES
    lower = shade[_CHART_TOP : _CHART_TOP + glow.shape[0]]
    lower[...] = np.where(glow > lower, glow + _SHADES, lower)
    shade[band] += 2 * _SHADES
    picture = Image.fromarray(shade, "P")
    picture.putpalette([part for paper in (_GROUND, _CLAY) for over in (_INK, _EMBER) for part in _ramp(paper, over)])
    written = io.BytesIO()
    # Flat areas are runs of the same byte: looking for nothing else makes the file smaller by a quarter, and no slower.
    picture.save(written, format="PNG", compress_level=3, compress_type=zlib.Z_RLE)
    return written.getvalue()


def _ramp(paper: tuple[int, int, int], over: tuple[int, int, int]) -> list[int]:
    """The shades from bare paper to a full colour, as the palette of a PNG wants them."""
    steps = [step / (_SHADES - 1) for step in range(_SHADES)]
    return [round(bare + (full - bare) * step) for step in steps for bare, full in zip(paper, over, strict=True)]


@cache
def _font(size: int, italic: bool = False) -> ImageFont.FreeTypeFont:
    # Found without importing matplotlib, which would cost most of a second.
    package = find_spec("matplotlib")
    if package is None or package.origin is None:
        raise FileNotFoundError("matplotlib is not installed; its fonts letter the preview pictures")
    name = "STIXGeneralItalic.ttf" if italic else "STIXGeneral.ttf"
    path = Path(package.origin).parent / "mpl-data" / "fonts" / "ttf" / name
    return ImageFont.truetype(str(path), size, layout_engine=ImageFont.Layout.BASIC)


def _title_lines(title: str, width: int) -> list[str]:
    """Break a title into lines of a width; the last one takes what is left and is cut to fit."""
    font, lines = _font(66), [""]
    for word in "".join(letter for letter in title if letter.isprintable()).split():
        longer = f"{lines[-1]} {word}".strip()
        if not lines[-1] or font.getlength(longer) <= width or len(lines) == _TITLE_LINES:
            lines[-1] = longer
        else:
            lines.append(word)
    return [_cut(line, width) for line in lines]


def _cut(line: str, width: int) -> str:
    font = _font(66)
    if font.getlength(line) <= width:
        return line
    # Letters are at least a few pixels wide: what lies far beyond the width need not be measured.
    kept = line[: width // 4]
    while kept and font.getlength(kept + "…") > width:
        kept = kept[:-1]
    return kept.rstrip() + "…"


def _curve(frame: Frame, part: Shown | None, window: Window) -> tuple[Image.Image, Image.Image]:
    """Paint the curve, large, and shrink it: a sheet of ink and one of ember, 0 bare, 255 full."""
    size = (round(_CHART.width) * _FINER, round(_CHART.height) * _FINER)
    ink, ember = Image.new("L", size, 0), Image.new("L", size, 0)
    pen, glowing = ImageDraw.Draw(ink), ImageDraw.Draw(ember)
    ground = frame.ground * _FINER
    pen.line((_CHART.left * _FINER, ground, frame.right * _FINER, ground), fill=255, width=3 * _FINER)
    if part is None:
        middle = (size[0] / 2, ground - 40)
        pen.text(middle, "no curve kept", font=_font(40 * _FINER, italic=True), fill=170, anchor="ms")
        return ink.reduce(_FINER), ember.reduce(_FINER)
    for spell in part.spells:
        minutes, celsius = part.minutes[spell], part.celsius[spell]
        kept = points_to_keep(frame.layout.left + minutes * frame.x_step, celsius * frame.y_step)
        if kept.size == 1:
            x, y = frame.x(float(minutes[0])) * _FINER, frame.y(float(celsius[0])) * _FINER
            pen.ellipse((x - 10, y - 10, x + 10, y + 10), fill=255)
        else:
            _paint_line(pen, glowing, frame, (minutes[kept], celsius[kept]), window)
    return ink.reduce(_FINER), ember.reduce(_FINER)


def _paint_line(
    pen: ImageDraw.ImageDraw,
    glowing: ImageDraw.ImageDraw,
    frame: Frame,
    line: tuple[Floats, Floats],
    window: Window,
) -> None:
    for stretch in stretches(*line, window):
        points = [(frame.x(minute) * _FINER, frame.y(celsius) * _FINER) for minute, celsius in stretch.points]
        over, width = (glowing, 8) if stretch.inside else (pen, 4)
        over.line(points, fill=255, width=width * _FINER, joint="curve")
