"""Success rates in sentences and rows: never without counts and interval, never in an order that they do not have."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from builder.archive.archive import Archive, Rate
from builder.archive.differences import Difference, differences
from builder.pages.numbers import counted, percent, percent_range, plain
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
    interval: str
    bounds: str
    """What the rate would be had all pieces that could not be judged failed, and had they all succeeded."""
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


def rate_sentence(rate: Rate, name: str = "", bounds: bool = False) -> str:
    """Say a rate in sentences after a name, or alone, with counts, interval, and whether that is enough to tell.

    With `bounds` also what the pieces that could not be judged might make of it.
    """
    named = f"{name}: " if name else ""
    if rate.rate is None or rate.low is None or rate.high is None:
        return f"{named or 'So far '}{_no_rate(rate)}."
    known = f"{named}{rate.successes} of {counted(rate.pieces, 'judged piece')} from {counted(rate.firings, 'firing')}"
    share = f"{percent(rate.rate)}, likely {percent_range(rate.low, rate.high)}"
    if not rate.unjudged:
        words = f"{known} succeeded, {share}."
    elif rate.outcome == OVERALL:
        words = f"{known} succeeded; {_unjudged(rate)}. With {_them(rate)} counted in part that makes {share}."
    else:
        words = f"{known} succeeded, {share}; {_unjudged(rate)}."
    words += _bounds(rate) if bounds else ""
    return words + (" Too few firings to tell much." if is_wide(rate) else "")


def rate_counts(rate: Rate) -> str:
    """Write a rate short, never without its counts and interval: `8 of 11 · 73 %, 43 to 90`."""
    unjudged = f", {rate.unjudged} not judged" if rate.unjudged else ""
    if rate.rate is None or rate.low is None or rate.high is None:
        return f"{rate.successes} of {rate.pieces}{unjudged} · rate not known" if rate.pieces else "none judged yet"
    interval = percent_range(rate.low, rate.high)
    return f"{rate.successes} of {rate.pieces}{unjudged} · {percent(rate.rate)}, {interval}"


def is_wide(rate: Rate) -> bool:
    """Tell whether an interval is too wide to say much."""
    return rate.low is None or rate.high is None or rate.high - rate.low > WIDE


def difference_sentence(rates: Sequence[Rate], methods: Mapping[str, Method]) -> str:
    """Say which methods can be told apart and by how much, and that the others give no order; empty for one alone."""
    compared = differences(rates)
    if not compared:
        return ""
    apart = [_apart(pair, methods) for pair in compared if pair.told_apart]
    if not apart:
        return "No two methods can be told apart: nothing here says that one does better than another."
    others = " No other two can be." if len(compared) > len(apart) else ""
    chance = f" Of {len(compared)} pairs compared, one in twenty would come out so by chance." if compared[1:] else ""
    return f"Told apart, in points of a hundred: {'; '.join(apart)}.{others}{chance}"


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
        interval=percent_range(rate.low or 0.0, rate.high or 0.0) if known else "",
        bounds=percent_range(rate.least or 0.0, rate.most or 0.0) if rate.unjudged else "",
        design_effect="" if rate.design_effect is None else plain(rate.design_effect, 2),
        effective_n="" if rate.effective_n is None else plain(rate.effective_n, 1),
    )


def _apart(pair: Difference, methods: Mapping[str, Method]) -> str:
    """Say a difference with the higher rate first: `Kiln above Pit by 37 (9 to 58)`."""
    first, second = methods[pair.first.method].name, methods[pair.second.method].name
    if pair.difference >= 0:
        low, high = pair.low, pair.high
    else:
        first, second, low, high = second, first, -pair.high, -pair.low
    return f"{first} above {second} by {plain(100 * abs(pair.difference))} ({percent_range(low, high)})"


def _no_rate(rate: Rate) -> str:
    if not rate.pieces:
        missed = f"; of {counted(rate.unjudged, 'piece')} an outcome that counts was not recorded"
        return f"no piece could be judged yet{missed if rate.unjudged else ''}"
    return (
        f"{counted(rate.pieces, 'piece')} failed and {rate.unjudged:,} could not be judged, none like "
        f"{_them(rate)} being recorded in full, so that no rate can be given"
    )


def _unjudged(rate: Rate) -> str:
    return f"{rate.unjudged:,} more could not be judged"


def _them(rate: Rate) -> str:
    return "it" if rate.unjudged == 1 else "them"


def _bounds(rate: Rate) -> str:
    """Say what the pieces that could not be judged could make of a rate at the most."""
    if not rate.unjudged or rate.least is None or rate.most is None:
        return ""
    least, most = percent(rate.least), percent(rate.most)
    who = "that piece" if rate.unjudged == 1 else "all of them"
    return f" Had {who} failed it would be {least}, had {'it' if rate.unjudged == 1 else 'they'} succeeded {most}."
