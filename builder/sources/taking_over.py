"""A source's firing made one of this archive's: under its own address, with its group's licence, people and methods."""

from __future__ import annotations

from dataclasses import replace

from builder.base.codes import problem
from builder.base.problem import Place, Problem
from builder.checks.fault import Fault
from builder.checks.firing import Firing
from builder.checks.places import read_place
from builder.entries.find import EntryFile
from builder.kept.digest import digest
from builder.settings import Group, Settings


def as_named_at_home(entry: EntryFile) -> EntryFile:
    """Return an entry under the name that it has in its own group's archive, by which it is checked."""
    return replace(entry, slug=entry.own_name, source="")


def taken_over(firing: Firing, source: str, settings: Settings) -> tuple[Firing, tuple[Problem, ...]]:
    """Make a checked firing of a source one of this archive's.

    Its words for people and methods become this archive's keys, its licence is told where it was its group's, and its
    place is told no nearer than this archive tells places.
    """
    from builder.sources.joining import joint, potter_here  # only now: most archives join no other

    found = settings.sources[source]
    place = None if firing.place is None else read_place(firing.place, settings.place_decimals)
    problems = (_place_problem(firing),) if isinstance(place, Fault) else ()
    return replace(
        firing,
        slug=joint(source, firing.slug),
        source=source,
        potter=potter_here(source, firing.potter),
        helpers=tuple(potter_here(source, key) for key in firing.helpers),
        method=found.methods[firing.method],
        place=None if isinstance(place, Fault) else place,
        photos=(),
        licence=firing.licence or found.rules.group.licence,
    ), problems


def _place_problem(firing: Firing) -> Problem:
    message = "The place is told more exactly than this archive publishes, and is left out here."
    help_ = "Nothing need be done; `coordinates` under `places` in site_config.yml decides it."
    return problem("source-place", Place(firing.file), "place", message, help_)


def facts_of(settings: Settings, source: str) -> str:
    """Return the digest of all settings that what is made of an entry may depend on; of no source: an own entry's.

    How a group presents itself is none of them.
    """
    alone = replace(settings.alone, group=Group(""), asked=())
    if not source:
        return digest(alone)
    found = settings.sources[source]
    rules = replace(found.rules, group=Group("", licence=found.rules.group.licence))
    return digest(alone, rules, found.methods, {here: settings.methods[here] for here in found.methods.values()})
