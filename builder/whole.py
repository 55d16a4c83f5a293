"""What all firings give together: the findings, the pages that are no single firing's, and the open data."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any, TypeVar

from builder.archive.archive import Archive, Record, gather
from builder.archive.findings import Findings, find_out
from builder.archive.likeness import Best, Likeness, Trait, likeness
from builder.archive.questions import Question
from builder.base.problem import Problem
from builder.charts.keeping import have_frames
from builder.entries.front_matter import read_text
from builder.examine import Examined
from builder.exports.tables import LongRows
from builder.kept.digest import digest
from builder.kept.entries import one_renewed, renewed
from builder.kept.folder import Folder
from builder.kept.store import Store
from builder.pages.drafts import Draft
from builder.publish.mkdocs_site import write_file, write_page
from builder.publish.site import SiteFacts, Written
from builder.settings import Settings
from builder.workers import WORTH_A_POOL, shared, spread

WEB_ONLY = ("feed.xml", "feed.json")
"""Files that mean something on a web host only."""

_AT_ONCE = 32
"""So many firings' rows of open data are made, and kept, in one go."""

_T = TypeVar("_T")


@dataclass(frozen=True, slots=True)
class Rows:
    """What tables and lists hold of a few firings, made from these alone."""

    long: LongRows
    listed: tuple[Any, ...]
    """A `ListedFiring` each, whose file is loaded only where one is made."""


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


def findings_of(whole: Whole, store: Store, jobs: int | None = None) -> Findings:
    """Work out what all firings say together, where anything but a story changed; a window where its firings did."""

    def ask(kind: str, questions: Mapping[str, Question[_T]]) -> Mapping[str, _T]:
        keys = {name: digest(question.seen) for name, question in questions.items()}
        answers = renewed(
            list(questions),
            keys,
            kind,
            store,
            lambda wanted: (questions[name].answer() for name in wanted),
        )
        return dict(zip(questions, answers, strict=True))

    def alike(recorded: Sequence[Mapping[str, Trait]]) -> Best:
        before: dict[str, Likeness] = {}
        firings = whole.outlines or ()

        def make(names: list[str]) -> Iterator[Likeness]:
            return (likeness(recorded, firings, before.get(name), jobs=jobs) for name in names)

        (found,) = renewed([""], {"": digest(firings)} if firings else {}, "likeness", store, make, before=before)
        return found.best

    def found() -> Findings:
        return find_out(whole.archive, whole.settings, ask, alike)

    return whole.kept("findings", store, found)


def facts_of_site(whole: Whole, store: Store) -> SiteFacts:
    """Gather what every page shows, where anything but a story changed."""
    from builder.pages.site_facts import site_facts

    return whole.kept("facts", store, lambda: site_facts(whole.archive, whole.settings))


def render_whole(
    whole: Whole, findings: Findings, docs: Folder, store: Store, jobs: int | None = None
) -> tuple[Written, ...]:
    """Write the pages and files that are no single firing's, where the docs folder does not hold them already."""

    def make() -> tuple[Written, ...]:
        have_frames(store)
        rows = _rows(whole, store, jobs)
        written = _written(whole, _drafts(whole, findings, rows), docs, store, jobs)
        return (*written, *_open_data(findings, whole, docs, [part.long for part in rows]))

    def good(kept: tuple[Written, ...]) -> bool:
        return all(docs.digest(file.address) == file.digest for file in kept)

    return whole.kept("whole", store, make, good, whole.left_out, whole.doubts, whole.prose, whole.offline)


def _drafts(whole: Whole, findings: Findings, rows: Sequence[Rows]) -> dict[str, Draft]:
    """Return the archive's own pages and the data of its lists before they are made: by address."""
    from builder.pages.compare_data import SHELF, shelf_data  # only now: all stands where nothing but a story changed
    from builder.pages.list_columns import list_files
    from builder.pages.site_pages import site_drafts

    listed = [one for part in rows for one in part.listed]
    left_out = tuple(whole.left_out.items())
    pages = site_drafts(whole.archive, whole.settings, left_out, whole.doubts, whole.prose, findings, listed)
    files = list_files(whole.archive, whole.settings, listed)
    return {one.address: one for one in (*pages, *files, Draft(SHELF, (), shelf_data))}


def _written(
    whole: Whole, drafts: Mapping[str, Draft], docs: Folder, store: Store, jobs: int | None
) -> Iterable[Written]:
    """Make what a draft was drawn up of, where that is another or the docs folder does not hold it any more."""
    facts, told = digest(whole.settings), whole.outlines is not None
    keys = {name: digest(facts, draft.seen) for name, draft in drafts.items()} if told else {}
    few = len(whole.archive.records) < WORTH_A_POOL

    def good(name: str, kept: Written) -> bool:
        return docs.digest(kept.address) == kept.digest

    def make(names: list[str]) -> Iterator[Written]:
        return spread(_write, names, 1 if few else jobs, (drafts, docs))

    for file in renewed(list(drafts), keys, "own pages", store, make, good):
        docs.note(file.address, file.digest)
        yield file


def _write(name: str) -> Written:
    drafts, docs = shared()
    made = drafts[name].make()
    return write_file(name, made, docs) if isinstance(made, bytes) else write_page(made, docs)


def _rows(whole: Whole, store: Store, jobs: int | None) -> tuple[Rows, ...]:
    """Write what long tables and lists hold over the machine's cores, a few firings at once; only where one changed."""
    starts = range(0, len(whole.archive.records), _AT_ONCE)
    facts = digest(whole.settings)
    told = whole.outlines
    keys = {} if told is None else {str(at): digest(facts, told[at : at + _AT_ONCE]) for at in starts}

    def make(names: list[str]) -> Iterator[Rows]:
        return spread(_rows_from, [int(name) for name in names], jobs, whole)

    return tuple(renewed([str(at) for at in starts], keys, "rows", store, make))


def _rows_from(start: int) -> Rows:
    from builder.exports.export_files import long_rows
    from builder.pages.list_columns import listed_firings

    whole: Whole = shared()
    some = replace(whole.archive, records=whole.archive.records[start : start + _AT_ONCE])
    return Rows(long_rows(some, whole.settings), listed_firings(some, whole.settings))


def _open_data(findings: Findings, whole: Whole, docs: Folder, rows: Sequence[LongRows]) -> Iterable[Written]:
    from builder.exports.export_files import export_files

    for address, content in export_files(whole.archive, whole.settings, findings, rows).items():
        if not (whole.offline and address in WEB_ONLY):
            yield write_file(address, content, docs)


def read_prose(project: Path) -> dict[str, str]:
    """Read the group's own pages: name to Markdown."""
    folder = project / "content" / "pages"
    pages = sorted(path for path in folder.glob("*.md") if path.is_file() and not path.is_symlink())
    return {path.stem: read_text(path, path.name)[0] for path in pages}
