"""The part of a curve that is the main fire, with the curves that its readings allow beside it."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from builder.heat.rates import at_minutes
from builder.readings.curve import Curve, Floats
from builder.readings.uncertainty import DRAWS, draws

_FEWEST_DRAWS = 200
_MOST_NUMBERS = 250_000
"""Draws times readings that one probe's figures are worked out from: a logger's thousands of readings get fewer
draws, which blurs an interval's ends by a tenth of its width and keeps a firing to a fraction of a second."""

ROUGHENED = 100
"""Curves, in pairs roughened by opposite errors, that show how much a figure is pushed one way by the readings' own
errors: their mean settles with few."""


@dataclass(frozen=True, slots=True)
class MainFire:
    """One probe's curve from lighting on."""

    minutes: Floats
    """Shape (n,), n ≥ 1: minutes from lighting."""
    celsius: Floats
    """Shape (1 + draws + ROUGHENED, n), °C: the best reckoning, the curves that the readings allow, and last the best
    reckoning roughened once more by each reading's own error alone."""
    read_at: Floats
    """Minutes of the readings that the curve stands on, the last one before lighting included."""
    topped_out: bool
    """The probe reached its limit: it may have been hotter."""

    @property
    def drawn(self) -> slice:
        """The rows of the curves that the readings allow."""
        return slice(1, self.celsius.shape[0] - ROUGHENED)

    @property
    def best(self) -> Floats:
        """The best reckoning, shape (n,), °C."""
        return np.asarray(self.celsius[0])


def draw_count(curves: tuple[Curve, ...]) -> int:
    """Return how many curves to draw for each probe of a firing: one number, so that probes can be compared."""
    longest = max(curve.minutes.size for curve in curves)
    return int(np.clip(_MOST_NUMBERS // longest, _FEWEST_DRAWS, DRAWS))


def main_fire(curve: Curve, seed_words: str, count: int) -> MainFire | None:
    """Return the curve from lighting on, with `count` draws; None where every reading was taken before lighting.

    Where the log began before lighting, the curve begins at minute 0 on the straight line between its neighbours.
    """
    minutes = curve.minutes
    # Reading by reading in memory: every figure walks along the readings of all curves at once, which is then fastest.
    best = curve.celsius[:, np.newaxis]
    drawn = draws(curve, seed_words, count).T
    rough = draws(replace(curve, common=()), f"{seed_words} roughened", ROUGHENED // 2).T
    celsius = np.concatenate([best, drawn, rough, 2.0 * best - rough], axis=1).T
    if minutes[-1] < 0.0:
        return None
    if minutes[0] >= 0.0:
        return MainFire(minutes, celsius, minutes, curve.at_least)
    first = int(np.searchsorted(minutes, 0.0))
    if minutes[first] == 0.0:
        return MainFire(minutes[first:], celsius[:, first:], minutes[first:], curve.at_least)
    at_lighting = at_minutes(minutes, celsius, np.zeros(1))
    kept = np.concatenate([np.zeros(1), minutes[first:]])
    return MainFire(kept, np.hstack([at_lighting, celsius[:, first:]]), minutes[first - 1 :], curve.at_least)
