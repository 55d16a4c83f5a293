"""All firings put together: one record a firing, and what they say as a whole."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from builder.checks.firing import Firing
from builder.heat.figures import FiringHeat
from builder.readings.curve import FiringCurves
from builder.ware.outcome import JudgedPiece


@dataclass(frozen=True, slots=True)
class Record:
    """One firing with all that was worked out from it alone."""

    number: int
    """Its place in the archive by date (then slug), from 1: short enough to say across a fire."""
    firing: Firing
    curves: FiringCurves
    heat: FiringHeat
    pieces: tuple[JudgedPiece, ...]


@dataclass(frozen=True, slots=True)
class Rate:
    """A success rate with what it is worth."""

    method: str
    """Key of the method; `all` for the whole archive."""
    outcome: str
    """`success` (over all outcomes), or one outcome."""
    firings: int
    """Firings with at least one judged piece."""
    pieces: int
    """Judged pieces."""
    successes: int
    unjudged: int
    """Pieces left out because the outcome was not recorded."""
    rate: float | None
    """None where no piece was judged."""
    low: float | None
    high: float | None
    design_effect: float | None
    effective_n: float | None
    calculation: str
    """Name of the method of calculation."""


@dataclass(frozen=True, slots=True)
class Archive:
    """All firings, newest last, and the rates over them."""

    records: tuple[Record, ...]
    rates: tuple[Rate, ...]
    """For each method that has firings: `success`, then each outcome it counts; last the whole archive."""
    correlation: float
    """ρ of `statistics`: how far pieces of one fire share its luck."""
    correlation_firings: int
    """How many firings it was estimated from beyond one a method (J)."""

    def by_method(self) -> Mapping[str, tuple[Record, ...]]:
        """Records by method, in the order of the records."""
        found: dict[str, list[Record]] = {}
        for record in self.records:
            found.setdefault(record.firing.method, []).append(record)
        return {method: tuple(records) for method, records in found.items()}
