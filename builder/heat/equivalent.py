"""The equivalent one-hour temperature: one number for how much work a whole curve did."""

from __future__ import annotations

import numpy as np

from builder.base.constants import GAS_CONSTANT, ICE_POINT_K
from builder.readings.curve import Floats

ENERGY_KJ_MOL = 222.0
"""Activation energy for the loss of kaolinite's water (Redfern 1987, Clay Minerals 22:447)."""
ENERGY_LOW_KJ_MOL = 150.0
"""Low end of the range: the burning of organic matter in clay (De la Torre 1997, British Ceramic Transactions 96:160,
gives 128 to 153)."""
ENERGY_HIGH_KJ_MOL = 300.0
"""High end of the range, above the 202 to 257 published for kaolinite (Ptáček and others 2010)."""
HOLD_MIN = 60.0
"""The hold that the literature's equivalent firing temperature stands for (Tite 1995)."""

_FLAT_K = 1e-3
"""Below this step a stretch counts as level: the difference of two nearly equal integrals would lose its digits,
and the error of taking the middle temperature is below 1e-9 of the work."""


def equivalent_1h_c(minutes: Floats, celsius: Floats, energy_kj_mol: Floats | float = ENERGY_KJ_MOL) -> Floats:
    """Return the temperature that, held for one hour, does the same first-order work, °C.

    exp(−E/RTₑ) · 60 = ∫ exp(−E/RT) dt, with E in kJ/mol, shape () or (...), one for each curve. NaN for a single
    reading. The convention is that of the equivalent firing temperature (Tite 1995). It says how curves of different
    length and height compare, not what happened in the clay: show it with its range over E.

    >>> hour = equivalent_1h_c(np.array([0.0, 10.0, 70.0, 80.0]), np.array([20.0, 600.0, 600.0, 20.0]))
    >>> round(float(hour), 2)
    600.44
    """
    if minutes.size < 2:
        return np.full(celsius.shape[:-1], np.nan)
    # One row a reading, as the curves of `main_fire` lie in memory.
    kelvin = np.add(np.atleast_2d(celsius).T, ICE_POINT_K.value, order="C")
    a = np.full(kelvin.shape[1], 1000.0 * np.asarray(energy_kj_mol) / GAS_CONSTANT.value)
    equivalent_k = a / (np.log(HOLD_MIN) - _log_work(minutes, kelvin, a))
    return np.asarray(equivalent_k - ICE_POINT_K.value).reshape(celsius.shape[:-1])


def _log_work(minutes: Floats, kelvin: Floats, a: Floats) -> Floats:
    """Return log ∫ exp(−a/T) dt over whole curves, kelvin of shape (n, curves), with a = E/R in kelvin."""
    reference = a / kelvin.max(axis=0)
    until = _integral_from_zero(kelvin, a, reference)
    step = kelvin[1:] - kelvin[:-1]
    # Indices into all of them in one row are found many times sooner than such of rows and columns.
    flat = np.flatnonzero(np.abs(step) <= _FLAT_K)
    step.reshape(-1)[flat] = 1.0
    mean = until[1:] - until[:-1]
    mean /= step
    if flat.size:
        own, middle = flat % a.size, 0.5 * (kelvin[:-1].take(flat) + kelvin[1:].take(flat))
        mean.reshape(-1)[flat] = np.exp(reference[own] - a[own] / middle)
    return np.asarray(np.log(mean.T @ (minutes[1:] - minutes[:-1])) - reference)


def _integral_from_zero(kelvin: Floats, a: Floats, reference: Floats) -> Floats:
    """Return exp(reference) ∫₀ᵀ exp(−a/T') dT', kelvin; the reference keeps the numbers near 1.

    The rational approximation of fourth degree of Senum and Yang 1977, Journal of Thermal Analysis 11:445, with 86
    for its misprinted 88: within 4e-7 of the exact integral for a/T above 12, so for E = 150 kJ/mol below 1,200 °C.
    """
    x = a / kelvin
    rational = _polynomial(x, 18.0, 86.0, 96.0)
    rational /= _polynomial(x, 20.0, 120.0, 240.0, 120.0)
    work = np.subtract(reference, x, out=x)
    np.exp(work, out=work)
    work *= kelvin
    work *= rational
    return work


def _polynomial(x: Floats, *coefficients: float) -> Floats:
    """Return xⁿ + c₁xⁿ⁻¹ + … + cₙ by Horner's rule, in one piece of memory: these are large."""
    first, *others = coefficients
    value = x + first
    for coefficient in others:
        value *= x
        value += coefficient
    return value
