"""The working window: which peak temperatures go with success, and how surely.

Two curves are fitted to the firings of a method or a ware: A, the chance of the outcomes that need heat, rising with
the peak temperature, and B, the chance of the outcomes that heat destroys, falling with it. Their product is the
chance of success at a peak; the window is where it stays above a level. The fit is Bayesian on a grid, needs no
random numbers, and takes in that peaks are uncertain and that the pieces of one fire share its luck.

The procedure and its constants (scales 70 °C, 2 and 1.5; firing spreads 0, 0.6 and 1.2) were chosen by a simulation
over 17 kinds of truth and 6 to 100 firings, where each end was covered in 91 to 100 % of claims.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from enum import StrEnum

import numpy as np

from builder.archive.firth import FirthFit
from builder.archive.window_curves import SCALE_C, Curves, Floats, Peaks, WindowFiring, draw_curves
from builder.archive.window_plain import plain_fits, wrong_way

LEAST_FIRINGS = 5
"""Firings with an outcome recorded that a fit needs, for either curve."""
STEP_C = 2.0
MARGIN_C = 50.0
"""The window is looked for this far beyond the temperatures tried."""
SURE, POSSIBLE = 0.975, 0.025
"""Shares of draws: a temperature works where more than SURE agree; it may work where more than POSSIBLE do."""


class Finding(StrEnum):
    """What came of looking for a window."""

    WINDOW = "window"
    NONE = "no window in the temperatures tried"
    TOO_FEW = "too few firings to tell"


@dataclass(frozen=True, slots=True)
class End:
    """One end of the window: where it may lie, 95 times in 100."""

    value_c: float | None
    """Plain value, only where both limits are known."""
    low_c: float | None
    """None where the limit lies beyond the temperatures looked at."""
    high_c: float | None


@dataclass(frozen=True, slots=True)
class Window:
    """The working window of a method or a ware."""

    finding: Finding
    level: float
    firings: int
    """Firings that told something."""
    low: End | None
    high: End | None
    best_c: tuple[float, float, float] | None
    """Best peak and its 95 % interval; None where it cannot be told."""
    best_chance: tuple[float, float, float] | None
    """Chance of success there, with its interval."""
    grid_c: Floats
    """Shape (k,): the temperatures looked at, °C; empty with fewer than five firings."""
    works: Floats
    """Shape (k,): share of draws in which each works (q)."""
    chance: Floats
    """Shape (3, k): median, 2.5 and 97.5 % of the chance of success."""
    tried_c: tuple[float, float] | None
    """Lowest and highest peak recorded."""
    rising: Floats = field(default_factory=lambda: np.zeros(0))
    """Shape (k,): median chance of the outcomes that need heat."""
    falling: Floats = field(default_factory=lambda: np.zeros(0))
    """Shape (k,): median chance of the outcomes that heat destroys."""
    log_evidence: float | None = None
    """Log of the marginal likelihood of both kinds of outcome."""
    plain: tuple[FirthFit | None, FirthFit | None] = (None, None)
    """Firth's fits of what needs heat and of what heat destroys, on (peak − PLAIN_MIDDLE_C)/PLAIN_SCALE_C."""
    warnings: tuple[str, ...] = ()
    """What runs the wrong way, in sentences."""
    told: tuple[WindowFiring, ...] = ()
    """The firings that it stands on."""


