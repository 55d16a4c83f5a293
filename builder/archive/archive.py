"""All firings put together: one record a firing, and what they say as a whole."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace

from builder.archive.clusters import Correlation, FiringCount, correlation, design_effect
from builder.archive.proportions import agresti_coull
from builder.checks.firing import Firing
from builder.heat.figures import FiringHeat
from builder.readings.curve import FiringCurves
from builder.settings import Settings
from builder.ware.outcome import JudgedPiece, Verdict

SUCCESS = "success"
"""The outcome of a rate over all outcomes that the method counts."""
ALL_METHODS = "all"
"""The method of the rate over the whole archive, each piece judged by its own method."""
CALCULATION = "Agresti-Coull limits on the effective number of pieces"
"""Name of the method of calculation of a rate's interval."""


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
    """Successes of judged pieces, from 0 to 1; None where no piece was judged."""
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

    def untold(self) -> Archive:
        """The same without the stories, which no page but a firing's own shows and nothing is reckoned from."""
        return replace(self, records=tuple(replace(one, firing=replace(one.firing, story="")) for one in self.records))

    def by_method(self) -> Mapping[str, tuple[Record, ...]]:
        """Records by method, in the order of the records."""
        found: dict[str, list[Record]] = {}
        for record in self.records:
            found.setdefault(record.firing.method, []).append(record)
        return {method: tuple(records) for method, records in found.items()}


def gather(records: Sequence[Record], settings: Settings) -> Archive:
    """Put all firings together, with the rates of each method that has any and of the whole archive.

    Each outcome has its own correlation, worked out over all methods that count it; the archive's is that of success.
    The whole archive's rate takes all firings as one group: how far methods differ then widens its interval.
    """
    ordered = tuple(sorted(records, key=lambda record: record.number))
    by_method = {key: [record for record in ordered if record.firing.method == key] for key in settings.methods}
    present = {key: found for key, found in by_method.items() if found}
    outcomes = {key: (SUCCESS, *settings.methods[key].success) for key in present}
    shared = {
        outcome: correlation(_judged(found, outcome) for key, found in present.items() if outcome in outcomes[key])
        for outcome in dict.fromkeys(name for names in outcomes.values() for name in names)
    }
    rates = [_rate(key, outcome, found, shared[outcome]) for key, found in present.items() for outcome in outcomes[key]]
    whole = shared.get(SUCCESS, correlation(()))
    rates.append(_rate(ALL_METHODS, SUCCESS, ordered, whole))
    return Archive(ordered, tuple(rates), whole.rho, whole.firings)


def rate_among(records: Sequence[Record], archive: Archive, method: str = ALL_METHODS) -> Rate:
    """Work out the rate of success among some of an archive's firings, at the archive's own correlation."""
    return _rate(method, SUCCESS, records, Correlation(archive.correlation, archive.correlation_firings))


def _rate(method: str, outcome: str, records: Sequence[Record], shared: Correlation) -> Rate:
    """Work out one rate: Agresti and Coull's limits on the judged pieces over their design effect."""
    firings = _judged(records, outcome)
    pieces, successes = sum(n for _, n in firings), sum(x for x, _ in firings)
    unjudged = sum(
        judged.piece.count
        for record in records
        for judged in record.pieces
        if _verdict(judged, outcome) is Verdict.UNJUDGED
    )
    if pieces == 0:
        return Rate(method, outcome, 0, 0, 0, unjudged, None, None, None, None, None, CALCULATION)
    effect = design_effect(firings, shared.rho)
    rate, effective = successes / pieces, pieces / effect
    low, high = agresti_coull(rate, effective)
    return Rate(
        method, outcome, len(firings), pieces, successes, unjudged, rate, low, high, effect, effective, CALCULATION
    )


def _judged(records: Iterable[Record], outcome: str) -> list[FiringCount]:
    """Return the successes and the judged pieces of each firing that has any."""
    counts = (_count(record, outcome) for record in records)
    return [(successes, pieces) for successes, pieces in counts if pieces]


def _count(record: Record, outcome: str) -> FiringCount:
    verdicts = [(_verdict(judged, outcome), judged.piece.count) for judged in record.pieces]
    successes = sum(count for verdict, count in verdicts if verdict is Verdict.YES)
    failures = sum(count for verdict, count in verdicts if verdict is Verdict.NO)
    return successes, successes + failures


def _verdict(judged: JudgedPiece, outcome: str) -> Verdict | None:
    """Return a piece's verdict on an outcome; None where it cannot have that outcome."""
    return judged.success if outcome == SUCCESS else judged.by_outcome.get(outcome)
