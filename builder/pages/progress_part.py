"""A potter's attempts at one ware: in order, with the rate so far, what was changed, and whether it really rises."""

from __future__ import annotations

from dataclasses import dataclass

from markupsafe import Markup

from builder.archive.progress import LEAST_ATTEMPTS, Attempt, Change, Progress
from builder.charts.rate_chart import rate_chart
from builder.entries.fields import CONDITIONS
from builder.pages.conditions import condition_value
from builder.pages.finding_words import chance_words, condition_label
from builder.pages.firing_lines import FiringLine, firing_line
from builder.pages.numbers import counted, in_words
from builder.pages.rate_words import rate_counts
from builder.pages.sentences import outcome_words
from builder.settings import Settings

MOST_ROWS = 24
"""Attempts in the chart of the running rate, the latest."""


@dataclass(frozen=True, slots=True)
class AttemptLine:
    """One attempt."""

    line: FiringLine
    succeeded: str
    """`2 of 3 judged pieces succeeded; 2 sound, 1 cracked`."""
    so_far: str
    """The rate over all attempts up to this one, with counts and interval."""
    changed: tuple[tuple[str, Markup, Markup], ...]
    """What was done otherwise than the time before: label, before, now."""


@dataclass(frozen=True, slots=True)
class ProgressPart:
    """All attempts at one ware."""

    anchor: str
    ware: str
    sentence: str
    chart: Markup
    attempts: tuple[AttemptLine, ...]


def progress_parts(all_of: tuple[Progress, ...], settings: Settings) -> tuple[ProgressPart, ...]:
    """Make a part for each ware that a potter has made twice or more."""
    return tuple(_part(one, place, settings) for place, one in enumerate(all_of, 1))


def trend_sentence(progress: Progress) -> str:
    """Say whether later attempts really did better, and how sure that is."""
    number = counted(len(progress.attempts), "attempt")
    if progress.p is None:
        return (
            f"{number}: too few to tell whether they get better. It takes {in_words(LEAST_ATTEMPTS)} "
            "with a piece that can be judged."
        )
    if progress.p > 0.05 or not progress.direction:
        return (
            f"{number}. Nothing tells that they get better or worse: shuffled whole, as clear an order comes by luck "
            f"(p = {chance_words(progress.p)})."
        )
    way = "Later ones did better" if progress.direction > 0 else "Later ones did worse"
    return (
        f"{number}. {way}: shuffled whole, so clear an order seldom comes by luck (p = {chance_words(progress.p)}). "
        "What changed along the way stands beside each; which of it did it cannot be told from this alone."
    )


def _part(progress: Progress, place: int, settings: Settings) -> ProgressPart:
    anchor = f"ware-{place}"
    rows = [(f"Up to the {_ordinal(at)}", one.so_far) for at, one in enumerate(progress.attempts, 1)][-MOST_ROWS:]
    sentence = trend_sentence(progress)
    words = f"The rate of success after each attempt. {sentence}"
    return ProgressPart(
        anchor,
        progress.ware,
        sentence,
        Markup(rate_chart(rows, anchor, words)) if rows[1:] else Markup(""),  # noqa: S704
        tuple(_attempt(one, settings) for one in progress.attempts),
    )


def _attempt(attempt: Attempt, settings: Settings) -> AttemptLine:
    good, judged = attempt.tally.count
    told = f"{good} of {counted(judged, 'judged piece')} succeeded" if judged else "no piece could be judged"
    return AttemptLine(
        firing_line(attempt.record, settings),
        f"{told}; {outcome_words(attempt.record.pieces)}",
        rate_counts(attempt.so_far),
        tuple(_change(one, settings) for one in attempt.changed),
    )


def _change(change: Change, settings: Settings) -> tuple[str, Markup, Markup]:
    if change.path not in CONDITIONS:
        names = (settings.methods[str(key)].name for key in (change.before, change.now))
        before, now = (Markup("{}").format(name) for name in names)
        return "Method", before, now
    before, now = (condition_value(value, written=False) for value in (change.before, change.now))
    return condition_label(change.path), before, now


def _ordinal(number: int) -> str:
    ending = "th" if 10 <= number % 100 <= 20 else {1: "st", 2: "nd", 3: "rd"}.get(number % 10, "th")
    return f"{number}{ending}"
