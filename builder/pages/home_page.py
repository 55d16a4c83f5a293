"""The first page: what the archive is, kinds of fire, the last one, what the rates say so far, cautions."""

from __future__ import annotations

from dataclasses import dataclass

from markupsafe import Markup

from builder.archive.archive import Archive, Record
from builder.charts.fire_drawings import fire_drawing
from builder.exports.json_ld import archive_json_ld
from builder.fire.cautions import CAUTIONS
from builder.pages.chart_words import chart_with_caption
from builder.pages.firing_lines import firing_line
from builder.pages.fragments import fill
from builder.pages.numbers import counted, in_words
from builder.pages.rate_words import ALL_METHODS, rate_of, rate_sentence
from builder.pages.sentences import description
from builder.publish.site import Page
from builder.settings import Settings

LATELY = 6
"""How many firings before the last one the first page shows."""
MOST_RATES = 5
"""Rates said in sentences on the first page; the page of results has all."""
_KINDS = {"ground": "On the ground", "pit": "In a pit", "trench": "In a trench", "kiln": "In a built kiln"}


@dataclass(frozen=True, slots=True)
class Kind:
    """One kind of fire on the horizon."""

    name: str
    drawing: Markup
    firings: str
    """Its count with the noun."""
    anchor: str
    """Place of its first method on the page of methods."""


def home_page(archive: Archive, settings: Settings) -> Page:
    """Make the first page."""
    page, sentence = "index", home_sentence(archive, settings)
    newest_first = list(reversed(archive.records))
    lately = [firing_line(record, settings) for record in newest_first[: LATELY + 1]]
    last = newest_first[0] if newest_first else None
    chart, caption = _chart(last, settings) if last else (Markup(""), "")
    lead = fill(
        "home.html",
        page,
        settings=settings,
        sentence=sentence,
        kinds=_kinds(archive, settings),
        last=lately[0] if lately else None,
        chart=chart,
        caption=caption,
        last_sentence=description(last, settings) if last else "",
        lately=lately[1:],
        rates=rate_sentences(archive, settings),
        cautions=[_named(caution.heading) for caution in CAUTIONS],
    )
    return Page(
        path=page,
        title=settings.group.title,
        description=sentence,
        lead=lead,
        kind="home",
        section="home",
        searched=False,
        json_ld=archive_json_ld(archive, settings),
    )


def home_sentence(archive: Archive, settings: Settings) -> str:
    """Say what the archive is: how many fires, who keeps it, what for."""
    number = len(archive.records)
    fires = f"{in_words(number).capitalize()} open wood {'fire' if number == 1 else 'fires'}"
    about = settings.group.about or f"Kept by {settings.group.name}, so that the next fire starts from the last one."
    return f"{fires}, written down by the people who lit them. {about}"


def rate_sentences(archive: Archive, settings: Settings) -> list[str]:
    """Say the whole archive's rate and each method's, in the order of the settings."""
    rates = [(rate_of(archive, ALL_METHODS), "All methods together")]
    rates += [(rate_of(archive, method.key), method.name) for method in settings.methods.values()]
    return [rate_sentence(rate, name) for rate, name in rates if rate is not None and rate.pieces][:MOST_RATES]


def _kinds(archive: Archive, settings: Settings) -> list[Kind]:
    by_method = archive.by_method()
    found = []
    for kind, name in _KINDS.items():
        methods = [method for method in settings.methods.values() if method.kind == kind]
        if methods:
            number = sum(len(by_method.get(method.key, ())) for method in methods)
            drawing = Markup(fire_drawing(kind))  # noqa: S704
            found.append(Kind(name, drawing, counted(number, "firing"), f"method-{methods[0].key}"))
    return found


def _chart(record: Record, settings: Settings) -> tuple[Markup, str]:
    return chart_with_caption(record.curves, settings.methods[record.firing.method], "last-fire")


def _named(title: str) -> str:
    return title[0].lower() + title[1:]
