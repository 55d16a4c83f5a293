"""The chart of one firing: its curves in a standard frame, the method's window, what happened and when.

Three drawings of it, wide, middling and for a phone; the style sheet shows the one whose lettering stays readable.
"""

from __future__ import annotations

from dataclasses import dataclass

from builder.charts.curve_lines import (
    DOUBTED,
    Shown,
    cross_places,
    doubt_marks,
    other_line,
    ribbon,
    shown,
    spike_crosses,
    ware_line,
)
from builder.charts.curve_words import (
    band_rows,
    event_flags,
    event_words,
    others,
    peak_flag,
    probe_name,
    window_label,
    window_words,
)
from builder.charts.frame import EMPTY_FRAME_MIN, Frame, frame_minutes, frame_top_c, standard_frame
from builder.charts.labels import Box, Room
from builder.charts.layout import LAYOUTS, Layout
from builder.charts.spells import Window
from builder.charts.svg import drawing, element, escaped
from builder.readings.curve import Curve, Event, FiringCurves

NO_CURVE = "no curve kept"
"""What stands in the frame of a firing whose temperature nobody wrote down."""


@dataclass(frozen=True, slots=True)
class Framed:
    """A firing's curves in the standard frame that holds them, before they are drawn."""

    curves: FiringCurves
    window: Window
    """Edges of the method's window, °C."""
    minutes: int
    """Duration of the frame."""
    top_c: int
    """Upper end of its scale."""
    parts: tuple[Shown | None, ...]
    """What it shows of each curve."""


def framed(curves: FiringCurves, window_c: Window) -> Framed:
    """Choose the frame of a firing's curves and cut them to it; the window's edges are in °C."""
    minutes, top_c = _frame_size(curves, window_c)
    ware = curves.ware_curve
    parts = [shown(curve, minutes, window_c if curve is ware else (None, None)) for curve in curves.curves]
    return Framed(curves, window_c, minutes, top_c, tuple(parts))


def curve_chart(told: Framed, name: str, words: str) -> str:
    """Draw a firing's curves as three inline SVGs, of which one is shown, and the list of events they may need.

    `name` makes the ids unique on the page; `words` is the text alternative.
    """
    drawn, listed = [], []
    for layout in LAYOUTS:
        body, needs_list = _body(standard_frame(told.minutes, told.top_c, layout), told)
        drawn.append(_svg(layout, name, words, body))
        if needs_list:
            listed.append(layout.key)
    return element("div", *drawn, _event_list(told.curves, told.minutes, listed), class_="chart chart-curve")


def _svg(layout: Layout, name: str, words: str, body: list[str]) -> str:
    class_ = f"chart-drawing chart-{layout.key}"
    size = (layout.width, layout.height)
    return drawing(f"{name}-{layout.key}", class_, size, "Temperature from lighting on", words, body)


def _frame_size(curves: FiringCurves, window: Window) -> tuple[int, int]:
    """Choose the frame's minutes and scale: by the curves, or without any by the events and the window."""
    highest = max((edge for edge in window if edge is not None), default=0.0)
    if curves.curves:
        last = max(float(curve.minutes[-1]) for curve in curves.curves)
        highest = max(highest, *(float(curve.celsius.max()) for curve in curves.curves))
    else:
        last = max((event.minute for event in curves.events), default=EMPTY_FRAME_MIN)
    return frame_minutes(last), frame_top_c(highest)


def _body(frame: Frame, told: Framed) -> tuple[list[str], bool]:
    """Draw everything in one frame, from the back to the front; True where the events' list is needed."""
    curves, parts, window = told.curves, told.parts, told.window
    ware = None if curves.ware is None else parts[curves.ware]
    form_of = {id(curve): form for form, curve in others(curves.curves, curves.ware)}
    rest = [(form_of[id(part.curve)], part) for part in parts if part is not None and part is not ware]
    drawn = [part for part in parts if part is not None]
    room = _room(frame, drawn, window)
    crosses = [place for part in drawn for place in cross_places(frame, part, curves.faults_of(part.curve))]
    room.taken += [Box(x - 4, y - 4, x + 4, y + 4) for x, y in crosses]
    texts = [window_label(room, window)]
    flags = [peak_flag(room, ware)] if ware else []
    if len(curves.curves) > 1:
        texts += [probe_name(room, part, f"chart-name-s{form}") for form, part in rest]
        texts += [probe_name(room, ware, "chart-strong")] if ware else []
    event_marks, needs_list = event_flags(room, _flagged(curves), ware)
    body = [band(frame, window), frame.markup]
    body += [ribbon(frame, ware)] if ware else []
    body += [other_line(frame, part, form) for form, part in rest]
    if ware:
        body.append(ware_line(frame, ware))
    for part in drawn:
        faults = curves.faults_of(part.curve)
        body += [spike_crosses(frame, part, faults), doubt_marks(frame, part, faults)]
    if ware is None and not rest:
        body.append(empty_words(frame))
    body.append(element("g", *texts, *flags, event_marks, class_="chart-words"))
    return body, needs_list


