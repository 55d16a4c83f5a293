"""A firing's chart for a page, with its caption and its text alternative."""

from __future__ import annotations

import numpy as np
from markupsafe import Markup, escape

from builder.charts.curve_chart import curve_caption, curve_chart, framed
from builder.pages.marked_numbers import temperature, window
from builder.pages.numbers import minutes
from builder.readings.curve import Curve, FiringCurves
from builder.settings import Method


def chart_with_caption(curves: FiringCurves, method: Method, name: str) -> tuple[Markup, str]:
    """Draw a firing's chart, none where nobody read a temperature, and say what its marks mean.

    `name` makes its ids unique on the page.
    """
    told = framed(curves, (method.window_low_c, method.window_high_c))
    chart = curve_chart(told, name, chart_words(curves, method)) if curves.curves else ""
    return Markup(chart), curve_caption(told)  # noqa: S704


def chart_words(curves: FiringCurves, method: Method) -> Markup:
    """Tell the chart to somebody who cannot see it: each curve's course, the window, the events."""
    told = [_course(curve) for curve in curves.curves]
    aimed = window(method.window_low_c, method.window_high_c)
    if aimed:
        told.append(Markup("The method aims at {}.").format(aimed))
    if curves.events:
        noted = "; ".join(f"{event.words} at {minutes(event.minute, 1)}" for event in curves.events)
        told.append(Markup("Noted: {}.").format(noted))
    return Markup(" ").join(told)


def _course(curve: Curve) -> Markup:
    peak = int(np.argmax(curve.celsius))
    degrees = [temperature(round(float(curve.celsius[place]))) for place in (0, peak, -1)]
    times = [minutes(float(curve.minutes[place]), 1) for place in (0, peak, -1)]
    course = f"{degrees[0]} at {times[0]}"
    if len(curve.minutes) == 1:
        course = f"one reading, {course}"
    else:
        least = "at least " if curve.at_least else ""
        course += f", hottest {least}{degrees[1]} at {times[1]}, last reading {degrees[2]} at {times[2]}"
    return Markup(f"Probe {escape(curve.probe.name)}: {course}.")  # noqa: S704 - all else is our own
