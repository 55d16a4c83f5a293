"""A Site to a folder that a browser opens: written down, built by mkdocs, finished, and swapped into place."""

from __future__ import annotations

import contextlib
import logging
import os
from collections.abc import Callable, Iterator
from datetime import UTC, date, datetime
from pathlib import Path

from builder.publish.errors import PublishError
from builder.publish.mkdocs_site import write_site
from builder.publish.search_files import finish_search
from builder.publish.site import Site
from builder.publish.swap import locked, mark, refuse_unsafe, swap_in, tidy

__all__ = ["Progress", "PublishError", "publish", "theme_folder"]

Progress = Callable[[int, int], None]
"""Told how many steps are done, and of how many."""

_LONG_AGO = date(1980, 1, 1)
"""The date of a site in which nothing is dated; the earliest that every archive format can write."""


def theme_folder() -> Path:
    """The theme's folder: inside the package where it was installed, beside it in a checkout."""
    package = Path(__file__).resolve().parents[1]
    inside = package / "theme"
    return inside if inside.is_dir() else package.parent / "theme"


def publish(
    site: Site,
    out: Path,
    work: Path,
    theme: Path | None = None,
    *,
    project: Path | None = None,
    progress: Progress | None = None,
) -> None:
    """Make the site in `out`, which is whole before, during and after; raises PublishError or OutputRefused."""
    refuse_unsafe(out, work, project)
    with locked(work):
        tidy(out, work)
        config = write_site(site, work, theme or theme_folder())
        fresh = work / "site-new"
        with _dated(site.newest or _LONG_AGO), _heard(2 * len(site.pages), progress) as warnings:
            _build(config)
        if warnings:
            raise PublishError("mkdocs found fault with the pages:\n" + "\n".join(warnings))
        finish_search(fresh, site.facts.language)
        mark(fresh)
        swap_in(fresh, out)


def _build(config: Path) -> None:
    """Run mkdocs over a configuration, in this process."""
    from mkdocs.commands.build import build
    from mkdocs.config import load_config
    from mkdocs.exceptions import MkDocsException

    try:
        loaded = load_config(str(config))
        loaded.plugins.on_startup(command="build", dirty=False)
        build(loaded)
    except MkDocsException as error:
        raise PublishError(f"mkdocs stopped: {error}") from error


@contextlib.contextmanager
def _dated(day: date) -> Iterator[None]:
    """Give the build a date that depends on the content alone, unless the caller's environment names one."""
    name = "SOURCE_DATE_EPOCH"
    if name in os.environ:
        yield
        return
    os.environ[name] = str(int(datetime(day.year, day.month, day.day, tzinfo=UTC).timestamp()))
    try:
        yield
    finally:
        del os.environ[name]


class _Listener(logging.Handler):
    """Hears what mkdocs logs: warnings are kept, pages are counted."""

    def __init__(self, steps: int, progress: Progress | None) -> None:
        super().__init__(logging.DEBUG)
        self.warnings: list[str] = []
        self._steps, self._done, self._progress = steps, 0, progress

    def emit(self, record: logging.LogRecord) -> None:
        """Keep a warning, or count a page that was read or built."""
        if record.levelno >= logging.WARNING:
            self.warnings.append(record.getMessage())
        elif self._progress and str(record.msg).startswith(("Reading: ", "Building page ")):
            self._done = min(self._done + 1, self._steps)
            self._progress(self._done, self._steps)


@contextlib.contextmanager
def _heard(steps: int, progress: Progress | None) -> Iterator[list[str]]:
    """Listen to mkdocs' log while it builds, and leave the log as it was found."""
    log = logging.getLogger("mkdocs")
    listener = _Listener(steps, progress)
    level, spread = log.level, log.propagate
    log.addHandler(listener)
    log.setLevel(logging.DEBUG if progress else logging.WARNING)
    log.propagate = False
    try:
        yield listener.warnings
    finally:
        log.removeHandler(listener)
        log.setLevel(level)
        log.propagate = spread
