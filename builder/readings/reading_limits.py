"""The 95 % interval of each single reading, reckoned without drawing: ten thousands of them in a moment.

The chart's ribbon and the table of readings both show it.
"""

from __future__ import annotations

from functools import cache
from math import erf, exp, pi, sqrt

import numpy as np

from builder.readings.curve import Curve, Floats

_COVERAGE = 0.95
_NODES = 65


def reading_limits_c(curve: Curve) -> tuple[Floats, Floats]:
    """Return the lower and the upper 95 % limit of each reading, °C, shape (n,) each.

    Each side on its own: the widest rectangular error stays a rectangle, all else is added up to one normal error
    (JCGM 100:2008, 5.1.2), and the half-width is that of the two together (`coverage_factor`).
    """
    down = _half_width_c(curve, "down_c")
    up = down if all(error.even for error in curve.common) else _half_width_c(curve, "up_c")
    return curve.celsius - down, curve.celsius + up


def coverage_factor(share: float) -> float:
    """Return by what a combined standard uncertainty is multiplied for 95 %, for a rectangle and a normal together.

    `share` is the rectangle's part of the combined standard uncertainty: 0 gives 1.960, the factor of a normal
    distribution, 1 gives 0.95 √3 = 1.645, that of a rectangle (JCGM 100:2008, annex G). In between the h is sought
    for which P(|X| ≤ h) = 0.95, with P(X ≤ h) = σ/2a [G((h + a)/σ) − G((h − a)/σ)] and G(z) = zΦ(z) + φ(z).

    >>> round(coverage_factor(0.0), 3), round(coverage_factor(1.0), 3)
    (1.96, 1.645)
    """
    half, sd = sqrt(3.0) * share, sqrt(max(0.0, 1.0 - share * share))
    if sd < 1e-6:
        return _COVERAGE * half
    low, high = 1.0, 2.5
    for _ in range(50):
        middle = (low + high) / 2.0
        if _within(middle, half, sd) < _COVERAGE:
            low = middle
        else:
            high = middle
    return low


def _within(limit: float, half: float, sd: float) -> float:
    """Return the chance that a rectangle of ± `half` and a normal of `sd` together stay within ± `limit`."""
    if half < 1e-6:
        return erf(limit / sd / sqrt(2.0))
    return sd / half * (_g((limit + half) / sd) - _g((limit - half) / sd)) - 1.0


def _g(z: float) -> float:
    return z * 0.5 * (1.0 + erf(z / sqrt(2.0))) + exp(-0.5 * z * z) / sqrt(2.0 * pi)


@cache
def _factors() -> tuple[Floats, Floats]:
    """Return shares and their factors, close enough for straight lines between them."""
    shares = np.sin(np.linspace(0.0, pi / 2.0, _NODES))
    return shares, np.array([coverage_factor(float(share)) for share in shares])


def _half_width_c(curve: Curve, side: str) -> Floats:
    variance = np.square(curve.own_sd_c)
    widest = np.zeros_like(variance)
    for error in curve.common:
        width: Floats = getattr(error, side)
        if error.shape == "rectangular":
            variance = variance + np.square(np.minimum(width, widest)) / 3.0
            widest = np.maximum(width, widest)
        else:
            variance = variance + np.square(width)
    combined = np.sqrt(variance + np.square(widest) / 3.0)
    share = np.divide(widest / sqrt(3.0), combined, out=np.zeros_like(combined), where=combined > 0)
    return np.asarray(np.interp(share, *_factors()) * combined)
