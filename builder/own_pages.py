"""The archive's own pages, lists and open data, made from all firings: only those that come out otherwise.

Nothing of this is loaded where only a story changed.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import TypeVar

from builder.archive.findings import Findings, find_out
from builder.archive.questions import Question
from builder.charts.keeping import have_frames
from builder.exports.export_files import export_files, long_rows
from builder.exports.tables import LongRows
from builder.kept.digest import digest
from builder.kept.entries import renewed
from builder.kept.folder import Folder
from builder.kept.store import Store
from builder.pages.compare_data import SHELF, shelf_data
from builder.pages.drafts import Draft
from builder.pages.list_columns import ListedFiring, list_files, listed_firings
from builder.pages.site_pages import site_drafts
from builder.publish.mkdocs_site import write_file, write_page
from builder.publish.site import Written
from builder.whole import Whole
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
    listed: tuple[ListedFiring, ...]


def write_own_pages(whole: Whole, docs: Folder, store: Store, jobs: int | None = None) -> tuple[Written, ...]:
    """Write them all into the docs folder, where that does not hold them already."""
    have_frames(store)
    findings, rows = findings_of(whole, store, jobs), _rows(whole, store, jobs)
    written = _written(whole, _drafts(whole, findings, rows), docs, store, jobs)
    return (*written, *_open_data(findings, whole, docs, [part.long for part in rows]))


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

    def found() -> Findings:
        return find_out(whole.archive, whole.settings, ask)

    return whole.kept("findings", store, found)


def _drafts(whole: Whole, findings: Findings, rows: Sequence[Rows]) -> dict[str, Draft]:
    """Return the archive's own pages and the data of its lists before they are made: by address."""
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
    whole: Whole = shared()
    some = replace(whole.archive, records=whole.archive.records[start : start + _AT_ONCE])
    return Rows(long_rows(some, whole.settings), listed_firings(some, whole.settings))


def _open_data(findings: Findings, whole: Whole, docs: Folder, rows: Sequence[LongRows]) -> Iterable[Written]:
    for address, content in export_files(whole.archive, whole.settings, findings, rows).items():
        if not (whole.offline and address in WEB_ONLY):
            yield write_file(address, content, docs)
