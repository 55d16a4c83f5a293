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
from dataclasses import dataclass
from enum import StrEnum

import numpy as np

from builder.archive.window_curves import Curves, Floats, Peaks, WindowFiring, draw_curves

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
    warnings: tuple[str, ...] = ()


def working_window(firings: Sequence[WindowFiring], level: float = 0.5) -> Window:
    """Find the working window above `level` from firings of one method or ware.

    Holds for a chance that rises and then falls with the peak. Says "too few" under five firings with either kind of
    outcome recorded, and wherever no temperature tried works in 97.5 % of the draws.
    """
    told = [firing for firing in firings if firing.needs_heat or firing.destroyed]
    needs = [firing for firing in told if firing.needs_heat]
    destroyed = [firing for firing in told if firing.destroyed]
    if min(len(needs), len(destroyed)) < LEAST_FIRINGS:
        return _too_few(level, told)
    peaks = Peaks.of(told)
    rising = draw_curves(peaks, [firing.needs_heat for firing in told], 1, (2, 3, 5))
    falling = draw_curves(peaks, [firing.destroyed for firing in told], -1, (7, 11, 13))
    curves = Curves(peaks.mean_c, rising, falling)
    grid = np.arange(peaks.lowest_c - MARGIN_C, peaks.highest_c + MARGIN_C + STEP_C / 2, STEP_C)
    chances = curves.chance(grid[None, :])
    return _conclude(level, len(told), peaks, curves, grid, chances)


def _conclude(level: float, firings: int, peaks: Peaks, curves: Curves, grid: Floats, chances: Floats) -> Window:
    works = (chances >= level).mean(axis=0)
    inside = (grid >= peaks.lowest_c) & (grid <= peaks.highest_c)
    tried = (peaks.lowest_c, peaks.highest_c)
    band = _spread(chances)
    if works.max() < POSSIBLE:
        return Window(Finding.NONE, level, firings, None, None, None, None, grid, works, band, tried)
    if not (works[inside] >= SURE).any():
        return Window(Finding.TOO_FEW, level, firings, None, None, None, None, grid, works, band, tried)
    low = _end(grid, works)
    mirrored = _end(grid[::-1], works[::-1])
    high = End(mirrored.value_c, mirrored.high_c, mirrored.low_c)
    best, chance = _best(peaks, curves, grid, works)
    return Window(Finding.WINDOW, level, firings, low, high, best, chance, grid, works, band, tried)


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


def _too_few(level: float, told: Sequence[WindowFiring]) -> Window:
    peaks = [firing.peak_c for firing in told]
    empty = np.zeros(0)
    tried = (min(peaks), max(peaks)) if peaks else None
    return Window(Finding.TOO_FEW, level, len(told), None, None, None, None, empty, empty, np.zeros((3, 0)), tried)
