"""The tolerance classes that thermocouple wire is sold in: how far a new one may be off, and where that is promised.

Outside a class's range the standards promise nothing, and nothing is given here: no value is stretched beyond it.
"""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from builder.readings.curve import Floats


class Promise(NamedTuple):
    """What one class promises for some types: ± the larger of a fixed step and a share of the temperature."""

    types: str
    """Letters of the types."""
    step_c: float
    """Fixed part, °C."""
    share: float
    """Share of the temperature in °C (never of one in °F)."""
    low_c: float
    high_c: float
    """The range of the promise, °C, both ends in it."""
    beyond_c: float = 0.0
    """The share counts degrees beyond this temperature, added to the step (types R and S of class 1)."""
    from_memory: str = ""
    """What of it was not seen in print but remembered: `lower end`, `range`, or `all`; empty where all was seen."""


# IEC 60584-1:2013 (the tolerances formerly in 60584-2), and ASTM E230/E230M-12, table 1; both for new wire.
PROMISES: dict[str, tuple[Promise, ...]] = {
    "IEC 1": (
        Promise("KN", 1.5, 0.004, -40.0, 1000.0),
        Promise("J", 1.5, 0.004, -40.0, 750.0, from_memory="lower end"),
        Promise("E", 1.5, 0.004, -40.0, 800.0, from_memory="lower end"),
        Promise("T", 0.5, 0.004, -40.0, 350.0, from_memory="lower end"),
        Promise("RS", 1.0, 0.003, 0.0, 1600.0, beyond_c=1100.0, from_memory="lower end"),
    ),
    "IEC 2": (
        Promise("KN", 2.5, 0.0075, -40.0, 1200.0),
        Promise("J", 2.5, 0.0075, -40.0, 750.0, from_memory="lower end"),
        Promise("E", 2.5, 0.0075, -40.0, 900.0, from_memory="lower end"),
        Promise("T", 1.0, 0.0075, -40.0, 350.0, from_memory="lower end"),
        Promise("RS", 1.5, 0.0025, 0.0, 1600.0, from_memory="lower end"),
        Promise("B", 0.0, 0.0025, 600.0, 1700.0),
    ),
    "IEC 3": (
        Promise("KN", 2.5, 0.015, -200.0, 40.0),
        Promise("E", 2.5, 0.015, -200.0, 40.0, from_memory="all"),
        Promise("T", 1.0, 0.015, -200.0, 40.0, from_memory="all"),
        Promise("B", 4.0, 0.005, 600.0, 1700.0),
    ),
    "ASTM standard": (
        Promise("KN", 2.2, 0.0075, 0.0, 1260.0, from_memory="range"),
        Promise("J", 2.2, 0.0075, 0.0, 760.0, from_memory="range"),
        Promise("E", 1.7, 0.005, 0.0, 870.0, from_memory="range"),
        Promise("T", 1.0, 0.0075, 0.0, 370.0, from_memory="range"),
        Promise("RS", 1.5, 0.0025, 0.0, 1480.0, from_memory="lower end"),
        Promise("B", 0.0, 0.005, 870.0, 1700.0),
    ),
    "ASTM special": (
        Promise("KN", 1.1, 0.004, 0.0, 1260.0, from_memory="range"),
        Promise("J", 1.1, 0.004, 0.0, 760.0, from_memory="range"),
        Promise("E", 1.0, 0.004, 0.0, 870.0, from_memory="range"),
        Promise("T", 0.5, 0.004, 0.0, 370.0, from_memory="range"),
        Promise("RS", 0.6, 0.001, 0.0, 1480.0, from_memory="lower end"),
        Promise("B", 0.0, 0.0025, 870.0, 1700.0),
    ),
}
"""By the class's name as entries write it."""

REMEMBERED = {
    "range": "The ends of the range for this type are from memory of the standard and were not seen in print.",
    "all": "For this type the class is from memory of the standard and was not seen in print.",
}
"""What is said where that was not seen which readings of a fire lean on; a lower end, at 0 °C or below, is not."""

CLASS_NAMES = {
    "IEC 1": "IEC 60584-1 class 1",
    "IEC 2": "IEC 60584-1 class 2",
    "IEC 3": "IEC 60584-1 class 3",
    "ASTM standard": "ASTM E230 standard grade",
    "ASTM special": "ASTM E230 special grade",
}
"""How a page names each class."""


def promise_of(type: str, tolerance: str) -> Promise | None:
    """Give what a class promises for a type; None where it does not name it."""
    return next((one for one in PROMISES[tolerance] if type in one.types), None)


def tolerance_c(t_c: Floats | float, type: str, tolerance: str) -> Floats:
    """Give the ± that a class promises new wire at temperatures `t_c` [°C]; NaN where it promises nothing.

    max(step, share·|t|), or for types R and S of class 1 step + share·max(t − 1100 °C, 0).
    Source: IEC 60584-1:2013; ASTM E230/E230M-12, table 1.

    >>> float(tolerance_c(800.0, "K", "IEC 2")), float(tolerance_c(1100.0, "K", "IEC 1"))
    (6.0, nan)
    """
    celsius = np.asarray(t_c, dtype=np.float64)
    promise = promise_of(type, tolerance)
    if promise is None:
        return np.full_like(celsius, np.nan)
    if promise.beyond_c:
        width = promise.step_c + promise.share * np.maximum(celsius - promise.beyond_c, 0.0)
    else:
        width = np.maximum(promise.step_c, promise.share * np.abs(celsius))
    promised = (celsius >= promise.low_c) & (celsius <= promise.high_c)
    return np.where(promised, width, np.nan)
