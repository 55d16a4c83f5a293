"""Every page of the site but the firings' own, in the order of the shelf."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import replace
from typing import TypeAlias

from builder.archive.archive import Archive
from builder.archive.findings import NO_FINDINGS, Findings
from builder.base.problem import Problem
from builder.pages.addresses import preview_file
from builder.pages.cautions_page import cautions_page
from builder.pages.compare_page import compare_page
from builder.pages.conditions_page import conditions_page
from builder.pages.figures_page import figures_page
from builder.pages.fireside_page import fireside_page
from builder.pages.group_pages import group_pages
from builder.pages.home_page import home_page
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

Part: TypeAlias = Callable[[], Iterable[Page]]
"""Makes some of the pages, knowing nothing of the others."""


def site_parts(
    archive: Archive,
    settings: Settings,
    left_out: tuple[tuple[str, tuple[Problem, ...]], ...],
    warnings: tuple[Problem, ...],
    prose: Mapping[str, str],
    findings: Findings = NO_FINDINGS,
) -> tuple[Part, ...]:
    """Return what makes every page but the firings' own, part by part.

    `left_out` holds the entries that could not be published with their problems, `warnings` the doubts about those
    that were; `prose` is the group's own Markdown by name, `findings` what all firings say together.
    """
    parts: tuple[Part, ...] = (
        lambda: (home_page(archive, settings), firings_page(archive, settings)),
        lambda: numbered_pages(archive, settings),
        lambda: (methods_index(archive, settings), *method_pages(archive, settings, findings)),
        lambda: (potters_index(archive, settings), *potter_pages(archive, settings, findings)),
        lambda: materials_pages(archive, settings),
        lambda: places_pages(archive, settings),
        lambda: years_pages(archive, settings),
        lambda: group_pages(archive, settings),
        lambda: (results_page(archive, settings, findings), conditions_page(archive, findings), compare_page(archive)),
        lambda: (fireside_page(settings.alone), write_up_page(settings.alone)),
        lambda: (cautions_page(prose), sheet_page(settings.alone, prose), words_page(), fields_page(settings.alone)),
        lambda: (problems_page(), figures_page(settings), data_page(settings), run_your_own_page()),
        lambda: (about_page(settings, left_out, warnings, prose),),
    )
    image = _preview(archive, settings)

    def finished(part: Part) -> Part:
        return lambda: (replace(explained(page), image=page.image or image) for page in part())

    return tuple(finished(part) for part in parts)


def _preview(archive: Archive, settings: Settings) -> str:
    """Address of the picture that stands for the archive where it is linked to: the newest firing's."""
    return preview_file(archive.records[-1].slug) if archive.records and settings.group.url else ""
