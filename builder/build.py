"""A build from end to end: its settings, its working folder, all stages, the site in its place."""

from __future__ import annotations

import importlib
from dataclasses import replace

from builder.asked import WORK, Built, Options, Tell
from builder.publish.publish import publish_from, workshop
from builder.settings_file import load_settings
from builder.standing import keep_standing
from builder.workers import seldom_collected

__all__ = ["WORK", "Built", "Options", "Tell", "build"]


def build(options: Options, tell: Tell = lambda stage, done, of: None, seen: str | None = None) -> Built:
    """Build the site: gather everything, then write; `seen` stands for the project's files, where that is known."""
    settings, problems = load_settings(options.project)
    if settings is None:
        return Built(problems, 0, None)
    if options.offline:
        settings = replace(settings, group=replace(settings.group, url=""))
    with seldom_collected(), workshop(options.out, options.project / WORK, project=options.project, load=_load) as at:
        from builder.stages import made

        built, site, look = *made(options, settings, problems, at, tell), ""
        if site is not None:
            look = publish_from(at, site, progress=lambda done, of: tell("Publishing", done, of), jobs=options.jobs)
        keep_standing(None if settings.asked else seen, built, look, at.store)
        return built


def _load() -> None:
    """Load all that examining and drawing need."""
    importlib.import_module("builder.stages")
