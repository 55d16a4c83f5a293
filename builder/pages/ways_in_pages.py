"""Materials, places and years as ways in: an index each, and a page for each of their words with its firings."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from functools import partial

from markupsafe import Markup

from builder.archive.archive import Archive, Rate, Record
from builder.archive.ways_in import WayIn, folded, ways_in
from builder.charts.interval_marks import rate_mark
from builder.charts.rate_chart import rate_chart
from builder.entries.fields import CONDITIONS
from builder.pages.addresses import material_page, place_page, year_page
from builder.pages.conditions import MATERIALS, condition_words
from builder.pages.drafts import Draft, lines_of
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
class _Field:
    """One field, as its words' pages name it."""

    anchor: str
    heading: str
    section: str
    kind: str
    """What a single word is called in a sentence: `temper`, `place`."""


@dataclass(frozen=True, slots=True)
class _Asked:
    """One field, how a firing answers it, and where its words' pages stand."""

    field: _Field
    words: Callable[[Record], Iterable[str]]
    page: Callable[[str], str]


def materials_pages(archive: Archive, settings: Settings) -> tuple[Draft, ...]:
    """Draft the index of materials and a page for each word of each."""
    sentence = "What the ware was made of and what it was fired with, word for word as the entries have it."
    return _pages("materials", "Materials", sentence, [_material(path) for path in MATERIALS], archive, settings)


def places_pages(archive: Archive, settings: Settings) -> tuple[Draft, ...]:
    """Draft the index of places and a page for each; no place is told nearer than the group's rule."""
    asked = _Asked(_Field("places", "Place", "places", "place"), _places, place_page)
    sentence = f"Where the fires were, told no nearer than the group’s rule: {settings.place_rule.rstrip('.')}."
    return _pages("places", "Places", sentence, [asked], archive, settings)


def years_pages(archive: Archive, settings: Settings) -> tuple[Draft, ...]:
    """Draft the index of years and a page for each."""
    asked = _Asked(_Field("years", "Year", "years", "year"), lambda record: [str(record.date.year)], _year_page)
    return _pages("years", "Years", "The archive year by year, from its first fire on.", [asked], archive, settings)


def _material(path: str) -> _Asked:
    heading = CONDITIONS[path].heading
    return _Asked(
        _Field(path.rpartition(".")[2], heading, "materials", heading.lower()),
        lambda record: condition_words(record.firing, path),
        lambda word: material_page(path, word),
    )


def _places(record: Record) -> Iterable[str]:
    return [record.firing.place] if record.firing.place else []


def _year_page(year: str) -> str:
    return year_page(int(year))


def _pages(
    section: str, title: str, sentence: str, asked: Iterable[_Asked], archive: Archive, settings: Settings
) -> tuple[Draft, ...]:
    page, groups, drafts = f"{section}/index", [], []
    for one in asked:
        found, missing = ways_in(archive, one.words, tuple(settings.methods))
        ways = tuple(_way(one, way) for way in found)
        groups.append(_group(one.field, ways, missing))
        drafts += [_way_draft(at, one.field, ways, way, settings) for at, way in enumerate(found)]
    index = partial(_index, page, title, sentence, section, groups)
    return Draft(page, (sentence, groups), index), *drafts


def _index(page: str, title: str, sentence: str, section: str, groups: list[Group]) -> Page:
    lead = fill("ways_in.html", page, title=title, sentence=sentence, groups=groups)
    return Page(path=page, title=title, description=sentence, lead=lead, section=section, kind="ways")


def _group(field: _Field, ways: tuple[Way, ...], missing: int) -> Group:
    words = f"Not recorded in {counted(missing, 'firing')}." if missing else ""
    return Group(field.anchor, field.heading, ways, words)


def _way(asked: _Asked, way: WayIn) -> Way:
    firings = counted(len(way.records), "firing")
    return Way(_name(asked, way), asked.page(way.word), firings, rate_counts(way.rate), _mark(way.rate))


def _mark(rate: Rate) -> Markup:
    if rate.rate is None or rate.low is None or rate.high is None:
        return Markup("")
    return Markup(rate_mark(rate.rate, rate.low, rate.high))  # noqa: S704


def _name(asked: _Asked, way: WayIn) -> str:
    return f"no {asked.field.kind}" if folded(way.word) == "none" else way.word


def _way_draft(at: int, field: _Field, ways: tuple[Way, ...], way: WayIn, settings: Settings) -> Draft:
    own, before = ways[at], ways[at - 1] if at else None
    after = ways[at + 1] if at + 1 < len(ways) else None
    seen = (own, before, after, way.rate, way.by_method, lines_of(way.records))
    return Draft(own.page, seen, partial(_way_page, field, way, own, before, after, settings))


def _way_page(field: _Field, way: WayIn, own: Way, before: Way | None, after: Way | None, settings: Settings) -> Page:
    page, name, sentence = own.page, own.name, way_sentence(way)
    rates = (*way.by_method, *((way.rate,) if len(way.by_method) > 1 else ()))
    rows = [(method_name(rate, settings), rate) for rate in rates]
    lead = fill(
        "way_in.html",
        page,
        heading=field.heading,
        name=name[0].upper() + name[1:],
        sentence=sentence,
        of_time=field.section == "years",
        index=f"{field.section}/index",
        anchor=field.anchor,
        section=field.section,
        chart=Markup(rate_chart(rows, "rates", " ".join(rate_sentence(rate, words) for words, rate in rows))),  # noqa: S704
        rows=rate_rows(rates, settings),
        list=line_list(way.records, settings),
        before=before,
        after=after,
    )
    return Page(
        path=page,
        title=name if field.section != "materials" else f"{field.heading}: {name}",
        description=f"{field.heading}: {name}. {sentence}",
        lead=lead,
        section=field.section,
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
