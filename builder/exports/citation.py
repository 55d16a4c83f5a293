"""CITATION.cff: how to cite the archive (Citation File Format 1.2.0)."""

from __future__ import annotations

import json

from builder.archive.archive import Archive
from builder.settings import Settings

_MESSAGE = "Cite the archive by this entry, and a single firing by its title, its potter, its date and its address."


def citation(archive: Archive, settings: Settings) -> bytes:
    """Write the citation; each value as JSON, which YAML includes. An archive without firings has no date."""
    group = settings.group
    told: dict[str, object] = {
        "cff-version": "1.2.0",
        "message": _MESSAGE,
        "type": "dataset",
        "title": group.title,
        "authors": [{"name": group.name}],
        "abstract": " ".join(filter(None, (group.about, group.notice))),
        "keywords": ["ceramics", "open firing", "wood firing"],
        "license": group.licence,
        "url": group.url,
        "repository-artifact": f"{group.url}data/datapackage.json" if group.url else "",
    }
    if archive.records:
        told["date-released"] = max(record.firing.date for record in archive.records).isoformat()
    lines = [f"{name}: {json.dumps(value, ensure_ascii=False)}\n" for name, value in told.items() if value]
    return "".join(lines).encode()
