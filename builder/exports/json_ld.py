"""What a page is about, for machines: JSON-LD in the words of schema.org."""

from __future__ import annotations

import json

from builder.archive.archive import Archive, Record
from builder.exports.citation_words import citation_words
from builder.exports.datapackage import Json, licence
from builder.exports.firings_table import page_address
from builder.exports.origin import published_at
from builder.exports.outcome_words import outcome_words
from builder.settings import Settings

_CONTEXT = "https://schema.org"
_TABLES = ("firings", "pieces", "readings", "rates")
_NOT_IN_A_SCRIPT = tuple((sign, f"\\u{ord(sign):04x}") for sign in "<>&\u2028\u2029")


def firing_json_ld(record: Record, settings: Settings) -> str:
    """Describe a firing's page as an article; safe inside a `script` element."""
    firing, group = record.firing, settings.group_of(record.firing.source)
    potter = settings.potters.get(firing.potter)
    described: Json = {
        "@context": _CONTEXT,
        "@type": "Article",
        "headline": firing.title,
        "description": outcome_words(record, settings),
        "datePublished": firing.date.isoformat(),
        "author": {"@type": "Person", "name": potter.name if potter else firing.potter},
        "publisher": {"@type": "Organization", "name": group.name},
        "inLanguage": group.language,
        "license": _licence(firing.licence or group.licence),
        "creditText": citation_words(record, settings),
        "identifier": firing.slug,
        "isPartOf": {"@type": "Dataset", "name": group.title},
    }
    if published_at(firing, settings):
        described["isBasedOn"] = published_at(firing, settings)
    if settings.group.url:
        described["url"] = page_address(record, settings)
        described["image"] = f"{settings.group.url}firings/{firing.slug}/preview.png"
    return _script_text(described)


def archive_json_ld(archive: Archive, settings: Settings) -> str:
    """Describe the archive as a data set with its tables; safe inside a `script` element."""
    group = settings.group
    described: Json = {
        "@context": _CONTEXT,
        "@type": "Dataset",
        "name": group.title,
        "description": group.about or f"Open wood firings written up by {group.name}.",
        "creator": {"@type": "Organization", "name": group.name},
        "inLanguage": group.language,
        "license": _licence(group.licence),
        "isAccessibleForFree": True,
        "distribution": [
            {
                "@type": "DataDownload",
                "name": table,
                "encodingFormat": "text/csv",
                "contentUrl": f"{group.url}data/{table}.csv",
            }
            for table in _TABLES
        ],
    }
    if archive.records:
        dates = [record.firing.date for record in archive.records]
        described["temporalCoverage"] = f"{min(dates)}/{max(dates)}"
    if group.url:
        described["url"] = group.url
    return _script_text(described)


def _licence(spdx: str) -> Json:
    return {"@type": "CreativeWork", "identifier": spdx, "url": licence(spdx)["path"]}


def _script_text(described: Json) -> str:
    text = json.dumps(described, ensure_ascii=False, separators=(",", ":"))
    for sign, written in _NOT_IN_A_SCRIPT:
        text = text.replace(sign, written)
    return text
