"""The folder's name of a firing that came without one: its date and its title."""

from __future__ import annotations

from pathlib import Path

from builder.base.located_yaml import Scalar
from builder.entries.find import EntryFile, suggest_slug
from builder.entries.front_matter import read_entry


def slug_of_entry(path: Path, otherwise: str) -> str:
    """Make a folder's name from an entry's own date and title, or from other words where it has none."""
    root = read_entry(EntryFile("", path.parent, path, path.name)).root
    told = [] if root is None else [root.get("date"), root.get("title")]
    words = " ".join(node.text for node in told if isinstance(node, Scalar) and node.text)
    return suggest_slug(words or otherwise)