def _room(frame: Frame, parts: list[Shown], window: Window) -> Room:
    """Say what the words must keep off: curves, rules, edges, and the unit at the head of the scale."""
    layout = frame.layout
    rules = [frame.y(celsius) for celsius in range(200, frame.top_c + 1, 200)]
    edges = [frame.y(edge) for edge in window if edge is not None]
    room = Room(frame, lines=rules + edges, taken=[Box(layout.left, layout.top, layout.left + 22, layout.top + 16)])
    for part in parts:
        room.add_curve(part.minutes, part.celsius)
    return room


def band(frame: Frame, window: Window) -> str:
    """Draw the method's window as a band of clay, its edges dotted; one edge alone leaves the other side open."""
    if window == (None, None):
        return ""
    left, right = frame.layout.left, frame.right
    top, bottom = band_rows(frame, window)
    dotted = "".join(f"M{left:g} {frame.y(edge):.1f}H{right:g}" for edge in window if edge is not None)
    clay = element("rect", class_="chart-band", x=left, y=top, width=right - left, height=max(bottom - top, 0))
    return clay + element("path", class_="chart-edge", d=dotted)


def empty_words(frame: Frame) -> str:
    """Say in an empty frame that no curve was kept."""
    middle = (frame.layout.left + frame.right) / 2
    return element("text", NO_CURVE, class_="chart-none", x=middle, y=frame.ground - 12, text_anchor="middle")


def _flagged(curves: FiringCurves) -> list[Event]:
    """Give the events in order of time, without `lit` at the first minute: the scale says that already."""
    told = [event for event in curves.events if event.minute or event.words.strip().casefold() != "lit"]
    return sorted(told, key=lambda event: event.minute)


def _event_list(curves: FiringCurves, last_minute: float, layouts: list[str]) -> str:
    """List the events by the numbers of their flags, for the drawings that need it."""
    if not layouts:
        return ""
    events = _flagged(curves)
    items = [element("li", escaped(" ".join(event_words(event, last_minute).split()))) for event in events]
    return element("ol", *items, class_=" ".join(["chart-events", *(f"chart-with-{key}" for key in layouts)]))


def curve_caption(told: Framed) -> str:
    """Say in plain sentences what the chart's marks mean: only those that are in it."""
    curves, window = told.curves, told.window
    if not curves.curves:
        return "Nobody wrote down a temperature at this fire."
    parts = [part for part in told.parts if part is not None]
    ware = curves.ware_curve
    sentences = ["One probe."] if len(curves.curves) == 1 else []
    if ware is not None and len(curves.curves) > 1:
        sentences.append(f"{_count_words(len(curves.curves))} probes; “{ware.probe.name}” stands for the ware.")
    if any(part.curve is ware and bool((part.high > part.low).any()) for part in parts):
        sentences.append("The grey around the line is where it may lie, 95 times in 100.")
    longest = _longest_gap_min(parts)
    if longest:
        sentences.append(f"Dotted: no reading for {longest:.0f} minutes{' at most' if _many_gaps(parts) else ''}.")
    if any(repair.kind == "spike" for repair in curves.repairs):
        sentences.append("A cross: a reading left out as a spike.")
    if any(repair.kind in DOUBTED for repair in curves.repairs):
        sentences.append("A small square: a reading that was kept and is doubted, told below.")
    if ware is not None and _reaches(ware, window):
        sentences.append(f"Thick: inside the {window_words(window).replace(',', '')}.")
    return " ".join(
        [*sentences, f"The frame is one of a few that all curves share: {_span(told.minutes)} by {told.top_c} °C."]
    )


def _reaches(curve: Curve, window: Window) -> bool:
    """Tell whether an unbroken curve runs inside the window somewhere."""
    low, high = window
    named = low is not None or high is not None
    above, below = float(curve.celsius.max()), float(curve.celsius.min())
    return named and curve.minutes.size > 1 and (low is None or above > low) and (high is None or below < high)


def _longest_gap_min(parts: list[Shown]) -> float:
    steps = [float(part.minutes[at + 1] - part.minutes[at]) for part in parts for at in part.gaps_after]
    return max(steps, default=0.0)


def _many_gaps(parts: list[Shown]) -> bool:
    return sum(len(part.gaps_after) for part in parts) > 1


def _count_words(count: int) -> str:
    words = ("No", "One", "Two", "Three", "Four", "Five", "Six", "Seven", "Eight", "Nine")
    return words[count] if count < len(words) else str(count)


def _span(minutes: int) -> str:
    return f"{minutes} minutes" if minutes < 120 else f"{minutes // 60} hours"
