"""The next site, made from the one before the last, which lies in the working folder.

Whatever page or file has the right content already stays as it is, in that folder or in the site that is published now.
What a page becomes is known by the digests of its Markdown and of the configuration, within one version of the program.
"""

from __future__ import annotations

import fnmatch
import os
import re
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path

from builder.kept.digest import digest, plain_digest
from builder.kept.folder import Folder
from builder.kept.store import Store, Thing
from builder.publish.index_parts import known_digest, renew_index
from builder.publish.offline import WORKER, needed, worker_script
from builder.publish.press import forget, press
from builder.publish.site import Site, Written
from builder.publish.swap import MARKER, MARKER_TEXT
from builder.publish.theme_pages import TEMPLATES, make_theme_pages

Progress = Callable[[int, int], None]
"""Told how many pages are done, and of how many."""

_NOT_COPIED = (
    ".*",
    "*/.*",
    "*.py",
    "*.pyc",
    "*.html",
    "*readme*",
    "mkdocs_theme.yml",
    "locales/*",
    "*.md",
    WORKER,
    *TEMPLATES,
)
"""Files of a theme that mkdocs does not copy."""
_IS_NOT_COPIED = re.compile("|".join(map(fnmatch.translate, _NOT_COPIED))).match


@dataclass(frozen=True, slots=True)
class _Finished:
    """A page that an earlier build made."""

    key: str
    """Digest of what it was made from."""
    html: str
    """Digest of its HTML."""
    search: str
    """Digest of what search knows of it; empty where that is nothing."""


