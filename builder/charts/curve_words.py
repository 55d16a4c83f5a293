"""The words in a curve's chart: the window's, the peak's, the probes' names, the events' flags."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass

import numpy as np

from builder.charts.curve_lines import Shown
from builder.charts.frame import Frame
from builder.charts.labels import HIT, Box, Place, Room
from builder.charts.layout import PHONE
from builder.charts.spells import Window
from builder.charts.svg import cut_words, degree_words, degrees, element, escaped, words_width
from builder.readings.curve import Curve, Event

LONGEST_FLAG = 34
"""Letters that a flag in the chart can carry; longer words are cut there and stand whole in the list below."""
LONGEST_NAME = 18
_STAFFS = (16, 32, 48, -18, -34, 66, 86, -52, 110, -74, 140, -100, 175, 215)
"""Lengths that a flag's staff can have, in pixels, in the order they are tried; less than 0 hangs down."""
_PENNANT = 7
_WIDEST_DEGREES = "0000 °F"
"""Room is kept for the longest number that a temperature can be shown by, in either scale."""


@dataclass(frozen=True, slots=True)
class Flag:
    """Words on a staff that stands on the curve."""

    x: float
    y: float
    words: str
    bold: bool = False
    celsius: float | None = None
    """A temperature that ends the words."""

    def places(self, letter: float) -> Iterator[Place]:
        """Offer places: short staffs before long ones, words to the right before left."""
        room = self.words if self.celsius is None else f"{self.words} {_WIDEST_DEGREES}"
        width, half = words_width(room, letter, self.bold) + 2, letter * 0.62
        for end in (self.y - length for length in _STAFFS):
            middle = end + 3.5 if end < self.y else end - 3.5
            staff = Box(self.x - 2, min(end, self.y), self.x + 2, max(end, self.y))
            for side in (1, -1):
                near, far = self.x + side * 3, self.x + side * (_PENNANT + 4 + width)
                yield Place(Box(min(near, far), middle - half, max(near, far), middle + half), staff, end, side)

    def markup(self, end: float, side: int, letter: float) -> str:
        """Draw the flag with its words."""
        fall = 3.5 if end < self.y else -3.5
        pennant = f"M{self.x:.1f} {self.y:.1f}V{end:.1f}l{side * _PENNANT} {fall} {-side * _PENNANT} {fall}"
        words = element(
            "text",
            escaped(self.words) + ("" if self.celsius is None else degrees(self.celsius)),
            x=self.x + side * (_PENNANT + 4),
            y=end + fall + letter * 0.35,
            text_anchor=None if side > 0 else "end",
            class_="chart-strong" if self.bold else None,
        )
        return element("path", class_="chart-flag", d=pennant) + words


def place_flag(room: Room, flag: Flag, at_any_cost: bool = False) -> str | None:
    """Draw a flag where there is room; None where there is none, unless it must stand."""
    letter = room.frame.layout.letter
    place, cost = room.best(flag.places(letter))
    if cost >= HIT and not at_any_cost:
        return None
    return flag.markup(place.end, place.side, letter)


def peak_flag(room: Room, part: Shown) -> str:
    """Draw the flag of the highest reading; a probe that topped out says `at least`."""
    minute, celsius = part.peak
    words = "at least " if part.curve.at_least else "" if room.frame.layout is PHONE else "hottest, "
    flag = Flag(room.frame.x(minute), max(room.frame.y(celsius), 0.0), words, bold=True, celsius=celsius)
    return place_flag(room, flag, at_any_cost=True) or ""


def event_words(event: Event, last_minute: float) -> str:
    """Give an event's words; one outside the frame's time says when it was."""
    if event.minute < 0:
        return f"before lighting: {event.words}"
    if event.minute > last_minute:
        hours, rest = divmod(round(event.minute), 60)
        return f"later, at {hours} h {rest}: {event.words}" if hours else f"later, at {rest} min: {event.words}"
    return event.words


def event_flags(room: Room, events: Sequence[Event], part: Shown | None) -> tuple[str, bool]:
    """Draw the events' flags; True with them where the list of events must stand below the chart.

    On the phone every flag carries a number. Elsewhere a flag carries its words, unless there is no room for them.
    """
    frame = room.frame
    drawn, needs_list = [], frame.layout is PHONE and bool(events)
    for index, event in enumerate(events, 1):
        minute = min(max(event.minute, 0.0), float(frame.minutes))
        x, y = frame.x(minute), _row_of_curve(frame, part, minute)
        whole = event_words(event, frame.minutes)
        words = cut_words(whole, LONGEST_FLAG)
        flag = None if frame.layout is PHONE else place_flag(room, Flag(x, y, words))
        needs_list = needs_list or flag is None or words != " ".join(whole.split())
        drawn.append(flag or place_flag(room, Flag(x, y, str(index)), at_any_cost=True) or "")
    return "".join(drawn), needs_list


