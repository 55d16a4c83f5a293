"""How far the middle of a wall lags behind its faces while the fire rises."""

from __future__ import annotations

import numpy as np

from builder.readings.curve import Floats

_SECONDS = 60.0
"""Seconds in a minute."""


def wall_lag_c(rise_c_per_min: Floats | float, wall_mm: Floats | float, diffusivity_mm2_s: Floats | float) -> Floats:
    """Return how far the middle of the wall lags its faces, °C: β L² / 2α.

    β the rise of both faces (°C/min), L half the thickness `wall_mm` (mm), α the thermal diffusivity (mm²/s). Holds
    for a flat wall heated alike from both sides once the rise has lasted about L²/α (`settling_min`); before that
    the lag is smaller. Source: Carslaw and Jaeger 1959, Conduction of Heat in Solids, chapter III.

    >>> float(wall_lag_c(20.0, 12.0, 0.5))
    12.0
    """
    half = np.asarray(wall_mm) / 2.0
    return np.asarray(np.asarray(rise_c_per_min) * half**2 / (2.0 * np.asarray(diffusivity_mm2_s) * _SECONDS))


def settling_min(wall_mm: float, diffusivity_mm2_s: float) -> float:
    """Return L²/α, minutes: how long a rise must last before nine tenths of the lag are there.

    L half the thickness `wall_mm` (mm), α in mm²/s. Source: as `wall_lag_c`.

    >>> settling_min(12.0, 0.5)
    1.2
    """
    return (wall_mm / 2.0) ** 2 / diffusivity_mm2_s / _SECONDS
