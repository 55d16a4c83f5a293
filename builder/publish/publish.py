"""A Site to a folder that a browser opens: written down, made by mkdocs, and swapped into place."""

from __future__ import annotations

import contextlib
import os
import shutil
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from datetime import UTC, date, datetime
from functools import partial
from pathlib import Path

from builder.kept.digest import plain_digest
from builder.kept.folder import Folder, Looked, look_at, look_through
from builder.kept.store import Store, kept
from builder.kept.version import program_version
from builder.publish.errors import PublishError
from builder.publish.mkdocs_site import CONFIG, DOCS, SPARE, write_configuration, write_docs
from builder.publish.site import Site
from builder.publish.swap import locked, refuse_unsafe, swap_in, tidy
from builder.workers import aside

__all__ = ["Progress", "PublishError", "Workshop", "publish", "publish_from", "theme_folder", "workshop"]

Progress = Callable[[int, int], None]
"""Told how many pages are done, and of how many."""

_LONG_AGO = date(1980, 1, 1)
"""The date of a site in which nothing is dated; the earliest that every archive format can write."""


def theme_folder() -> Path:
    """The theme's folder: inside the package where it was installed, beside it in a checkout."""
    package = Path(__file__).resolve().parents[1]
    inside = package / "theme"
    return inside if inside.is_dir() else package.parent / "theme"


@dataclass(frozen=True, slots=True)
class Workshop:
    """Where one site at a time is made, and what is kept there from the last."""

    out: Path
    work: Path
    theme: Path
    store: Store
    docs: Folder
    spare: Folder
    """The site before the last, which becomes the next."""


@contextlib.contextmanager
def workshop(
    out: Path,
    work: Path,
    theme: Path | None = None,
    project: Path | None = None,
    load: Callable[[], None] = lambda: None,
) -> Iterator[Workshop]:
    """Hold the working folder for one build; raises OutputRefused where `out` must not be written to.

    What `load` loads is loaded while another process looks through what stands in the working folder.
    """
    theme = theme or theme_folder()
    with held(out, work, project), kept(work, version_at_work(theme)) as store:
        with aside(partial(_looked_through, work / DOCS, work / SPARE)) as looked:
            load()
            in_docs, in_spare = looked()
        docs = Folder(work / DOCS, DOCS, store, looked=in_docs)
        docs.clear_links()
        spare = Folder(work / SPARE, SPARE, store, beside=docs, looked=in_spare)
        yield Workshop(out, work, theme, store, docs, spare)


def _looked_through(*folders: Path) -> tuple[Looked, ...]:
    return tuple(look_through(folder) for folder in folders)


@contextlib.contextmanager
def held(out: Path, work: Path, project: Path | None = None) -> Iterator[None]:
    """Hold the working folder, cleared of what a killed build left; raises OutputRefused as `workshop` does."""
    refuse_unsafe(out, work, project)
    with locked(work):
        tidy(out, work)
        yield


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
    with workshop(out, work, theme, project) as at:
        publish_from(at, site, progress=progress)


def publish_from(at: Workshop, site: Site, *, progress: Progress | None = None, jobs: int | None = None) -> str:
    """Make the site of a workshop; return what stands for how it looks then."""
    from builder.publish.making import Making

    written = write_docs(site, at.docs)
    config = write_configuration(site.facts, at.work, at.theme)
    spare, last = at.spare, Folder(at.out, "out", at.store, through=False)
    making = Making(config, at.theme, at.docs, spare, last, at.store)
    with _dated(site.newest or _LONG_AGO):
        index = making.renew(written, site, progress, jobs)
    at.docs.sweep({*(one.address for one in written), *index})
    aside = spare.root
    swap_in(aside, at.out)
    spare.moved_to(at.out)
    if not at.store.fresh:
        last.keep(at.store, SPARE)
    elif aside.exists():  # the working folder was thrown away, perhaps so that the old site's words go too
        shutil.rmtree(aside, ignore_errors=True)
        spare.look_again()
        at.docs.look_again()
    spare.keep(at.store, "out")
    at.docs.keep(at.store)
    return _look(spare, at.docs, config)


def site_look(out: Path, work: Path) -> str:
    """Return what stands for how a finished site, and what plain mkdocs reads, look."""
    return _look(Folder(out, "out"), Folder(work / DOCS, DOCS), work / CONFIG)


def _look(site: Folder, docs: Folder, config: Path) -> str:
    looks = (sorted(site.looks.items()), sorted(docs.looks.items()), look_at(config))
    return plain_digest((*looks, site.has_links, docs.has_links))


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


def version_at_work(theme: Path | None = None) -> str:
    """Which program, with which theme, is at work; where its files changed since it began, nothing is taken up."""
    theme = theme or theme_folder()
    package = Path(__file__).resolve().parents[1]
    now = program_version(package, theme)
    return now if _first.setdefault(theme, now) == now else ""


_first: dict[Path, str] = {}
"""The version that was at work with a theme when this process began."""
