"""A potter's own calibration: what a thermometer showed at known temperatures, as a straight line of corrections."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from builder.checks.firing import CalibrationPoint
from builder.readings.curve import CommonError, Floats

POINT_HALF_STEP_C = 1.0
"""How well one point of a calibration is known where no range is written, °C either way: common practice, no source.
Water boils 1 °C lower for every 300 m of height, and a stirred bath is even to about so much."""

CHANCE = 2.0
"""Points that scatter by up to so many times their own uncertainty do so by chance, 95 times in 100 and more (for one
degree of freedom the limit is 1.96, for more it is smaller); beyond it the scatter itself is taken."""

STUDENT_95 = (12.706, 4.303, 3.182, 2.776, 2.571, 2.447, 2.365, 2.306, 2.262, 2.228)
"""Student's t for 95 % and 1 to 10 degrees of freedom (JCGM 100:2008, table G.2)."""
NORMAL_95 = 1.960


@dataclass(frozen=True, slots=True)
class Line:
    """A straight line of corrections b(t) = b̄ + slope (t − t̄), about the middle t̄ of its points.

    There the height and the slope are not correlated, so that two independent errors say what the usual, correlated
    pair of intercept and slope says.
    """

    middle_c: float
    """t̄, the mean of what the thermometer showed at the points, °C."""
    height_c: float
    """b̄, the correction there, °C."""
    slope: float
    """Degrees of correction a degree shown; 0 for a single point."""
    scatter_c: float
    """Standard deviation of one point about the line, s, °C."""
    freedom: int
    """Degrees of freedom of `scatter_c`; 0 where it comes from the points' own uncertainty."""
    height_sd_c: float
    """u(b̄) = s/√n, °C."""
    slope_sd: float
    """u(slope) = s/√Σ(t − t̄)²; 0 for a single point."""
    low_c: float
    high_c: float
    """Lowest and highest temperature shown at a point, °C."""

    def correction_c(self, shown_c: Floats | float) -> Floats:
        """Give what is to be added to a reading, °C."""
        return np.asarray(self.height_c + self.slope * (np.asarray(shown_c) - self.middle_c))

    def correction_sd_c(self, shown_c: Floats | float) -> Floats:
        """Give the standard uncertainty of the correction, °C: u² = u(b̄)² + (t − t̄)² u(slope)²."""
        return np.hypot(self.height_sd_c, self.slope_sd * (np.asarray(shown_c) - self.middle_c))

    def intercept(self, at_c: float) -> tuple[float, float, float]:
        """Give the correction at `at_c`, its standard uncertainty, and its correlation with the slope."""
        sd_c = float(self.correction_sd_c(at_c))
        correlation = (at_c - self.middle_c) * self.slope_sd / sd_c if sd_c else 0.0
        return float(self.correction_c(at_c)), sd_c, correlation

    def errors(self, shown_c: Floats) -> tuple[CommonError, ...]:
        """Give the errors that the correction leaves in readings, shape (n,), °C: of its height and of its slope.

        Where few points scatter more than they should, the uncertainty is widened to Student's (JCGM 100:2008, G.3).
        """
        few = STUDENT_95[min(self.freedom, len(STUDENT_95)) - 1] / NORMAL_95 if self.freedom else 1.0
        height = np.full_like(shown_c, few * self.height_sd_c)
        slope = np.nan_to_num(few * self.slope_sd * (shown_c - self.middle_c))
        made = (
            CommonError("height of the calibration", "normal", height, height),
            CommonError("slope of the calibration", "normal", slope, slope),
        )
        return made if self.slope_sd else made[:1]


def fitted(points: Sequence[CalibrationPoint]) -> Line:
    """Fit the corrections known − shown at some points, n ≥ 1, by a straight line; one point gives an offset.

    Least squares with equal weights; s is the points' own uncertainty, a rectangle of what was written (u = a/√3),
    or where they scatter more than by chance, s² = Σ(b − b(t))²/(n − 2). Holds between the points.
    Source: JCGM 100:2008, H.3.

    >>> from builder.base.quantity import parse_quantity
    >>> degrees = lambda words: parse_quantity(words, "temperature")
    >>> ice, steam = (degrees("1 °C"), degrees("0 °C")), (degrees("101 °C"), degrees("98 °C"))
    >>> line = fitted([CalibrationPoint(*ice), CalibrationPoint(*steam)])
    >>> round(float(line.correction_c(51.0)), 3), round(line.slope, 3)
    (-2.0, -0.02)
    """
    shown = np.array([point.shown.canonical for point in points])
    corrections = np.array([point.known.canonical for point in points]) - shown
    own_sd_c = max(_point_sd_c(point) for point in points)
    return fitted_line(shown, corrections, own_sd_c)


def fitted_line(shown_c: Floats, correction_c: Floats, own_sd_c: float = 0.0) -> Line:
    """Fit corrections, shape (n,), at what was shown, shape (n,), °C; `own_sd_c` as each point's own uncertainty."""
    count, middle, height = shown_c.size, float(shown_c.mean()), float(correction_c.mean())
    away = shown_c - middle
    square = float(away @ away)
    slope = float(away @ correction_c) / square if square else 0.0
    left = correction_c - height - slope * away
    scatter = float(np.sqrt(left @ left / (count - 2))) if count > 2 else 0.0
    used, freedom = (scatter, count - 2) if scatter > CHANCE * own_sd_c else (own_sd_c, 0)
    return Line(
        middle_c=middle,
        height_c=height,
        slope=slope,
        scatter_c=used,
        freedom=freedom,
        height_sd_c=used / float(np.sqrt(count)),
        slope_sd=used / float(np.sqrt(square)) if square else 0.0,
        low_c=float(shown_c.min()),
        high_c=float(shown_c.max()),
    )


def _point_sd_c(point: CalibrationPoint) -> float:
    """Give the standard uncertainty of one point, °C."""
    halves = [(one.high - one.low) / 2.0 for one in (point.shown, point.known)]
    return (math.hypot(*halves) or POINT_HALF_STEP_C) / math.sqrt(3.0)
