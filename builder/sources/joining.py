"""The archive's settings and entries with those of its sources: each group's words under a key of their own."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from pathlib import Path

from builder.base.problem import Problem
from builder.checks.firing import Firing
from builder.entries.find import JOINT, EntryFile
from builder.exports.published_entry import PUBLISHED_ENTRY
from builder.exports.published_settings import PUBLISHED_SETTINGS
from builder.settings import NOBODY, Method, Potter, Settings, Source, SourcePlace
from builder.sources.package import Package, PublishedEntry, open_package, published_entries
from builder.sources.published import read_published
from builder.sources.unpacking import remove


@dataclass(frozen=True, slots=True)
class Joined:
    """What an archive is built from once its sources are read."""

    settings: Settings
    """The archive's, with the potters, methods and words that its sources brought."""
    entries: tuple[EntryFile, ...]
    """The sources' entries."""
    problems: tuple[Problem, ...]


def join(settings: Settings, project: Path, aside: Path) -> Joined:
    """Read every source that the settings ask for; zips are unpacked into folders in `aside`, which is this one's own.

    A source that cannot be read is a problem, and the others are read all the same.
    """
    _clear(aside, {place.key for place in settings.asked})
    sources: dict[str, Source] = {}
    entries: list[EntryFile] = []
    problems: list[Problem] = []
    for place in settings.asked:
        source, found, told = _read(place, settings, project, aside)
        problems += told
        if source is not None:
            sources[place.key] = source
            entries += found
    return Joined(with_sources(settings, sources) if sources else settings, tuple(entries), tuple(problems))


def _clear(aside: Path, wanted: set[str]) -> None:
    """Remove what was unpacked of sources that are none any more."""
    if aside.is_symlink():
        aside.unlink()
    for folder in aside.iterdir() if aside.is_dir() else ():
        if folder.name not in wanted:
            remove(folder)


def _read(
    place: SourcePlace, settings: Settings, project: Path, aside: Path
) -> tuple[Source | None, list[EntryFile], list[Problem]]:
    package, problems = open_package(place, project, aside)
    if package is None:
        return None, [], list(problems)
    rules, more = read_published(package.data / PUBLISHED_SETTINGS, f"{package.told}/{PUBLISHED_SETTINGS}")
    if rules is None:
        return None, [], [*problems, *more]
    if place.address:
        rules = replace(rules, group=replace(rules.group, address=place.address))
    entries, strange = published_entries(package)
    methods = {key: key if key in settings.methods else joint(place.key, key) for key in rules.methods}
    found = [_entry(package, entry) for entry in entries]
    return Source(place.key, rules, methods), found, [*problems, *more, *strange]


def _entry(package: Package, entry: PublishedEntry) -> EntryFile:
    slug = joint(package.key, entry.name)
    return EntryFile(slug, entry.folder, entry.folder / PUBLISHED_ENTRY, entry.file, package.key)


def joint(source: str, word: str) -> str:
    """Return a group's word as it is called here: `hill--wren` is the Wren of the source `hill`."""
    return f"{source}{JOINT}{word}"


def potter_here(source: str, key: str) -> str:
    """Return the key of a source's potter in this archive; whoever is shown as nobody is nobody here too."""
    return NOBODY if key == NOBODY else joint(source, key)


def with_sources(settings: Settings, sources: Mapping[str, Source]) -> Settings:
    """Return an archive's settings with what its sources bring: potters, methods that it has not, words of lists.

    A method that this archive has as well is this archive's: by its window and its rule all groups are compared.
    """
    potters, methods, words = dict(settings.potters), dict(settings.methods), dict(settings.words)
    for key, source in sources.items():
        for potter in source.rules.potters.values():
            here = potter_here(key, potter.key)
            potters.setdefault(here, _potter(potter, here, source))
        for method in source.rules.methods.values():
            here = source.methods[method.key]
            methods.setdefault(here, _method(method, here, source))
        for path, added in source.rules.words.items():
            words[path] = tuple(dict.fromkeys((*words.get(path, ()), *added)))
    return replace(settings, potters=potters, methods=methods, words=words, sources=sources, own=settings)


def _potter(potter: Potter, key: str, source: Source) -> Potter:
    return potter if key == NOBODY else replace(potter, key=key, group=source.rules.group.name)


def _method(method: Method, key: str, source: Source) -> Method:
    return replace(method, key=key, name=f"{method.name} ({source.rules.group.name})")


def only_those_met(settings: Settings, firings: Iterable[Firing]) -> Settings:
    """Leave those potters and methods of the sources out that no firing names."""
    if not settings.sources:
        return settings
    alone = settings.alone
    met = {word for firing in firings for word in (firing.potter, *firing.helpers, firing.method)}
    return replace(
        settings,
        potters={key: one for key, one in settings.potters.items() if key in alone.potters or key in met},
        methods={key: one for key, one in settings.methods.items() if key in alone.methods or key in met},
    )
