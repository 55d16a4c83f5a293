"""The next site, made from the one before the last, which lies in the working folder.

Whatever page or file has the right content already stays as it is, in that folder or in the site that is published now.
What a page becomes is known by the digests of its Markdown and of the configuration, within one version of the program.
"""

from __future__ import annotations

import fnmatch
import os
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from pathlib import Path, PurePosixPath

from builder.kept.digest import digest
from builder.kept.folder import Folder
from builder.kept.store import Store, Thing
from builder.publish.offline import WORKER, worker_script
from builder.publish.press import forget, press
from builder.publish.search_index import index_files, searched_pages
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


@dataclass(frozen=True, slots=True)
class _Finished:
    """A page that needs nothing done any more."""

    html: str
    """Digest of its HTML."""
    search: str
    """What search knows of it, as JSON."""


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
        finished = self._pages(pages, facts, progress or (lambda done, of: None), jobs)
        wanted = [_html(page.address) for page in pages]
        wanted += self._templates(pages, facts)
        wanted += self._files([one for one in written if not one.address.endswith(".md")])
        index = self._search(finished)
        wanted += index
        wanted += self._worker(site.offline)
        self.spare.put(MARKER, MARKER_TEXT.encode())
        self.spare.sweep({*wanted, MARKER})
        return index

    def _pages(self, pages: Sequence[Written], facts: str, progress: Progress, jobs: int | None) -> list[_Finished]:
        """Take up the pages that are finished, and make the others."""
        keys = {page.address: digest(page.digest, facts) for page in pages}
        finished = {}
        for name, thing in self.store.shelf("pages").items():
            html, _, search = thing.content.decode().partition("\n")
            if thing.key == keys.get(name) and self._taken_up(_html(name), html):
                finished[name] = _Finished(html, search)
        missing = [page.address for page in pages if page.address not in finished]
        done = len(finished)
        if done:
            progress(done, len(pages))
        new = []
        for page in press(self.config, missing, jobs) if missing else ():
            self.spare.note(_html(page.uri), page.digest)
            finished[page.uri] = _Finished(page.digest, page.search)
            new.append((page.uri, Thing(keys[page.uri], f"{page.digest}\n{page.search}".encode())))
            progress(done + len(new), len(pages))
        self.store.keep("pages", new)
        self.store.clear("pages", keys)
        return [finished[page.address] for page in pages]

    def _taken_up(self, address: str, content: str) -> bool:
        """Have a file of this content in the spare folder, if it or the published site holds one."""
        if self.spare.digest(address) == content:
            return True
        if self.last.digest(address) != content:
            return False
        self.spare.take(address, content, self.last.root / address)
        return True

    def _templates(self, pages: Sequence[Written], facts: str) -> list[str]:
        """Have the pages that come from the theme alone; they name all others, and the day."""
        key = digest(facts, os.environ.get("SOURCE_DATE_EPOCH", ""), tuple(page.address for page in pages))
        thing = self.store.shelf("templates").get("")
        if thing is not None and thing.key == key:
            lines = [line.split(" ") for line in thing.content.decode().splitlines()]
            if all(self._taken_up(address, content) for address, content in lines):
                return [address for address, _ in lines]
        made = make_theme_pages(self.config, [page.address for page in pages])
        for address, content in made.items():
            self.spare.note(address, content)
        lines_kept = "\n".join(f"{address} {content}" for address, content in made.items())
        self.store.keep("templates", [("", Thing(key, lines_kept.encode()))])
        return list(made)

    def _files(self, files: Sequence[Written]) -> list[str]:
        """Have the files that no page is: those of the docs folder and the theme's."""
        for file in files:
            self.spare.take(file.address, file.digest, self.docs.root / file.address)
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
        self.spare.put(WORKER, worker_script(self.spare.root, self.theme, pages))
        return [WORKER]

    def _search(self, finished: Sequence[_Finished]) -> list[str]:
        """Have the search index, in the docs folder too: plain mkdocs takes it from there."""
        found = index_files(tuple(searched_pages(page.search for page in finished)))
        for address, content in found.items():
            self.spare.take(address, self.docs.put(address, content), self.docs.root / address)
        return list(found)


def _place(page: Written) -> tuple[tuple[bool, bool, str], ...]:
    """Order pages as mkdocs does: an index first, then the folder's files, then the folders in it."""
    path = PurePosixPath(page.address)
    return (*((True, True, part) for part in path.parts[:-1]), (False, path.stem != "index", path.name))


def _html(page: str) -> str:
    return f"{page.removesuffix('.md')}.html"


def _files_of(theme: Path) -> dict[str, Path]:
    """The theme's files that are published as they are, by address."""
    found = {path.relative_to(theme).as_posix(): path for path in sorted(theme.rglob("*")) if path.is_file()}
    return {
        address: path
        for address, path in found.items()
        if not any(fnmatch.fnmatch(address.lower(), pattern) for pattern in _NOT_COPIED)
    }
