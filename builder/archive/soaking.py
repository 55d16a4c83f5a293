"""Whether minutes above a temperature explain the outcomes better than the peak does.

Both are fitted to the same firings by the same procedure, each stretched to its own spread so that neither has the
wider prior; the marginal likelihoods are compared. Of several temperatures the best is taken, which favours minutes a
little: hence the bar is set high.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from builder.archive.archive import Record
from builder.archive.window import LEAST_FIRINGS, MARGIN_C, Window, working_window
from builder.archive.window_curves import SCALE_C, Peaks, WindowFiring, log_evidence
from builder.archive.windows import told_by
from builder.heat.figures import minutes_above_name

CLEARLY = 3.0
"""Difference of log marginal likelihoods above which one explains more: 20 to 1 (Kass and Raftery 1995, Journal of
the American Statistical Association 90:773, call that strong)."""
UNKNOWN_MINUTES_SD = 1.0
"""Standard uncertainty of minutes of which no interval is known: a rule, not a measurement."""


Pairs = list[tuple[WindowFiring, WindowFiring]]
"""What a firing tells by its peak, and by its minutes."""


@dataclass(frozen=True, slots=True)
class Soaking:
    """Minutes above one temperature held against the peak."""

    level_c: float
    """The temperature, °C, of those in the settings that explains most."""
    firings: int
    """Firings with both known."""
    log_gain: float
    """Log marginal likelihood with the minutes less that with the peak, on the same firings."""
    window: Window
    """The window in minutes above that temperature; its `_c` figures are minutes."""

    @property
    def explains_more(self) -> bool:
        """Whether the minutes explain clearly more than the peak."""
        return self.log_gain >= CLEARLY

    @property
    def explains_less(self) -> bool:
        """Whether the peak explains clearly more than the minutes."""
        return self.log_gain <= -CLEARLY


def soaking(records: Sequence[Record], levels_c: Sequence[float], level: float) -> Soaking | None:
    """Compare the best of `levels_c` with the peak; None with too few firings, or where nothing can be compared."""
    peaks = [(record, told_by(record)) for record in records]
    tried = [told.peak_c for _, told in peaks if told is not None]
    evidence: dict[tuple[WindowFiring, ...], float] = {}
    best: tuple[float, float, Pairs] | None = None
    for level_c in levels_c:
        if not tried or not min(tried) - MARGIN_C <= level_c <= max(tried):
            continue
        pairs = _pairs(peaks, level_c)
        scale = _scale(pairs)
        if scale is None:
            continue
        on_peaks = tuple(peak for peak, _ in pairs)
        if on_peaks not in evidence:
            evidence[on_peaks] = _evidence(on_peaks, SCALE_C)
        gain = _evidence([minutes for _, minutes in pairs], scale) - evidence[on_peaks]
        if best is None or gain > best[0]:
            best = (gain, level_c, pairs)
    if best is None:
        return None
    gain, level_c, pairs = best
    window = working_window([minutes for _, minutes in pairs], level, _scale(pairs) or SCALE_C)
    return Soaking(level_c, len(pairs), gain, window)


def _pairs(peaks: Sequence[tuple[Record, WindowFiring | None]], level_c: float) -> Pairs:
    """What the firings with both known tell by their peak and by their minutes."""
    found = []
    for record, peak in peaks:
        minutes = told_by(record, minutes_above_name(level_c), UNKNOWN_MINUTES_SD)
        if peak is not None and minutes is not None and (peak.needs_heat or peak.destroyed):
            found.append((peak, minutes))
    return found


def _scale(pairs: Pairs) -> float | None:
    """Minutes that count as one step, so that both have the same spread; None where they cannot be compared."""
    told = [
        sum(one is not None for one in side)
        for side in zip(*((peak.needs_heat, peak.destroyed) for peak, _ in pairs), strict=True)
    ]
    if not told or min(told) < LEAST_FIRINGS:
        return None
    spread_c, spread_min = (float(np.std([pair[side].peak_c for pair in pairs])) for side in (0, 1))
    return None if spread_c == 0 or spread_min == 0 else SCALE_C * spread_min / spread_c


def _evidence(told: Sequence[WindowFiring], scale: float) -> float:
    peaks = Peaks.of(told, scale)
    rising = log_evidence(peaks, [one.needs_heat for one in told], 1)
    return rising + log_evidence(peaks, [one.destroyed for one in told], -1)
