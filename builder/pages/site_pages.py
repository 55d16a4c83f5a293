"""Every page of the site but the firings' own, as drafts: only those are made that would come out otherwise."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import replace
from functools import partial

from builder.archive.archive import Archive
from builder.archive.findings import NO_FINDINGS, Findings
from builder.base.problem import Problem
from builder.pages.addresses import preview_file
from builder.pages.cautions_page import cautions_page
from builder.pages.compare_page import compare_page
from builder.pages.conditions_page import conditions_page
from builder.pages.drafts import Draft, lines_of
from builder.pages.figures_page import figures_page
from builder.pages.fireside_page import fireside_page
from builder.pages.group_pages import group_pages
from builder.pages.home_page import home_page
from builder.pages.list_columns import ListedFiring
from builder.pages.list_pages import firings_page, numbered_pages
from builder.pages.method_pages import method_pages, methods_index
from builder.pages.page_hints import explained
from builder.pages.people_pages import potter_pages, potters_index
from builder.pages.reference_pages import about_page, data_page, fields_page, problems_page
from builder.pages.results_page import results_page
from builder.pages.run_your_own_page import run_your_own_page
from builder.pages.sheet_page import sheet_page
from builder.pages.ways_in_pages import materials_pages, places_pages, years_pages
from builder.pages.words_page import words_page
from builder.pages.write_up_page import write_up_page
from builder.publish.site import Page
from builder.settings import Settings


def site_drafts(
    archive: Archive,
    settings: Settings,
    left_out: tuple[tuple[str, tuple[Problem, ...]], ...],
    warnings: tuple[Problem, ...],
    prose: Mapping[str, str],
    findings: Findings = NO_FINDINGS,
    listed: Sequence[ListedFiring] = (),
) -> Iterator[Draft]:
    """Draft every page but the firings' own.

    `left_out` holds the entries that could not be published with their problems, `warnings` the doubts about those
    that were; `prose` is the group's own Markdown by name, `findings` what all firings say together, `listed` what
    their list holds of each.
    """
    image = _preview(archive, settings)
    drafts = (
        *_of_all_firings(archive, settings, findings, listed),
        *numbered_pages(archive, settings),
        *method_pages(archive, settings, findings),
        *potter_pages(archive, settings, findings),
        *materials_pages(archive, settings),
        *places_pages(archive, settings),
        *years_pages(archive, settings),
        *group_pages(archive, settings),
        *_of_no_firing(settings, prose),
        Draft("compare", len(archive.records), partial(compare_page, archive)),
        Draft("about", (left_out, warnings, prose), partial(about_page, settings, left_out, warnings, prose)),
    )
    return (replace(one, seen=(one.seen, image), make=partial(_finished, one.make, image)) for one in drafts)


def _of_all_firings(
    archive: Archive, settings: Settings, findings: Findings, listed: Sequence[ListedFiring]
) -> tuple[Draft, ...]:
    seen = lines_of(archive.records)
    return (
        Draft("index", seen, partial(home_page, archive, settings)),
        Draft("firings/index", seen, partial(firings_page, archive, settings, listed)),
        Draft("methods/index", seen, partial(methods_index, archive, settings)),
        Draft("potters/index", seen, partial(potters_index, archive, settings)),
        Draft("results", seen, partial(results_page, archive, settings, findings)),
        Draft("conditions", seen, partial(conditions_page, archive, findings)),
    )


def _of_no_firing(settings: Settings, prose: Mapping[str, str]) -> tuple[Draft, ...]:
    return (
        Draft("fireside", (), partial(fireside_page, settings.alone)),
        Draft("write-up", (), partial(write_up_page, settings.alone)),
        Draft("cautions", prose, partial(cautions_page, prose)),
        Draft("before-you-light", prose, partial(sheet_page, settings.alone, prose)),
        Draft("words", (), words_page),
        Draft("fields", (), partial(fields_page, settings.alone)),
        Draft("problems", (), problems_page),
        Draft("figures", (), partial(figures_page, settings)),
        Draft("data", (), partial(data_page, settings)),
        Draft("run-your-own", (), run_your_own_page),
    )


def _finished(make: Callable[[], Page | bytes], image: str) -> Page | bytes:
    """Make a page, explain its words, and give it a picture."""
    page = make()
    return page if isinstance(page, bytes) else replace(explained(page), image=page.image or image)


def _preview(archive: Archive, settings: Settings) -> str:
    """Address of the picture that stands for the archive where it is linked to: the newest firing's."""
    return preview_file(archive.records[-1].slug) if archive.records and settings.group.url else ""
