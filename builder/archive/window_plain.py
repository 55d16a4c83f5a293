"""The plain reference beside the working window: Firth's fits, and whether heat works the wrong way round."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from builder.archive.firth import FirthFit, firth
from builder.archive.window_curves import WindowFiring

PLAIN_MIDDLE_C, PLAIN_SCALE_C = 770.0, 100.0
"""The plain fits stand on (peak − 770 °C)/100 °C."""
WRONG_WAY_Z = 1.645
"""Standard errors beyond which a slope of the wrong sign is spoken of: a rule, 5 % of one side."""
_WRONG_WAY = (
    "What needs heat came out worse in the hotter firings. The window takes for granted that heat helps it, so read "
    "it with doubt, and look for what else differed between the cool and the hot firings.",
    "What heat destroys came out better in the hotter firings. The window takes for granted that heat harms it, so "
    "read it with doubt, and look for what else differed between the cool and the hot firings.",
)


def plain_fits(told: Sequence[WindowFiring]) -> tuple[FirthFit | None, FirthFit | None]:
    """Fit either kind of outcome plainly, each piece by itself; None where fewer than two peaks tell of it."""
    return _plain([(one.peak_c, one.needs_heat) for one in told]), _plain([(one.peak_c, one.destroyed) for one in told])


def _plain(told: Sequence[tuple[float, tuple[int, int] | None]]) -> FirthFit | None:
    known = [(peak, *count) for peak, count in told if count is not None]
    if len({peak for peak, _, _ in known}) < 2:
        return None
    peak, good, recorded = np.array(known, dtype=np.float64).T
    return firth(np.column_stack([np.ones(len(peak)), (peak - PLAIN_MIDDLE_C) / PLAIN_SCALE_C]), good, recorded)


def wrong_way(plain: tuple[FirthFit | None, FirthFit | None]) -> tuple[str, ...]:
    """Warn where a plain fit runs against what heat should do, by more than its own doubt."""
    found = []
    for fit, sign, words in zip(plain, (1, -1), _WRONG_WAY, strict=True):
        if fit is not None and -sign * fit.coefficients[1] > WRONG_WAY_Z * fit.standard_errors[1]:
            found.append(words)
    return tuple(found)
