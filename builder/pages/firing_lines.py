"""One line a firing: the form in which every list of the site shows it."""

from __future__ import annotations

import json
from dataclasses import dataclass
from datetime import date

from markupsafe import Markup

from builder.archive.archive import Record
from builder.charts.marks import fire_mark
from builder.charts.small_curve import small_curve
from builder.pages.addresses import firing_page
from builder.pages.conditions import condition_words
from builder.pages.facets import facet_values
from builder.pages.pots import mark_of
from builder.pages.sentences import outcome_words, piece_count
from builder.settings import Settings
from builder.ware.outcome import Verdict

MOST_MARKS = 10
"""Pots drawn on a line; the words beside them always count all."""
_MATERIALS = ("clay.body", "clay.temper", "surface.slip", "fuel.wood")


@dataclass(frozen=True, slots=True)
class FiringLine:
    """A firing as one line of a list."""

    number: int
    page: str
    title: str
    date: date
    potter: str
    method: str
    materials: str
    fire: Markup
    curve: Markup
    marks: tuple[Markup, ...]
    more_pots: int
    """Pots beyond those drawn."""
    pots: str
    """The pots with counts in words."""
    facets: str
    """Its values by facet as JSON, for the script that picks and sorts."""
    peak: str
    """Hottest reading in °C for sorting, for its range and for the table; empty where not known."""
    length: str
    """Minutes from lighting to the last reading, for sorting; empty where not known."""
    pieces: int
    judged: int
    """Pieces that could be judged by what the method counts."""
    successes: int
    place: str
    """As it was written, for the table; empty where not recorded."""
    ware: str


def firing_line(record: Record, settings: Settings) -> FiringLine:
    """Make one firing's line."""
    firing, method = record.firing, settings.methods[record.firing.method]
    curve = record.curves.ware_curve
    peak = record.heat.ware_figures.get("peak_c")
    marks = [mark_of(judged) for judged in record.pieces for _ in range(min(judged.piece.count, MOST_MARKS))]
    pieces = piece_count(record.pieces)
    materials = [word for path in _MATERIALS for word in condition_words(firing, path) if word.casefold() != "none"]
    return FiringLine(
        number=record.number,
        page=firing_page(firing.slug),
        title=firing.title,
        date=firing.date,
        potter=settings.potters[firing.potter].name,
        method=method.name,
        materials=", ".join(dict.fromkeys(materials)),
        fire=Markup(fire_mark(method.kind)),  # noqa: S704
        curve=Markup(small_curve(curve, (method.window_low_c, method.window_high_c))),  # noqa: S704
        marks=tuple(marks[:MOST_MARKS]),
        more_pots=max(0, pieces - MOST_MARKS),
        pots=outcome_words(record.pieces),
        facets=json.dumps(facet_values(record, settings), ensure_ascii=False, separators=(",", ":")),
        peak="" if peak is None or peak.value is None else f"{peak.value:.1f}",
        length="" if curve is None else f"{float(curve.minutes[-1]):.1f}",
        pieces=pieces,
        judged=pieces - piece_count(record.pieces, Verdict.UNJUDGED),
        successes=piece_count(record.pieces, Verdict.YES),
        place=firing.place or "",
        ware=firing.ware or "",
    )
