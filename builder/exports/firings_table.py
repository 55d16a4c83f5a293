"""firings.csv: one row a firing."""

from __future__ import annotations

from collections.abc import Iterator

from builder.archive.archive import Archive, Record
from builder.exports.condition_columns import condition_cells, condition_columns
from builder.exports.origin import entry_file, published_at
from builder.exports.tables import Column, Table, Value
from builder.heat.figures import Figure, FigureKind, kinds_for
from builder.settings import Settings
from builder.ware.outcome import Verdict

_SEEN = ("n_readings", "largest_gap_min")
"""Figures that are counted, not measured: no interval."""
_UNITS = {
    "temperature": ("°C", 1),
    "temperature_step": ("°C", 1),
    "rate": ("°C/min", 2),
    "time": ("min", 2),
    "degree_minutes": ("°C·min", 1),
}
"""Unit and digits by the quantity of a figure; a reading is worth a degree at best."""

_FIRST = (
    Column("firing", "string", "Firing", "Name of the firing's folder: its lasting name.", required=True),
    Column("title", "string", "Title", "The entry's title.", required=True),
    Column("date", "date", "Date", "The day of the main fire.", required=True),
    Column("potter", "string", "Potter", "Short word for who fired.", required=True),
    Column("potter_name", "string", "Potter's name", "The name that the potter publishes under."),
    Column("method", "string", "Method", "Short word for how it was fired.", required=True),
    Column("place", "string", "Place", "Where, in words, as coarse as the group's rule."),
    Column("ware", "string", "Ware", "The ware, in the same words each time."),
)
_PROBE = (
    Column("probe", "string", "Probe", "Name of the probe that stands for the ware; the figures are its own."),
    Column(
        "topped_out",
        "string",
        "Topped out",
        "yes where that probe reached its limit: figures without an upper end are then lower bounds.",
        words=("yes", "no"),
    ),
)
_LAST = (
    Column("pieces", "integer", "Pieces", "How many pieces were fired.", required=True),
    Column("judged", "integer", "Judged", "How many of them could be judged by what the method counts.", required=True),
    Column("successes", "integer", "Successes", "How many of those judged succeeded.", required=True),
    Column("licence", "string", "Licence", "Licence of the entry as an SPDX id.", required=True),
    Column("group", "string", "Group", "The group whose firing it is.", required=True),
    Column(
        "published_at",
        "string",
        "Published at",
        "Address of its page in the site of that group, where it came from another archive that has one.",
    ),
    Column(
        "entry",
        "string",
        "Entry",
        "File of its published entry, from this table's folder; empty where another archive publishes it.",
    ),
    Column(
        "url",
        "string",
        "Page",
        "Address of its page; from the site's root where the site has no address of its own.",
        required=True,
    ),
)


def firings_table(archive: Archive, settings: Settings) -> Table:
    """Return the table of all firings."""
    kinds = kinds_for(settings.heat.levels_c)
    seen = tuple(kind for name in _SEEN for kind in kinds if kind.name == name)
    measured = tuple(kind for kind in kinds if kind.name not in _SEEN)
    return Table(
        "firings",
        "Firings",
        "One row a firing: its conditions, its figures with 95 % intervals, its pieces.",
        (
            *_FIRST,
            *condition_columns(settings),
            *_PROBE,
            *(_seen_column(kind) for kind in seen),
            *(column for kind in measured for column in _measured_columns(kind)),
            *_LAST,
        ),
        ("firing",),
        (),
        (_row(record, settings, seen, measured) for record in archive.records),
    )


def page_address(record: Record, settings: Settings) -> str:
    """Return the address of a firing's page, whole where the site has an address, else from the site's root."""
    return f"{settings.group.url}firings/{record.firing.slug}.html"


def _seen_column(kind: FigureKind) -> Column:
    if kind.quantity == "count":
        return Column(kind.name, "integer", kind.label, kind.meaning)
    unit, decimals = _UNITS[kind.quantity]
    return Column(kind.name, "number", kind.label, kind.meaning, unit, decimals)


def _measured_columns(kind: FigureKind) -> tuple[Column, ...]:
    unit, decimals = _UNITS[kind.quantity]
    ends = (("_low", "lower"), ("_high", "upper"))
    return (
        Column(kind.name, "number", kind.label, kind.meaning, unit, decimals),
        *(
            Column(
                f"{kind.name}{suffix}",
                "number",
                f"{kind.label}, {end} end",
                f"The {end} end of its 95 % interval.",
                unit,
                decimals,
            )
            for suffix, end in ends
        ),
    )


def _row(
    record: Record, settings: Settings, seen: tuple[FigureKind, ...], measured: tuple[FigureKind, ...]
) -> tuple[Value, ...]:
    firing, figures = record.firing, record.heat.ware_figures
    potter = settings.potters.get(firing.potter)
    return (
        firing.slug,
        firing.title,
        firing.date,
        firing.potter,
        potter.name if potter else None,
        firing.method,
        firing.place,
        firing.ware,
        *condition_cells(dict(firing.conditions)),
        *_probe_cells(record),
        *(_seen_cell(figures.get(kind.name), kind) for kind in seen),
        *(cell for kind in measured for cell in _figure_cells(figures.get(kind.name))),
        *_piece_counts(record),
        firing.licence or settings.group.licence,
        settings.group_of(firing.source).name,
        published_at(firing, settings) or None,
        entry_file(firing) or None,
        page_address(record, settings),
    )


def _probe_cells(record: Record) -> tuple[Value, Value]:
    curve = record.curves.ware_curve
    return (None, None) if curve is None else (curve.probe.name, "yes" if curve.at_least else "no")


def _seen_cell(figure: Figure | None, kind: FigureKind) -> Value:
    if figure is None or figure.value is None:
        return None
    return round(figure.value) if kind.quantity == "count" else figure.value


def _figure_cells(figure: Figure | None) -> Iterator[Value]:
    yield from (None, None, None) if figure is None else (figure.value, figure.low, figure.high)


def _piece_counts(record: Record) -> tuple[int, int, int]:
    def count(*verdicts: Verdict) -> int:
        return sum(judged.piece.count for judged in record.pieces if judged.success in verdicts)

    return count(*Verdict), count(Verdict.YES, Verdict.NO), count(Verdict.YES)
