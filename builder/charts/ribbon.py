"""The grey ribbon around a curve: where each reading lies, 95 times in 100, by all that is known of its errors."""

from __future__ import annotations

import numpy as np

from builder.readings.curve import Curve, Floats

_NORMAL_95 = 1.959964
"""97.5 % point of the standard normal distribution."""
_RECTANGULAR_95 = 0.95
"""Share of a rectangular distribution's half-width that holds 95 % of it."""


def ribbon_c(curve: Curve) -> tuple[Floats, Floats]:
    """Give the 95 % limits of each reading, °C, two arrays of shape (n,).

    Downwards and upwards apart, U = min(1.96 √(s² + Σ u_j²), 1.96 s + Σ q_j), where s is the reading's own standard
    uncertainty, u_j = a_j/√3 and q_j = 0.95 a_j for a rectangular error of half-width a_j, u_j and q_j = 1.96 u_j for
    a normal one. The first is the law of propagation (JCGM 100:2008, 5.1.2 and G.6.6); the second, which no 95 %
    limit exceeds, mends it where one rectangular error outweighs all others. Good for a drawing; the intervals of
    figures come from draws.
    """
    own = _NORMAL_95 * curve.own_sd_c
    down, up = own**2, own**2
    most_down, most_up = own.copy(), own.copy()
    for error in curve.common:
        rectangular = error.shape == "rectangular"
        spread, most = (_NORMAL_95 / np.sqrt(3.0), _RECTANGULAR_95) if rectangular else (_NORMAL_95, _NORMAL_95)
        down, up = down + (spread * error.down_c) ** 2, up + (spread * error.up_c) ** 2
        most_down, most_up = most_down + most * np.abs(error.down_c), most_up + most * np.abs(error.up_c)
    low = curve.celsius - np.minimum(np.sqrt(down), most_down)
    return low, curve.celsius + np.minimum(np.sqrt(up), most_up)
