"""The groups whose published data this archive is built from: an index, and a page each with its firings."""

from __future__ import annotations

from dataclasses import dataclass
from functools import partial

from markupsafe import Markup

from builder.archive.archive import Archive
from builder.archive.ways_in import WayIn, ways_in
from builder.charts.rate_chart import rate_chart
from builder.pages.addresses import group_page, method_page
from builder.pages.drafts import Draft, lines_of
from builder.pages.firing_lines import line_list
from builder.pages.fragments import fill
from builder.pages.numbers import counted
from builder.pages.rate_words import method_name, rate_rows, rate_sentence
from builder.pages.rules import rule_words
from builder.pages.ways_in_pages import way_sentence
from builder.publish.site import Page
from builder.settings import Group, Method, Settings, Source

INDEX = "groups/index"
_OWN = "own"
_CARE = (
    "Firings of one group have more in common than firings of two: clay, weather, teachers. Intervals take fires, not "
    "groups, for what shares its luck, so a difference between groups is no measure of a method. What goes with "
    "success is looked for within the methods of one group."
)


@dataclass(frozen=True, slots=True)
class Origin:
    """Where a firing of another group comes from, as its page tells it."""

    name: str
    page: str
    address: str
    """Its page in its own group's site; empty where that has no address."""


@dataclass(frozen=True, slots=True)
class GroupRow:
    """One group as the index shows it."""

    name: str
    page: str
    """Empty for this archive's own."""
    about: str
    firings: str
    licence: str
    address: str


@dataclass(frozen=True, slots=True)
class Called:
    """One method of a group, and what this archive makes of it."""

    name: str
    """As that group calls it."""
    page: str
    words: str


def origin_of(source: str, address: str, settings: Settings) -> Origin | None:
    """Return where a firing comes from; None for this archive's own."""
    return Origin(settings.group_of(source).name, group_page(source), address) if source else None


def group_pages(archive: Archive, settings: Settings) -> tuple[Draft, ...]:
    """Draft the index of groups and a page for each source; none where an archive has no sources."""
    if not settings.sources:
        return ()
    found, _ = ways_in(archive, lambda record: [record.firing.source or f"{_OWN} "], tuple(settings.methods))
    ways = {way.word: way for way in found}
    own = ways.get(f"{_OWN} ")
    rows = [_row(settings.group, "", own)] if own else []
    rows += [_row(one.rules.group, group_page(key), ways.get(key)) for key, one in settings.sources.items()]
    drafts = (_draft(source, ways.get(key), settings) for key, source in settings.sources.items())
    return Draft(INDEX, rows, partial(_index, rows)), *drafts


def _index(rows: list[GroupRow]) -> Page:
    sentence = f"{counted(len(rows), 'group')}, each with its firings as it published them, under its own licence."
    lead = fill("groups.html", INDEX, sentence=sentence, rows=rows, care=_CARE)
    return Page(path=INDEX, title="Groups", description=sentence, lead=lead, section="groups", kind="ways")


def _row(group: Group, page: str, way: WayIn | None) -> GroupRow:
    firings = counted(len(way.records), "firing") if way else "no firing yet"
    return GroupRow(group.name, page, group.about, firings, group.licence, group.address if page else "")


def _draft(source: Source, way: WayIn | None, settings: Settings) -> Draft:
    seen = (way.rate, way.by_method, lines_of(way.records)) if way else ()
    return Draft(group_page(source.key), seen, partial(_page, source, way, settings))


def _page(source: Source, way: WayIn | None, settings: Settings) -> Page:
    page, group = group_page(source.key), source.rules.group
    sentence = way_sentence(way) if way else "No firing of this group is in this archive yet."
    rates = (*way.by_method, *((way.rate,) if len(way.by_method) > 1 else ())) if way else ()
    rows = [(method_name(rate, settings), rate) for rate in rates]
    lead = fill(
        "group.html",
        page,
        group=group,
        sentence=sentence,
        chart=Markup(rate_chart(rows, "rates", " ".join(rate_sentence(rate, words) for words, rate in rows))),  # noqa: S704
        rows=rate_rows(rates, settings),
        called=_called(source, way, settings),
        care=_CARE,
        list=line_list(way.records if way else (), settings),
    )
    description = f"{group.name}. {sentence}"
    return Page(path=page, title=group.name, description=description, lead=lead, section="groups", kind="way")


def _called(source: Source, way: WayIn | None, settings: Settings) -> list[Called]:
    """Say of each method that the group's firings name how they are judged here."""
    met = {record.firing.method for record in way.records} if way else set()
    return [
        Called(method.name, method_page(here), _judged(method, settings.methods[here], here in settings.alone.methods))
        for method in source.rules.methods.values()
        if (here := source.methods[method.key]) in met
    ]


def _judged(theirs: Method, here: Method, ours: bool) -> str:
    if not ours:
        return f"Not one of this archive’s methods, so it is judged by the group’s own rule: {rule_words(theirs)}."
    same = theirs.success == here.success
    windows = [(method.window_low_c, method.window_high_c) for method in (theirs, here)]
    if same and windows[0] == windows[1]:
        return f"Judged alike there and here: {rule_words(here)}."
    if same:
        return f"Judged alike there and here: {rule_words(here)}. The window is this archive’s, not the group’s own."
    return f"Judged by this archive’s rule: {rule_words(here)}. The group itself counts: {rule_words(theirs)}."
