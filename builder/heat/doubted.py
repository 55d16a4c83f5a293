"""How far readings that are doubted and kept move the ends of a figure's interval.

While a probe stuck, the fire may have been anywhere; once it was drawn, the ware may have stayed hot. Both are bounds
and no probabilities, so they are added to the interval and not drawn.
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from builder.heat.main_fire import MainFire
from builder.readings.curve import Repair

Band = tuple[float, float]
"""The temperatures at which the minutes of a figure are counted, from and to, °C."""


def stuck_for(band: Band, faults: Sequence[Repair]) -> tuple[float, float]:
    """Return by how many minutes the time in a band, °C, may have been less, and more, while the probe stuck.

    The interval is widened by that: what stood in the band may have left it, what stood outside may have been in it.
    """
    less = more = 0.0
    for fault in faults:
        if fault.kind != "frozen" or fault.minute is None or fault.until is None or fault.celsius is None:
            continue
        stuck = fault.until - fault.minute
        if band[0] <= fault.celsius <= band[1]:
            less += stuck
        else:
            more += stuck
    return less, more


def last_before_drawn_c(fire: MainFire, faults: Sequence[Repair]) -> float | None:
    """Return the last reading before the probe was drawn from the fire, °C; None where it was not drawn.

    Times in a band that it had not fallen below by then have no upper end, and no more than its upper end is known of
    how fast the ware cooled.
    """
    for fault in faults:
        if fault.kind == "pulled out" and fault.minute is not None:
            after = int(np.searchsorted(fire.minutes, fault.minute))
            return float(fire.best[after - 1]) if after > 0 else None
    return None


def lone_floor_c(fire: MainFire, faults: Sequence[Repair]) -> float:
    """Return what the peak is by the other readings where the hottest one stands alone and is doubted, °C; else ∞."""
    if not any(fault.kind == "lone" for fault in faults):
        return float("inf")
    return float(np.delete(fire.best, fire.best.argmax()).max())
