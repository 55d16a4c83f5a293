"""Thermocouples: millivolts from a temperature and back, by the ITS-90 reference functions."""

from __future__ import annotations

from collections.abc import Callable
from functools import cache

import numpy as np

from builder.readings.curve import Floats
from builder.readings.thermocouple_types import REFERENCE_FUNCTIONS, Piece

INVERTIBLE_FROM_C = {"B": 250.0}
"""Type B falls to −0.003 mV at 21 °C and rises again, so below 0.291 mV its millivolts stand for no one temperature;
NIST's own inverse begins here (Monograph 175)."""

_NEWTON_STEPS = 3
"""From a start within 0.01 °C each step squares the error, so three leave nothing above rounding."""


def range_c(type: str) -> tuple[float, float]:
    """Give the temperatures [°C] between which a type's millivolts can be turned into a temperature."""
    pieces = REFERENCE_FUNCTIONS[type]
    return INVERTIBLE_FROM_C.get(type, pieces[0].low_c), pieces[-1].high_c


def emf_mv(t_c: Floats | float, type: str) -> Floats:
    """Give the voltage [mV] of a thermocouple at `t_c` [°C] whose other junction is at 0 °C.

    E(t) = Σ cᵢ tⁱ, for type K above 0 °C plus a₀ exp(a₁ (t − a₂)²). NaN outside the type's range.
    Source: NIST Monograph 175 (1993).

    >>> round(float(emf_mv(800.0, "K")), 6)
    33.27538
    """
    return _over_pieces(t_c, type, _piece_mv)


def seebeck_mv_per_c(t_c: Floats | float, type: str) -> Floats:
    """Give how many millivolts one degree is worth at `t_c` [°C]: dE/dt, mV/°C.

    >>> round(1000 * float(seebeck_mv_per_c(800.0, "K")), 4)
    41.0002
    """
    return _over_pieces(t_c, type, _piece_slope)


def temperature_c(measured_mv: Floats | float, type: str, cold_junction_c: float = 0.0) -> Floats:
    """Give the temperature [°C] that `measured_mv` [mV] stand for, the meter's terminals at `cold_junction_c` [°C].

    t = E⁻¹(E_measured + E(t_junction)): the junction's voltage is added first, because a degree is worth
    different voltages at the two ends (adding the junction's degrees afterwards is 14 °C wrong for type S at
    784 °C). The inverse is exact to under 10⁻⁶ °C: Newton's method on the reference function, not NIST's inverse
    polynomials, which are good to 0.02 to 0.06 °C. NaN where no temperature of the type's range gives that voltage.
    Source: NIST Monograph 175 (1993).

    >>> round(float(temperature_c(7.0, "S", cold_junction_c=30.0)), 4)
    784.1212
    """
    low, high = range_c(type)
    grid_c, grid_mv = _grid(type)
    total = np.asarray(measured_mv, dtype=np.float64) + emf_mv(cold_junction_c, type)
    celsius = np.interp(total, grid_mv, grid_c)
    for _ in range(_NEWTON_STEPS):
        step = (emf_mv(celsius, type) - total) / seebeck_mv_per_c(celsius, type)
        celsius = np.clip(celsius - step, low, high)
    return np.where((total >= grid_mv[0]) & (total <= grid_mv[-1]), celsius, np.nan)


@cache
def _grid(type: str) -> tuple[Floats, Floats]:
    """Tabulate a type's rising range every degree, to start the inversion from."""
    low, high = range_c(type)
    celsius = np.linspace(low, high, round(high - low) + 1)
    return celsius, emf_mv(celsius, type)


def _over_pieces(t_c: Floats | float, type: str, of_piece: Callable[[Piece, Floats], Floats]) -> Floats:
    """Work out each temperature in the piece that it falls in, the colder where two meet; NaN outside them all."""
    celsius = np.asarray(t_c, dtype=np.float64)
    found = np.full_like(celsius, np.nan)
    for piece in reversed(REFERENCE_FUNCTIONS[type]):
        inside = (celsius >= piece.low_c) & (celsius <= piece.high_c)
        found[inside] = of_piece(piece, celsius[inside])
    return found


def _piece_mv(piece: Piece, t_c: Floats) -> Floats:
    """Work out the voltage within one piece, mV."""
    voltage = np.polynomial.polynomial.polyval(t_c, piece.coefficients)
    if piece.bump:
        a0, a1, a2 = piece.bump
        voltage = voltage + a0 * np.exp(a1 * (t_c - a2) ** 2)
    return np.asarray(voltage)


def _piece_slope(piece: Piece, t_c: Floats) -> Floats:
    """Work out the slope within one piece, mV/°C."""
    slope = np.polynomial.polynomial.polyval(t_c, np.polynomial.polynomial.polyder(piece.coefficients))
    if piece.bump:
        a0, a1, a2 = piece.bump
        slope = slope + 2.0 * a1 * (t_c - a2) * a0 * np.exp(a1 * (t_c - a2) ** 2)
    return np.asarray(slope)
