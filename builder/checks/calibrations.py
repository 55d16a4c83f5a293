"""A potter's own calibration of a probe: whether its points make a line that can be believed."""

from __future__ import annotations

from builder.checks.fault import Fault
from builder.checks.found import Group
from builder.checks.review import Review

LEAST_SPAN_C = 20.0
"""Points closer together tell nothing of a slope, °C: common practice, no source."""
MOST_OFF_C, MOST_SLOPE = 60.0, 0.1
"""A thermometer further off, or by more degrees a degree, is broken or misread: common practice, no source."""


def check_calibration(probe: Group, review: Review) -> None:
    """Check the points of one probe's calibration together."""
    told = [(point, point.quantity("shown"), point.quantity("known")) for point in probe.items("calibrated")]
    points = [(shown.canonical, known.canonical) for _, shown, known in told if shown and known]
    if not points or len(points) < len(told):
        return
    fault = _line_fault(points) or _off_fault(points)
    if fault is not None:
        review.report(fault, probe.at("calibrated"), probe.path_of("calibrated"))


def _line_fault(points: list[tuple[float, float]]) -> Fault | None:
    """Say that several points make no line; None where they make one."""
    if len(points) == 1:
        return None
    shown, known = ([point[axis] for point in points] for axis in (0, 1))
    span = max(shown) - min(shown)
    if span < LEAST_SPAN_C:
        message = f"The points of the calibration lie within {span:.3g} °C, too close together for a line."
        return Fault("calibration-points", message, "Add one far off, such as melting ice, or keep one as an offset.")
    if (known[shown.index(max(shown))] - known[shown.index(min(shown))]) / span < 0.5:
        message = "By this calibration the thermometer would hardly rise, or fall, while it grew hotter."
        return Fault("calibration-points", message, "See that `shown` and `known` stand at the right points.")
    return None


def _off_fault(points: list[tuple[float, float]]) -> Fault | None:
    """Ask again where a correction is larger than a sound thermometer needs."""
    off, shown = max((abs(known - shown), shown) for shown, known in points)
    if off <= max(MOST_OFF_C, MOST_SLOPE * abs(shown)):
        return None
    message = f"At {shown:.0f} °C the thermometer would have been {off:.0f} °C off; so much is unusual."
    return Fault("unlikely", message, "Look at both temperatures and their units. If they are right, leave them.")
