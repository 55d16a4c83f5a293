"""What the exports say, for tests that hold the pages against them."""

from __future__ import annotations

import csv
from pathlib import Path


def firings(site: Path) -> dict[str, dict[str, str]]:
    """The rows of firings.csv by the firing's name, with its `number` on the site added."""
    with (site / "data" / "firings.csv").open(encoding="utf-8", newline="") as file:
        rows = list(csv.DictReader(file))
    ordered = sorted(rows, key=lambda row: (row["date"], row["firing"]))
    return {row["firing"]: row | {"number": str(number)} for number, row in enumerate(ordered, 1)}


def number(cell: str) -> float | None:
    """A cell's number; None where it is empty."""
    return float(cell) if cell else None
