"""All firings put together: one record a firing, and what they say as a whole."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from datetime import date

from builder.archive.clusters import Correlation, FiringCount, correlation, design_effect
from builder.archive.proportions import agresti_coull
from builder.archive.tallies import Shares, Tally, share_of, shares, tally, tally_of
from builder.checks.firing import Firing
from builder.heat.figures import Figure, FiringHeat
from builder.readings.curve import FiringCurves
from builder.settings import Settings
from builder.ware.outcome import JudgedPiece

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
    sketch: str | None = None
    """The small curve of lists, as SVG, where it is drawn already."""
    outline: str = ""
    """Digest of all of it but its number and its story; empty where nobody asks for it."""

    @property
    def slug(self) -> str:
        """Name of the firing's folder: its identity and its address on the site."""
        return self.firing.slug

    @property
    def title(self) -> str:
        """The firing's title."""
        return self.firing.title

    @property
    def date(self) -> date:
        """Day of the firing."""
        return self.firing.date

    def figure(self, name: str) -> Figure | None:
        """Give one figure of the probe that stands for the ware; None where there is none of this name."""
        return self.heat.ware_figures.get(name)

    def opened(self) -> Record:
        """Give the whole record, where some of it is held packed."""
        return self

    def apart(self) -> Record:
        """Give a record of which nothing is held that was unpacked."""
        return self


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
    """Pieces that could not be judged because an outcome was not recorded."""
    rate: float | None
    """From 0 to 1, the unjudged pieces counted in part as `tallies` says; None where it is not known."""
    low: float | None
    high: float | None
    design_effect: float | None
    effective_n: float | None
    calculation: str
    """Name of the method of calculation."""

    @property
    def least(self) -> float | None:
        """What the rate would be had every unjudged piece failed; None without a piece."""
        pieces = self.pieces + self.unjudged
        return self.successes / pieces if pieces else None

    @property
    def most(self) -> float | None:
        """What the rate would be had every unjudged piece succeeded."""
        pieces = self.pieces + self.unjudged
        return (self.successes + self.unjudged) / pieces if pieces else None


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
    shares: Mapping[str, Shares] = field(default_factory=dict)
    """By method: what a piece that could not be judged counts for, by what was not recorded of it."""

    def tally(self, record: Record) -> Tally:
        """Count a firing's pieces by all that its method counts."""
        return tally(record.pieces, self.shares.get(record.firing.method, {}))

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
    of_method = {key: shares(judged for record in found for judged in record.pieces) for key, found in present.items()}
    tallies = {
        (key, outcome): [_tally(record, outcome, of_method) for record in found]
        for key, found in present.items()
        for outcome in (SUCCESS, *settings.methods[key].success)
    }
    shared = {
        outcome: correlation(_judged(found) for (_, name), found in tallies.items() if name == outcome)
        for outcome in dict.fromkeys(outcome for _, outcome in tallies)
    }
    rates = [_rate(key, outcome, found, shared[outcome]) for (key, outcome), found in tallies.items()]
    whole = shared.get(SUCCESS, correlation(()))
    rates.append(_rate(ALL_METHODS, SUCCESS, [_tally(record, SUCCESS, of_method) for record in ordered], whole))
    return Archive(ordered, tuple(rates), whole.rho, whole.firings, of_method)


def rate_over(tallies: Sequence[Tally], archive: Archive, method: str = ALL_METHODS) -> Rate:
    """Work out the rate of success among some of an archive's firings, tallied by it, at its own correlation."""
    return _rate(method, SUCCESS, tallies, Correlation(archive.correlation, archive.correlation_firings))


def _tally(record: Record, outcome: str, of_method: Mapping[str, Shares]) -> Tally:
    if outcome == SUCCESS:
        return tally(record.pieces, of_method[record.firing.method])
    return tally_of(record.pieces, outcome)


def _rate(method: str, outcome: str, tallies: Sequence[Tally], shared: Correlation) -> Rate:
    """Work out one rate: Agresti and Coull's limits on the judged pieces over their design effect."""
    firings = _judged(tallies)
    pieces, successes = sum(n for _, n in firings), sum(x for x, _ in firings)
    counts = (method, outcome, len(firings), pieces, successes, sum(one.unjudged for one in tallies))
    rate = share_of(tallies, outcome == SUCCESS) if pieces else None
    if rate is None:
        return Rate(*counts, None, None, None, None, None, CALCULATION)
    effect = design_effect(firings, shared.rho)
    low, high = agresti_coull(rate, pieces / effect)
    return Rate(*counts, rate, low, high, effect, pieces / effect, CALCULATION)


def _judged(tallies: Sequence[Tally]) -> list[FiringCount]:
    """Return the successes and the judged pieces of each firing that has any."""
    return [one.count for one in tallies if one.judged]
