"""datapackage.json: what every column of the tables means (Data Package, version 2)."""

from __future__ import annotations

import hashlib
import json
import re
from collections.abc import Sequence

from builder.exports.published_entry import ENTRIES
from builder.exports.published_settings import PUBLISHED_SETTINGS
from builder.exports.tables import Column, Table
from builder.settings import Group

_PROFILES = "https://datapackage.org/profiles/2.0"
"""Names the version of the standard; nothing is fetched from there."""

Json = dict[str, object]


def datapackage(group: Group, tables: Sequence[tuple[Table, bytes]], settings: bytes) -> bytes:
    """Describe the tables, each given with its file's content, and the group's published settings."""
    described: Json = {
        "$schema": f"{_PROFILES}/datapackage.json",
        "name": _package_name(group.title),
        "title": group.title,
        "description": " ".join(filter(None, (group.about, group.notice, _READ_ME))),
        "keywords": ["ceramics", "open firing", "wood firing"],
        "contributors": [{"title": group.name, "roles": ["publisher"]}],
        "licenses": [licence(group.licence)],
        "resources": [*(_resource(table, content) for table, content in tables), _settings_resource(settings)],
    }
    if group.url:
        described["homepage"] = group.url
    return (json.dumps(described, ensure_ascii=False, indent=2) + "\n").encode()


_READ_ME = (
    "An empty cell means not recorded. A text cell that a spreadsheet would run as a formula begins with an "
    f"apostrophe. Each firing's entry as it is published lies under {ENTRIES}/, with its log where it has one: from "
    f"these and {PUBLISHED_SETTINGS} another archive can be built."
)


def licence(spdx: str) -> Json:
    """Describe a licence by its SPDX id."""
    return {"name": spdx, "path": f"https://spdx.org/licenses/{spdx}.html", "title": spdx}


def _package_name(title: str) -> str:
    """Make a package's name of the archive's title: small letters, digits and hyphens."""
    return re.sub(r"[^a-z0-9]+", "-", title.casefold()).strip("-") or "firings"


def _resource(table: Table, content: bytes) -> Json:
    return {
        "$schema": f"{_PROFILES}/dataresource.json",
        "name": table.name,
        "type": "table",
        "path": f"{table.name}.csv",
        "title": table.title,
        "description": table.meaning,
        "format": "csv",
        "mediatype": "text/csv",
        "encoding": "utf-8",
        **_measure(content),
        "schema": _schema(table),
    }


def _settings_resource(content: bytes) -> Json:
    return {
        "$schema": f"{_PROFILES}/dataresource.json",
        "name": PUBLISHED_SETTINGS.removesuffix(".json"),
        "path": PUBLISHED_SETTINGS,
        "title": "What the group decided",
        "description": "Its potters as they are shown, its methods with their windows and what counts as success.",
        "format": "json",
        "mediatype": "application/json",
        "encoding": "utf-8",
        **_measure(content),
    }


def _measure(content: bytes) -> Json:
    return {"bytes": len(content), "hash": f"sha256:{hashlib.sha256(content).hexdigest()}"}


def _schema(table: Table) -> Json:
    schema: Json = {
        "$schema": f"{_PROFILES}/tableschema.json",
        "fields": [_field(column) for column in table.columns],
        "missingValues": [""],
        "primaryKey": list(table.key),
    }
    if table.refers:
        schema["foreignKeys"] = [
            {"fields": [column], "reference": {"resource": other, "fields": [column]}} for column, other in table.refers
        ]
    return schema


def _field(column: Column) -> Json:
    field: Json = {
        "name": column.name,
        "type": column.type,
        "title": column.title,
        "description": f"{column.meaning} In {column.unit}." if column.unit else column.meaning,
    }
    if column.unit:
        field["unit"] = column.unit
    constraints: Json = {}
    if column.required:
        constraints["required"] = True
    if column.words:
        constraints["enum"] = list(column.words)
    if constraints:
        field["constraints"] = constraints
    return field
