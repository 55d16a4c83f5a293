"""rates.csv: success rates by method and outcome."""

from __future__ import annotations

from builder.archive.archive import ALL_METHODS, SUCCESS, Archive
from builder.exports.tables import Column, Table

_COLUMNS = (
    Column("method", "string", "Method", f"Short word for the method; `{ALL_METHODS}` for all firings.", required=True),
    Column(
        "outcome",
        "string",
        "Outcome",
        f"`{SUCCESS}` over all outcomes that the method counts, or one of them.",
        required=True,
    ),
    Column("firings", "integer", "Firings", "Firings with at least one judged piece.", required=True),
    Column(
        "pieces", "integer", "Pieces", "Judged pieces: every counted outcome recorded, or one failed.", required=True
    ),
    Column("successes", "integer", "Successes", "Judged pieces that came out as counted.", required=True),
    Column("unjudged", "integer", "Unjudged", "Pieces that could not be judged.", required=True),
    Column(
        "rate",
        "number",
        "Rate",
        "From 0 to 1; empty where it is not known. By all outcomes, pieces that could not be judged count in part (see "
        "the page on how figures are worked out); by one outcome, it is that of the judged pieces.",
        "",
        4,
    ),
    Column("low", "number", "Rate, lower end", "The lower end of its 95 % interval.", "", 4),
    Column("high", "number", "Rate, upper end", "The upper end of its 95 % interval.", "", 4),
    Column("least", "number", "Rate, at least", "The rate had all pieces that were not judged failed.", "", 4),
    Column("most", "number", "Rate, at most", "The rate had all pieces that were not judged succeeded.", "", 4),
    Column(
        "design_effect",
        "number",
        "Design effect",
        "How many times fewer pieces they are worth, since pieces of one fire share its luck.",
        "",
        4,
    ),
    Column("effective_n", "number", "Effective number", "Judged pieces over the design effect.", "", 2),
    Column("calculation", "string", "Calculation", "How the interval was worked out.", required=True),
)


def rates_table(archive: Archive) -> Table:
    """Return the table of all rates."""
    return Table(
        "rates",
        "Success rates",
        "One row a method and outcome, with counts and 95 % interval.",
        _COLUMNS,
        ("method", "outcome"),
        (),
        (tuple(getattr(rate, column.name) for column in _COLUMNS) for rate in archive.rates),
    )
