"""The tiny curve of a row in a list: the shape of a fire at a glance."""

from __future__ import annotations

from builder.charts.curve_chart import NO_CURVE, band
from builder.charts.curve_lines import line_parts, shown
from builder.charts.frame import EMPTY_FRAME_MIN, TOPS_C, frame_minutes, frame_top_c, standard_frame
from builder.charts.layout import SMALL
from builder.charts.spells import Window
from builder.charts.svg import element, path_data
from builder.readings.curve import Curve

_MOST_DRAWN = 20_000
_DRAWN: dict[object, str] = {}
"""Curves drawn so far, by what they show: each stands in half a dozen lists."""


def small_curve(curve: Curve | None, window_c: Window, minutes: int | None = None) -> str:
    """Draw a curve tiny, in the standard frame of its duration or of `minutes`, which is one of DURATIONS_MIN.

    It is hidden from screen readers: the row says the same in words. The window's edges are in °C.
    """
    key = (None if curve is None else (curve.minutes.tobytes(), curve.celsius.tobytes()), window_c, minutes)
    drawn = _DRAWN.get(key)
    if drawn is None:
        if len(_DRAWN) >= _MOST_DRAWN:
            _DRAWN.clear()
        drawn = _DRAWN[key] = _draw(curve, window_c, minutes)
    return drawn


def _draw(curve: Curve | None, window_c: Window, minutes: int | None) -> str:
    if curve is None:
        frame = standard_frame(minutes or EMPTY_FRAME_MIN, _top_c(window_c), SMALL)
        words = element(
            "text", NO_CURVE, class_="chart-none", x=frame.layout.width / 2, y=frame.ground - 5, text_anchor="middle"
        )
        ground = element("path", class_="chart-ground", d=f"M{frame.layout.left:g} {frame.ground:g}H{frame.right:g}")
        return _svg(band(frame, window_c) + ground + words)
    span = minutes or frame_minutes(float(curve.minutes[-1]))
    frame = standard_frame(span, _top_c((*window_c, float(curve.celsius.max()))), SMALL)
    part = shown(curve, span, window_c)
    if part is None:
        return small_curve(None, window_c, span)
    outside, inside = line_parts(frame, part)
    lines = [element("path", class_="chart-line", d=outside)] if outside else []
    lines += [element("path", class_="chart-in", d=inside)] if inside else []
    if part.goes_on:
        x, y = frame.right, frame.y(float(part.celsius[-1]))
        lines.append(element("path", class_="chart-flag", d=path_data([(x - 4, y - 3), (x, y), (x - 4, y + 3)])))
    if part.minutes.size == 1:
        dot = path_data([(frame.x(part.peak[0]), frame.y(part.peak[1]))]) + "h0"
        lines.append(element("path", class_="chart-dots", d=dot))
    return _svg(band(frame, window_c) + frame.markup + "".join(lines))


def _top_c(temperatures: tuple[float | None, ...]) -> int:
    return frame_top_c(max((celsius for celsius in temperatures if celsius is not None), default=float(TOPS_C[0])))


def _svg(body: str) -> str:
    return element(
        "svg",
        body,
        class_="chart-small",
        viewBox=f"0 0 {SMALL.width:g} {SMALL.height:g}",
        width=SMALL.width,
        height=SMALL.height,
        aria_hidden="true",
    )
