"""The ends of a curve's readings that figure after figure asks for, worked out once."""

from __future__ import annotations

from dataclasses import dataclass

from builder.readings.curve import Floats


@dataclass(frozen=True, slots=True)
class Extremes:
    """How cold and how hot the readings are, over all curves and over all readings."""

    least: Floats
    """Shape (n,): the coldest that each reading is on any curve, °C."""
    most: Floats
    """Shape (n,): the hottest that each reading is on any curve, °C."""
    peak_c: Floats
    """Shape (...): the highest reading of each curve, °C."""
    peak_min: Floats
    """Shape (...): the minute of the first that is so high."""

    @classmethod
    def of(cls, minutes: Floats, celsius: Floats) -> Extremes:
        """Look through the readings of curves: minutes of shape (n,), temperatures in °C of shape (..., n)."""
        over = tuple(range(celsius.ndim - 1))
        least, most, peak = celsius.min(axis=over), celsius.max(axis=over), celsius.max(axis=-1)
        # Of the curves drawn from one log only a few readings are the highest on any.
        high = (most >= peak.min()).nonzero()[0]
        first, last = int(high[0]), int(high[-1])
        return cls(least, most, peak, minutes[first + celsius[..., first : last + 1].argmax(axis=-1)])
