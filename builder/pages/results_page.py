"""What all firings say together: rates by method and by outcome, and how to read them with care."""

from __future__ import annotations

from dataclasses import dataclass

from markupsafe import Markup

from builder.archive.archive import Archive, Rate
from builder.archive.findings import NO_FINDINGS, Findings
from builder.charts.rate_chart import rate_chart
from builder.pages.findings_parts import result_findings
from builder.pages.fragments import fill
from builder.pages.numbers import counted, percent, percent_range, plain
from builder.pages.rate_words import (
    ALL_METHODS,
    OVERALL,
    difference_sentence,
    is_wide,
    method_name,
    outcome_heading,
    rate_of,
    rate_rows,
    rate_sentence,
    rates_by_outcome,
)
from builder.pages.rules import rule_words
from builder.publish.site import Page
from builder.settings import Settings


@dataclass(frozen=True, slots=True)
class _Part:
    """One outcome with its chart."""

    anchor: str
    heading: str
    chart: Markup
    apart: str
    """Which methods can be told apart, in a sentence."""


def results_page(archive: Archive, settings: Settings, findings: Findings = NO_FINDINGS) -> Page:
    """Make the page of results."""
    page, sentence = "results", results_sentence(archive)
    by_outcome = rates_by_outcome(archive, settings)
    overall = rate_of(archive, ALL_METHODS)
    groups = [(outcome_heading(outcome), rate_rows(rates, settings)) for outcome, rates in by_outcome.items()]
    if overall and archive.records:
        groups.append(("The whole archive", rate_rows([overall], settings)))
    lead = fill(
        "results.html",
        page,
        sentence=sentence,
        parts=[_part(outcome, group, settings) for outcome, group in by_outcome.items()],
        groups=groups,
        untold=any(rate.unjudged for rate in by_outcome.get(OVERALL, ())),
        rules=[(settings.methods[key].name, rule_words(settings.methods[key])) for key in archive.by_method()],
        correlation=plain(archive.correlation, 2),
        correlation_firings=archive.correlation_firings,
        **result_findings(archive, findings, settings),
        few=[method_name(rate, settings) for rate in by_outcome.get(OVERALL, ()) if is_wide(rate)],
    )
    return Page(
        path=page,
        title="What the fires say",
        description=sentence,
        lead=lead,
        section="results",
        kind="results",
        searched=False,
    )


def results_sentence(archive: Archive) -> str:
    """Say the whole in a sentence: firings, pieces, how many succeeded, between what."""
    firings = counted(len(archive.records), "firing")
    rate = rate_of(archive, ALL_METHODS)
    pieces = sum(judged.piece.count for record in archive.records for judged in record.pieces)
    whole = f"{firings} and {counted(pieces, 'piece')}."
    if rate is None or rate.rate is None or rate.low is None or rate.high is None:
        return f"{whole} None of the pieces can be judged yet."
    known = f"Of the {rate.pieces:,} that can be judged, {rate.successes:,} came out as their method asks"
    share = f"{percent(rate.rate)}, likely {percent_range(rate.low, rate.high)} in such fires"
    if not rate.unjudged:
        return f"{whole} {known}: {share}."
    others = "other" if rate.unjudged == 1 else f"{rate.unjudged:,} others"
    return f"{whole} {known}. With the {others} counted in part that makes {share}."


def _part(outcome: str, rates: tuple[Rate, ...], settings: Settings) -> _Part:
    heading = outcome_heading(outcome)
    rows = [(method_name(rate, settings), rate) for rate in rates]
    words = " ".join(rate_sentence(rate, name) for name, rate in rows)
    chart = Markup(rate_chart(rows, f"rates-{outcome}", words))  # noqa: S704
    return _Part(f"rates-by-{outcome}", heading, chart, difference_sentence(rates, settings.methods))
