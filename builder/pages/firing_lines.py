"""One line a firing: the form in which every list of the site shows it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

from markupsafe import Markup

from builder.archive.archive import Record
from builder.charts.marks import fire_mark
from builder.charts.small_curve import small_curve
from builder.pages.addresses import firing_page
from builder.pages.conditions import condition_words
from builder.pages.pots import mark_of
from builder.pages.sentences import outcome_words, piece_count
from builder.settings import Settings

MOST_LINES = 60
"""Firings shown as whole lines in the list of a method, a potter, a material; those before them as titles."""
MOST_MARKS = 10
"""Pots drawn on a line; the words beside them always count all."""
_MATERIALS = ("clay.body", "clay.temper", "surface.slip", "fuel.wood")


@dataclass(frozen=True, slots=True)
class FiringLine:
    """A firing as one line of a list."""

    number: int
    page: str
    slug: str
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


@dataclass(frozen=True, slots=True)
class LineList:
    """The firings of a page that is about something else."""

    lines: tuple[FiringLine, ...]
    """The newest."""
    others: tuple[Record, ...]
    """Those before them."""


def line_list(records: Sequence[Record], settings: Settings, *, newest_first: bool = True) -> LineList:
    """Make the list of some firings, given oldest first: the newest as whole lines, those before them as titles."""
    newest, others = records[-MOST_LINES:], records[:-MOST_LINES]
    if newest_first:
        newest, others = newest[::-1], others[::-1]
    return LineList(tuple(firing_line(record, settings) for record in newest), tuple(others))


def firing_line(record: Record, settings: Settings) -> FiringLine:
    """Make one firing's line."""
    firing, method = record.firing, settings.methods[record.firing.method]
    return FiringLine(
        number=record.number,
        page=firing_page(firing.slug),
        slug=firing.slug,
        title=firing.title,
        date=firing.date,
        potter=settings.potters[firing.potter].named,
        method=method.name,
        materials=", ".join(materials_of(record)),
        fire=Markup(fire_mark(method.kind)),  # noqa: S704
        curve=line_curve(record, settings),
        marks=line_marks(record),
        more_pots=more_pots(record),
        pots=outcome_words(record.pieces),
    )


def line_curve(record: Record, settings: Settings) -> Markup:
    """Draw the small curve of a firing's line."""
    if record.sketch is not None:
        return Markup(record.sketch)  # noqa: S704
    method = settings.methods[record.firing.method]
    window = (method.window_low_c, method.window_high_c)
    return Markup(small_curve(record.curves.ware_curve, window))  # noqa: S704


def line_marks(record: Record) -> tuple[Markup, ...]:
    """Draw a firing's pots, at most `MOST_MARKS` of them."""
    marks = [mark_of(judged) for judged in record.pieces for _ in range(min(judged.piece.count, MOST_MARKS))]
    return tuple(marks[:MOST_MARKS])


def more_pots(record: Record) -> int:
    """Count the pots that are not drawn."""
    return max(0, piece_count(record.pieces) - MOST_MARKS)


def materials_of(record: Record) -> tuple[str, ...]:
    """Return the words for what a firing's ware was made of and fired with, each once."""
    words = [word for path in _MATERIALS for word in condition_words(record.firing, path) if word.casefold() != "none"]
    return tuple(dict.fromkeys(words))
