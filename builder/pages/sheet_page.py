"""Before you light: a sheet to print and take to the fire, from the group's methods, the fields and the cautions."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from builder.entries.fields import CONDITIONS, FIELDS, OUTCOMES
from builder.fire.cautions import BY_KEY
from builder.fire.ready import READY
from builder.pages.fragments import fill
from builder.pages.rules import rule_words
from builder.publish.site import Page
from builder.settings import Settings

PAGE = "before-you-light"
READINGS = 14
"""Rows for readings in each of the sheet's two columns."""
PIECES = 5
"""Rows for pieces."""
_SENTENCE = (
    "A sheet for the fire: what to see to first, when to stop, and lines for what happens. With every box ticked it "
    "still allows nothing and promises nothing."
)


@dataclass(frozen=True, slots=True)
class Blanks:
    """One group of fields to write down by hand."""

    heading: str
    labels: tuple[str, ...]


def sheet_page(settings: Settings, prose: Mapping[str, str]) -> Page:
    """Make the sheet; it stands on one side of A4 in print."""
    lead = fill(
        "sheet.html",
        PAGE,
        sentence=_SENTENCE,
        group=settings.group,
        ready=[(line, BY_KEY[line.caution].heading) for line in READY],
        own_words=bool(prose.get("cautions")),
        methods=[(method, rule_words(method)) for method in settings.methods.values()],
        blanks=blanks(),
        outcomes=OUTCOMES,
        readings=READINGS,
        pieces=PIECES,
    )
    return Page(
        path=PAGE,
        title="Before you light",
        description=_SENTENCE,
        lead=lead,
        tags=("safety", "checklist", "sheet to print"),
        section="cautions",
        kind="sheet",
        scripts=("print.js",),
    )


def blanks() -> tuple[Blanks, ...]:
    """Return the conditions to write down, grouped and named as the entry has them."""
    groups = (
        (group, [field for field in group.fields if f"{group.name}.{field.name}" in CONDITIONS]) for group in FIELDS
    )
    return tuple(Blanks(group.heading, tuple(field.heading for field in asked)) for group, asked in groups if asked)
