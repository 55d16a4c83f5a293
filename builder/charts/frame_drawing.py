"""Drawing an empty frame with matplotlib, and turning its SVG into markup that our style sheet can dress.

Only `frame.py` imports this file, and only when a frame must be drawn: matplotlib takes most of a second to load.
"""

from __future__ import annotations

import io
import re
import xml.etree.ElementTree as ElementTree
from typing import Any

import matplotlib
from matplotlib.backends.backend_svg import FigureCanvasSVG
from matplotlib.figure import Figure

from builder.base.units import from_canonical, to_canonical
from builder.charts.layout import SMALL, WIDE, Layout
from builder.charts.svg import element, escaped, number

_SVG, _XLINK = "{http://www.w3.org/2000/svg}", "{http://www.w3.org/1999/xlink}"
_SETTINGS: Any = {
    "svg.fonttype": "none",
    "svg.hashsalt": "ashbook",
    "path.simplify": False,
    "text.parse_math": False,
}
_NO_METADATA = {"Date": None, "Creator": None, "Format": None, "Type": None}
_STEPS_MIN = {15: 5, 30: 10, 60: 15, 120: 30, 240: 60, 480: 120, 960: 240, 1440: 360, 2880: 720}
"""Minutes between the ticks of each standard duration: three or four ticks beside the first, at every width."""
_DEGREES_STEP_C = 200
_DEGREES_STEP_F = 400
"""Round numbers on either scale; the style sheet shows the rules and numbers of the reader's choice."""
_POINTS_AN_INCH = 72
"""matplotlib's SVG counts in points, 72 to the inch; a figure of width/72 inches is `width` units wide."""
_TICK = 4
_NUMBER = re.compile(r"-?\d+(?:\.\d+)?")


def draw_frame(minutes: int, top_c: int, layout: Layout) -> str:
    """Draw the frame of a duration (min), a scale (°C) and a width; gives its markup, without an id or a style."""
    with matplotlib.rc_context():
        matplotlib.rcdefaults()
        matplotlib.rcParams.update(_SETTINGS)
        figure = Figure(figsize=(layout.width / _POINTS_AN_INCH, layout.height / _POINTS_AN_INCH), dpi=_POINTS_AN_INCH)
        FigureCanvasSVG(figure)
        _draw_axes(figure, minutes, top_c, layout)
        written = io.StringIO()
        figure.savefig(written, format="svg", metadata=_NO_METADATA)
    return dress(written.getvalue())


def _draw_axes(figure: Figure, minutes: int, top_c: int, layout: Layout) -> None:
    axes: Any = figure.add_axes(
        (
            layout.left / layout.width,
            layout.bottom / layout.height,
            (layout.width - layout.left - layout.right) / layout.width,
            (layout.height - layout.top - layout.bottom) / layout.height,
        )
    )
    axes.set(xlim=(0, minutes), ylim=(0, top_c))
    figure.patch.set_visible(False)
    axes.patch.set_visible(False)
    for side in ("left", "right", "top"):
        axes.spines[side].set_visible(False)
    axes.spines["bottom"].set_gid("chart-ground.0")
    _draw_times(axes, minutes, layout)
    _draw_degrees(axes, top_c, layout)


def _draw_times(axes: Any, minutes: int, layout: Layout) -> None:
    ticks = range(0, minutes + 1, _STEPS_MIN[minutes])
    words = [time_words(tick) for tick in ticks]
    if layout is SMALL:
        words = ["" for _ in words[:-1]] + words[-1:]
    elif layout is not WIDE:
        words = [_short_words(tick, minutes) for tick in ticks]
    axes.set_xticks(list(ticks), labels=words)
    axes.tick_params(axis="x", length=_TICK, pad=3 if layout is SMALL else 5, labelsize=layout.letter - 1)
    labels = axes.xaxis.get_ticklabels()
    labels[0].set_horizontalalignment("left")
    labels[-1].set_horizontalalignment("right")
    for index, label in enumerate(labels):
        label.set_gid(f"chart-number.x{index}")
    for index, line in enumerate(axes.xaxis.get_ticklines()):
        line.set_gid(f"chart-tick.{index}")


