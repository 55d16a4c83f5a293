"""csvw.json: the same tables described as CSV on the Web (W3C Recommendation, 2015), beside the Data Package."""

from __future__ import annotations

import json
import re
from collections.abc import Sequence

from builder.exports.datapackage import Json, licence
from builder.exports.tables import Column, Table
from builder.settings import Group

_CONTEXT = "http://www.w3.org/ns/csvw"
"""Names the standard; nothing is fetched from there."""
_TYPES = {"string": "string", "number": "double", "integer": "integer"}


def csvw(group: Group, tables: Sequence[Table]) -> bytes:
    """Describe the tables, which lie in the same folder."""
    described: Json = {
        "@context": [_CONTEXT, {"@language": group.language}],
        "dc:title": group.title,
        "dc:publisher": group.name,
        "dc:license": {"@id": licence(group.licence)["path"]},
        "dialect": {"lineTerminators": ["\r\n"], "encoding": "utf-8"},
        "tables": [_table(table) for table in tables],
    }
    return (json.dumps(described, ensure_ascii=False, indent=2) + "\n").encode()


def _table(table: Table) -> Json:
    schema: Json = {"columns": [_column(column) for column in table.columns]}
    required = {column.name for column in table.columns if column.required}
    if set(table.key) <= required:
        schema["primaryKey"] = list(table.key)
    if table.refers:
        schema["foreignKeys"] = [
            {"columnReference": column, "reference": {"resource": f"{other}.csv", "columnReference": column}}
            for column, other in table.refers
        ]
    return {"url": f"{table.name}.csv", "dc:title": table.title, "dc:description": table.meaning, "tableSchema": schema}


def _column(column: Column) -> Json:
    described: Json = {
        "name": column.name,
        "titles": column.name,
        "dc:title": column.title,
        "dc:description": column.meaning,
        "datatype": _datatype(column),
        "required": column.required,
    }
    if column.unit:
        described["schema:unitText"] = column.unit
    return described


def _datatype(column: Column) -> str | Json:
    if column.type == "date":
        return {"base": "date", "format": "yyyy-MM-dd"}
    if column.words:
        return {"base": "string", "format": "|".join(re.escape(word) for word in column.words)}
    return _TYPES[column.type]
