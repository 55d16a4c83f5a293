"""Two fitted curves behind the working window: the chance of what needs heat, and of what heat destroys.

For each the posterior of intercept, slope and firing luck is laid out on a grid over the inverses of its priors,
refined once, and drawn from by a lattice: no random numbers, and no case of separation is special.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import log

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]

SCALE_C = 70.0
"""Degrees that count as one step of z."""
SPREADS = np.array([0.0, 0.6, 1.2])
"""Standard deviations of a firing's own luck on the logit scale."""
SPREAD_WEIGHTS = np.array([0.45, 0.35, 0.20])
SLOPE_SCALE = 2.0
"""Scale of the half-Cauchy prior of the slope."""
INTERCEPT_SCALE = 1.5
"""Scale of the t prior (two degrees of freedom) of the intercept."""
CELLS_U1, CELLS_U2 = 31, 25
DROP = 10.0
"""Cells whose log posterior lies further below the highest are left out of the second grid."""
DRAWS = 2000
AVERAGE_FIRING = 0.346
"""(16√3/15π)², which turns the curve of one firing into that of an average firing (Zeger, Liang and Albert 1988)."""


@dataclass(frozen=True, slots=True)
class WindowFiring:
    """What one firing tells about the window."""

    peak_c: float
    """Its peak, °C; or minutes above a level, where the window is looked for in those."""
    peak_sd_c: float
    """Standard uncertainty of the peak, in its own unit."""
    needs_heat: tuple[int, int] | None
    """Pieces that came out well, of those recorded, over the outcomes that need heat; None where none is recorded."""
    destroyed: tuple[int, int] | None
    """The same over the outcomes that heat destroys."""


@dataclass(frozen=True, slots=True)
class Peaks:
    """Peaks shrunk towards their mean by regression calibration, in steps of a scale."""

    mean_c: float
    z: Floats
    variance: Floats
    lowest_c: float
    highest_c: float
    scale_c: float

    @staticmethod
    def of(firings: Sequence[WindowFiring], scale_c: float = SCALE_C) -> Peaks:
        """Shrink the peaks of two firings or more; `scale_c` counts as one step of z."""
        peak = np.array([firing.peak_c for firing in firings])
        error = np.array([firing.peak_sd_c for firing in firings]) ** 2
        spread = float(peak.var(ddof=1))
        # At least a degree, where the scale is that of degrees.
        true_spread = max(spread - float(error.mean()), spread / 4, (scale_c / SCALE_C) ** 2)
        trust = true_spread / (true_spread + error)
        return Peaks(
            float(peak.mean()),
            trust * (peak - peak.mean()) / scale_c,
            trust * error / scale_c**2,
            float(peak.min()),
            float(peak.max()),
            scale_c,
        )


def _logistic(x: Floats) -> Floats:
    """1/(1+exp(−x)), without overflow."""
    return np.asarray(0.5 * (1.0 + np.tanh(0.5 * x)), dtype=np.float64)


def _prior(u1: Floats, u2: Floats) -> tuple[Floats, Floats]:
    """Intercept and slope at two numbers from (0, 1): the inverses of their prior distributions."""
    slope = SLOPE_SCALE * np.tan(np.pi * u2 / 2)
    t2 = (2 * u1 - 1) / np.sqrt(2 * u1 * (1 - u1))
    return INTERCEPT_SCALE * np.sqrt(1 + slope**2) * t2, slope


_NODES, _NODE_WEIGHTS = np.polynomial.hermite_e.hermegauss(7)
_NODE_SHARES = (_NODE_WEIGHTS / _NODE_WEIGHTS.sum()).astype(np.float32)
# The nodes stand before the grid: numpy runs along the last axis, and seven at a time would be slow.
_NODES_FIRST = _NODES.astype(np.float32).reshape(-1, 1, 1, 1)


def _log_likelihood(
    intercept: Floats, slope: Floats, peaks: Peaks, counts: Sequence[tuple[int, int] | None], sign: int
) -> Floats:
    """Shape (u2, u1, spreads): log likelihood of the outcomes on a grid of intercepts and slopes, shape (u2, u1)."""
    total = np.zeros((*intercept.shape, len(SPREADS)))
    # Single precision: an error of one in ten million a firing, against steps of a tenth between cells. A cell so far
    # off that a firing has no chance there at all becomes minus infinity, which is what it is.
    with np.errstate(divide="ignore"):
        for z, variance, count in zip(peaks.z, peaks.variance, counts, strict=True):
            if count is None:
                continue
            good, recorded = count
            spread = np.sqrt(SPREADS**2 + (slope**2 * variance)[..., None])
            centre = (intercept + sign * slope * z)[..., None]
            x = centre.astype(np.float32) + spread.astype(np.float32) * _NODES_FIRST
            # log p = −log(1+e^−x), written so that it cannot run over, and log(1−p) = log p − x.
            log_chance = np.minimum(x, 0) - _log_1_and_exp_of_minus(np.abs(x))
            if recorded > 1:
                log_chance *= np.float32(recorded)
            if recorded > good:
                x *= np.float32(recorded - good)
                log_chance -= x
            # Against the best that any chance could do, so that a fire of hundreds of tiles does not run under.
            best = _best_log_chance(good, recorded)
            log_chance -= np.float32(best)
            chance = _NODE_SHARES @ np.exp(log_chance, out=log_chance).reshape(len(_NODES), -1)
            total += np.log(chance).reshape(total.shape) + best
    return total


def _log_1_and_exp_of_minus(x: Floats) -> Floats:
    """log(1+e^−x), in the place of x: half of the time of a window is spent here."""
    np.negative(x, out=x)
    np.exp(x, out=x)
    return np.log1p(x, out=x)


