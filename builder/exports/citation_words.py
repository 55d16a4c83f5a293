"""How to cite one firing, in words: people, year, title, where it stands, and the licence by its SPDX id."""

from __future__ import annotations

from builder.archive.archive import Record
from builder.exports.firings_table import page_address
from builder.exports.origin import published_at
from builder.settings import NOBODY, Settings


def citation_words(record: Record, settings: Settings) -> str:
    """Say how a firing is cited: by its page in its own group's site where that has an address, else by its page here,
    else by its lasting name."""
    firing, group = record.firing, settings.group_of(record.firing.source)
    people = " & ".join(settings.potters[key].name for key in (firing.potter, *firing.helpers))
    people = people[:1].upper() + people[1:] if firing.potter == NOBODY else people
    here = page_address(record, settings) if settings.group.url else f"Entry {firing.own_name}"
    where = published_at(firing, settings) or here
    told = [
        f"{people} ({firing.date.year})",
        firing.title,
        f"Wood firing of {firing.date.isoformat()}, in {group.title}, {group.name}",
        where,
        firing.licence or group.licence,
    ]
    return " ".join(words if words.endswith((".", "!", "?")) else f"{words}." for words in told)
