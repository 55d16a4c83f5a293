"""Read a site's search index as the reader's browser does, for tests."""

from __future__ import annotations

import json
import re
import tempfile
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from html import escape
from pathlib import Path
from typing import Any

from builder.kept.folder import Folder
from builder.kept.store import Store, kept
from builder.publish.index_parts import known_digest, renew_index
from builder.publish.search_index import Searched


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


def told(page: Searched) -> str:
    """Write a page down as search does."""
    entries = [
        {
            "location": f"{page.address}#{part.anchor}".removesuffix("#"),
            "title": escape(part.heading, quote=False) if number else page.title,
            "text": escape(part.text, quote=False),
            "tags": list(page.tags),
        }
        for number, part in enumerate(page.parts)
    ]
    return ",".join(map(json.dumps, entries))


def renewed(
    docs: Folder, store: Store, pages: Mapping[str, str], new: Mapping[str, str] | None = None
) -> dict[str, str]:
    """Renew the index of pages, each as JSON; of those that are not `new` this is not known before it is asked for."""
    digests = {address: known_digest(known) for address, known in pages.items()}
    return renew_index(docs, store, digests, pages if new is None else new, pages.__getitem__)


def index_files(pages: Sequence[Searched]) -> dict[str, bytes]:
    """Return every file of the index of pages by its address."""
    with tempfile.TemporaryDirectory() as folder, kept(Path(folder), "1") as store:
        docs = Folder(Path(folder) / "docs", "docs")
        files = renewed(docs, store, {page.address: told(page) for page in pages})
        return {address: (docs.root / address).read_bytes() for address in files}


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
