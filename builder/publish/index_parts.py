"""The search index in the docs folder, of which only the parts are made again that a changed page touches."""

from __future__ import annotations

import json
from collections.abc import Mapping
from dataclasses import dataclass

from builder.kept.digest import bytes_digest
from builder.kept.folder import Folder
from builder.kept.store import Store, Thing
from builder.publish.search_index import (
    DIRECTORY,
    PAGES_EACH,
    counted,
    directory_file,
    pages_file,
    pages_files,
    recount,
    searched_page,
    words_files,
)

_SHELF = "search"
_MANY = 20
"""Counting a page anew among others costs as much as counting so many pages for the first time, about."""


@dataclass(frozen=True, slots=True)
class _Index:
    """What is kept of an index."""

    words: dict[str, str]
    """For each word the pages that have it, as the index's files hold it."""
    texts: dict[str, str]
    """Digests of the files of titles and texts, by address."""


def renew_index(docs: Folder, store: Store, pages: Mapping[str, str], before: Mapping[str, str]) -> dict[str, str]:
    """Let the docs folder hold the index of pages; return its files by address with their digests.

    `pages` holds what search knows of each page, as JSON, in the index's order; `before` that of an earlier build.
    """
    told = list(pages.values())
    index = _renewed(store, pages, before) or _Index(counted(map(searched_page, told)), {})
    words, begin = words_files(index.words)
    files = {address: docs.put(address, content) for address, content in words.items()}
    for number, address in enumerate(pages_files(len(told))):
        known = index.texts.get(address)
        if known is None or docs.digest(address) != known:
            own = told[number * PAGES_EACH : (number + 1) * PAGES_EACH]
            known = docs.put(address, pages_file(number, map(searched_page, own)))
        files[address] = known
    kept = {"words": index.words, "texts": {address: files[address] for address in pages_files(len(told))}}
    store.keep(_SHELF, [("", Thing(_key(pages), json.dumps(kept).encode()))])
    return files | {DIRECTORY: docs.put(DIRECTORY, directory_file(files, len(told), begin))}


def _renewed(store: Store, pages: Mapping[str, str], before: Mapping[str, str]) -> _Index | None:
    """Return the kept index with what changed counted anew; None where it is of other pages, or much changed."""
    thing = store.shelf(_SHELF).get("")
    if thing is None or any(address not in before for address in pages):
        return None
    changed = [number for number, address in enumerate(pages) if pages[address] != before[address]]
    if len(changed) * _MANY > len(pages) or thing.key != _key({address: before[address] for address in pages}):
        return None
    kept = json.loads(thing.content)
    index = _Index(kept["words"], kept["texts"])
    told = list(pages.items())
    for number in changed:
        address, now = told[number]
        recount(index.words, number, searched_page(before[address]), searched_page(now))
        index.texts.pop(pages_files(len(pages))[number // PAGES_EACH], None)
    return index


def _key(pages: Mapping[str, str]) -> str:
    return bytes_digest("\0".join((*pages, *pages.values())).encode())
