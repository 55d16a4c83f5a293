"""The part of a page that shows a working window: a sentence, the chart, the ends, and the firings behind it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from markupsafe import Markup

from builder.archive.archive import Record
from builder.archive.soaking import Soaking
from builder.archive.window import Finding, Window
from builder.archive.windows import DESTROYED_BY_HEAT, NEEDS_HEAT, PEAK, outcome_count, told_by
from builder.charts.window_chart import window_chart
from builder.charts.window_marks import FiringPots
from builder.heat.figures import Figure, minutes_above_name
from builder.pages.addresses import firing_page
from builder.pages.marked_numbers import marked_figure
from builder.pages.window_words import (
    best_words,
    end_words,
    plain_words,
    share_words,
    soaking_sentence,
    window_sentence,
)
from builder.ware.outcome import JudgedPiece, Verdict

LOST = (
    (NEEDS_HEAT, "carbon stayed in"),
    (DESTROYED_BY_HEAT, "paint did not hold"),
    ("survival", "cracked, spalled or broken"),
    ("ring", "dull ring"),
)
"""Ways of failing in the order in which a pot that failed twice is counted: those by heat first."""


@dataclass(frozen=True, slots=True)
class WindowRow:
    """One firing in the table beside the chart."""

    page: str
    number: int
    title: str
    peak: Markup
    carbon: str
    paint: str
    well: str


@dataclass(frozen=True, slots=True)
class WindowPart:
    """All that a page shows of one window."""

    anchor: str
    heading: str
    sentence: Markup
    best: Markup
    warnings: tuple[str, ...]
    chart: Markup
    found: bool
    ends: tuple[tuple[str, Markup], ...]
    """Label and words of what was found, as a table."""
    rows: tuple[WindowRow, ...]
    heat: str
    """What the firings are ordered by: `Hottest`, `Minutes above 700 °C`."""
    plain: tuple[str, ...]
    unjudged: int
    """Pieces that could not be judged, and so are no strokes."""
    soaking: Markup | None = None
    minutes: WindowPart | None = None
    """The same against minutes above a temperature, where that explains more."""


def window_part(
    window: Window, records: Sequence[Record], key: str, heading: str, soaking: Soaking | None = None
) -> WindowPart:
    """Make the part for a method or a ware; `key` makes its ids unique on the page."""
    part = _part(window, records, key, heading, PEAK, "°C")
    if soaking is None:
        return part
    minutes = None
    if soaking.explains_more:
        figure = minutes_above_name(soaking.level_c)
        name = f"Minutes above {soaking.level_c:g} °C"
        minutes = _part(soaking.window, records, f"{key}-minutes", name, figure, "min")
    return replace(part, soaking=soaking_sentence(soaking), minutes=minutes)


def _part(window: Window, records: Sequence[Record], key: str, heading: str, figure: str, unit: str) -> WindowPart:
    told = [record for record in records if _tells(record, figure)]
    pots = [_pots(record, figure) for record in told]
    sentence, best = window_sentence(window, unit), best_words(window, unit)
    words = Markup("{} {} Drawn from {} firings, listed in the table below.").format(sentence, best, len(told))
    unjudged = sum(
        judged.piece.count for record in told for judged in record.pieces if judged.success is Verdict.UNJUDGED
    )
    return WindowPart(
        anchor=f"window-{key}",
        heading=heading,
        sentence=sentence,
        best=best,
        warnings=window.warnings,
        chart=Markup(window_chart(window, pots, f"window-{key}", words, unit)),  # noqa: S704
        found=window.finding is Finding.WINDOW,
        ends=_ends(window, unit),
        rows=tuple(_row(record, figure) for record in sorted(told, key=lambda one: _heat(one, figure).value or 0.0)),
        heat="Hottest" if unit == "°C" else heading,
        plain=plain_words(window) if unit == "°C" else (),
        unjudged=unjudged,
    )


def _ends(window: Window, unit: str) -> tuple[tuple[str, Markup], ...]:
    if window.finding is not Finding.WINDOW:
        return ()
    rows = [("Low end", end_words(window.low, unit)), ("High end", end_words(window.high, unit))]
    best = best_words(window, unit)
    rows.append(("Best", best if best else Markup("cannot be told")))
    rows.append(("Counts as working", Markup("{}").format(share_words(window.level))))
    return tuple(rows)


def _tells(record: Record, figure: str) -> bool:
    told = told_by(record, figure)
    return told is not None and bool(told.needs_heat or told.destroyed)


def _heat(record: Record, figure: str) -> Figure:
    return record.figure(figure) or Figure(None)


def _pots(record: Record, figure: str) -> FiringPots:
    heat = _heat(record, figure)
    lost = {words: 0 for _, words in LOST}
    for judged in record.pieces:
        why = _why_lost(judged)
        if why:
            lost[why] += judged.piece.count
    well = sum(judged.piece.count for judged in record.pieces if judged.success is Verdict.YES)
    return FiringPots(heat.value or 0.0, heat.low, heat.high, well, lost)


def _why_lost(judged: JudgedPiece) -> str:
    return next((words for outcome, words in LOST if judged.by_outcome.get(outcome) is Verdict.NO), "")


def _row(record: Record, figure: str) -> WindowRow:
    yes = sum(judged.piece.count for judged in record.pieces if judged.success is Verdict.YES)
    judged = sum(judged.piece.count for judged in record.pieces if judged.success is not Verdict.UNJUDGED)
    heat = _heat(record, figure)
    return WindowRow(
        page=firing_page(record.firing.slug),
        number=record.number,
        title=record.firing.title,
        peak=marked_figure(heat, "temperature" if figure == PEAK else "time"),
        carbon=_of(outcome_count(record, NEEDS_HEAT)),
        paint=_of(outcome_count(record, DESTROYED_BY_HEAT)),
        well=_of((yes, judged) if judged else None),
    )


def _of(count: tuple[int, int] | None) -> str:
    return "not recorded" if count is None else f"{count[0]} of {count[1]}"
