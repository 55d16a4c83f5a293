"""Every page but the firings' own, made as a build makes them."""

from __future__ import annotations

from collections.abc import Mapping

from builder.archive.archive import Archive
from builder.archive.findings import NO_FINDINGS, Findings
from builder.base.problem import Problem
from builder.pages.site_pages import site_parts
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
    """Make all parts of them."""
    return tuple(page for part in site_parts(archive, settings, left_out, warnings, prose, findings) for page in part())
