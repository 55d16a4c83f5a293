"""The picture that stands for a firing where its address is shared: number, title, curve, 1200 by 630.

Painted with Pillow in the light colours of the site, with fonts that matplotlib brings along, so that the same firing
gives the same bytes on machines with the same libraries, whatever fonts they have.
"""

from __future__ import annotations

import io
from functools import cache
from importlib.util import find_spec
from pathlib import Path

from PIL import Image, ImageDraw, ImageFont

from builder.charts.curve_lines import Shown, shown
from builder.charts.curve_words import band_rows
from builder.charts.frame import TOPS_C, Frame, Layout, frame_minutes, frame_top_c
from builder.charts.simplify import points_to_keep
from builder.charts.spells import Window, stretches, without_gaps
from builder.readings.curve import Curve, Floats

SIZE = (1200, 630)
"""Width and height in pixels: what sites that show a shared address ask for."""
_GROUND, _INK, _SECOND, _BAND, _EMBER = "#E8E8E4", "#231E1B", "#5A524C", "#E6D6BD", "#C24A16"
_MARGIN = 72
_FINER = 2
"""The curve is painted so much larger and then shrunk, which smooths it."""
_CHART = Layout("preview", SIZE[0], 300, _MARGIN, _MARGIN, 12, 8, 0)
_TITLE_LINES = 2
_EMPTY_FRAME_MIN = 60


def preview_picture(title: str, number: int, curve: Curve | None, window_c: Window) -> bytes:
    """Paint the preview picture of a firing as a PNG; the window's edges are in °C."""
    picture = Image.new("RGB", SIZE, _GROUND)
    pen = ImageDraw.Draw(picture)
    pen.text((_MARGIN - 6, 196), str(number), font=_font(180), fill=_INK, anchor="ls")
    left = max(_MARGIN + 260, _MARGIN + round(pen.textlength(str(number), font=_font(180))) + 48)
    for at, line in enumerate(_title_lines(title, SIZE[0] - _MARGIN - left)):
        pen.text((left, 118 + 78 * at), line, font=_font(66), fill=_INK, anchor="ls")
    picture.paste(_chart(curve, window_c), (0, 264))
    if curve is None:
        pen.text((SIZE[0] / 2, 520), "no curve kept", font=_font(40, italic=True), fill=_SECOND, anchor="ms")
    written = io.BytesIO()
    picture.quantize(64, Image.Quantize.FASTOCTREE, dither=Image.Dither.NONE).save(written, format="PNG")
    return written.getvalue()


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


def _chart(curve: Curve | None, window: Window) -> Image.Image:
    """Paint the curve on its ground line, large, and shrink it."""
    minutes = _EMPTY_FRAME_MIN if curve is None else frame_minutes(float(curve.minutes[-1]))
    hottest = TOPS_C[0] if curve is None else float(curve.celsius.max())
    frame = Frame(minutes, frame_top_c(max(hottest, *(edge for edge in window if edge is not None), 0.0)), _CHART, "")
    picture = Image.new("RGB", (round(_CHART.width) * _FINER, round(_CHART.height) * _FINER), _GROUND)
    pen = ImageDraw.Draw(picture)
    left, right, ground = _CHART.left * _FINER, frame.right * _FINER, frame.ground * _FINER
    if window != (None, None):
        top, bottom = band_rows(frame, window)
        pen.rectangle((left, top * _FINER, right, bottom * _FINER), fill=_BAND)
    part = None if curve is None else shown(curve, minutes)
    if part is not None:
        _paint_line(pen, frame, part, window)
    pen.line((left, ground, right, ground), fill=_INK, width=3 * _FINER)
    return picture.reduce(_FINER)


def _paint_line(pen: ImageDraw.ImageDraw, frame: Frame, part: Shown, window: Window) -> None:
    for spell in without_gaps(part.minutes.size, part.gaps_after):
        minutes, celsius = part.minutes[spell], part.celsius[spell]
        kept = points_to_keep(frame.layout.left + minutes * frame.x_step, celsius * frame.y_step)
        if kept.size == 1:
            x, y = (value * _FINER for value in (frame.x(float(minutes[0])), frame.y(float(celsius[0]))))
            pen.ellipse((x - 10, y - 10, x + 10, y + 10), fill=_INK)
            continue
        _paint_stretches(pen, frame, minutes[kept], celsius[kept], window)


def _paint_stretches(pen: ImageDraw.ImageDraw, frame: Frame, minutes: Floats, celsius: Floats, window: Window) -> None:
    for stretch in stretches(minutes, celsius, window):
        points = [(frame.x(minute) * _FINER, frame.y(degrees) * _FINER) for minute, degrees in stretch.points]
        colour, width = (_EMBER, 8 * _FINER) if stretch.inside else (_INK, 4 * _FINER)
        pen.line(points, fill=colour, width=width, joint="curve")
