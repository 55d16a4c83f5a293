"""All open data beside the pages, as files by their addresses."""

from __future__ import annotations

import json
from collections.abc import Sequence

from builder.archive.archive import Archive
from builder.archive.findings import NO_FINDINGS, Findings
from builder.entries.schema import entry_schema
from builder.exports.citation import citation
from builder.exports.csvw import csvw
from builder.exports.datapackage import datapackage
from builder.exports.feeds import feed
from builder.exports.firings_table import firings_table
from builder.exports.json_feed import json_feed
from builder.exports.pieces_table import pieces_table
from builder.exports.published_settings import PUBLISHED_SETTINGS, published_settings
from builder.exports.rates_table import rates_table
from builder.exports.readings_table import readings_table
from builder.exports.tables import LongRows, Table, csv_bytes, csv_head, csv_rows
from builder.exports.window_table import window_table
from builder.settings import Settings


def export_files(
    archive: Archive, settings: Settings, findings: Findings = NO_FINDINGS, rows: Sequence[LongRows] | None = None
) -> dict[str, bytes]:
    """Return every file of open data by its address from the site's root.

    `rows` are what `long_rows` gives for the firings, part after part, where that is at hand.
    """
    long = _long_tables(archive, settings)
    parts = [long_rows(archive, settings)] if rows is None else rows
    written = [(table, csv_head(table) + b"".join(part[at] for part in parts)) for at, table in enumerate(long)]
    written += [(table, csv_bytes(table)) for table in (rates_table(archive), window_table(findings))]
    tables = [table for table, _ in written]
    schema = json.dumps(entry_schema(settings.alone), ensure_ascii=False, indent=2) + "\n"
    decided = published_settings(settings)
    return {
        "data/datapackage.json": datapackage(settings.group, written, decided),
        f"data/{PUBLISHED_SETTINGS}": decided,
        **{f"data/{table.name}.csv": content for table, content in written},
        "data/entry.schema.json": schema.encode(),
        "data/csvw.json": csvw(settings.group, tables),
        "data/CITATION.cff": citation(archive, settings),
        "feed.xml": feed(archive, settings),
        "feed.json": json_feed(archive, settings),
    }


def long_rows(archive: Archive, settings: Settings) -> LongRows:
    """Write the rows of an archive's firings, or of some of them: each firing's are made from it alone."""
    return tuple(csv_rows(table) for table in _long_tables(archive, settings))


def _long_tables(archive: Archive, settings: Settings) -> tuple[Table, ...]:
    return firings_table(archive, settings), pieces_table(archive, settings), readings_table(archive)
