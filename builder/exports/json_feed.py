"""feed.json: the newest firings as a JSON Feed (version 1.1)."""

from __future__ import annotations

import json

from builder.archive.archive import Archive, Record
from builder.exports.datapackage import Json
from builder.exports.feeds import MOST_ENTRIES, firing_id, midnight
from builder.exports.firings_table import page_address
from builder.exports.origin import published_at
from builder.exports.outcome_words import outcome_words
from builder.settings import Settings

_VERSION = "https://jsonfeed.org/version/1.1"
"""Names the version of the standard; nothing is fetched from there."""


def json_feed(archive: Archive, settings: Settings) -> bytes:
    """Write the feed: the same firings, names and times as the Atom feed."""
    group = settings.group
    newest = sorted(archive.records, key=lambda record: record.number, reverse=True)[:MOST_ENTRIES]
    told: Json = {"version": _VERSION, "title": group.title, "language": group.language}
    if group.about:
        told["description"] = group.about
    if group.url:
        told |= {"home_page_url": f"{group.url}index.html", "feed_url": f"{group.url}feed.json"}
    told["authors"] = [{"name": group.name}]
    told["items"] = [_item(record, settings) for record in newest]
    return (json.dumps(told, ensure_ascii=False, indent=2) + "\n").encode()


def _item(record: Record, settings: Settings) -> Json:
    firing = record.firing
    potter = settings.potters.get(firing.potter)
    address = page_address(record, settings)
    item: Json = {
        "id": firing_id(firing, settings).urn,
        "url": address,
        "title": firing.title,
        "content_text": outcome_words(record, settings),
        "date_published": midnight(record),
        "authors": [{"name": potter.name if potter else firing.potter}],
        "tags": [settings.methods[firing.method].name],
        "_firing": {"licence": firing.licence or settings.group.licence, "number": record.number},
    }
    if published_at(firing, settings):
        item["external_url"] = published_at(firing, settings)
    if settings.group.url:
        item["image"] = f"{settings.group.url}firings/{firing.slug}/preview.png"
    return item
