"""feed.xml: the newest firings as an Atom feed (RFC 4287)."""

from __future__ import annotations

import re
from uuid import NAMESPACE_URL, UUID, uuid5
from xml.etree import ElementTree

from builder.archive.archive import Archive, Record
from builder.checks.firing import Firing
from builder.exports.firings_table import page_address
from builder.exports.origin import published_at
from builder.exports.outcome_words import outcome_words
from builder.settings import Group, Settings

MOST_ENTRIES = 50
"""Firings that the feed holds; the list on the site has them all."""

_ATOM = "http://www.w3.org/2005/Atom"
_BEFORE_ANY = "1970-01-01T00:00:00Z"
"""When an archive without firings was last changed: Atom asks for a time, and a build knows no clock."""
_NOT_XML = re.compile("[^\t\n\r\x20-\ud7ff\ue000-\ufffd\U00010000-\U0010ffff]")


def feed(archive: Archive, settings: Settings) -> bytes:
    """Write the feed: newest firing first, dated at midnight UTC of its day."""
    group = settings.group
    newest = sorted(archive.records, key=lambda record: record.number, reverse=True)[:MOST_ENTRIES]
    root = ElementTree.Element("feed", {"xmlns": _ATOM, "xml:lang": group.language})
    _add(root, "id", stable_id(group, "feed").urn)
    _add(root, "title", group.title)
    if group.about:
        _add(root, "subtitle", group.about)
    _add(root, "updated", max((midnight(record) for record in newest), default=_BEFORE_ANY))
    ElementTree.SubElement(root, "link", {"rel": "alternate", "type": "text/html", "href": f"{group.url}index.html"})
    if group.url:
        ElementTree.SubElement(root, "link", {"rel": "self", "href": f"{group.url}feed.xml"})
    _add(ElementTree.SubElement(root, "author"), "name", group.name)
    for record in newest:
        _entry(root, record, settings)
    ElementTree.indent(root)
    return f'<?xml version="1.0" encoding="utf-8"?>\n{ElementTree.tostring(root, "unicode")}\n'.encode()


def _entry(root: ElementTree.Element, record: Record, settings: Settings) -> None:
    firing = record.firing
    entry = ElementTree.SubElement(root, "entry")
    _add(entry, "id", firing_id(firing, settings).urn)
    _add(entry, "title", firing.title)
    _add(entry, "published", midnight(record))
    _add(entry, "updated", midnight(record))
    address = page_address(record, settings)
    ElementTree.SubElement(entry, "link", {"rel": "alternate", "type": "text/html", "href": address})
    if published_at(firing, settings):
        ElementTree.SubElement(entry, "link", {"rel": "via", "href": published_at(firing, settings)})
    potter = settings.potters.get(firing.potter)
    _add(ElementTree.SubElement(entry, "author"), "name", potter.name if potter else firing.potter)
    ElementTree.SubElement(entry, "category", {"term": firing.method, "label": settings.methods[firing.method].name})
    _add(entry, "rights", firing.licence or settings.group.licence)
    _add(entry, "summary", outcome_words(record, settings))


def midnight(record: Record) -> str:
    """Return midnight UTC of a firing's day, as RFC 3339 has it."""
    return f"{record.firing.date.isoformat()}T00:00:00Z"


def stable_id(group: Group, name: str) -> UUID:
    """Make an id that outlives titles and addresses: from a group's name and the firing's."""
    return uuid5(uuid5(NAMESPACE_URL, group.name), name)


def firing_id(firing: Firing, settings: Settings) -> UUID:
    """Make the id of a firing, which it has in its own group's feed and in every other."""
    return stable_id(settings.group_of(firing.source), firing.own_name)


def _add(parent: ElementTree.Element, tag: str, words: str) -> None:
    ElementTree.SubElement(parent, tag).text = _NOT_XML.sub("\ufffd", words)