def working_window(firings: Sequence[WindowFiring], level: float = 0.5, scale: float = SCALE_C) -> Window:
    """Find the working window above `level` from firings of one method or ware.

    Holds for a chance that rises and then falls with the peak. Says "too few" under five firings with either kind of
    outcome recorded, and wherever no temperature tried works in 97.5 % of the draws. `scale` is what counts as one
    step of heat: 70 °C for peaks; the grid and its margin stretch with it.
    """
    told = [firing for firing in firings if firing.needs_heat or firing.destroyed]
    plain = plain_fits(told)
    base = _too_few(level, told, plain)
    if min(sum(one.needs_heat is not None for one in told), sum(one.destroyed is not None for one in told)) < (
        LEAST_FIRINGS
    ):
        return base
    peaks = Peaks.of(told, scale)
    rising = draw_curves(peaks, [firing.needs_heat for firing in told], 1, (2, 3, 5))
    falling = draw_curves(peaks, [firing.destroyed for firing in told], -1, (7, 11, 13))
    curves = Curves(peaks.mean_c, scale, rising, falling)
    step, margin = STEP_C * scale / SCALE_C, MARGIN_C * scale / SCALE_C
    grid = np.arange(peaks.lowest_c - margin, peaks.highest_c + margin + step / 2, step)
    return _conclude(base, peaks, curves, grid)


def _conclude(base: Window, peaks: Peaks, curves: Curves, grid: Floats) -> Window:
    rising, falling = curves.both(grid[None, :])
    chances = rising * falling
    works = (chances >= base.level).mean(axis=0)
    inside = (grid >= peaks.lowest_c) & (grid <= peaks.highest_c)
    fitted = replace(
        base,
        grid_c=grid,
        works=works,
        chance=_spread(chances),
        rising=np.median(rising, axis=0),
        falling=np.median(falling, axis=0),
        log_evidence=curves.rising.log_evidence + curves.falling.log_evidence,
    )
    if works.max() < POSSIBLE:
        return replace(fitted, finding=Finding.NONE)
    if not (works[inside] >= SURE).any():
        return fitted
    mirrored = _end(grid[::-1], works[::-1])
    best, chance = _best(peaks, curves, grid, works)
    return replace(
        fitted,
        finding=Finding.WINDOW,
        low=_end(grid, works),
        high=End(mirrored.value_c, mirrored.high_c, mirrored.low_c),
        best_c=best,
        best_chance=chance,
    )


def _end(grid: Floats, works: Floats) -> End:
    """The end that comes first along the grid; `low_c` is its limit on the side where the grid begins."""
    possible = int(np.argmax(works >= POSSIBLE))
    sure = int(np.argmax(works >= SURE))
    outer = None if possible == 0 else float(grid[possible - 1])
    inner = None if sure == 0 else float(grid[sure])
    middle = float(grid[int(np.argmax(works >= 0.5))]) if outer is not None and inner is not None else None
    return End(middle, outer, inner)


def _spread(draws: Floats) -> Floats:
    """Median, 2.5 and 97.5 % of draws along the first axis."""
    return np.asarray(np.quantile(draws, [0.5, POSSIBLE, SURE], axis=0, method="inverted_cdf"), dtype=np.float64)


_Spread = tuple[float, float, float]


def _best(peaks: Peaks, curves: Curves, grid: Floats, works: Floats) -> tuple[_Spread | None, _Spread | None]:
    """Best peak and its chance, where they lie inside the data and not at an open edge."""
    drawn = curves.best_c(float(grid[0]), float(grid[-1]))
    middle, low, high = (float(value) for value in _spread(drawn[:, 0]))
    if not peaks.lowest_c < middle < peaks.highest_c or max(works[0], works[-1]) > 0.5:
        return None, None
    chances = curves.chance(drawn)
    best, lowest, highest = (float(value) for value in _spread(chances[:, 0]))
    return (middle, low, high), (best, lowest, highest)


def _too_few(level: float, told: Sequence[WindowFiring], plain: tuple[FirthFit | None, FirthFit | None]) -> Window:
    peaks = [firing.peak_c for firing in told]
    return Window(
        Finding.TOO_FEW,
        level,
        len(told),
        low=None,
        high=None,
        best_c=None,
        best_chance=None,
        grid_c=np.zeros(0),
        works=np.zeros(0),
        chance=np.zeros((3, 0)),
        tried_c=(min(peaks), max(peaks)) if peaks else None,
        plain=plain,
        warnings=wrong_way(plain),
        told=tuple(told),
    )
