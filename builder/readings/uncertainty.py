"""What a probe's readings allow: curves drawn from their errors, and the interval that the draws span.

Errors that all readings of a probe share (calibration, emissivity) get one draw a curve, so they never average
out; errors of each reading on its own (resolution, aim) get one draw a reading. This is the propagation of
distributions of JCGM 101:2008, with a seed that depends on the entry alone, so that the same entry always gives the
same intervals.
"""

from __future__ import annotations

import functools
import hashlib
import math
from collections.abc import Callable, Sequence
from statistics import NormalDist

import numpy as np
from numpy.typing import NDArray

from builder.readings.curve import CommonError, Curve, Floats

DRAWS = 320
"""Curves drawn a probe. Every error is drawn from as many strata, so that the ends of an interval which one of them
decides hardly wander."""

COVERAGE = 0.95
"""Share of the draws that an interval holds, the rest cut off evenly at both ends (JCGM 101:2008, 7.7)."""


def rectangular_sd(half_width: Floats | float) -> Floats:
    """Give the standard uncertainty of something known only to lie within ± `half_width`, in the same unit.

    u = a/√3. Source: JCGM 100:2008, 4.3.7.

    >>> round(float(rectangular_sd(6.0)), 4)
    3.4641
    """
    return np.asarray(np.divide(half_width, np.sqrt(3.0)))


def draws(curve: Curve, seed_words: str, count: int = DRAWS) -> Floats:
    """Draw curves that the readings allow; shape (count, n), °C.

    T*ₖᵢ = Tᵢ + Σ_j e_jₖᵢ + sᵢ z_kᵢ: for each common error j one number a curve, spread as the error says and
    scaled by each reading's own width (the wider side where it is lopsided); for each reading i a normal error
    of its own. The numbers of each error are one from each of `count` equally likely strata, in a random order
    (McKay, Beckman and Conover 1979, Technometrics 21:239). Holds while the errors are small enough not to reorder
    the physics; times are taken as exact. Source: JCGM 101:2008, 5 to 7.
    """
    random = np.random.default_rng(_seed(seed_words, curve.probe.name))
    # A reading's draws stand together in memory: they are shuffled, and figures walk along them, reading by reading.
    own = np.repeat(_strata("normal", count)[np.newaxis], curve.celsius.size, axis=0)
    drawn = random.permuted(own, axis=1, out=own)
    drawn *= curve.own_sd_c[:, np.newaxis]
    drawn += curve.celsius[:, np.newaxis]
    for error in curve.common:
        drawn += _shared(error, random, count)
    return np.asarray(drawn.T)


def _seed(words: str, probe: str) -> int:
    """Make a seed from words alone, the same on every machine."""
    return int.from_bytes(hashlib.sha256(f"{words}\n{probe}".encode()).digest()[:8], "big")


def _shared(error: CommonError, random: np.random.Generator, count: int) -> Floats:
    """Draw one common error a curve; shape (n, count), °C."""
    draw: Floats = random.permutation(_strata(error.shape, count))
    up_c, down_c = error.up_c[:, np.newaxis], error.down_c[:, np.newaxis]
    if error.even or np.array_equal(error.up_c, error.down_c):
        return np.asarray(draw * up_c)
    return np.asarray(np.maximum(draw, 0.0) * up_c + np.minimum(draw, 0.0) * down_c)


@functools.cache
def _strata(shape: str, count: int) -> Floats:
    """Give the middles of `count` equally likely strata of a spread; shape (count,), of unit width or deviation."""
    chances = (np.arange(count) + 0.5) / count
    if shape == "rectangular":
        return 2.0 * chances - 1.0
    return np.array([NormalDist().inv_cdf(chance) for chance in chances])


def band(samples: Floats) -> tuple[Floats, Floats]:
    """Give the 95 % interval of drawn values, shape (count, …): their 2.5 % and 97.5 % quantiles, two of shape (…).

    Draws that are NaN (a curve drawn that never got so hot, say) are left out; where all are, both ends are NaN.
    Source: JCGM 101:2008, 7.7, probabilistically symmetric.

    >>> low, high = band(np.arange(1001.0))
    >>> round(float(low), 9), round(float(high), 9)
    (25.0, 975.0)
    """
    ordered = np.sort(samples.reshape(samples.shape[0], -1), axis=0)
    known = samples.shape[0] - np.isnan(ordered).sum(axis=0)
    tail = (1.0 - COVERAGE) / 2.0
    low, high = _quantiles(ordered, known, np.array([tail, 1.0 - tail])).reshape(2, *samples.shape[1:])
    return low, high


def _quantiles(ordered: Floats, known: NDArray[np.intp], shares: Floats) -> Floats:
    """Interpolate k quantiles of each column of sorted draws, `known` of which are numbers and come first; (k, m)."""
    last = np.maximum(known - 1, 0)
    place = shares[:, np.newaxis] * last
    below = place.astype(np.intp)
    above = np.minimum(below + 1, last)
    column = np.arange(last.size)
    low, high = ordered[below, column], ordered[above, column]
    return np.asarray(low + (high - low) * (place - below))


def propagated(function: Callable[..., float], values: Sequence[float], uncertainties: Sequence[float]) -> float:
    """Give the standard uncertainty of `function` of `values` whose own, independent ones are `uncertainties`.

    u² = Σ (∂f/∂xᵢ)² uᵢ², each slope taken over xᵢ ± uᵢ. Holds where the function is nearly straight over that range.
    Source: JCGM 100:2008, 5.1.2 and the note to 5.1.3.

    >>> round(propagated(lambda peak, start, minutes: (peak - start) / minutes, (800, 20, 35), (6, 2, 1)), 3)
    0.662
    """
    changes = []
    for place, (value, uncertainty) in enumerate(zip(values, uncertainties, strict=True)):
        more = function(*values[:place], value + uncertainty, *values[place + 1 :])
        less = function(*values[:place], value - uncertainty, *values[place + 1 :])
        changes.append((more - less) / 2.0)
    return math.hypot(*changes)