def _best_log_chance(good: int, recorded: int) -> float:
    """Log chance of so many of so many pieces in this order, at the chance that suits them best."""
    return sum(part * log(part / recorded) for part in (good, recorded - good) if part)


@dataclass(frozen=True, slots=True)
class _Box:
    """A part of the unit square, cut into cells."""

    u1: tuple[float, float] = (0.0, 1.0)
    u2: tuple[float, float] = (0.0, 1.0)

    def middles(self) -> tuple[Floats, Floats]:
        """Middles of the cells along u1 and along u2."""
        return _middles(self.u1, CELLS_U1), _middles(self.u2, CELLS_U2)

    def narrowed(self, log_posterior: Floats) -> _Box:
        """Return the box of the cells that matter, a cell wider on each side."""
        matters = (log_posterior > log_posterior.max() - DROP).any(axis=2)
        return _Box(
            _around(self.u1, np.flatnonzero(matters.any(axis=0)), CELLS_U1),
            _around(self.u2, np.flatnonzero(matters.any(axis=1)), CELLS_U2),
        )


def _middles(ends: tuple[float, float], cells: int) -> Floats:
    return ends[0] + (ends[1] - ends[0]) * (np.arange(cells) + 0.5) / cells


def _around(ends: tuple[float, float], kept: NDArray[np.intp], cells: int) -> tuple[float, float]:
    width = (ends[1] - ends[0]) / cells
    return (
        max(ends[0], ends[0] + width * (int(kept[0]) - 1)),
        min(ends[1], ends[0] + width * (int(kept[-1]) + 2)),
    )


@dataclass(frozen=True, slots=True)
class Drawn:
    """Curves drawn from the posterior of one kind of outcome."""

    intercept: Floats
    """Shape (draws,): of an average firing."""
    slope: Floats
    """Shape (draws,): with its sign."""
    log_evidence: float
    """Log of the marginal likelihood: how well the peaks explain the outcomes, all curves weighed."""


def draw_curves(
    peaks: Peaks, counts: Sequence[tuple[int, int] | None], sign: int, primes: tuple[int, int, int]
) -> Drawn:
    """Draw DRAWS curves from the posterior."""
    box, posterior, log_evidence = _laid_out(peaks, counts, sign)
    lattice = np.modf(np.arange(1, DRAWS + 1)[:, None] * np.sqrt(np.array(primes)) + 0.5)[0]
    weights = np.exp(posterior - posterior.max())
    cumulative = np.cumsum(weights)
    cell = np.minimum(np.searchsorted(cumulative, lattice[:, 0] * cumulative[-1]), weights.size - 1)
    row, column, spread = np.unravel_index(cell, weights.shape)
    u1 = box.u1[0] + (box.u1[1] - box.u1[0]) * (column + lattice[:, 1]) / CELLS_U1
    u2 = box.u2[0] + (box.u2[1] - box.u2[0]) * (row + lattice[:, 2]) / CELLS_U2
    intercept, slope = _prior(u1, u2)
    average = np.sqrt(1 + AVERAGE_FIRING * SPREADS[spread] ** 2)
    return Drawn(intercept / average, sign * slope / average, log_evidence)


def log_evidence(peaks: Peaks, counts: Sequence[tuple[int, int] | None], sign: int) -> float:
    """Log of the marginal likelihood alone, without drawing a curve."""
    return _laid_out(peaks, counts, sign)[2]


def _laid_out(peaks: Peaks, counts: Sequence[tuple[int, int] | None], sign: int) -> tuple[_Box, Floats, float]:
    """Lay the posterior out on the refined grid: the box, the log posterior of each cell, the log evidence."""

    def log_posterior(box: _Box) -> Floats:
        u1, u2 = box.middles()
        intercept, slope = _prior(u1[None, :], u2[:, None])
        shape = (CELLS_U2, CELLS_U1)
        grid = (np.broadcast_to(intercept, shape), np.broadcast_to(slope, shape))
        return np.asarray(_log_likelihood(*grid, peaks, counts, sign) + np.log(SPREAD_WEIGHTS), dtype=np.float64)

    box = _Box()
    box = box.narrowed(log_posterior(box))
    posterior = log_posterior(box)
    # The priors are even over the unit square, so that each cell weighs as much as its area.
    cell_area = (box.u1[1] - box.u1[0]) * (box.u2[1] - box.u2[0]) / (CELLS_U1 * CELLS_U2)
    highest = posterior.max()
    return box, posterior, float(highest + np.log(np.exp(posterior - highest).sum() * cell_area))


@dataclass(frozen=True, slots=True)
class Curves:
    """Pairs of drawn curves."""

    mean_c: float
    scale_c: float
    rising: Drawn
    falling: Drawn

    def both(self, peak_c: Floats) -> tuple[Floats, Floats]:
        """Chances of either kind of outcome at `peak_c`, shape (1 or draws, k); returns shape (draws, k) each."""
        z = (peak_c - self.mean_c) / self.scale_c
        a, b = (_logistic(one.intercept[:, None] + one.slope[:, None] * z) for one in (self.rising, self.falling))
        return a, b

    def chance(self, peak_c: Floats) -> Floats:
        """Chance of success: the product."""
        a, b = self.both(peak_c)
        return a * b

    def best_c(self, low_c: float, high_c: float) -> Floats:
        """Peak with the best chance in each draw, by bisection: there the slope of log A·B turns from up to down."""
        low = np.full((len(self.rising.slope), 1), low_c)
        high = np.full_like(low, high_c)
        for _ in range(40):
            middle = (low + high) / 2
            a, b = self.both(middle)
            up = self.rising.slope[:, None] * (1 - a) + self.falling.slope[:, None] * (1 - b) > 0
            low, high = np.where(up, middle, low), np.where(up, high, middle)
        return (low + high) / 2
