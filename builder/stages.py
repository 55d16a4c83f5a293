"""The contents page of the whole program: from a folder of entries to the pages of a site, stage by stage."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from typing import TypeVar

from builder.archive.archive import Record
from builder.archive.parcels import PackedRecord
from builder.asked import Built, Options, Tell
from builder.base.problem import Problem, Severity, has_errors
from builder.checks.check import check_all_addresses
from builder.checks.unnamed import unnamed_in_pages
from builder.entries.find import find_entries
from builder.examine import Examined, examine_all, in_order
from builder.publish.publish import Workshop
from builder.publish.site import Site, Written
from builder.render import Rendering, render_all
from builder.settings import Settings, without_unnamed
from builder.sources.joining import join, only_those_met
from builder.sources.sameness import told_twice
from builder.whole import Whole, alike_of, facts_of_site, gathered, outlines, read_prose, written_whole

SOURCES = "sources"
"""Folder in it, for what is unpacked of other groups' archives."""
_LEFT_OUT = ("source-firing-twice",)
"""Problems that leave an entry out though nothing is wrong with it."""

_T = TypeVar("_T")


def made(
    options: Options, settings: Settings, problems: tuple[Problem, ...], at: Workshop, tell: Tell
) -> tuple[Built, Site | None]:
    """Read the archive and write its pages; the firings are let go before the pages are made a site."""
    entries, folder_problems = find_entries(options.project)
    joined = join(settings, options.project, at.work / SOURCES)
    settings, entries = joined.settings, (*entries, *joined.entries)
    examined = list(_counted(examine_all(entries, settings, options.jobs, at.store), len(entries), "Reading", tell))
    elsewhere = (*folder_problems, *joined.problems, *check_all_addresses(entries), *_twice(examined, settings))
    problems += (*elsewhere, *(found for one in examined for found in one.problems))
    prose = read_prose(options.project)
    problems += unnamed_in_pages(prose, settings)
    if options.strict and has_errors(problems):
        return Built(problems, len(entries), None), None

    left_out = _left_out(examined, elsewhere)
    sound = [one for one in examined if one.entry.file not in left_out]
    tell("Comparing", 0, 1)
    whole = _together(sound, settings, left_out, prose, options, at)
    alike = alike_of(whole, at.store, options.jobs)
    tell("Writing", 0, 1)
    facts = facts_of_site(whole, at.store)
    written = list(written_whole(whole, at.docs, at.store, lambda: _own_pages(whole, at, options.jobs)))

    whole = whole.apart()
    archive, settings, by_slug = whole.archive, whole.settings, {one.entry.slug: one for one in sound}
    rendering = Rendering(by_slug, archive, alike, settings, options.project, at.docs, bool(settings.group.url))
    drawn = render_all(rendering, at.store, options.jobs)
    for one in _counted(drawn, len(archive.records), "Drawing", tell):
        written += one.written
    newest = archive.records[-1].date if archive.records else None
    site = Site(facts, newest=newest, written=tuple(written))
    return Built(problems, len(entries), len(archive.records)), site


def _own_pages(whole: Whole, at: Workshop, jobs: int | None) -> tuple[Written, ...]:
    from builder.own_pages import write_own_pages  # only now: they all stand where nothing but a story changed

    return write_own_pages(whole, at.docs, at.store, jobs)


def _together(
    sound: Sequence[Examined],
    settings: Settings,
    left_out: Mapping[str, tuple[Problem, ...]],
    prose: Mapping[str, str],
    options: Options,
    at: Workshop,
) -> Whole:
    """Put the firings together."""
    records = _records(sound)
    settings = only_those_met(without_unnamed(settings), (record.firing for record in records))
    told = outlines(records, {one.entry.slug: one for one in sound})
    archive = gathered(records, told, settings, at.store)
    doubts = tuple(found for one in sound for found in one.problems)
    return Whole(archive, told, settings, left_out, doubts, prose, options.offline)


def _counted(results: Iterable[_T], total: int, stage: str, tell: Tell) -> Iterator[_T]:
    tell(stage, 0, total)
    for done, result in enumerate(results, 1):
        yield result
        tell(stage, done, total)


def _left_out(examined: Sequence[Examined], elsewhere: Iterable[Problem]) -> dict[str, tuple[Problem, ...]]:
    """Return what is not published, by file, each with all that is wrong with it.

    `elsewhere` are problems of folders, sources and addresses, which no single entry can see.
    """
    found: dict[str, tuple[Problem, ...]] = {}
    for problem in elsewhere:
        if problem.severity is Severity.ERROR or problem.code in _LEFT_OUT:
            found[problem.place.file] = (*found.get(problem.place.file, ()), problem)
    for one in examined:
        if one.parcel is None or one.entry.file in found:
            found[one.entry.file] = (*found.get(one.entry.file, ()), *one.problems)
    return dict(sorted(found.items()))


def _twice(examined: Iterable[Examined], settings: Settings) -> tuple[Problem, ...]:
    """Find firings that came from two archives."""
    if not settings.sources:
        return ()
    measured = (one.measured for one in examined if one.measured is not None)
    return tuple(told_twice((one.firing, one.curves) for one in measured))


def _records(examined: Iterable[Examined]) -> list[Record]:
    """Number the sound firings by date."""
    parcels = in_order(one.parcel for one in examined if one.parcel is not None)
    return [PackedRecord(number, one) for number, one in enumerate(parcels, 1)]
