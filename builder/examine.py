"""One entry through all its stages: read, checked, measured, its pieces judged."""

from __future__ import annotations

import unicodedata
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace

from builder.archive.parcels import Measured, Parcel, parcel
from builder.base.problem import Problem, has_errors
from builder.charts.keeping import have_frames
from builder.charts.small_curve import small_curve
from builder.checks.check import Checked, check_entry
from builder.checks.firing import Firing
from builder.checks.unnamed import unnamed_in_log
from builder.entries.find import EntryFile
from builder.heat.firing_heat import measure
from builder.kept.digest import plain_digest
from builder.kept.entries import fingerprints, renewed, unchanged
from builder.kept.fingerprints import Fingerprint
from builder.kept.store import Store
from builder.readings.curve import FiringCurves
from builder.readings.read import read_curves
from builder.settings import Settings
from builder.sources.taking_over import as_named_at_home, facts_of, taken_over
from builder.ware.outcome import judge
from builder.workers import shared, spread


@dataclass(frozen=True, slots=True)
class Examined:
    """One entry, with all that is wrong with it, and what it gives where nothing stands in the way."""

    entry: EntryFile
    problems: tuple[Problem, ...]
    parcel: Parcel | None
    """None where the entry has an error."""
    key: str | None = None
    """Digest of everything that it was made from; None where that cannot be told."""
    outline: str | None = None
    """The parcel's, where all that it was made from can be told."""
    fingerprint: Fingerprint | None = None
    """Of the entry's folder, as it was when this was made or taken up."""

    @property
    def measured(self) -> Measured | None:
        """What the firing gives, unpacked."""
        return None if self.parcel is None else self.parcel.opened()

    @property
    def still_so(self) -> bool:
        """Whether nothing was written into the entry's folder since."""
        return self.fingerprint is not None and unchanged(self.entry.folder, self.fingerprint)


def examine_all(
    entries: Sequence[EntryFile], settings: Settings, jobs: int | None = None, store: Store | None = None
) -> Iterator[Examined]:
    """Examine entries in their order, over the machine's cores; with a store, only those that it does not hold."""
    if store is None:
        yield from spread(_examine, [(entry, None) for entry in entries], jobs, settings)
        return
    prints = fingerprints({entry.slug: entry.folder for entry in entries}, store)
    facts = {source: facts_of(settings, source) for source in ("", *settings.sources)}
    keys = {
        entry.slug: plain_digest((facts[entry.source], entry.slug, entry.file, prints[entry.slug].content))
        for entry in entries
        if entry.slug in prints
    }
    by_slug = {entry.slug: entry for entry in entries}

    def good(slug: str, one: Examined) -> bool:
        return one.key == keys[slug]

    def still(slug: str) -> bool:
        return unchanged(by_slug[slug].folder, prints[slug])

    def make(slugs: list[str]) -> Iterator[Examined]:
        if slugs:
            have_frames(store)
        return spread(_examine, [(by_slug[slug], keys.get(slug)) for slug in slugs], jobs, settings)

    found = renewed([entry.slug for entry in entries], keys, "examined", store, make, good, still)
    # Where the project lies is nobody's business but this build's: what is kept may have been made elsewhere.
    for entry, one in zip(entries, found, strict=True):
        yield replace(one, entry=entry, fingerprint=prints.get(entry.slug))


def check_all(
    entries: Iterable[EntryFile], settings: Settings, jobs: int | None = None
) -> Iterator[tuple[Problem, ...]]:
    """Yield the problems of each entry, its readings included, without working out any figures."""
    yield from spread(_check, entries, jobs, settings)


def examine(entry: EntryFile, settings: Settings, *, sketched: bool = False) -> Examined:
    """Examine one entry; draw its small curve too, if asked."""
    firing, curves, problems = _read(entry, settings)
    if firing is None or curves is None:
        return Examined(entry, problems, None)
    method = settings.methods[firing.method]
    heat = measure(firing, curves, method, settings.heat)
    pieces = tuple(judge(piece, method, firing.painted) for piece in firing.pieces)
    sketch = small_curve(curves.ware_curve, (method.window_low_c, method.window_high_c)) if sketched else None
    return Examined(entry, problems, parcel(Measured(firing, curves, heat, pieces), sketch))


def _read(entry: EntryFile, settings: Settings) -> tuple[Firing | None, FiringCurves | None, tuple[Problem, ...]]:
    rules = settings.rules_of(entry.source)
    checked = check_entry(as_named_at_home(entry), rules)
    if checked.firing is None:
        return None, None, (*checked.problems, *_problems_of_readings(checked, entry))
    curves, more = read_curves(checked.firing, entry.folder)
    more = (*more, *unnamed_in_log(checked.firing, [event.words for event in curves.events], rules))
    problems = (*checked.problems, *checked.placed(more))
    firing, told = taken_over(checked.firing, entry.source, settings) if entry.source else (checked.firing, ())
    return firing, None if has_errors(more) else curves, (*problems, *told)


def _problems_of_readings(checked: Checked, entry: EntryFile) -> tuple[Problem, ...]:
    """Look at the readings of an entry that has an error elsewhere, so that one run finds all of them."""
    return () if checked.readings_of is None else checked.placed(read_curves(checked.readings_of, entry.folder)[1])


def _examine(task: tuple[EntryFile, str | None]) -> Examined:
    entry, key = task
    found = examine(entry, shared(), sketched=True)
    return replace(found, key=key, outline=None if key is None or found.parcel is None else found.parcel.outline)


def _check(entry: EntryFile) -> tuple[Problem, ...]:
    return _read(entry, shared())[2]


def in_order(parcels: Iterable[Parcel]) -> list[Parcel]:
    """Order firings by date, then by address: the order in which the archive numbers them."""
    return sorted(parcels, key=lambda one: (one.date, unicodedata.normalize("NFC", one.slug)))
