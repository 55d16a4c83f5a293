"""Read a site's search index as the reader's browser does, for tests."""

from __future__ import annotations

import json
import re
from dataclasses import dataclass
from pathlib import Path
from typing import Any


@dataclass(frozen=True, slots=True)
class Index:
    """A whole index."""

    pages: list[list[Any]]
    words: dict[str, dict[int, int]]
    """For each word the pages that have it, by number, and where."""

    def page(self, address: str) -> list[Any]:
        """The page at an address."""
        return next(page for page in self.pages if page[0] == address)

    def pages_of(self, word: str) -> list[str]:
        """Addresses of the pages that have a word."""
        return [self.pages[number][0] for number in self.words.get(word, {})]


def read_index(site: Path) -> Index:
    """Read every file of the index that its directory names."""
    directory = _content(site / "search" / "directory.js")
    words: dict[str, dict[int, int]] = {}
    for number, first in enumerate(directory["begin"]):
        shard = _content(site / "search" / f"words-{number}.js")
        assert next(iter(shard)) == first
        words |= {word: _unpacked(packed) for word, packed in shard.items()}
    files = range(-(-directory["pages"] // directory["each"]))
    pages = [page for number in files for page in _content(site / "search" / f"pages-{number}.js")]
    assert len(pages) == directory["pages"]
    return Index(pages, words)


def _content(path: Path) -> Any:
    found = re.fullmatch(r'ashbookSearchHas\("[a-z]+",\d+,(.*)\);\n', path.read_text(encoding="utf-8"), re.DOTALL)
    assert found is not None
    return json.loads(found[1])


def _unpacked(packed: str) -> dict[int, int]:
    page, found = -1, {}
    for step in packed.split(" "):
        value = int(step, 36)
        page += value >> 2
        found[page] = value & 3
    return found
