"""How to cite one firing, in words: people, year, title, where it stands, and the licence by its SPDX id."""

from __future__ import annotations

from builder.archive.archive import Record
from builder.exports.firings_table import page_address
from builder.settings import NOBODY, Settings


def citation_words(record: Record, settings: Settings) -> str:
    """Say how a firing is cited; by its page's address where the site has one, else by its lasting name."""
    firing, group = record.firing, settings.group
    people = " & ".join(settings.potters[key].name for key in (firing.potter, *firing.helpers))
    people = people[:1].upper() + people[1:] if firing.potter == NOBODY else people
    where = page_address(record, settings) if group.url else f"Entry {firing.slug}"
    told = [
        f"{people} ({firing.date.year})",
        firing.title,
        f"Wood firing of {firing.date.isoformat()}, in {group.title}, {group.name}",
        where,
        firing.licence or group.licence,
    ]
    return " ".join(words if words.endswith((".", "!", "?")) else f"{words}." for words in told)
