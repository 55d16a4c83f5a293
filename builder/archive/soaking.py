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


@dataclass(frozen=True, slots=True)
class SoakingQuestion:
    """What minutes and peaks are compared from, and nothing else."""

    peaks: tuple[WindowFiring | None, ...]
    """What each firing tells by its peak; None where it tells nothing."""
    minutes: tuple[tuple[float, tuple[WindowFiring | None, ...]], ...]
    """Temperatures, °C, each with what the same firings tell by their minutes above it."""
    level: float
    """The chance above which a temperature counts as inside the window."""

    @property
    def seen(self) -> object:
        """All of it."""
        return self.peaks, self.minutes, self.level

    def answer(self) -> Soaking | None:
        """Compare the best of the temperatures with the peak; None with too few firings, or where nothing can be."""
        return _compared(self)


def soaking_question(records: Sequence[Record], levels_c: Sequence[float], level: float) -> SoakingQuestion:
    """Return what minutes above each of `levels_c` that the peaks span are compared with the peaks from."""
    peaks = tuple(told_by(record) for record in records)
    tried = [told.peak_c for told in peaks if told is not None]
    spanned = [level_c for level_c in levels_c if tried and min(tried) - MARGIN_C <= level_c <= max(tried)]
    minutes = tuple((level_c, tuple(_minutes(record, level_c) for record in records)) for level_c in spanned)
    return SoakingQuestion(peaks, minutes, level)


def soaking(records: Sequence[Record], levels_c: Sequence[float], level: float) -> Soaking | None:
    """Compare the best of `levels_c` with the peak; None with too few firings, or where nothing can be compared."""
    return soaking_question(records, levels_c, level).answer()


def _minutes(record: Record, level_c: float) -> WindowFiring | None:
    return told_by(record, minutes_above_name(level_c), UNKNOWN_MINUTES_SD)


def _compared(asked: SoakingQuestion) -> Soaking | None:
    evidence: dict[tuple[WindowFiring, ...], float] = {}
    best: tuple[float, float, Pairs] | None = None
    for level_c, minutes_of in asked.minutes:
        pairs = _pairs(asked.peaks, minutes_of)
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
    window = working_window([minutes for _, minutes in pairs], asked.level, _scale(pairs) or SCALE_C)
    return Soaking(level_c, len(pairs), gain, window)


def _pairs(peaks: Sequence[WindowFiring | None], minutes_of: Sequence[WindowFiring | None]) -> Pairs:
    """What the firings with both known tell by their peak and by their minutes."""
    return [
        (peak, minutes)
        for peak, minutes in zip(peaks, minutes_of, strict=True)
        if peak is not None and minutes is not None and (peak.needs_heat or peak.destroyed)
    ]


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
