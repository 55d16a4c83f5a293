"""Every page but the firings' own, made as a build makes them."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from builder.archive.archive import Archive
from builder.archive.findings import NO_FINDINGS, Findings
from builder.base.problem import Problem
from builder.pages.drafts import Draft
from builder.pages.list_columns import listed_firings
from builder.pages.list_pages import firings_page
from builder.pages.site_pages import site_drafts
from builder.publish.site import Page
from builder.settings import Settings


def site_pages(
    archive: Archive,
    settings: Settings,
    left_out: tuple[tuple[str, tuple[Problem, ...]], ...],
    warnings: tuple[Problem, ...],
    prose: Mapping[str, str],
    findings: Findings = NO_FINDINGS,
) -> tuple[Page, ...]:
    """Make all of them."""
    listed = listed_firings(archive, settings)
    return made(site_drafts(archive, settings, left_out, warnings, prose, findings, listed))


def made(drafts: Iterable[Draft]) -> tuple[Page, ...]:
    """Make the drafts of pages."""
    return tuple(page for page in (draft.make() for draft in drafts) if isinstance(page, Page))


def made_files(drafts: Iterable[Draft]) -> dict[str, bytes]:
    """Make the drafts of files: by address."""
    found = ((draft.address, draft.make()) for draft in drafts)
    return {address: content for address, content in found if isinstance(content, bytes)}


def list_page(archive: Archive, settings: Settings) -> Page:
    """Make the first page of the list of firings."""
    return firings_page(archive, settings, listed_firings(archive, settings))
