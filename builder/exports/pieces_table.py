"""pieces.csv: one row a piece, alike pieces written out."""

from __future__ import annotations

from collections.abc import Iterator

from builder.archive.archive import Archive, Record
from builder.entries.fields import FIELDS, Field
from builder.exports.tables import Column, Table, Value
from builder.heat.figures import Figure
from builder.settings import Settings
from builder.ware.measures import piece_measures
from builder.ware.outcome import JudgedPiece, Verdict

_RECORDED = ("form", "survival", "carbon", "paint", "ring", "colour")
"""Fields of a piece that are given as they were recorded."""
_ALIKE = "Measured on one of alike pieces and repeated for each."
_MEASURED = (
    Column("absorption_pct", "number", "Water absorption", f"Water absorbed, of the dry mass. {_ALIKE}", "%", 2),
    Column("porosity_pct", "number", "Apparent porosity", f"Open pores, of the outer volume. {_ALIKE}", "%", 2),
    Column("bulk_density_g_cm3", "number", "Bulk density", f"Dry mass over outer volume. {_ALIKE}", "g/cm³", 3),
    Column("shrinkage_pct", "number", "Shrinkage", f"Linear, from wet clay to fired. {_ALIKE}", "%", 2),
)


def pieces_table(archive: Archive, settings: Settings) -> Table:
    """Return the table of all pieces."""
    fields = {field.name: field for field in _piece_fields()}
    return Table(
        "pieces",
        "Pieces",
        "One row a piece: how it came out and what was measured on it.",
        (
            Column("firing", "string", "Firing", "The firing it was in.", required=True),
            Column("piece", "string", "Piece", fields["name"].meaning, required=True),
            Column("number", "integer", "Number", "Its number among the firing's pieces, from 1.", required=True),
            *(_recorded_column(fields[name], settings) for name in _RECORDED),
            *_MEASURED,
            Column(
                "success",
                "string",
                "Success",
                "Whether it came out as its method counts it; unjudged where an outcome that counts was not recorded.",
                words=tuple(Verdict),
                required=True,
            ),
        ),
        ("firing", "number"),
        (("firing", "firings"),),
        (row for record in archive.records for row in _rows(record)),
    )


def _piece_fields() -> tuple[Field, ...]:
    return next(field.fields for field in FIELDS if field.name == "pieces")


def _recorded_column(field: Field, settings: Settings) -> Column:
    words = (*field.words, *settings.words.get(f"pieces.{field.name}", ())) if field.words else ()
    return Column(
        field.name, "string", field.heading, field.meaning, words=tuple(dict.fromkeys(words)), required=field.required
    )


def _rows(record: Record) -> Iterator[tuple[Value, ...]]:
    number = 0
    for judged in record.pieces:
        cells = _cells(judged)
        for _ in range(judged.piece.count):
            number += 1
            yield (record.firing.slug, judged.piece.name, number, *cells)


def _cells(judged: JudgedPiece) -> tuple[Value, ...]:
    piece = judged.piece
    measures = piece_measures(piece)
    measured = (
        measures.absorption_pct,
        measures.porosity_pct,
        measures.bulk_density_g_cm3,
        measures.shrinkage_pct,
    )
    return (*(getattr(piece, name) for name in _RECORDED), *map(_value, measured), judged.success.value)


def _value(figure: Figure | None) -> float | None:
    return None if figure is None else figure.value
