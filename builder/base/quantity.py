"""A quantity as a potter writes it: `785 °C`, `1,450 °F`, `2 lb 3 oz`, `1 h 20 min`, `about 1/4 in`."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Quantity:
    """A number with its unit, as written and as the program reckons with it."""

    raw: str
    """The words as they were written."""
    kind: str
    """What is measured: a key of `units.KINDS` (`temperature`, `time`, `mass` …)."""
    value: float
    """The number in the unit it was written in (the middle of a range)."""
    unit: str
    """The unit it was written in, by its standard symbol; of `2 lb 3 oz` the first."""
    canonical: float
    """The value in the kind's own unit: °C, minutes, kilograms, millimetres, percent, km/h, mV."""
    low: float
    """Lower end of a range in the canonical unit; equal to `canonical` where no range was written."""
    high: float
    """Upper end of a range in the canonical unit."""
    approximate: bool = False
    """Written with `about`, `ca.`, `~` or the like."""
