"""Curves made by hand for the tests of the charts."""

from __future__ import annotations

import re
import xml.etree.ElementTree as ElementTree
from collections.abc import Iterable, Sequence

import numpy as np

from builder.checks.firing import Probe
from builder.readings.curve import CommonError, Curve, Event, FiringCurves, Repair

SVG = "{http://www.w3.org/2000/svg}"


def curve_of(
    points: Iterable[tuple[float, float]],
    name: str = "wall",
    *,
    own_sd: float = 0.0,
    half_width: float | None = None,
    at_least: bool = False,
) -> Curve:
    """A curve through points of minute and °C; with a half-width, one rectangular error shared by all readings."""
    minutes, celsius = (np.array(values, dtype=float) for values in zip(*points, strict=True))
    count = minutes.size
    common: tuple[CommonError, ...] = ()
    if half_width is not None:
        width = np.full(count, half_width)
        common = (CommonError("tolerance", "rectangular", width, width),)
    blank = ("",) * count
    return Curve(Probe(name), minutes, celsius, blank, "°C", blank, common, np.full(count, own_sd), at_least=at_least)


TWELVE_MINUTES = ((0, 14), (2, 210), (4.5, 565), (6, 700), (9, 812), (10.5, 720), (12, 600))


def firing(*curves: Curve, events: Sequence[tuple[float, str]] = (), repairs: Sequence[Repair] = ()) -> FiringCurves:
    """A firing whose first curve stands for the ware."""
    return FiringCurves(
        tuple(curves), 0 if curves else None, tuple(Event(minute, words) for minute, words in events), tuple(repairs)
    )


def parsed(markup: str) -> ElementTree.Element:
    """Parse markup as XML; sprites and `use` need no namespace of their own inside HTML, so one is lent to all."""
    return ElementTree.fromstring(f'<div xmlns="http://www.w3.org/2000/svg">{markup}</div>')


def drawing_of(markup: str, width: str) -> ElementTree.Element:
    """One of the three drawings of a chart."""
    found = [svg for svg in parsed(markup).iter(f"{SVG}svg") if f"chart-{width}" in (svg.get("class") or "").split()]
    assert len(found) == 1
    return found[0]


def path_of(drawing: ElementTree.Element, class_: str) -> str | None:
    """The `d` of a drawing's path of a class; None where it has none."""
    paths = [path for path in drawing.iter(f"{SVG}path") if class_ in (path.get("class") or "").split()]
    return paths[0].get("d") if paths else None


def points_of(data: str) -> list[list[tuple[float, float]]]:
    """Read a path of moves and relative lines back to its polylines, in pixels."""

    lines: list[list[tuple[float, float]]] = []
    for command, numbers in re.findall(r"([Ml])([^Mlz]*)", data):
        values = [float(value) for value in re.findall(r"-?\d+(?:\.\d+)?", numbers)]
        for x, y in zip(values[::2], values[1::2], strict=True):
            if command == "M":
                lines.append([(x, y)])
            else:
                before = lines[-1][-1]
                lines[-1].append((before[0] + x, before[1] + y))
    return lines


def texts_of(element: ElementTree.Element) -> list[str]:
    """All lettering of a drawing."""
    return ["".join(text.itertext()) for text in element.iter(f"{SVG}text")]
