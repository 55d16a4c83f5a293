"""The page of one firing, composed like a spread of a notebook."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from markupsafe import Markup, escape

from builder.archive.archive import Archive, Record
from builder.archive.likeness import Best
from builder.checks.firing import Firing, Photo, Probe
from builder.exports.citation_words import citation_words
from builder.exports.json_ld import firing_json_ld
from builder.exports.origin import published_at
from builder.fire.advice import advice
from builder.fire.circumstances import fire_circumstances
from builder.pages.addresses import firing_file, firing_page, method_page, page_file, relative
from builder.pages.chart_words import chart_with_caption
from builder.pages.conditions import MATERIALS, condition_groups, condition_words, missing_conditions
from builder.pages.figure_rows import circumstance_rows, figure_rows, rows_html
from builder.pages.fragments import fill
from builder.pages.group_pages import origin_of
from builder.pages.likeness_part import like_lines
from builder.pages.numbers import NBSP, listed
from builder.pages.pots import pots
from builder.pages.readings_table import readings_csv, readings_table
from builder.pages.rules import rule_words
from builder.pages.sentences import description, lead_sentence
from builder.pages.witnesses import witnesses
from builder.pages.words_page import SCRIPT, Hints
from builder.publish.clean_html import clean_story
from builder.publish.site import Page, Picture
from builder.readings.curve import FiringCurves
from builder.settings import Settings

__all__ = ["entry_page", "readings_csv"]

_INSTRUMENTS = {"thermocouple": "thermocouple", "spot thermometer": "spot-thermometer"}
"""The word that explains a probe's instrument."""


@dataclass(frozen=True, slots=True)
class ShownPhoto:
    """A photo in the sizes it was made in."""

    alt: str
    caption: str
    credit: str
    smallest: str
    """Address of its smallest size, from the site's root."""
    largest: str
    sources: tuple[tuple[str, int], ...]
    """Address and width of each size, smallest first."""
    width: int
    height: int


@dataclass(frozen=True, slots=True)
class Neighbour:
    """The firing before or after this one."""

    page: str
    number: int
    title: str


def entry_page(
    record: Record,
    archive: Archive,
    settings: Settings,
    pictures: Sequence[Picture],
    alike: Best = (),
) -> Page:
    """Make the page of one firing from its record, its neighbours and its pictures."""
    firing, page = record.firing, firing_page(record.firing.slug)
    photos = tuple(_photos(firing, pictures))
    story = _story(firing)
    circumstances = fire_circumstances(firing)
    hints = Hints(page)
    shared: dict[str, object] = {
        "record": record,
        "firing": firing,
        "photos": photos,
        "air_and_wood": rows_html(circumstance_rows(circumstances), page),
        "advice": advice(firing, record.heat, circumstances),
        "hint": hints.hint,
        "origin": origin_of(firing.source, published_at(firing, settings), settings),
        "readings_file": firing_file(firing.slug, "readings.csv") if record.curves.curves else "",
    }
    return Page(
        path=page,
        title=firing.title,
        description=description(record, settings),
        lead=fill("entry_lead.html", page, **shared, **_lead(record, settings, page, hints), story=story),
        prose=fill("entry_story.html", page, story=hints.story(story), events=record.curves.events),
        rest=fill(
            "entry_rest.html", page, **shared, **_rest(record, archive, settings, alike), meanings=hints.meanings
        ),
        scripts=(SCRIPT, "photos.js") if photos else (SCRIPT,),
        tags=_tags(record, settings),
        section="firings",
        kind="firing",
        image=photos[0].largest if photos else "",
        author=settings.potters[firing.potter].name,
        published=firing.date,
        json_ld=firing_json_ld(record, settings),
    )


def _story(firing: Firing) -> Markup:
    return Markup(clean_story(firing.story, made=bool(firing.source)) if firing.story.strip() else "")  # noqa: S704