def _row_of_curve(frame: Frame, part: Shown | None, minute: float) -> float:
    """Where a staff stands: on the curve, or on the ground where nothing was read."""
    if part is None or not part.minutes[0] <= minute <= part.minutes[-1]:
        return frame.ground
    celsius = float(np.interp(minute, part.minutes, part.celsius))
    return min(max(frame.y(celsius), 0.0), frame.ground)


def window_words(window: Window) -> str:
    """Say the window: `working window, 640–780 °C`, or its one edge; empty without one."""
    return _said_window(window, degree_words)


def _said_window(window: Window, say: Callable[[float, bool], str]) -> str:
    low, high = window
    if low is None and high is None:
        return ""
    if low is None:
        return f"working window, up to {say(high or 0.0, False)}"
    if high is None:
        return f"working window, from {say(low, False)}"
    return f"working window, {say(low, True)}–{say(high, False)}"


def window_label(room: Room, window: Window) -> str:
    """Write the window's words into its band, clear of the curves, or beside it where the band is too thin."""
    frame, layout = room.frame, room.frame.layout
    words = window_words(window)
    if not words:
        return ""
    dropped = "working " if layout is PHONE else ""
    marked = _said_window(window, degrees).removeprefix(dropped)
    width = words_width(words.removeprefix(dropped).replace(" °C", "00 °C"), layout.letter)
    top, bottom = band_rows(frame, window)
    middles = [(top + bottom) / 2] if bottom - top >= layout.letter + 2 else []
    if bottom - top > 3 * layout.letter:
        middles = [top + layout.letter, bottom - layout.letter, *middles]
    middles += [top - layout.letter * 0.7, bottom + layout.letter * 0.7]
    lefts = (frame.right - width - 8, layout.left + 8, (layout.left + frame.right - width) / 2)
    half = layout.letter * 0.6
    offered = (Place(Box(left, middle - half, left + width, middle + half)) for middle in middles for left in lefts)
    box = room.best(offered)[0].words
    at_right = box.left == lefts[0]
    return element(
        "text",
        marked,
        class_="chart-band-words",
        x=box.right if at_right else box.left,
        y=(box.top + box.bottom) / 2 + layout.letter * 0.35,
        text_anchor="end" if at_right else None,
    )


def band_rows(frame: Frame, window: Window) -> tuple[float, float]:
    """Pixel rows of the band's upper and lower edge; a missing edge is the frame's own."""
    low, high = window
    top = frame.layout.top if high is None else max(frame.y(high), frame.layout.top)
    return top, frame.ground if low is None else min(frame.y(low), frame.ground)


def probe_name(room: Room, part: Shown, class_: str | None) -> str:
    """Write a probe's name at its line: at the end if there is room, or else further back."""
    letter = room.frame.layout.letter
    words = cut_words(part.curve.probe.name, LONGEST_NAME)
    box = room.best(_name_places(room.frame, part, words_width(words, letter, class_ == "chart-strong"), letter))[
        0
    ].words
    return element("text", escaped(words), class_=class_, x=box.left, y=(box.top + box.bottom) / 2 + letter * 0.35)


def _name_places(frame: Frame, part: Shown, width: float, letter: float) -> Iterator[Place]:
    half = letter * 0.6
    first, last = float(part.minutes[0]), float(part.minutes[-1])
    for share in (1.0, 0.9, 0.75, 0.6, 0.45, 0.3, 0.15):
        minute = first + share * (last - first)
        x, y = frame.x(minute), _row_of_curve(frame, part, minute)
        for left, middle in (
            (x + 7, y),
            (x + 5, y - letter),
            (x - width - 5, y + letter),
            (x - width / 2, y - letter * 1.3),
            (x - width / 2, y + letter * 1.3),
            (x - width - 7, y),
        ):
            yield Place(Box(left, middle - half, left + width, middle + half))


def others(curves: Sequence[Curve], ware: int | None) -> tuple[tuple[int, Curve], ...]:
    """The probes that do not stand for the ware, each with its line form, 2 to 5 and round again."""
    rest = [curve for index, curve in enumerate(curves) if index != ware]
    return tuple((2 + index % 4, curve) for index, curve in enumerate(rest))
