"""Pages that explain: the fields of an entry, the problems of the checker, the open data, about the archive."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from markupsafe import Markup

from builder.base.codes import CODES
from builder.base.problem import Problem
from builder.base.units import KINDS
from builder.entries.compose import FirstLines, entry_text
from builder.entries.fields import FIELDS, Field
from builder.pages.fragments import fill
from builder.pages.numbers import counted, listed
from builder.publish.clean_html import clean_markdown
from builder.publish.site import Page
from builder.settings import Settings

_SEVERITIES = {
    "error": "keeps the entry off the site",
    "warning": "published; somebody should look",
    "note": "a note",
}

_FILES = (
    (
        "data/firings.csv",
        "One row a firing: its conditions, its figures with 95 % intervals, its pieces.",
    ),
    ("data/pieces.csv", "One row a piece, alike pieces written out: outcomes, colour, porosity, shrinkage, success."),
    ("data/readings.csv", "One row a reading: as read, in °C with its interval, and what was noted beside it."),
    (
        "data/rates.csv",
        "Success rates by method and outcome, with counts, intervals and the calculation.",
    ),
    ("data/window.csv", "The working window of each method and ware that has one, each end with its interval."),
    ("data/datapackage.json", "What every column of these tables means and in what unit: a Data Package, version 2."),
    ("data/csvw.json", "The same as CSV on the Web, as the W3C describes tables."),
    ("data/CITATION.cff", "How to cite the archive, for programs that keep references."),
    (
        "data/settings.json",
        "What the group decided: its potters as they are shown, its methods and what counts with each.",
    ),
    ("data/entry.schema.json", "The fields of an entry as JSON Schema (2020-12), for editors and other programs."),
)

_READINGS = """\
  time: elapsed
  rows: |
    0:00   14 °C   lit
    4:30  565 °C   flames over the rim
    9:10  812 °C
    12:00 640 °C   raked open
"""

_EXAMPLE = """---
title: Pale-slipped jar, third attempt
date: 2026-05-02
potter: {potter}
method: {method}
readings:
{readings}pieces:
  - {{name: jar, survival: sound, carbon: cleared}}
---
{story}"""
_STORY = "What I tried, what happened, what I would change."


def fields_page(settings: Settings) -> Page:
    """Document every field from the one definition of them."""
    page, sentence = "fields", "Everything that an entry can tell, in the order in which it is asked."
    potter, method = _first(settings.potters, "wren"), _first(settings.methods, "open-fire")
    example = _EXAMPLE.format(potter=potter, method=method, readings=_READINGS, story=_STORY)
    first = FirstLines(
        "Pale-slipped jar, third attempt", "2026-05-02", potter, method, (("jar", "sound"),),
        readings=tuple(_READINGS.splitlines()),
    )  # fmt: skip
    template = entry_text(first).rstrip("\n") + f"\n{_STORY}"

    def kinds(field: Field, path: str) -> str:
        return field_kind(field, path, settings)

    lead = fill("fields.html", page, sentence=sentence, fields=FIELDS, kinds=kinds, example=example, template=template)
    return Page(path=page, title="Fields of an entry", description=sentence, lead=lead, kind="reference")


def field_kind(field: Field, path: str, settings: Settings) -> str:
    """Say in what form a field is written: a quantity with its units, a word of a list, a date."""
    if field.kind == "quantity":
        kind = KINDS[field.quantity]
        units = [unit.symbol for unit in kind.units if unit.symbol][:6]
        return f"{kind.words} with its unit: {listed(units, 'or')}" if units else f"{kind.words}, a bare number"
    if field.kind == "word":
        words = list(field.words) + list(settings.words.get(path, ()))
        if field.words_from == "potters":
            words = list(settings.potters)
        elif field.words_from == "methods":
            words = list(settings.methods)
        return f"{'one or several' if field.many else 'one'} of: {', '.join(words)}"
    return _KINDS[field.kind]


_KINDS = {
    "text": "words",
    "date": "a date: year-month-day",
    "clock": "a clock time: hours:minutes",
    "count": "a whole number",
    "words": "words, or a list of them in [ ]",
    "file": "the name of a file beside the entry",
    "rows": "a row a reading, after a bar: |",
    "munsell": "Munsell notation",
    "licence": "an SPDX id",
    "group": "fields inside",
    "list": "a list",
}


def problems_page() -> Page:
    """List every problem that the checker knows, each at its own anchor."""
    page = "problems"
    sentence = f"{counted(len(CODES), 'fault')} that the checker knows, what each means, and the way out of it."
    lead = fill("problems.html", page, sentence=sentence, codes=list(CODES.values()), severities=_SEVERITIES)
    return Page(path=page, title="Problems", description=sentence, lead=lead, kind="reference")


def data_page(settings: Settings) -> Page:
    """List the exports with what they hold."""
    page, sentence = (
        "data",
        "All of this site to reckon with: tables, what they mean, the schema of an entry.",
    )
    lead = fill("data.html", page, sentence=sentence, files=_FILES, licence=settings.group.licence)
    return Page(path=page, title="Open data", description=sentence, lead=lead, kind="reference")


def about_page(
    settings: Settings,
    left_out: Sequence[tuple[str, tuple[Problem, ...]]],
    warnings: Sequence[Problem],
    prose: Mapping[str, str],
) -> Page:
    """Say who keeps the archive, how it treats people, and which entries it could not publish."""
    page = "about"
    sentence = settings.group.about or f"An archive of wood firings, kept by {settings.group.name}."
    doubts: dict[str, list[Problem]] = {}
    for problem in warnings:
        doubts.setdefault(problem.place.file, []).append(problem)
    own = Markup(clean_markdown(prose["about"], inside=True)) if prose.get("about") else Markup("")  # noqa: S704
    rest = fill(
        "about_rest.html", page, settings=settings, left_out=left_out, warnings=list(doubts.items()), told=_told
    )
    lead = fill("opening_only.html", page, title="About this archive", sentence=sentence)
    return Page(
        path=page,
        title="About this archive",
        description=sentence,
        lead=lead,
        prose=own,
        rest=rest,
        section="about",
        kind="reference",
    )


def _told(problem: Problem) -> str:
    """Say what is wrong with an entry without repeating what may be private: a name, a place, a whole line."""
    private = problem.field.partition("[")[0] in _PRIVATE or not problem.field.strip()
    return CODES[problem.code].meaning if private and not problem.code.startswith(_OF_FILES) else problem.message


_PRIVATE = frozenset({"potter", "helpers", "place"})
_OF_FILES = ("entry-", "file-", "folder-", "stray-", "address-")
"""Codes of problems that repeat no more than the names of files, which stand on the page anyway."""


def _first(known: Mapping[str, object], otherwise: str) -> str:
    return next(iter(known), otherwise)
