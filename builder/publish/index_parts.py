"""The search index in the docs folder, of which only the parts are made again that a changed page touches."""

from __future__ import annotations

import json
from collections.abc import Callable, Mapping
from dataclasses import dataclass

from builder.kept.digest import bytes_digest
from builder.kept.folder import Folder
from builder.kept.store import Store, Thing
from builder.publish.search_index import (
    DIRECTORY,
    PAGES_EACH,
    Searched,
    counted,
    directory_file,
    pages_file,
    pages_files,
    recount,
    searched_page,
    words_files,
)

_INDEX, _KNOWN = "search", "searched pages"
_MANY = 20
"""Counting a page anew among others costs as much as counting so many pages for the first time, about."""


@dataclass(frozen=True, slots=True)
class _Index:
    """What is kept of an index."""

    words: dict[str, str]
    """For each word the pages that have it, as the index's files hold it."""
    texts: dict[str, str]
    """Digests of the files of titles and texts, by address."""


def known_digest(known: str) -> str:
    """Return the digest of what search knows of a page; nothing of nothing."""
    return bytes_digest(known.encode()) if known else ""


def renew_index(
    docs: Folder, store: Store, digests: Mapping[str, str], new: Mapping[str, str], again: Callable[[str], str]
) -> dict[str, str]:
    """Let the docs folder hold the index of pages; return its files by address with their digests.

    `digests` are those of what search knows of each page, by address in the index's order, `new` is what it knows of
    those pages that an earlier build did not make, as JSON; `again` finds it out of one that such a build made.
    """
    pages = {address: digest for address, digest in digests.items() if digest}
    addresses, known = list(pages), {address: new[address] for address in pages if address in new}

    def page(address: str) -> Searched:
        found = known[address] if address in known else _kept(store, address, pages[address])
        if found is None:
            found = known[address] = again(address)
        return searched_page(found)

    index = _renewed(store, pages, page) or _Index(counted(map(page, addresses)), {})
    words, begin = words_files(index.words)
    files = {address: docs.put(address, content) for address, content in words.items()}
    for number, address in enumerate(pages_files(len(addresses))):
        found = index.texts.get(address)
        if found is None or docs.digest(address) != found:
            own = addresses[number * PAGES_EACH : (number + 1) * PAGES_EACH]
            found = docs.put(address, pages_file(number, map(page, own)))
        files[address] = found
    kept = {"pages": pages, "words": index.words, "texts": {one: files[one] for one in pages_files(len(addresses))}}
    store.keep(_INDEX, [("", Thing("", json.dumps(kept).encode()))])
    store.keep(_KNOWN, ((one, Thing(pages[one], found.encode())) for one, found in known.items()))
    store.clear(_KNOWN, pages)
    return files | {DIRECTORY: docs.put(DIRECTORY, directory_file(files, len(addresses), begin))}


def _renewed(store: Store, pages: dict[str, str], page: Callable[[str], Searched]) -> _Index | None:
    """Return the kept index with what changed counted anew; None where it is of other pages, or much changed."""
    thing = store.thing(_INDEX)
    if thing is None:
        return None
    kept = json.loads(thing.content)
    before: dict[str, str] = kept["pages"]
    if list(before) != list(pages):
        return None
    changed = [(number, one) for number, one in enumerate(pages) if pages[one] != before[one]]
    if len(changed) * _MANY > len(pages):
        return None
    index = _Index(kept["words"], kept["texts"])
    for number, address in changed:
        known = _kept(store, address, before[address])
        if known is None:
            return None
        recount(index.words, number, searched_page(known), page(address))
        index.texts.pop(pages_files(len(pages))[number // PAGES_EACH], None)
    return index


def _kept(store: Store, address: str, digest: str) -> str | None:
    """Return what search knew of a page when that had this digest, as JSON, where it is kept."""
    thing = store.thing(_KNOWN, address)
    return thing.content.decode() if thing is not None and thing.key == digest else None
