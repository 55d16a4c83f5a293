"""Firings like this one, on a firing's page: which, and in what they agree."""

from __future__ import annotations

from dataclasses import dataclass

from markupsafe import Markup

from builder.archive.archive import Archive, Record
from builder.archive.likeness import Alike, Best
from builder.entries.fields import CONDITIONS
from builder.heat.figures import FIGURE_KINDS
from builder.pages.addresses import firing_page
from builder.pages.conditions import condition_words
from builder.pages.firing_lines import line_curve
from builder.pages.numbers import listed, percent
from builder.pages.sentences import outcome_words
from builder.settings import Settings

MOST_REASONS = 4
_OWN = {"method": "method", "ware": "ware"}
_FIGURES = {kind.name: kind.label for kind in FIGURE_KINDS}


@dataclass(frozen=True, slots=True)
class LikeLine:
    """One firing like the page's own."""

    number: int
    slug: str
    page: str
    title: str
    curve: Markup
    pots: str
    """The pots with counts in words."""
    likeness: str
    why: str
    """In what they agree, those first in which few others do."""


def like_lines(record: Record, archive: Archive, alike: Best, settings: Settings) -> tuple[LikeLine, ...]:
    """Return the firings most like one, best first; none where too little was recorded of it."""
    place = record.number - 1
    if place >= len(alike):
        return ()
    return tuple(_line(one, archive.records[one.place].apart(), settings) for one in alike[place])


def _line(alike: Alike, other: Record, settings: Settings) -> LikeLine:
    told = [_reason(name, other) for name in alike.shared[:MOST_REASONS]]
    why = f"alike in {listed(told)}" if told else "no one thing alike, but little far apart"
    likeness = f"{percent(alike.likeness)} alike over {alike.compared} things recorded of both"
    return LikeLine(
        number=other.number,
        slug=other.firing.slug,
        page=firing_page(other.firing.slug),
        title=other.firing.title,
        curve=line_curve(other, settings),
        pots=outcome_words(other.pieces),
        likeness=likeness,
        why=why,
    )


def _reason(name: str, other: Record) -> str:
    if name in _OWN:
        return _OWN[name]
    label = CONDITIONS[name].heading if name in CONDITIONS else _FIGURES.get(name, name)
    label = label[0].lower() + label[1:]
    words = condition_words(other.firing, name)
    return f"{label} ({', '.join(words)})" if words else label
