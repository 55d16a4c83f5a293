"""window.csv: the working window of each method and ware that one was looked for."""

from __future__ import annotations

from collections.abc import Iterator

from builder.archive.findings import Findings
from builder.archive.window import Finding, Window
from builder.exports.tables import Column, Table, Value

ENOUGH = {Finding.WINDOW: "yes", Finding.NONE: "none", Finding.TOO_FEW: "too few"}
ALL_METHODS = "all"


def _end(name: str, title: str, meaning: str) -> tuple[Column, Column, Column]:
    limits = "Where the end may lie, 95 times in 100"
    return (
        Column(name, "number", title, f"{meaning}; empty where one of its limits is open.", "°C", 0),
        Column(f"{name}_low", "number", f"{title}, lower limit", f"{limits}; empty where that is open.", "°C", 0),
        Column(f"{name}_high", "number", f"{title}, upper limit", f"{limits}; empty where that is open.", "°C", 0),
    )


_COLUMNS = (
    Column("method", "string", "Method", f"Short word for the method; `{ALL_METHODS}` for a ware.", required=True),
    Column("ware", "string", "Ware", "The ware, over all methods; empty for a method."),
    Column(
        "level", "number", "Level", "Chance of success above which a temperature counts as working.", "", 4, (), True
    ),
    *_end("low_c", "Low end", "The coolest peak that works"),
    *_end("high_c", "High end", "The hottest peak that works"),
    Column("best_c", "number", "Best peak", "The peak with the best chance; empty where it cannot be told.", "°C", 0),
    Column("best_chance", "number", "Best chance", "Chance of success there, from 0 to 1.", "", 4),
    Column("firings", "integer", "Firings", "Firings with a known peak and either outcome recorded.", required=True),
    Column(
        "enough",
        "string",
        "Enough",
        "`yes` where a window is found, `none` where no temperature tried works, `too few` where nobody can tell yet.",
        words=tuple(ENOUGH.values()),
        required=True,
    ),
)


def window_table(findings: Findings) -> Table:
    """Return the table of working windows."""
    return Table(
        "window",
        "Working windows",
        "One row a method or ware whose outcomes heat decides: the peaks between which at least the level succeed.",
        _COLUMNS,
        ("method", "ware"),
        (),
        _rows(findings),
    )


def _rows(findings: Findings) -> Iterator[tuple[Value, ...]]:
    for method, window in findings.windows.items():
        yield method, None, *_cells(window)
    for ware, window in findings.ware_windows.items():
        yield ALL_METHODS, ware, *_cells(window)


def _cells(window: Window) -> tuple[Value, ...]:
    ends: list[Value] = []
    for end in (window.low, window.high):
        ends += [None] * 3 if end is None else [end.value_c, end.low_c, end.high_c]
    best = None if window.best_c is None else window.best_c[0]
    chance = None if window.best_chance is None else window.best_chance[0]
    return (window.level, *ends, best, chance, window.firings, ENOUGH[window.finding])
