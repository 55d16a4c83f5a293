"""The standard frames that curves stand in: one scale of degrees, a short list of durations.

A frame is drawn by matplotlib once for each duration, scale and width, then remembered; a curve is written into
it as a path, by `Frame.x` and `Frame.y`. Those of the first scale lie drawn in `frames.json`; the others can be kept as
bytes between builds (`kept_frames`, `use_kept_frames`), so that few builds ever load matplotlib.
"""

from __future__ import annotations

import hashlib
import json
from dataclasses import dataclass
from functools import cache
from pathlib import Path

from builder.charts.layout import Layout
from builder.kept.version import library_version

DURATIONS_MIN = (15, 30, 60, 120, 240, 480, 960, 1440, 2880)
"""How long a frame can be, in minutes. A longer record runs out of the last one."""
EMPTY_FRAME_MIN = 60
"""Duration of the frame of a firing that kept no curve."""
TOPS_C = (1000, 1200, 1400, 1800)
"""Upper ends of the scale, °C: the first for nearly every open fire, the others only where a curve needs them."""


@dataclass(frozen=True, slots=True)
class Frame:
    """An empty chart and the way from minutes and degrees to its pixels."""

    minutes: int
    top_c: int
    layout: Layout
    markup: str
    """Rules, numbers, ticks and the ground line, as SVG."""

    @property
    def right(self) -> float:
        """Pixel column of the axes' right edge."""
        return self.layout.width - self.layout.right

    @property
    def ground(self) -> float:
        """Pixel row of 0 °C: the ground line."""
        return self.layout.height - self.layout.bottom

    @property
    def x_step(self) -> float:
        """Pixels a minute."""
        return (self.right - self.layout.left) / self.minutes

    @property
    def y_step(self) -> float:
        """Pixels a degree; less than 0, because pixels count downwards."""
        return (self.layout.top - self.ground) / self.top_c

    def x(self, minute: float) -> float:
        """Pixel column of a minute."""
        return self.layout.left + minute * self.x_step

    def y(self, celsius: float) -> float:
        """Pixel row of a temperature in °C."""
        return self.ground + celsius * self.y_step


def frame_minutes(last_minute: float) -> int:
    """Choose the shortest standard duration that holds a record, in minutes."""
    return next((minutes for minutes in DURATIONS_MIN if minutes >= last_minute), DURATIONS_MIN[-1])


def frame_top_c(highest_c: float) -> int:
    """Choose the standard scale that holds a temperature, °C."""
    return next((top for top in TOPS_C if top >= highest_c), TOPS_C[-1])


DRAWN = Path(__file__).with_name("frames.json")
"""Markup of all frames of the first scale by their key, as matplotlib drew them: `python -m tests.charts.frames`."""

_MARKUP: dict[str, str] = {}
"""Markup of the other frames drawn so far, by their key. It never changes, so it is no matter who asks first."""


def standard_frame(minutes: int, top_c: int, layout: Layout) -> Frame:
    """Give the standard frame of a duration (min), a scale (°C) and a width, drawing it if nobody has yet."""
    key = frame_key(minutes, top_c, layout)
    markup = _drawn().get(key) or _MARKUP.get(key)
    if markup is None:
        # matplotlib takes most of a second to load: only here, and only when a frame is really missing.
        from builder.charts.frame_drawing import draw_frame

        markup = _MARKUP[key] = draw_frame(minutes, top_c, layout)
    return Frame(minutes, top_c, layout, markup)


def frame_key(minutes: int, top_c: int, layout: Layout) -> str:
    """Name a frame among all: `240 1000 wide`."""
    return f"{minutes} {top_c} {layout.key}"


@cache
def _drawn() -> dict[str, str]:
    found: dict[str, str] = json.loads(DRAWN.read_text(encoding="utf-8"))
    return found


def kept_frames() -> bytes:
    """Give every frame that had to be drawn as bytes, to be kept between builds."""
    return json.dumps({"drawn by": _drawn_by(), "frames": _MARKUP}, sort_keys=True).encode()


def use_kept_frames(kept: bytes) -> bool:
    """Take up frames kept earlier; False, and nothing taken up, where another program or version drew them."""
    try:
        found = json.loads(kept)
    except ValueError:
        return False
    if not isinstance(found, dict) or found.get("drawn by") != _drawn_by():
        return False
    _MARKUP.update(found["frames"])
    return True


def _drawn_by() -> str:
    """What a frame's look depends on: matplotlib's version and the code that draws."""
    here = Path(__file__)
    digest = hashlib.sha256(library_version("matplotlib").encode())
    for file in (here, here.with_name("layout.py"), here.with_name("frame_drawing.py"), here.with_name("svg.py")):
        digest.update(file.read_bytes())
    return digest.hexdigest()
