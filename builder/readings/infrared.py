"""Spot thermometers: what a glance at 8 to 14 µm really said, by Planck's law and not by T⁴.

A spot thermometer turns the radiation it catches between 8 and 14 µm into a temperature by assuming an emissivity.
Where that was not the ware's, or hot surroundings were mirrored in the ware, the reading is put right here. At red
heat the band lies far above the peak of the radiation, so the signal grows almost in step with the temperature and an
error of emissivity weighs about twice what the T⁴ law says.
"""

from __future__ import annotations

from functools import cache

import numpy as np

from builder.base.constants import FIRST_RADIATION_CONSTANT, ICE_POINT_K, SECOND_RADIATION_CONSTANT
from builder.readings.curve import Floats

BAND_M = (8e-6, 14e-6)
"""The band of the usual hand-held spot thermometer, m; its response is taken as flat."""

_COLDEST_C, _HOTTEST_C = -100.0, 3000.0
"""Where an answer is looked for; outside, a reading of a fire has no solution worth the name."""
_NEWTON_STEPS = 2
"""From a start within 0.02 °C each step squares the error, so two leave nothing above rounding."""

_POINTS, _WEIGHTS = np.polynomial.legendre.leggauss(16)
_WAVELENGTHS_M = 0.5 * (BAND_M[1] - BAND_M[0]) * _POINTS + 0.5 * (BAND_M[1] + BAND_M[0])
_WEIGHTS_M = 0.5 * (BAND_M[1] - BAND_M[0]) * _WEIGHTS


def planck(wavelength_m: Floats | float, kelvin: Floats | float) -> Floats:
    """Give the spectral radiance of a black body at `wavelength_m` [m] and `kelvin` [K], W m⁻² sr⁻¹ per m.

    c₁L λ⁻⁵ / (exp(c₂/λT) − 1). Source: Planck's law with the SI constants of 2019.

    >>> f"{float(planck(10e-6, 1000.0)):.6e}"
    '3.704026e+08'
    """
    wavelength = np.asarray(wavelength_m, dtype=np.float64)
    return np.asarray(
        FIRST_RADIATION_CONSTANT.value
        / wavelength**5
        / np.expm1(SECOND_RADIATION_CONSTANT.value / (wavelength * kelvin))
    )


def band_radiance(t_c: Floats | float) -> Floats:
    """Give what a black body at `t_c` [°C] sends out between 8 and 14 µm, W m⁻² sr⁻¹.

    S(T) = ∫ L(λ, T) dλ, by Gauss and Legendre's rule on 16 points: good to 10⁻⁹ of its value from −100 °C up.

    >>> round(float(band_radiance(600.0)), 4)
    1472.1245
    """
    kelvin = np.asarray(t_c, dtype=np.float64)[..., np.newaxis] + ICE_POINT_K.value
    return np.asarray(planck(_WAVELENGTHS_M, kelvin) @ _WEIGHTS_M)


def band_slope(t_c: Floats | float) -> Floats:
    """Give how fast the band's radiance grows with temperature at `t_c` [°C], W m⁻² sr⁻¹ per °C."""
    kelvin = np.asarray(t_c, dtype=np.float64)[..., np.newaxis] + ICE_POINT_K.value
    x = SECOND_RADIATION_CONSTANT.value / (_WAVELENGTHS_M * kelvin)
    return np.asarray((planck(_WAVELENGTHS_M, kelvin) * x / -np.expm1(-x) / kelvin) @ _WEIGHTS_M)


def true_temperature_c(
    read_c: Floats | float,
    emissivity_set: float,
    emissivity: float,
    background_c: float,
    background_assumed_c: float,
) -> Floats:
    """Give the ware's temperature [°C] where a spot thermometer showed `read_c` [°C].

    Solves ε_set S(T_read) + (1 − ε_set) S(T_assumed) = ε S(T) + (1 − ε) S(T_background) for T, S the radiance of
    the band 8 to 14 µm, ε bare numbers above 0 and up to 1. Holds for a flat response, a ware that fills the spot,
    and no flame or smoke between. NaN where there is no solution: the mirrored surroundings alone outshine what was
    read.
    Source: the balance of ASTM E2758 and VDI/VDE 3511.

    >>> round(float(true_temperature_c(600.0, 0.95, 0.85, 20.0, 20.0)), 2)
    647.8
    """
    seen = emissivity_set * band_radiance(read_c) + (1.0 - emissivity_set) * band_radiance(background_assumed_c)
    own = (seen - (1.0 - emissivity) * band_radiance(background_c)) / emissivity
    return _temperature_of(own)


def _temperature_of(radiance: Floats) -> Floats:
    """Find the black body [°C] that sends out `radiance` in the band; NaN where there is none."""
    grid_c, grid = _grid()
    celsius = np.interp(radiance, grid, grid_c)
    for _ in range(_NEWTON_STEPS):
        celsius = np.clip(celsius - (band_radiance(celsius) - radiance) / band_slope(celsius), _COLDEST_C, _HOTTEST_C)
    return np.where((radiance >= grid[0]) & (radiance <= grid[-1]), celsius, np.nan)


@cache
def _grid() -> tuple[Floats, Floats]:
    """Tabulate the band's radiance every 5 °C, to start the inversion from."""
    celsius = np.linspace(_COLDEST_C, _HOTTEST_C, 621)
    return celsius, band_radiance(celsius)
