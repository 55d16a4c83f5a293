"""Firth's penalised logistic regression: the plain reference beside the working window.

It takes each piece as if it stood alone and the peak as if it were exact, so its intervals are too narrow for pots
that share a fire; it stands beside the window so that a reader can check both with any statistics program.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from math import log

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]

CHI_SQUARE_95 = 3.841459
"""95 % point of chi-square with one degree of freedom."""
_STEPS, _LONGEST_STEP, _CLOSE = 100, 5.0, 1e-9


@dataclass(frozen=True, slots=True)
class FirthFit:
    """A fitted regression."""

    coefficients: Floats
    """Shape (p,): on the logit scale."""
    covariance: Floats
    """Shape (p, p): the inverse of the Fisher information."""
    log_likelihood: float
    """Penalised: l(β) + ½ log |I(β)|."""

    @property
    def standard_errors(self) -> Floats:
        """Shape (p,): from the Fisher information."""
        return np.asarray(np.sqrt(np.diag(self.covariance)), dtype=np.float64)


def firth(design: Floats, successes: Floats, pieces: Floats) -> FirthFit:
    """Fit a logistic regression with Jeffreys' prior as penalty; it is finite under separation too.

    `design` has shape (n, p) with full rank, `successes` and `pieces` shape (n,). Solves
    Σ x_i (y_i − m_i π_i + h_i (½ − π_i)) = 0 with h the leverages, by Newton steps that are halved until they climb.

    Source: Firth 1993, Biometrika 80:27; Heinze and Schemper 2002, Statistics in Medicine 21:2409.

    >>> fit = firth(np.array([[1.0, 0.0], [1.0, 1.0]]), np.array([5.0, 7.0]), np.array([13.0, 7.0]))
    >>> round(float(fit.coefficients[1]), 6)  # all seven succeeded: half a piece added to each cell
    3.143368
    """
    start = np.zeros(design.shape[1])
    coefficients, highest = _climb(design, successes, pieces, start, np.ones(design.shape[1], dtype=bool))
    information = _information(design, pieces, _chances(design, coefficients))
    covariance = np.asarray(np.linalg.inv(information), dtype=np.float64)
    return FirthFit(coefficients, covariance, highest)


def profile_limits(design: Floats, successes: Floats, pieces: Floats, fit: FirthFit, which: int) -> tuple[float, float]:
    """95 % limits of one coefficient from the penalised profile likelihood, the others fitted anew at each value.

    The values where 2(l*(β̂) − l*(β_j)) reaches 3.84. Source: Heinze and Schemper 2002.
    """
    free = np.ones(design.shape[1], dtype=bool)
    free[which] = False

    def above(value: float) -> float:
        start = fit.coefficients.copy()
        start[which] = value
        return 2 * (fit.log_likelihood - _climb(design, successes, pieces, start, free)[1]) - CHI_SQUARE_95

    middle, step = float(fit.coefficients[which]), float(fit.standard_errors[which])
    low, high = (_crossing(above, middle, side * step) for side in (-1.0, 1.0))
    return low, high


def crossing(fit: FirthFit, level: float = 0.5) -> float | None:
    """Where a fit on (1, x) passes a chance of `level`; None where it is flat."""
    intercept, slope = (float(value) for value in fit.coefficients)
    return None if abs(slope) < _CLOSE else (log(level / (1 - level)) - intercept) / slope


def _crossing(above: Callable[[float], float], middle: float, step: float) -> float:
    """Step outward until the profile has fallen far enough, then halve the bracket."""
    inner, outer = middle, middle + step
    for _ in range(60):
        if above(outer) > 0:
            break
        inner, outer = outer, outer + step
        step *= 1.5
    for _ in range(40):
        half = (inner + outer) / 2
        inner, outer = (inner, half) if above(half) > 0 else (half, outer)
    return (inner + outer) / 2


def _climb(
    design: Floats, successes: Floats, pieces: Floats, start: Floats, free: NDArray[np.bool_]
) -> tuple[Floats, float]:
    """Climb to the highest penalised likelihood over the free coefficients."""
    at = start.copy()
    height = _penalised(design, successes, pieces, at)
    for _ in range(_STEPS):
        chances = _chances(design, at)
        information = _information(design, pieces, chances)
        weighted = design * (pieces * chances * (1 - chances))[:, None]
        leverage = np.einsum("ij,jk,ik->i", weighted, np.linalg.inv(information), design)
        score = design.T @ (successes - pieces * chances + leverage * (0.5 - chances))
        step = np.zeros_like(at)
        step[free] = np.linalg.solve(information[np.ix_(free, free)], score[free])
        longest = float(np.abs(step).max())
        step *= min(1.0, _LONGEST_STEP / max(longest, _CLOSE))
        for _ in range(30):
            reached = _penalised(design, successes, pieces, at + step)
            if reached >= height - 1e-12:
                break
            step /= 2
        at, height = at + step, reached
        if longest < _CLOSE * max(1.0, float(np.abs(at).max())):
            break
    return at, height


def _chances(design: Floats, coefficients: Floats) -> Floats:
    # Held off 0 and 1 so that the information never becomes singular on the way.
    logit = np.clip(design @ coefficients, -30.0, 30.0)
    return np.asarray(1 / (1 + np.exp(-logit)), dtype=np.float64)


def _information(design: Floats, pieces: Floats, chances: Floats) -> Floats:
    return np.asarray(design.T @ (design * (pieces * chances * (1 - chances))[:, None]), dtype=np.float64)


def _penalised(design: Floats, successes: Floats, pieces: Floats, coefficients: Floats) -> float:
    chances = _chances(design, coefficients)
    likelihood = successes @ np.log(chances) + (pieces - successes) @ np.log1p(-chances)
    return float(likelihood + np.linalg.slogdet(_information(design, pieces, chances))[1] / 2)
