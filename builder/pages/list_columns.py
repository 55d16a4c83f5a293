"""What the list of firings and the comparing page know of every firing: one small script of columns.

A script that defines data can be read from a folder as well as from a host. It holds what is picked, sorted, searched
and written on a line, but not the curves: those come a few at a time, when their lines come into view.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import partial

from builder.archive.archive import Archive, Record
from builder.charts.marks import fire_mark
from builder.pages.drafts import Draft, lines_of
from builder.pages.facets import FacetWords, facet_words
from builder.pages.firing_lines import line_curve, line_marks, materials_of, more_pots
from builder.pages.numbers import day_and_month
from builder.pages.packed_columns import packed_numbers, packed_sets, packed_words
from builder.pages.script_data import script_json
from builder.pages.sentences import outcome_words, piece_count
from builder.settings import Settings
from builder.ware.outcome import Verdict

COLUMNS = "firings/list.js"
"""Address of the columns."""
CURVES_EACH = 20
"""Small curves in one file: a view of firings from all over the archive loads about as many files as it has lines."""


@dataclass(frozen=True, slots=True)
class ListedFiring:
    """What the columns hold of one firing, made from it alone."""

    slug: str
    title: str
    ordinal: int
    """Its day, counted from 1 January of the year 1."""
    day: str
    """Its day and month in words."""
    facets: FacetWords
    materials: tuple[str, ...]
    marks: tuple[str, ...]
    more_pots: int
    pots: str
    peak_tenths: int | None
    """Hottest reading in tenths of 1 °C."""
    length_tenths: int | None
    """From lighting to the last reading, in tenths of a minute."""
    pieces: int
    judged: int
    successes: int
    place: str
    """As it was written; empty where not recorded."""
    ware: str


def listed_firing(record: Record, settings: Settings) -> ListedFiring:
    """Gather what the columns hold of one firing."""
    firing, curve = record.firing, record.curves.ware_curve
    peak = record.figure("peak_c")
    pieces = piece_count(record.pieces)
    return ListedFiring(
        slug=firing.slug,
        title=firing.title,
        ordinal=firing.date.toordinal(),
        day=day_and_month(firing.date),
        facets=facet_words(record, settings),
        materials=materials_of(record),
        marks=tuple(str(mark) for mark in line_marks(record)),
        more_pots=more_pots(record),
        pots=outcome_words(record.pieces),
        peak_tenths=None if peak is None or peak.value is None else round(10 * peak.value),
        length_tenths=None if curve is None else round(10 * float(curve.minutes[-1])),
        pieces=pieces,
        judged=pieces - piece_count(record.pieces, Verdict.UNJUDGED),
        successes=piece_count(record.pieces, Verdict.YES),
        place=firing.place or "",
        ware=firing.ware or "",
    )


def listed_firings(archive: Archive, settings: Settings) -> tuple[ListedFiring, ...]:
    """Gather what the columns hold of an archive's firings, or of some of them: each one's is made from it alone."""
    return tuple(listed_firing(record, settings) for record in archive.records)


def list_files(archive: Archive, settings: Settings, listed: Sequence[ListedFiring]) -> tuple[Draft, ...]:
    """Draft the columns, and a file of small curves for every `CURVES_EACH` firings."""
    records = archive.records
    columns = Draft(COLUMNS, lines_of(records), partial(columns_file, listed, settings))
    groups = (records[at : at + CURVES_EACH] for at in range(0, len(records), CURVES_EACH))
    return columns, *(_curves_draft(number, group, settings) for number, group in enumerate(groups))


def columns_file(listed: Sequence[ListedFiring], settings: Settings) -> bytes:
    """Write the columns; a firing's row is its number less one."""
    marks = tuple(dict.fromkeys(mark for one in listed for mark in one.marks))
    told = {
        "titles": [one.title for one in listed],
        "slugs": [one.slug for one in listed],
        "dates": packed_numbers([one.ordinal for one in listed]),
        "days": packed_words([one.day for one in listed]),
        "fires": {key: fire_mark(method.kind) for key, method in settings.methods.items()},
        "facets": _facet_columns([one.facets for one in listed]),
        "materials": packed_sets([one.materials for one in listed]),
        "marks": packed_sets([one.marks for one in listed], marks),
        "more": packed_numbers([one.more_pots for one in listed]),
        "pots": packed_words([one.pots for one in listed]),
        "peaks": packed_numbers([one.peak_tenths for one in listed]),
        "lengths": packed_numbers([one.length_tenths for one in listed]),
        "pieces": packed_numbers([one.pieces for one in listed]),
        "judged": packed_numbers([one.judged for one in listed]),
        "successes": packed_numbers([one.successes for one in listed]),
        "places": packed_words([one.place for one in listed]),
        "wares": packed_words([one.ware for one in listed]),
        "curvesEach": CURVES_EACH,
    }
    return f"window.ashbookList = {script_json(told)};\n".encode()


def _facet_columns(told: Sequence[FacetWords]) -> dict[str, object]:
    columns: dict[str, object] = {}
    for key in told[0] if told else ():
        labels: dict[str, str] = {}
        for one in told:
            for value, words in one[key].items():
                labels.setdefault(value, words)
        packed = packed_sets([tuple(one[key]) for one in told], labels)
        columns[key] = {**packed, "labels": list(labels.values())}
    return columns


def _curves_draft(number: int, group: Sequence[Record], settings: Settings) -> Draft:
    return Draft(f"firings/curves-{number}.js", lines_of(group), partial(_curves_file, number, group, settings))


def _curves_file(number: int, group: Sequence[Record], settings: Settings) -> bytes:
    drawn = script_json([line_curve(record, settings) for record in group])
    return f"(window.ashbookCurves ??= [])[{number}] = {drawn};\n".encode()
