"""Readings written into the entry: a block of lines, each with its own line number."""

from __future__ import annotations

from builder.base.located_yaml import Mapping, Node, Scalar, Sequence
from builder.checks.fault import Fault
from builder.checks.found import Rows
from builder.checks.limits import MOST_ROWS
from builder.checks.review import Review


def read_rows(node: Node, review: Review) -> Rows | Fault:
    """Take a block's lines; what stands in them is for the readings to judge."""
    if not isinstance(node, Scalar) or not node.block:
        return _not_a_block(node)
    if review.line(node.place)[(node.place.column or 1) - 1 :].startswith(">"):
        return Fault(
            "rows-block", "`>` joins the lines of the readings into one.", "Write `rows: |` instead of `rows: >`."
        )
    first = (node.place.line or 0) + 1
    lines = [(first + index, line.rstrip()) for index, line in enumerate(node.text.split("\n"))]
    rows = tuple((number, line) for number, line in lines if line)
    if len(rows) > MOST_ROWS:
        message = f"There are {len(rows):,} readings here; {MOST_ROWS:,} is the most that an entry takes."
        return Fault("too-many", message, "Save them as a CSV file beside the entry and write `file: log.csv`.")
    written = review.lines[rows[0][0] - 1] if rows[0][0] <= len(review.lines) else ""
    return Rows(rows, max(1, len(written.rstrip()) - len(rows[0][1]) + 1))


def _not_a_block(node: Node) -> Fault:
    message = "Readings are a block of lines, and no `|` follows `rows:`, so the lines run together."
    example = "`rows: |`, and under it `0:00 14 °C`, `1:00 160 °C` and so on, a line each"
    if isinstance(node, Sequence):
        message = "Readings are a block of lines, and a list is written here."
        return Fault("rows-block", message, f"Take the hyphens away: {example}.")
    if isinstance(node, Mapping):
        message = "Readings are a block of lines, and keys with values are written here."
        return Fault("rows-block", message, f"Take the colons after the times away: {example}.")
    return Fault("rows-block", message, f"Write {example}.")
