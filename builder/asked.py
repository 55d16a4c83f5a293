"""How a build is asked for, and what comes of it; what any build reads of a project."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

from builder.base.problem import Problem

WORK = ".ashbook"
"""The working folder, in the project: it can be thrown away at any time."""

SETTINGS_FILE = "site_config.yml"
READ = ("content",)
"""Folders of a project that a build reads, beside its settings."""

Tell = Callable[[str, int, int], None]
"""Called with a stage's name, how much of it is done, and how much there is."""


@dataclass(frozen=True, slots=True)
class Options:
    """How a build was asked for."""

    project: Path
    out: Path
    offline: bool = False
    """For a folder or a memory stick: without what only a web host needs."""
    strict: bool = False
    """Publish nothing while any entry has an error."""
    jobs: int | None = None


@dataclass(frozen=True, slots=True)
class Built:
    """What came of a build."""

    problems: tuple[Problem, ...]
    entries: int
    published: int | None
    """How many firings the site shows; None where nothing was published."""
