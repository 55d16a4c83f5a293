"""Potters who are shown as nobody: where an entry's own words would tell who they are.

The words that are found are never repeated: what is said of them may be published.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping

from builder.base.codes import problem
from builder.base.located_yaml import Node, Scalar, Sequence
from builder.base.problem import Place, Problem
from builder.checks.fault import Fault
from builder.checks.firing import Firing
from builder.checks.review import Review
from builder.entries.find import suggest_words
from builder.entries.front_matter import ParsedEntry
from builder.settings import NOBODY, Settings

_UNPUBLISHED = frozenset({"potter", "helpers", "readings.file", "photos.file"})
"""Fields whose values are on no page: keys, and names of files that get other names there."""
_LEAST_LETTERS = 3
"""Shortest part of a name that is looked for by itself."""
_HELP = "Say it without the name and its word, or let its potter choose another way to be shown."


def check_unnamed(parsed: ParsedEntry, review: Review) -> None:
    """Warn of each place in an entry that would tell who somebody is who wants to be nobody."""
    unnamed = review.settings.unnamed
    if not unnamed or parsed.root is None:
        return
    slug = re.compile("|".join(_slug_patterns(unnamed)))
    if slug.search(review.entry.slug[10:]):
        message = "The folder's name, which is also the page's address, tells of a potter who is shown as nobody."
        help_ = "Rename the folder without the name and its word."
        review.report(Fault("name-told", message, help_), Place(review.entry.file), "")
    told = _pattern(unnamed, _is_theirs(parsed, unnamed))
    for path, scalar in _texts(parsed.root):
        if told.search(scalar.text):
            review.report(Fault("name-told", _message(path), _HELP), scalar.place, path)
    first = parsed.text[: max(0, parsed.text.rfind(parsed.story))].count("\n") + 1
    for place in _places(told, parsed.story, review.entry.file, first):
        review.report(Fault("name-told", _message("the story"), _HELP), place, "")


def unnamed_in_log(firing: Firing, remarks: Iterable[str], settings: Settings) -> tuple[Problem, ...]:
    """Warn of remarks in a readings file that would tell it; those of rows stand in the entry itself."""
    if not settings.unnamed or firing.readings is None or firing.readings.file is None:
        return ()
    told = _pattern(settings.unnamed, firing.potter == NOBODY)
    if not any(told.search(remark) for remark in remarks):
        return ()
    return (problem("name-told", Place(firing.file), "readings.file", _message("the remarks of the log"), _HELP),)


def unnamed_in_pages(pages: Mapping[str, str], settings: Settings) -> tuple[Problem, ...]:
    """Warn of each place in the group's own pages (name to text) that would tell it."""
    if not settings.unnamed:
        return ()
    told = _pattern(settings.unnamed, theirs=False)
    places = (place for name, text in pages.items() for place in _places(told, text, f"content/pages/{name}.md", 1))
    return tuple(problem("name-told", place, "", _message("this page"), _HELP) for place in places)


def _places(told: re.Pattern[str], text: str, file: str, first: int) -> Iterator[Place]:
    """Yield where each line of a text first tells it."""
    for number, line in enumerate(text.split("\n"), first):
        found = told.search(line)
        if found:
            yield Place(file, number, found.start() + 1)


def _message(where: str) -> str:
    return f"The words of {where} tell of a potter who is shown as nobody."


def _is_theirs(parsed: ParsedEntry, unnamed: Mapping[str, str]) -> bool:
    """Tell whether one of them lit this fire or helped at it."""
    keys = {" ".join(key.casefold().split()) for key in (*unnamed, NOBODY)}
    named = (scalar for path, scalar in _texts(parsed.root, everything=True) if path in ("potter", "helpers"))
    return any(" ".join(scalar.text.casefold().split()) in keys for scalar in named)


def _texts(node: Node | None, path: str = "", everything: bool = False) -> Iterator[tuple[str, Scalar]]:
    """Yield each text of the front matter with its field; without those that are published nowhere."""
    if isinstance(node, Scalar):
        if everything or path not in _UNPUBLISHED:
            yield path, node
    elif isinstance(node, Sequence):
        for item in node.items:
            yield from _texts(item, path, everything)
    elif node is not None:
        for key, value in node.items:
            yield from _texts(value, f"{path}.{key.text}".lstrip("."), everything)


def _slug_patterns(unnamed: Mapping[str, str]) -> Iterator[str]:
    """Yield what finds a key or a longer part of a name among the words of a folder's name."""
    for key, name in unnamed.items():
        for word in {key, suggest_words(name), *(suggest_words(part) for part in _parts(name))} - {""}:
            yield rf"(?<=-){re.escape(word)}(?=-|\Z)"


def _pattern(unnamed: Mapping[str, str], theirs: bool) -> re.Pattern[str]:
    """Match the whole name anywhere, and its parts and the key: in their own entries however they are written.

    Elsewhere a part counts only as it stands in the name, so that a wren in a hedge is no Wren.
    """
    words = []
    for key, name in unnamed.items():
        whole = r"\s+".join(map(re.escape, name.split()))
        exact = [*(re.escape(part) for part in _parts(name)), re.escape(key.capitalize())]
        loose = [whole, *([*exact, re.escape(key)] if theirs else [])]
        words += [rf"(?i:{one})" for one in loose if one] + exact
    return re.compile(rf"(?<![^\W_])(?:{'|'.join(words)})(?![^\W_])")


def _parts(name: str) -> list[str]:
    return [part for part in re.findall(r"\w+", name) if len(part) >= _LEAST_LETTERS]
