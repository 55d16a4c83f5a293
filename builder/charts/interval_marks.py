"""Small marks beside words: a stroke for a rate, or for a difference of two, and a bar for its interval.

A rate's scale runs from 0 to 100 %, a difference's from 100 fewer to 100 more of a hundred, both uncut, so that marks
can be compared by eye wherever they stand. They are hidden from screen readers: the same stands beside them in words.
"""

from __future__ import annotations

from builder.charts.svg import element

_DIFFERENCE = (200.0, 18.0)
_RATE = (130.0, 16.0)
"""Width and height, in pixels."""
_BAR = 8.0
"""Height of the bar of an interval, in pixels."""


def difference_mark(difference: float, low: float, high: float) -> str:
    """Draw a difference of two rates, from −1 to 1, with its interval; a fine upright line is no difference at all."""
    width, height = _DIFFERENCE
    none = element("path", class_="chart-tick", d=f"M{width / 2:g} 0V{height:g}")
    places = [width / 2 * (1 + min(max(value, -1.0), 1.0)) for value in (difference, low, high)]
    return _mark("difference", _DIFFERENCE, none, places)


def rate_mark(rate: float, low: float, high: float) -> str:
    """Draw a rate, from 0 to 1, with its interval; fine upright lines are 0 and 100 %."""
    width, height = _RATE
    ends = element("path", class_="chart-tick", d=f"M0.5 0V{height:g}M{width - 0.5:g} 0V{height:g}")
    return _mark("rate-mark", _RATE, ends, [width * min(max(value, 0.0), 1.0) for value in (rate, low, high)])


def _mark(class_: str, size: tuple[float, float], scale: str, places: list[float]) -> str:
    (width, height), (stroke, left, right) = size, places
    middle = height / 2
    return element(
        "svg",
        element("path", class_="chart-rule", d=f"M0 {middle:g}H{width:g}"),
        scale,
        element(
            "rect",
            class_="chart-interval",
            x=left,
            y=middle - _BAR / 2,
            width=max(right - left, 1),
            height=_BAR,
            rx=_BAR / 2,
        ),
        element("path", class_="chart-stroke", d=f"M{stroke:.1f} {middle - 7:g}v14"),
        class_=class_,
        viewBox=f"0 0 {width:g} {height:g}",
        width=width,
        height=height,
        aria_hidden="true",
        focusable="false",
    )
