"""The facets by which firings are picked out: their values, words and counts."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from builder.archive.archive import Record
from builder.archive.ways_in import folded
from builder.entries.fields import CONDITIONS, SURVIVAL
from builder.pages.conditions import condition_words
from builder.pages.sentences import survival_counts
from builder.settings import Settings

MISSING = ""
"""The value of a facet where nothing was recorded; it can be picked like any other."""
_NOTHING = {MISSING: "Not recorded"}


@dataclass(frozen=True, slots=True)
class Option:
    """One value of a facet."""

    value: str
    label: str
    count: int
    """How many firings have it."""


@dataclass(frozen=True, slots=True)
class Facet:
    """One question that firings can be picked by."""

    key: str
    """Its word in the address."""
    label: str
    open: bool
    """Shown unfolded at first."""
    options: tuple[Option, ...]


@dataclass(frozen=True, slots=True)
class _Asking:
    """How a facet asks a record for its values, and in what order they stand."""

    key: str
    label: str
    values: Callable[[Record, Settings], dict[str, str]]
    """Value to words, of one record; empty where nothing was recorded."""
    order: Callable[[str, str, Settings], tuple[object, ...]]
    open: bool = False


FacetWords = dict[str, dict[str, str]]
"""One firing's values by facet, each with its words; `MISSING` where nothing was recorded."""


def facet_words(record: Record, settings: Settings) -> FacetWords:
    """Return one firing's values by facet, in the order of the facets."""
    return {asking.key: asking.values(record, settings) or _NOTHING for asking in _asked(settings)}


def facets(told: Sequence[FacetWords], settings: Settings) -> tuple[Facet, ...]:
    """Count every value of every facet over all firings; a facet with one value only is no choice and left away."""
    found = (_facet(asking, told, settings) for asking in _asked(settings))
    return tuple(facet for facet in found if len(facet.options) > 1)


def _facet(asking: _Asking, told: Sequence[FacetWords], settings: Settings) -> Facet:
    counts: dict[str, int] = {}
    labels: dict[str, str] = {}
    for one in told:
        for value, words in one[asking.key].items():
            counts[value] = counts.get(value, 0) + 1
            labels.setdefault(value, words)
    ordered = sorted(counts, key=lambda value: (value == MISSING, *asking.order(value, labels[value], settings)))
    options = tuple(Option(value, labels[value], counts[value]) for value in ordered)
    return Facet(asking.key, asking.label, asking.open, options)


def _method(record: Record, settings: Settings) -> dict[str, str]:
    return {record.firing.method: settings.methods[record.firing.method].name}


def _year(record: Record, settings: Settings) -> dict[str, str]:
    year = str(record.firing.date.year)
    return {year: year}


def _potter(record: Record, settings: Settings) -> dict[str, str]:
    return {key: settings.potters[key].named for key in (record.firing.potter, *record.firing.helpers)}


def _group(record: Record, settings: Settings) -> dict[str, str]:
    return _one_word(settings.group_of(record.firing.source).name)


def _ware(record: Record, settings: Settings) -> dict[str, str]:
    return _one_word(record.firing.ware)


def _place(record: Record, settings: Settings) -> dict[str, str]:
    return _one_word(record.firing.place)


def _one_word(word: str | None) -> dict[str, str]:
    """Two spellings of one ware or place are one value, as they are one page."""
    return {folded(word): word} if word else {}


def _outcome(record: Record, settings: Settings) -> dict[str, str]:
    return {word: word.capitalize() for word in survival_counts(record.pieces)}


def _hottest(record: Record, settings: Settings) -> dict[str, str]:
    """Place the hottest reading against the method's window; unknown without readings, or without a window."""
    method = settings.methods[record.firing.method]
    peak = record.figure("peak_c")
    if peak is None or peak.value is None or (method.window_low_c is None and method.window_high_c is None):
        return {}
    if method.window_low_c is not None and peak.value < method.window_low_c:
        return {"below": "Below the window"}
    if method.window_high_c is not None and peak.value > method.window_high_c:
        return {"above": "Above the window"}
    return {"inside": "Inside the window"}


def _condition(path: str) -> Callable[[Record, Settings], dict[str, str]]:
    def values(record: Record, settings: Settings) -> dict[str, str]:
        return {word.casefold(): word for word in condition_words(record.firing, path)}

    return values


def _listed_in(words: Callable[[Settings], tuple[str, ...]]) -> Callable[[str, str, Settings], tuple[object, ...]]:
    """Order values as a list has them, others after it by their words."""

    def order(value: str, label: str, settings: Settings) -> tuple[object, ...]:
        listed = words(settings)
        return (listed.index(value) if value in listed else len(listed), label.casefold())

    return order


def _by_label(value: str, label: str, settings: Settings) -> tuple[object, ...]:
    return (label.casefold(),)


def _newest_first(value: str, label: str, settings: Settings) -> tuple[object, ...]:
    return (-int(value or 0),)


_ASKED = (
    _Asking("method", "Method", _method, _listed_in(lambda settings: tuple(settings.methods)), open=True),
    _Asking("outcome", "Among the pots, some", _outcome, _listed_in(lambda settings: SURVIVAL), open=True),
    _Asking("hottest", "Hottest", _hottest, _listed_in(lambda settings: ("below", "inside", "above")), open=True),
    _Asking("year", "Year", _year, _newest_first, open=True),
    _Asking("potter", "Potter", _potter, _by_label, open=True),
    _Asking("ware", "Ware", _ware, _by_label),
    _Asking("place", "Place", _place, _by_label),
    *(
        _Asking(path.split(".")[1], CONDITIONS[path].heading, _condition(path), _by_label)
        for path in ("clay.body", "clay.temper", "surface.paint", "fuel.wood", "fuel.stack", "setting.ground")
    ),
)
_GROUP = _Asking("group", "Group", _group, _by_label, open=True)


def _asked(settings: Settings) -> tuple[_Asking, ...]:
    """Return the facets; the group is one only in an archive built from several."""
    return (_GROUP, *_ASKED) if settings.sources else _ASKED
