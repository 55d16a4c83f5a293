"""The text alternative of a firing's chart."""

from __future__ import annotations

import numpy as np
from markupsafe import Markup

from builder.pages.degree_words import degree_words
from builder.pages.marked_numbers import window
from builder.pages.numbers import minutes, plain, with_unit
from builder.readings.curve import Curve, FiringCurves
from builder.settings import Method


def chart_words(curves: FiringCurves, method: Method) -> Markup:
    """Tell the chart to somebody who cannot see it: each curve's course, the window, the events."""
    told = [degree_words(_course(curve)) for curve in curves.curves]
    aimed = window(method.window_low_c, method.window_high_c)
    if aimed:
        told.append(Markup("The method aims at {}.").format(aimed))
    if curves.events:
        noted = "; ".join(f"{event.words} at {minutes(event.minute, 1)}" for event in curves.events)
        told.append(Markup("Noted: {}.").format(noted))
    return Markup(" ").join(told)


def _course(curve: Curve) -> str:
    peak = int(np.argmax(curve.celsius))
    degrees = [with_unit(plain(float(curve.celsius[place])), "°C") for place in (0, peak, -1)]
    times = [minutes(float(curve.minutes[place]), 1) for place in (0, peak, -1)]
    if len(curve.minutes) == 1:
        return f"Probe {curve.probe.name}: one reading, {degrees[0]} at {times[0]}."
    least = "at least " if curve.at_least else ""
    return (
        f"Probe {curve.probe.name}: {degrees[0]} at {times[0]}, hottest {least}{degrees[1]} at {times[1]}, "
        f"last reading {degrees[2]} at {times[2]}."
    )
