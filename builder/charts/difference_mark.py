"""A small mark for a difference of two rates: a stroke for it, a bar for its interval, a fine line for none at all.

The scale runs from 100 fewer to 100 more of a hundred, uncut, so that marks can be compared by eye wherever they
stand. The mark is hidden from screen readers: the same stands beside it in words.
"""

from __future__ import annotations

from builder.charts.svg import element

_WIDTH, _HEIGHT, _BAR = 200.0, 18.0, 8.0


def difference_mark(difference: float, low: float, high: float) -> str:
    """Draw a difference of two rates, from −1 to 1, with its interval, as an inline SVG."""
    middle = _HEIGHT / 2
    left, right = _column(low), _column(high)
    return element(
        "svg",
        element("path", class_="chart-rule", d=f"M0 {middle:g}H{_WIDTH:g}"),
        element("path", class_="chart-tick", d=f"M{_column(0):g} 0V{_HEIGHT:g}"),
        element(
            "rect",
            class_="chart-interval",
            x=left,
            y=middle - _BAR / 2,
            width=max(right - left, 1),
            height=_BAR,
            rx=_BAR / 2,
        ),
        element("path", class_="chart-stroke", d=f"M{_column(difference):.1f} {middle - 7:g}v14"),
        class_="difference",
        viewBox=f"0 0 {_WIDTH:g} {_HEIGHT:g}",
        width=_WIDTH,
        height=_HEIGHT,
        aria_hidden="true",
        focusable="false",
    )


def _column(difference: float) -> float:
    """Pixel column of a difference, held inside the scale."""
    return _WIDTH / 2 * (1 + min(max(difference, -1.0), 1.0))
