"""The naive calculation beside ours: every piece for itself, as a spreadsheet would have it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

import numpy as np
from scipy.stats import norm

from builder.archive.archive import Record
from builder.archive.conditions import Fires, Trials, Values, false_discovery
from builder.archive.proportions import wilson
from builder.archive.tallies import missing
from builder.archive.window import Window
from builder.archive.window_plain import PLAIN_MIDDLE_C, PLAIN_SCALE_C

DRAWS = 400


def recorded_in_full(records: Sequence[Record]) -> list[Record]:
    """Return the same firings with those of their pieces alone of which every outcome that counts was written down."""
    return [replace(one, pieces=tuple(judged for judged in one.pieces if not missing(judged))) for one in records]


def rate_limits(successes: int, pieces: int) -> tuple[float, float]:
    """Wilson's limits on the pieces as they are counted."""
    return wilson(successes, pieces)


def window_limits(window: Window, seed: int) -> tuple[tuple[float, float], tuple[float, float]] | None:
    """95 % limits of both ends from the two plain fits: curves drawn from their normal approximation, peaks exact."""
    rising, falling = window.plain
    if rising is None or falling is None or window.tried_c is None:
        return None
    chance = np.random.default_rng(seed)
    grid = np.arange(window.tried_c[0] - 50, window.tried_c[1] + 50, 2.0)
    z = (grid - PLAIN_MIDDLE_C) / PLAIN_SCALE_C
    product = np.ones((DRAWS, len(grid)))
    for fit in (rising, falling):
        drawn = chance.multivariate_normal(fit.coefficients, fit.covariance, DRAWS)
        product *= 1 / (1 + np.exp(-np.clip(drawn[:, :1] + drawn[:, 1:] * z, -30, 30)))
    works = product >= window.level
    if not works.any(axis=1).mean() > 0.5:
        return None
    works = works[works.any(axis=1)]
    lows, highs = grid[works.argmax(axis=1)], grid[::-1][works[:, ::-1].argmax(axis=1)]
    low, high = (np.quantile(ends, [0.025, 0.975]) for ends in (lows, highs))
    return (float(low[0]), float(low[1])), (float(high[0]), float(high[1]))


def any_found(trials: Trials, corrected: bool) -> bool:
    """Tell whether a test by pieces finds any condition, with Benjamini and Hochberg's rule or each at 5 %."""
    p_values = [_by_pieces(trials.fires, values) for values in trials.values.values()]
    return any(false_discovery(p_values)) if corrected else min(p_values, default=1.0) <= 0.05


def _by_pieces(fires: Fires, values: Values) -> float:
    """The same T as ours, held against the spread that it would have if every piece stood alone."""
    total = spread = 0.0
    for method in set(fires.methods):
        rows = zip(fires.methods, fires.tallies, values, strict=True)
        told = [(tally, value) for own, tally, value in rows if own == method and value is not None]
        pieces = sum(tally.judged for tally, _ in told)
        if pieces < 2:
            continue
        p = sum(tally.successes for tally, _ in told) / pieces
        mean = sum(value * tally.judged for tally, value in told) / pieces
        total += sum((value - mean) * (tally.successes - tally.judged * p) for tally, value in told)
        spread += p * (1 - p) * sum(tally.judged * (value - mean) ** 2 for tally, value in told)
    return 1.0 if spread <= 0 else float(2 * norm.sf(abs(total) / np.sqrt(spread)))