def _lead(record: Record, settings: Settings, page: str, hints: Hints) -> dict[str, object]:
    firing, method = record.firing, settings.methods[record.firing.method]
    curves, shelf = record.curves, pots(record.pieces, method, firing.painted)
    chart, caption = chart_with_caption(curves, method, f"firing-{record.number}")
    return {
        "sentence": lead_sentence(record, settings, lambda to, words: _link(page, to, words)),
        "method": method,
        "method_page": method_page(method.key),
        "rule": rule_words(method),
        "conditions": condition_groups(firing, page, hints),
        "missing": missing_conditions(firing),
        "read_by": [_probe_words(curve.probe, hints) for curve in curves.curves],
        "chart": chart,
        "caption": caption,
        "readings": readings_table(curves) if curves.curves else None,
        "events": curves.events,
        "probes": [
            {
                "name": probe.probe,
                "ware": place == record.heat.ware,
                "rows": rows_html(figure_rows(probe.figures), page),
            }
            for place, probe in enumerate(record.heat.probes)
        ],
        "pots": shelf,
        "coloured": any(pot.colour for pot in shelf),
        "noted": [pot for pot in shelf if pot.has_more],
    }


def _rest(record: Record, archive: Archive, settings: Settings, alike: Best) -> dict[str, object]:
    place = record.number - 1
    return {
        "witnesses": witnesses(record),
        "repairs": record.curves.repairs,
        "uncertainty": _notes(record.curves),
        "licence": record.firing.licence or settings.group.licence,
        "cited": citation_words(record, settings),
        "alike": like_lines(record, archive, alike, settings),
        "before": _neighbour(archive, place - 1),
        "after": _neighbour(archive, place + 1),
    }


def _notes(curves: FiringCurves) -> list[tuple[str, tuple[str, ...]]]:
    """Gather what the intervals take in and leave out; probes with the same notes are named together."""
    probes: dict[tuple[str, ...], list[str]] = {}
    for curve in curves.curves:
        if curve.notes:
            probes.setdefault(curve.notes, []).append(curve.probe.name)
    return [(listed(names), notes) for notes, names in probes.items()]


def _photos(firing: Firing, pictures: Sequence[Picture]) -> list[ShownPhoto]:
    """Bring each photo together with the sizes made of it, which are named `photo-1-480.jpg`."""
    shown = []
    for number, photo in enumerate(firing.photos, 1):
        sizes = sorted(
            (one for one in pictures if one.address_name.startswith(f"photo-{number}-")), key=lambda one: one.width
        )
        if sizes:
            shown.append(_shown(firing, photo, sizes))
    return shown


def _shown(firing: Firing, photo: Photo, sizes: Sequence[Picture]) -> ShownPhoto:
    sources = tuple((firing_file(firing.slug, size.address_name), size.width) for size in sizes)
    return ShownPhoto(
        alt=photo.alt,
        caption=photo.caption or "",
        credit=photo.credit or "",
        smallest=sources[0][0],
        largest=sources[-1][0],
        sources=sources,
        width=sizes[-1].width,
        height=sizes[-1].height,
    )


def _neighbour(archive: Archive, place: int) -> Neighbour | None:
    if not 0 <= place < len(archive.records):
        return None
    other = archive.records[place]
    return Neighbour(firing_page(other.slug), other.number, other.title)


def _probe_words(probe: Probe, hints: Hints) -> Markup:
    kind: Markup | str = probe.instrument or "thermometer, kind not recorded"
    if probe.instrument in _INSTRUMENTS:
        kind = hints.hint(_INSTRUMENTS[probe.instrument], probe.instrument)
    type_ = f", type{NBSP}{probe.type}" if probe.type else ""
    where = f", {probe.position}" if probe.position else ""
    return escape(probe.name) + Markup(": ") + kind + type_ + where


def _link(page: str, to: str, words: str) -> Markup:
    return Markup(f'<a href="{relative(page, page_file(to))}">{escape(words)}</a>')  # noqa: S704


def _tags(record: Record, settings: Settings) -> tuple[str, ...]:
    """Words that search finds the page by: people, method, ware, materials; each once, in this order."""
    firing = record.firing
    people = [settings.potters[key].name for key in (firing.potter, *firing.helpers)]
    materials = [word for path in MATERIALS for word in condition_words(firing, path)]
    words = [*people, settings.methods[firing.method].name, firing.ware or "", firing.place or "", *materials]
    return tuple(dict.fromkeys(word for word in words if word))