def _draw_degrees(axes: Any, top_c: int, layout: Layout) -> None:
    """Draw the rules and numbers of both scales, each under its own class."""
    axes.set_yticks([])
    if layout is SMALL:
        return
    top_f = int(from_canonical(top_c, "°F", "temperature"))
    for step, top, unit in ((_DEGREES_STEP_C, top_c, "°C"), (_DEGREES_STEP_F, top_f, "°F")):
        scale = f"in-{unit[-1].lower()}"
        for degrees in range(step, top + 1, step):
            height = to_canonical(degrees, unit, "temperature")
            axes.axhline(height).set_gid(f"chart-rule {scale}.{degrees}")
            _write_degrees(axes, str(degrees), (0, height), (-6, 0), layout, f"chart-number {scale}.{degrees}")
        _write_degrees(axes, unit, (0, top_c), (4, -14), layout, f"chart-number {scale}.unit")


def _write_degrees(
    axes: Any, words: str, at: tuple[float, float], offset: tuple[float, float], layout: Layout, gid: str
) -> None:
    """Write words beside a point of the scale, left of it where the offset goes left."""
    left = offset[0] < 0
    axes.annotate(
        words,
        at,
        offset,
        xycoords=("axes fraction", "data"),
        textcoords="offset points",
        ha="right" if left else "left",
        va="center_baseline" if left else "baseline",
        fontsize=layout.letter - 1,
        annotation_clip=False,
    ).set_gid(gid)


def time_words(minute: int) -> str:
    """Write a time of the scale: `lit`, `15 min`, `1 h 30`, `6 h`."""
    if minute == 0:
        return "lit"
    hours, rest = divmod(minute, 60)
    if not hours:
        return f"{rest} min"
    return f"{hours} h {rest}" if rest else f"{hours} h"


def _short_words(minute: int, last: int) -> str:
    """The same for a narrow drawing, where the last number alone carries the unit."""
    if minute in (0, last) or (minute % 60 and last > 60):
        return time_words(minute)
    return str(minute if last <= 60 else minute // 60)


def dress(svg: str) -> str:
    """Turn matplotlib's SVG into bare paths and texts with our classes.

    Every part that is wanted carries a gid of `class.number`; everything else (its styles, ids, fonts, clips) goes.
    """
    strokes: dict[str, list[str]] = {}
    texts: dict[str, list[str]] = {}
    for group in ElementTree.fromstring(svg).iter(f"{_SVG}g"):  # noqa: S314 - matplotlib wrote it a moment ago
        name = group.get("id", "").partition(".")[0]
        if not name.startswith("chart-"):
            continue
        strokes.setdefault(name, []).extend(_strokes(group))
        written = [_text(text) for text in group.iter(f"{_SVG}text") if (text.text or "").strip()]
        texts.setdefault(name, []).extend(written)
    paths = [element("path", class_=name, d="".join(parts)) for name, parts in strokes.items() if parts]
    return "".join(paths) + "".join(element("g", *found, class_=name) for name, found in texts.items() if found)


def _strokes(group: ElementTree.Element) -> list[str]:
    """The straight strokes of a group; a tick is a `use` of a stroke that matplotlib keeps in its definitions."""
    uses = list(group.iter(f"{_SVG}use"))
    if uses:
        return [f"M{number(float(use.get('x', 0)))} {number(float(use.get('y', 0)))}v{_TICK}" for use in uses]
    found = []
    for path in group.iter(f"{_SVG}path"):
        x1, y1, x2, y2 = (float(value) for value in _NUMBER.findall(path.get("d", ""))[:4])
        found.append(f"M{number(x1)} {number(y1)}" + (f"H{number(x2)}" if y1 == y2 else f"L{number(x2)} {number(y2)}"))
    return found


def _text(text: ElementTree.Element) -> str:
    anchor = re.search(r"text-anchor:\s*(\w+)", text.get("style", ""))
    return element(
        "text",
        escaped(text.text or ""),
        x=float(text.get("x", 0)),
        y=float(text.get("y", 0)),
        text_anchor=anchor.group(1) if anchor and anchor.group(1) != "start" else None,
    )
