"""What the comparing page reads beside the list of firings: the frames, and a file a firing with curve and figures.

The files are scripts that define data: a browser reads those from a folder as well as from a host, and a page over
thousands of firings loads only the few that are laid over one another.
"""

from __future__ import annotations

import re
from functools import lru_cache
from html import unescape

import numpy as np
from markupsafe import Markup, escape

from builder.archive.archive import Record
from builder.base.quantity import Quantity
from builder.charts.frame import DURATIONS_MIN, TOPS_C, frame_minutes
from builder.charts.layout import WIDE
from builder.charts.simplify import points_to_keep
from builder.charts.spells import gaps
from builder.checks.firing import ConditionValue, Firing
from builder.entries.fields import FIELDS
from builder.heat.figures import Figure, FigureKind
from builder.pages.addresses import firing_file
from builder.pages.conditions import condition_value
from builder.pages.figure_rows import each_figure
from builder.pages.marked_numbers import value_and_interval
from builder.pages.numbers import day
from builder.pages.rules import rule_words
from builder.pages.script_data import script_json
from builder.pages.sentences import outcome_words, piece_count
from builder.readings.curve import Curve
from builder.settings import Settings
from builder.ware.outcome import Verdict

SHELF = "compare/frames.js"
"""Address of what every comparison needs."""

Part = str | list[str]
"""A piece of a value in words: plain words, or `[words, classes, celsius]` of a number that can be shown in °F."""
Json = dict[str, object]

_PIXELS_A_DEGREE = (WIDE.height - WIDE.top - WIDE.bottom) / TOPS_C[0]


def firing_data_file(slug: str) -> str:
    """Address of one firing's file."""
    return firing_file(slug, "compare.js")


def shelf_data() -> bytes:
    """Write what every comparison needs: the frames that curves may stand in, and the headings of the conditions."""
    told: Json = {"durations": DURATIONS_MIN, "tops": TOPS_C, "conditions": _condition_headings()}
    return f"window.ashbookShelf = {script_json(told)};\n".encode()


def firing_data(record: Record, settings: Settings) -> bytes:
    """Write what a comparison shows of one firing."""
    firing, method = record.firing, settings.methods[record.firing.method]
    curve = record.curves.ware_curve
    told: Json = {
        "number": record.number,
        "slug": firing.slug,
        "title": firing.title,
        "day": day(firing.date),
        "method": method.name,
        "window": [method.window_low_c, method.window_high_c],
        "lit": _minute_of_day(firing.lit),
        "curve": None if curve is None else _curve(curve),
        "pots": _pots(record, rule_words(method)),
        "told": {"method": _words(method.name), **_told(firing, settings)},
        "figures": [_figure(*each) for each in each_figure(record.heat.ware_figures)],
    }
    return f"(window.ashbookFirings ??= {{}})[{script_json(firing.slug)}] = {script_json(told)};\n".encode()


def _condition_headings() -> list[list[str]]:
    """Name everything that is compared: path, the group it stands under, heading."""
    first = [
        ["method", "", "Method"],
        ["ware", "", "Ware"],
        ["potter", "", "Potter"],
        ["place", "", "Place"],
    ]
    return first + [
        [f"{group.name}.{field.name}", group.heading, field.heading]
        for group in FIELDS
        for field in group.fields
        if field.condition
    ]


def _told(firing: Firing, settings: Settings) -> dict[str, Json]:
    people = [settings.potters[key].name for key in (firing.potter, *firing.helpers)]
    told = {"potter": _words(", ".join(people))}
    told |= {name: _words(words) for name, words in (("ware", firing.ware), ("place", firing.place)) if words}
    return told | {path: _condition(value) for path, value in firing.conditions.items()}


def _words(words: str) -> Json:
    return {"said": [words], "same": sorted(word.strip().casefold() for word in words.split(","))}


def _condition(value: ConditionValue) -> Json:
    """Give a condition in words, and what decides whether two firings had the same: words, or the ends of a range."""
    said = parts(condition_value(value))
    if isinstance(value, Quantity):
        return {"said": said, "low": value.low, "high": value.high}
    if isinstance(value, int):
        return {"said": said, "low": value, "high": value}
    words = value if isinstance(value, tuple) else (value,)
    return {"said": said, "same": sorted(word.strip().casefold() for word in words)}


def _figure(kind: FigureKind, label: Markup, figure: Figure) -> Json:
    value, interval = value_and_interval(figure, kind.quantity)
    told: Json = {
        "label": parts(label),
        "said": parts(value),
        "interval": parts(interval),
        "known": figure.value is not None,
    }
    if figure.low is not None and (interval or figure.at_least):
        told["low"] = round(figure.low, 3)
    if figure.high is not None and interval and not figure.at_least:
        told["high"] = round(figure.high, 3)
    return told | ({"least": True} if figure.at_least else {})


def _pots(record: Record, rule: str) -> Json:
    yes, unjudged = piece_count(record.pieces, Verdict.YES), piece_count(record.pieces, Verdict.UNJUDGED)
    judged = piece_count(record.pieces) - unjudged
    return {"said": outcome_words(record.pieces), "successes": yes, "judged": judged, "rule": rule}


def _curve(curve: Curve) -> Json:
    """Thin a curve to what its own frame can show; a gap in the record is told by the point that it follows."""
    step = (WIDE.width - WIDE.left - WIDE.right) / frame_minutes(float(curve.minutes[-1]))
    after = gaps(curve.minutes)
    ends = [index for at in after for index in (at, at + 1)]
    kept = points_to_keep(curve.minutes * step, -curve.celsius * _PIXELS_A_DEGREE)
    kept = np.union1d(kept, ends).astype(np.intp) if ends else kept
    return {
        "minutes": [round(minute, 2) for minute in curve.minutes[kept].tolist()],
        "celsius": [round(degrees, 1) for degrees in curve.celsius[kept].tolist()],
        "gaps": np.searchsorted(kept, after).tolist(),
        "least": curve.at_least,
    }


def _minute_of_day(clock: str | None) -> int | None:
    if clock is None:
        return None
    hours, minutes = clock.split(":")[:2]
    return 60 * int(hours) + int(minutes)


_SPAN = re.compile(r'<span class="([^"]*)"(?: data-c="([^"]*)")?>([^<]*)</span>')
"""A marked number, or words that are set apart from it."""


@lru_cache(maxsize=4096, typed=True)
def parts(marked: Markup | str) -> tuple[Part, ...]:
    """Take words with marked numbers apart, so that a script can build them without reading HTML.

    >>> parts(Markup('above <span class="t" data-c="600">600 °C</span>'))
    ('above ', ['600 °C', 't', '600'])
    """
    text, at = str(marked if isinstance(marked, Markup) else escape(marked)), 0
    if "<" not in text and "&" not in text:
        return (text,) if text else ()
    found: list[Part] = []
    for span in _SPAN.finditer(text):
        found += [unescape(text[at : span.start()]), [unescape(span[3]), span[1], span[2] or ""]]
        at = span.end()
    return tuple([part for part in (*found, unescape(text[at:])) if part])
