"""Materials, places and years as ways in: an index each, and a page for each of their words with its firings."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass

from markupsafe import Markup

from builder.archive.archive import Archive, Rate, Record
from builder.archive.ways_in import WayIn, folded, ways_in
from builder.charts.interval_marks import rate_mark
from builder.charts.rate_chart import rate_chart
from builder.entries.fields import CONDITIONS
from builder.pages.addresses import material_page, place_page, year_page
from builder.pages.conditions import MATERIALS, condition_words
from builder.pages.firing_lines import line_list
from builder.pages.fragments import fill
from builder.pages.numbers import counted, in_words
from builder.pages.rate_words import method_name, rate_counts, rate_rows, rate_sentence
from builder.pages.sentences import piece_count, potters_counted
from builder.publish.site import Page
from builder.settings import Settings


@dataclass(frozen=True, slots=True)
class Way:
    """One word as an index shows it."""

    name: str
    page: str
    firings: str
    rate: str
    """Its rate with counts and interval."""
    mark: Markup
    """The rate drawn; empty where it is not known."""


@dataclass(frozen=True, slots=True)
class Group:
    """One field's words: a part of an index."""

    anchor: str
    heading: str
    ways: tuple[Way, ...]
    missing: str
    """In how many firings nothing was recorded, in a sentence; empty where it always was."""


@dataclass(frozen=True, slots=True)
class _Asked:
    """One field, how a firing answers it, and where its words' pages stand."""

    anchor: str
    heading: str
    section: str
    kind: str
    """What a single word is called in a sentence: `temper`, `place`."""
    words: Callable[[Record], Iterable[str]]
    page: Callable[[str], str]


def materials_pages(archive: Archive, settings: Settings) -> tuple[Page, ...]:
    """Make the index of materials and a page for each word of each."""
    sentence = "What the ware was made of and what it was fired with, word for word as the entries have it."
    return _pages("materials", "Materials", sentence, [_material(path) for path in MATERIALS], archive, settings)


def places_pages(archive: Archive, settings: Settings) -> tuple[Page, ...]:
    """Make the index of places and a page for each; no place is told nearer than the group's rule."""
    asked = _Asked("places", "Place", "places", "place", _places, place_page)
    sentence = f"Where the fires were, told no nearer than the group’s rule: {settings.place_rule.rstrip('.')}."
    return _pages("places", "Places", sentence, [asked], archive, settings)


def years_pages(archive: Archive, settings: Settings) -> tuple[Page, ...]:
    """Make the index of years and a page for each."""
    asked = _Asked("years", "Year", "years", "year", lambda record: [str(record.firing.date.year)], _year_page)
    return _pages("years", "Years", "The archive year by year, from its first fire on.", [asked], archive, settings)


def _material(path: str) -> _Asked:
    heading = CONDITIONS[path].heading
    return _Asked(
        path.rpartition(".")[2],
        heading,
        "materials",
        heading.lower(),
        lambda record: condition_words(record.firing, path),
        lambda word: material_page(path, word),
    )


def _places(record: Record) -> Iterable[str]:
    return [record.firing.place] if record.firing.place else []


def _year_page(year: str) -> str:
    return year_page(int(year))


def _pages(
    section: str, title: str, sentence: str, asked: Iterable[_Asked], archive: Archive, settings: Settings
) -> tuple[Page, ...]:
    page, groups, made = f"{section}/index", [], []
    for one in asked:
        found, missing = ways_in(archive, one.words, tuple(settings.methods))
        groups.append(_group(one, found, missing))
        made += [_way_page(one, way, found, settings) for way in found]
    lead = fill("ways_in.html", page, title=title, sentence=sentence, groups=groups)
    index = Page(path=page, title=title, description=sentence, lead=lead, section=section, kind="ways")
    return index, *made


def _group(asked: _Asked, found: tuple[WayIn, ...], missing: int) -> Group:
    ways = tuple(_way(asked, way) for way in found)
    words = f"Not recorded in {counted(missing, 'firing')}." if missing else ""
    return Group(asked.anchor, asked.heading, ways, words)


def _way(asked: _Asked, way: WayIn) -> Way:
    firings = counted(len(way.records), "firing")
    return Way(_name(asked, way), asked.page(way.word), firings, rate_counts(way.rate), _mark(way.rate))


def _mark(rate: Rate) -> Markup:
    if rate.rate is None or rate.low is None or rate.high is None:
        return Markup("")
    return Markup(rate_mark(rate.rate, rate.low, rate.high))  # noqa: S704


def _name(asked: _Asked, way: WayIn) -> str:
    return f"no {asked.kind}" if folded(way.word) == "none" else way.word


def _way_page(asked: _Asked, way: WayIn, found: tuple[WayIn, ...], settings: Settings) -> Page:
    page, name, sentence = asked.page(way.word), _name(asked, way), way_sentence(way)
    at = found.index(way)
    rates = (*way.by_method, *((way.rate,) if len(way.by_method) > 1 else ()))
    rows = [(method_name(rate, settings), rate) for rate in rates]
    lead = fill(
        "way_in.html",
        page,
        heading=asked.heading,
        name=name[0].upper() + name[1:],
        sentence=sentence,
        of_time=asked.section == "years",
        index=f"{asked.section}/index",
        anchor=asked.anchor,
        section=asked.section,
        chart=Markup(rate_chart(rows, "rates", " ".join(rate_sentence(rate, words) for words, rate in rows))),  # noqa: S704
        rows=rate_rows(rates, settings),
        list=line_list(way.records, settings),
        before=_way(asked, found[at - 1]) if at else None,
        after=_way(asked, found[at + 1]) if at + 1 < len(found) else None,
    )
    return Page(
        path=page,
        title=name if asked.section != "materials" else f"{asked.heading}: {name}",
        description=f"{asked.heading}: {name}. {sentence}",
        lead=lead,
        section=asked.section,
        kind="way",
    )


def way_sentence(way: WayIn) -> str:
    """Say how many fires and pieces a word stands for, by how many potters, when, and its rate."""
    years = [record.firing.date.year for record in way.records]
    span = f"in {years[0]}" if years[0] == years[-1] else f"from {years[0]} to {years[-1]}"
    pieces = sum(piece_count(record.pieces) for record in way.records)
    firings = len(way.records)
    words = f"{in_words(firings).capitalize()} {'firing' if firings == 1 else 'firings'} by "
    told = f"{words}{potters_counted(way.records)} {span}, with {counted(pieces, 'piece')}."
    return f"{told} {rate_sentence(way.rate)}"
