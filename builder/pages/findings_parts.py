"""What the page of results shows beyond rates: windows, pairs of methods, what to try next, published fires."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from markupsafe import Markup

from builder.archive.archive import Archive, Record
from builder.archive.findings import Findings
from builder.archive.literature import Beside
from builder.archive.planning import NextCondition, NextTemperature, next_temperature
from builder.archive.window import LEAST_FIRINGS, Finding, Window
from builder.archive.windows import looked_for
from builder.charts.interval_marks import difference_mark
from builder.heat.figures import FIGURE_KINDS
from builder.pages.conditions_page import conditions_sentence
from builder.pages.finding_words import (
    chance_words,
    condition_label,
    pair_sentence,
    side_words,
    sides_named,
    telling_sentence,
)
from builder.pages.marked_numbers import temperature
from builder.pages.numbers import STYLES, counted, in_words, listed, plain, with_unit
from builder.pages.window_part import WindowPart, window_part
from builder.settings import Settings

_FIGURES = {kind.name: kind for kind in FIGURE_KINDS}


@dataclass(frozen=True, slots=True)
class PairLine:
    """A pair of methods."""

    mark: Markup
    """The difference drawn."""
    words: str
    """Both counts, and what the interval of the difference allows."""
    telling: str
    """How many firings would tell them apart."""
    told_apart: bool


@dataclass(frozen=True, slots=True)
class PublishedRow:
    """A published finding beside the group's own firings."""

    figure: str
    words: str
    source: str
    own: str


def result_findings(archive: Archive, findings: Findings, settings: Settings) -> dict[str, object]:
    """Make everything that the fragment `results_findings.html` shows."""
    tellings = {(one.difference.first.method, one.difference.second.method): one for one in findings.tellings}
    pairs = [
        PairLine(
            Markup(difference_mark(pair.difference, pair.low, pair.high)),  # noqa: S704
            pair_sentence(pair, settings),
            telling_sentence(tellings.get((pair.first.method, pair.second.method))),
            pair.told_apart,
        )
        for pair in findings.differences
    ]
    methods, wares = method_windows(archive, findings, settings), ware_windows(archive, findings, settings)
    return {
        "method_windows": methods,
        "ware_windows": wares,
        "unlooked": [
            settings.methods[key].name for key in archive.by_method() if not looked_for(settings.methods[key])
        ],
        "few_wares": _few_wares(findings),
        "pairs": pairs,
        "conditions_sentence": conditions_sentence(findings),
        "plans": list(plan_lines(findings, settings)),
        "published": [_published(one) for one in findings.literature],
    }


def method_windows(archive: Archive, findings: Findings, settings: Settings) -> list[WindowPart]:
    """Make the window of each method that counts both kinds of outcome, in the order of the settings."""
    by_method = archive.by_method()
    return [
        window_part(findings.windows[key], by_method[key], key, settings.methods[key].name, findings.soakings.get(key))
        for key in settings.methods
        if key in findings.windows
    ]


def ware_windows(archive: Archive, findings: Findings, settings: Settings) -> list[WindowPart]:
    """Make the window of each ware about which something can be told."""
    return [
        window_part(window, _of_ware(archive.records, ware, settings), f"ware-{place}", _capital(ware))
        for place, (ware, window) in enumerate(findings.ware_windows.items(), 1)
        if window.grid_c.size
    ]


def _of_ware(records: Iterable[Record], ware: str, settings: Settings) -> list[Record]:
    return [
        record
        for record in records
        if (record.firing.ware or "").casefold() == ware.casefold()
        and looked_for(settings.methods[record.firing.method])
    ]


def _few_wares(findings: Findings) -> str:
    few = [ware for ware, window in findings.ware_windows.items() if not window.grid_c.size]
    return listed(few)


def plan_lines(findings: Findings, settings: Settings) -> Iterable[Markup]:
    """Say what to try next, each with its reason; never more than a suggestion."""
    hint = findings.next_condition
    if hint is not None:
        yield _condition_plan(hint, len(findings.tried))
    named = [(settings.methods[key].name, findings.windows[key]) for key in settings.methods if key in findings.windows]
    named += [(_capital(ware), one) for ware, one in findings.ware_windows.items() if one.finding is Finding.WINDOW]
    suggested = [(name, window, next_temperature(window)) for name, window in named]
    for name, window, temperature_next in suggested:
        if temperature_next is not None:
            yield _temperature_plan(name, window, temperature_next)
    without = [name for name, _, temperature_next in suggested if temperature_next is None]
    if without:
        least = in_words(LEAST_FIRINGS)
        yield Markup("{}").format(
            f"{listed(without)}: no temperature can be suggested before {least} firings with a known peak tell of "
            f"carbon and {least} of paint. Reading the peak and writing both down at every firing is the next step."
        )


def _capital(words: str) -> str:
    return words[:1].upper() + words[1:]


def _temperature_plan(name: str, window: Window, suggested: NextTemperature) -> Markup:
    where = "cool" if suggested.side == "low" else "hot"
    low, high = suggested.between_c
    reason = Markup("the {} end of the window is what is known least").format(where)
    if low is not None and high is not None:
        reason = Markup("{}: it may lie anywhere from {} to {}").format(
            reason, temperature(low, bare=True), temperature(high)
        )
    elif window.finding is Finding.WINDOW:
        reason = Markup("{}: it lies beyond what has been tried").format(reason)
    else:
        reason = Markup("there the firings so far say least whether it works, at the {} end").format(where)
    return Markup("{}: a firing that peaks near {}, with pieces that can be spared, because {}.").format(
        name, temperature(round(suggested.peak_c / 10) * 10), reason
    )


def _condition_plan(hint: NextCondition, tried: int) -> Markup:
    effect = hint.tried.effect
    sides = ""
    if effect is not None:
        with_it, without = sides_named(hint.tried)
        sides = f" ({with_it}: {side_words(effect.having)}; {without}: {side_words(effect.lacking)})"
    reach = (
        f" If the difference is what it now seems, {counted(hint.firings, 'firing')} on either side would tell."
        if hint.firings is not None
        else ""
    )
    return Markup("{}").format(
        f"{condition_label(hint.tried.condition)}: vary this one thing and leave the rest as it was, because of all "
        f"that a potter can choose it gives the strongest hint that does not stand yet{sides}: p = "
        f"{chance_words(hint.tried.p)} among {counted(tried, 'condition')} tried.{reach}"
    )


def _published(beside: Beside) -> PublishedRow:
    kind = _FIGURES[beside.published.figure]
    return PublishedRow(kind.label, beside.published.words, beside.published.source, _own_words(beside))


def _own_words(beside: Beside) -> str:
    own, kind = beside.own, _FIGURES[beside.published.figure]
    if own is None:
        return "No such firing here has this figure."
    style = STYLES[kind.quantity]
    decimals = style.most_decimals if own.highest < 10 else 0
    low, middle, high = (plain(value, decimals) for value in (own.lowest, own.middle, own.highest))
    low_high = f"{low} to {with_unit(high, style.unit)}"
    words = f"{counted(own.firings, 'firing')}: {low_high}, half of them below {with_unit(middle, style.unit)}"
    return words + ("" if own.inside is None else f"; {own.inside} within the published range") + "."
