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
from builder.archive.window import LEAST_FIRINGS, Window, working_window
from builder.archive.window_curves import SCALE_C, WindowFiring
from builder.archive.windows import told_by
from builder.heat.figures import minutes_above_name

CLEARLY = 3.0
"""Difference of log marginal likelihoods above which one explains more: 20 to 1 (Kass and Raftery 1995, Journal of
the American Statistical Association 90:773, call that strong)."""
UNKNOWN_MINUTES_SD = 1.0
"""Standard uncertainty of minutes of which no interval is known: a rule, not a measurement."""


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
    found: list[Soaking] = []
    peaks = [(record, told_by(record)) for record in records]
    tried = [told.peak_c for _, told in peaks if told is not None]
    for level_c in levels_c:
        if not tried or not min(tried) - 50 <= level_c <= max(tried):
            continue
        name = minutes_above_name(level_c)
        pairs = [
            (peak, minutes)
            for record, peak in peaks
            for minutes in (told_by(record, name, UNKNOWN_MINUTES_SD),)
            if peak is not None and minutes is not None and (peak.needs_heat or peak.destroyed)
        ]
        one = _compared(level_c, pairs, level)
        if one is not None:
            found.append(one)
    return max(found, key=lambda one: one.log_gain, default=None)


def _compared(level_c: float, pairs: Sequence[tuple[WindowFiring, WindowFiring]], level: float) -> Soaking | None:
    if len(pairs) < LEAST_FIRINGS:
        return None
    spread_c, spread_min = (float(np.std([pair[side].peak_c for pair in pairs])) for side in (0, 1))
    if spread_c == 0 or spread_min == 0:
        return None
    peak = working_window([pair[0] for pair in pairs], level)
    minutes = working_window([pair[1] for pair in pairs], level, SCALE_C * spread_min / spread_c)
    if peak.log_evidence is None or minutes.log_evidence is None:
        return None
    return Soaking(level_c, len(pairs), minutes.log_evidence - peak.log_evidence, minutes)