@dataclass(frozen=True, slots=True)
class Making:
    """A site on its way."""

    config: Path
    """mkdocs.yml."""
    theme: Path
    docs: Folder
    spare: Folder
    """The site before the last, which becomes the next."""
    last: Folder
    """The site that is published now."""
    store: Store

    def renew(self, written: Sequence[Written], site: Site, progress: Progress | None, jobs: int | None) -> list[str]:
        """Make the spare folder hold the site of these pages and files, and nothing else.

        Return the addresses of the search index, which then stands in the docs folder.
        """
        forget()
        self.spare.clear_links()
        self.spare.root.mkdir(parents=True, exist_ok=True)
        facts = digest(self.config.read_text(encoding="utf-8"))
        pages = sorted((one for one in written if one.address.endswith(".md")), key=_place)
        before = {address: _finished(thing) for address, thing in self.store.things("pages")}
        finished, new = self._pages(pages, facts, before, progress or (lambda done, of: None), jobs)
        wanted = [_html(page.address) for page in pages]
        wanted += self._templates(pages, facts)
        wanted += self._files([one for one in written if not one.address.endswith(".md")])
        index = self._search(finished, new)
        wanted += index
        wanted += self._worker(site.facts.offline)
        self.spare.put(MARKER, MARKER_TEXT.encode())
        self.spare.sweep({*wanted, MARKER})
        return index

    def _pages(
        self,
        pages: Sequence[Written],
        facts: str,
        before: Mapping[str, _Finished],
        progress: Progress,
        jobs: int | None,
    ) -> tuple[dict[str, _Finished], dict[str, str]]:
        """Take up the pages that are finished, and make the others; return all, and what search knows of the new."""
        keys = {page.address: plain_digest((page.digest, facts)) for page in pages}
        finished = {
            address: page
            for address, page in before.items()
            if page.key == keys.get(address) and self._taken_up(_html(address), page.html)
        }
        missing = [page.address for page in pages if page.address not in finished]
        done = len(finished)
        if done:
            progress(done, len(pages))
        new: dict[str, str] = {}
        for page in press(self.config, missing, self.spare, jobs) if missing else ():
            self.spare.note(_html(page.uri), page.digest)
            new[page.uri] = page.search
            finished[page.uri] = _Finished(keys[page.uri], page.digest, known_digest(page.search))
            progress(done + len(new), len(pages))
        self.store.keep("pages", ((address, _kept(finished[address])) for address in new))
        self.store.clear("pages", keys)
        return {page.address: finished[page.address] for page in pages}, new

    def _taken_up(self, address: str, content: str) -> bool:
        """Have a file of this content in the spare folder, if it or the published site holds one."""
        if self.spare.digest(address) == content:
            return True
        if self.last.digest(address) != content:
            return False
        self.spare.take(address, content, self.last)
        return True

    def _templates(self, pages: Sequence[Written], facts: str) -> list[str]:
        """Have the pages that come from the theme alone; they name all others, and the day."""
        key = digest(facts, os.environ.get("SOURCE_DATE_EPOCH", ""), tuple(page.address for page in pages))
        lines = self._kept_lines("templates", key)
        if lines is None or not all(self._taken_up(address, content) for address, content in lines):
            lines = list(make_theme_pages(self.config, [page.address for page in pages], self.spare).items())
            self._keep_lines("templates", key, lines)
        return [address for address, _ in lines]

    def _files(self, files: Sequence[Written]) -> list[str]:
        """Have the files that no page is: those of the docs folder and the theme's."""
        for file in files:
            self.spare.take(file.address, file.digest, self.docs)
        wanted = {file.address for file in files}
        for address, source in _files_of(self.theme).items():
            if address not in wanted:
                self.spare.put(address, source.read_bytes())
                wanted.add(address)
        return sorted(wanted)

    def _worker(self, pages: Sequence[str]) -> list[str]:
        """Have the service worker, where the site has pages that open without a signal."""
        if not pages:
            return []
        key = digest((self.theme / WORKER).read_bytes(), pages)
        lines = self._kept_lines("worker", key)  # its own, then those of all that it keeps
        if not lines or not all(self.spare.digest(one) == content for one, content in lines[1:]):
            script = worker_script(self.spare.root, self.theme, pages)
            loads = [(one, self.spare.digest(one) or "") for one in needed(self.spare.root, pages)]
            self._keep_lines("worker", key, [(WORKER, self.spare.put(WORKER, script)), *loads])
        elif not self._taken_up(*lines[0]):
            self.spare.put(WORKER, worker_script(self.spare.root, self.theme, pages))
        return [WORKER]

    def _search(self, pages: Mapping[str, _Finished], new: Mapping[str, str]) -> list[str]:
        """Have the search index, in the docs folder too: plain mkdocs takes it from there."""

        def again(address: str) -> str:
            (page,) = press(self.config, [address], self.spare)
            return page.search

        digests = {address: page.search for address, page in pages.items()}
        index = renew_index(self.docs, self.store, digests, new, again)
        for address, content in index.items():
            self.spare.take(address, content, self.docs)
        return list(index)

    def _kept_lines(self, shelf: str, key: str) -> list[tuple[str, str]] | None:
        """Return addresses with the digests of their contents, if any were kept under this key."""
        thing = self.store.thing(shelf)
        if thing is None or thing.key != key:
            return None
        lines = (line.partition(" ") for line in thing.content.decode().splitlines())
        return [(address, content) for content, _, address in lines]

    def _keep_lines(self, shelf: str, key: str, lines: Sequence[tuple[str, str]]) -> None:
        kept = "\n".join(f"{content} {address}" for address, content in lines)
        self.store.keep(shelf, [("", Thing(key, kept.encode()))])


def _finished(thing: Thing) -> _Finished:
    html, _, search = thing.content.decode().partition("\n")
    return _Finished(thing.key, html, search)


def _kept(page: _Finished) -> Thing:
    return Thing(page.key, f"{page.html}\n{page.search}".encode())


def _place(page: Written) -> tuple[tuple[bool, bool, str], ...]:
    """Order pages as mkdocs does: an index first, then the folder's files, then the folders in it."""
    *folders, name = page.address.split("/")
    return (*((True, True, folder) for folder in folders), (False, name != "index.md", name))


def _html(page: str) -> str:
    return f"{page.removesuffix('.md')}.html"


def _files_of(theme: Path) -> dict[str, Path]:
    """The theme's files that are published as they are, by address."""
    found: dict[str, Path] = {}
    for folder, _, names in os.walk(theme):
        below = Path(folder).relative_to(theme)
        found |= {(below / name).as_posix(): Path(folder, name) for name in names}
    return {address: path for address, path in sorted(found.items()) if not _IS_NOT_COPIED(address.lower())}
