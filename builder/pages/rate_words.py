"""Success rates in sentences and rows: never without counts and interval, never in an order that they do not have."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from itertools import combinations

from builder.archive.archive import Archive, Rate
from builder.pages.numbers import counted, counted_share, percent, percent_range, plain
from builder.settings import Method, Settings

OVERALL = "success"
ALL_METHODS = "all"
WIDE = 0.5
"""An interval wider than half of the scale is called too wide to tell much."""


@dataclass(frozen=True, slots=True)
class RateRow:
    """One rate, as a table shows it."""

    name: str
    """Name of the method."""
    outcome: str
    """The outcome in words."""
    rate: Rate
    share: str
    interval: str
    design_effect: str
    effective_n: str


def rate_of(archive: Archive, method: str, outcome: str = OVERALL) -> Rate | None:
    """Find one rate; None where the archive has none."""
    return next((rate for rate in archive.rates if (rate.method, rate.outcome) == (method, outcome)), None)


def rates_by_outcome(archive: Archive, settings: Settings) -> dict[str, tuple[Rate, ...]]:
    """Group the methods' rates by outcome, overall success first, methods in the order of the settings."""
    order = list(settings.methods)
    found: dict[str, list[Rate]] = {OVERALL: []}
    for rate in archive.rates:
        if rate.method != ALL_METHODS:
            found.setdefault(rate.outcome, []).append(rate)
    return {
        outcome: tuple(sorted(rates, key=lambda rate: order.index(rate.method)))
        for outcome, rates in found.items()
        if rates
    }


def rate_rows(rates: Iterable[Rate], settings: Settings) -> tuple[RateRow, ...]:
    """Make rates into rows of a table."""
    return tuple(_row(rate, settings) for rate in rates)


def rate_sentence(rate: Rate, name: str) -> str:
    """Say one method's rate in a sentence, with counts, interval, and whether that is enough to tell."""
    if rate.rate is None or rate.low is None or rate.high is None:
        return f"{name}: no piece could be judged yet{_unjudged(rate)}."
    from_firings = f"from {counted(rate.firings, 'firing')}"
    words = (
        f"{name}: {rate.successes} of {counted(rate.pieces, 'judged piece')} {from_firings} succeeded, "
        f"{percent(rate.rate)}, likely {percent_range(rate.low, rate.high)}{_unjudged(rate)}."
    )
    return words + (" Too few firings to tell much." if is_wide(rate) else "")


def is_wide(rate: Rate) -> bool:
    """Tell whether an interval is too wide to say much."""
    return rate.low is None or rate.high is None or rate.high - rate.low > WIDE


def overlap_sentence(rates: Sequence[Rate], methods: Mapping[str, Method]) -> str:
    """Say which intervals lie apart, and that the others give no order; empty for fewer than two."""
    known = [rate for rate in rates if rate.low is not None and rate.high is not None]
    if len(known) < 2:
        return ""
    apart = [(a, b) for a, b in combinations(known, 2) if _apart(a, b)]
    if not apart:
        return "All intervals overlap: nothing here says that one method does better than another."
    pairs = "; ".join(f"{methods[a.method].name} and {methods[b.method].name}" for a, b in apart)
    return f"Intervals that lie wholly apart: {pairs}. All others overlap; do not read an order into them."


def outcome_heading(outcome: str) -> str:
    """Name an outcome for a heading: `Success by all that the method counts`, `Carbon`."""
    return "All that the method counts" if outcome == OVERALL else outcome.capitalize()


def method_name(rate: Rate, settings: Settings) -> str:
    """Name the method of a rate."""
    return "All methods" if rate.method == ALL_METHODS else settings.methods[rate.method].name


def _row(rate: Rate, settings: Settings) -> RateRow:
    known = rate.low is not None and rate.high is not None
    return RateRow(
        name=method_name(rate, settings),
        outcome=outcome_heading(rate.outcome),
        rate=rate,
        share=counted_share(rate.successes, rate.pieces, rate.low, rate.high),
        interval=percent_range(rate.low or 0.0, rate.high or 0.0) if known else "",
        design_effect="" if rate.design_effect is None else plain(rate.design_effect, 2),
        effective_n="" if rate.effective_n is None else plain(rate.effective_n, 1),
    )


def _apart(a: Rate, b: Rate) -> bool:
    ends = (a.low, a.high, b.low, b.high)
    if any(end is None for end in ends):
        return False
    low_a, high_a, low_b, high_b = (end or 0.0 for end in ends)
    return high_a < low_b or high_b < low_a


def _unjudged(rate: Rate) -> str:
    return f"; {counted(rate.unjudged, 'more piece')} could not be judged" if rate.unjudged else ""
