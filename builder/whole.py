"""All firings together, with what every page needs of that; what they give is taken up where nothing else changed."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from pathlib import Path
from typing import TypeVar

from builder.archive.archive import Archive, Record, gather
from builder.archive.likeness import Best, Likeness, likeness
from builder.base.problem import Problem
from builder.entries.front_matter import read_text
from builder.examine import Examined
from builder.kept.digest import digest
from builder.kept.entries import one_renewed, renewed
from builder.kept.folder import Folder
from builder.kept.store import Store
from builder.publish.site import SiteFacts, Written
from builder.settings import Settings

_T = TypeVar("_T")


@dataclass(frozen=True, slots=True)
class Whole:
    """An archive with all that its pages say beside its firings."""

    archive: Archive
    outlines: tuple[str, ...] | None
    """What stands for each firing but for its story, in the archive's order; None where that cannot be told."""
    settings: Settings
    left_out: Mapping[str, tuple[Problem, ...]]
    """What is not published, by file, with its problems."""
    doubts: tuple[Problem, ...]
    """Problems of what is published."""
    prose: Mapping[str, str]
    """The group's own pages: name to Markdown."""
    offline: bool
    """For a folder or a memory stick: without what only a web host needs."""

    def kept(
        self,
        shelf: str,
        store: Store,
        make: Callable[[], _T],
        good: Callable[[_T], bool] = lambda kept: True,
        *more: object,
    ) -> _T:
        """Take up what was kept for the same firings and settings (and `more`), or make it."""
        key = None if self.outlines is None else digest(self.settings, self.outlines, *more)
        return one_renewed(shelf, key, store, make, good)

    def apart(self) -> Whole:
        """Give the same with all that was unpacked of the firings let go."""
        records = tuple(record.apart() for record in self.archive.records)
        return replace(self, archive=replace(self.archive, records=records))


def outlines(records: Sequence[Record], examined: Mapping[str, Examined]) -> tuple[str, ...] | None:
    """Return what stands for each firing but for its story; `examined` is by slug."""
    found = [examined[record.slug].outline for record in records]
    told = tuple(one for one in found if one is not None)
    return told if len(told) == len(found) else None


def gathered(records: Sequence[Record], told: tuple[str, ...] | None, settings: Settings, store: Store) -> Archive:
    """Put all firings together; their rates are reckoned where anything but a story changed."""
    key = None if told is None else digest(settings, told)
    rates = one_renewed("rates", key, store, lambda: replace(gather(records, settings), records=()))
    return replace(rates, records=tuple(records))


def alike_of(whole: Whole, store: Store, jobs: int | None = None) -> Best:
    """Find the firings most like each one, where anything but a story changed: most of it holds where few did."""
    before: dict[str, Likeness] = {}
    firings = whole.outlines or ()

    def make(names: list[str]) -> Iterator[Likeness]:
        from builder.archive.traits import traits  # only now: it loads all that conditions are tried with

        for name in names:
            recorded = [traits(record) for record in whole.archive.records]
            yield likeness(recorded, firings, before.get(name), jobs=jobs)

    (found,) = renewed([""], {"": digest(firings)} if firings else {}, "likeness", store, make, before=before)
    return found.best


def facts_of_site(whole: Whole, store: Store) -> SiteFacts:
    """Gather what every page shows, where anything but a story changed."""
    from builder.pages.site_facts import site_facts  # only now: it loads what a home page is made with

    return whole.kept("facts", store, lambda: site_facts(whole.archive, whole.settings))


def written_whole(
    whole: Whole, docs: Folder, store: Store, make: Callable[[], tuple[Written, ...]]
) -> tuple[Written, ...]:
    """Return what is no single firing's in the docs folder, made where that does not hold all of it already."""

    def good(kept: tuple[Written, ...]) -> bool:
        return all(docs.digest(file.address) == file.digest for file in kept)

    return whole.kept("whole", store, make, good, whole.left_out, whole.doubts, whole.prose, whole.offline)


def read_prose(project: Path) -> dict[str, str]:
    """Read the group's own pages: name to Markdown."""
    folder = project / "content" / "pages"
    pages = sorted(path for path in folder.glob("*.md") if path.is_file() and not path.is_symlink())
    return {path.stem: read_text(path, path.name)[0] for path in pages}
