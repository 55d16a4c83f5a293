"""Finished pages from their Markdown, over all cores; what is made of a page depends on that page alone.

mkdocs would read each page's front matter as YAML and its prose as Markdown, though the one is lines of JSON and the
other finished HTML. Here both are read as what they are, which takes a fifth of the time. Plain `mkdocs build` over the
same configuration makes the same site; tests hold that.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cache
from pathlib import Path

from builder.kept.folder import Folder
from builder.publish.read_back import read_page
from builder.publish.searched import search_entries, without_search_marks
from builder.publish.shell import Shell, page_url
from builder.workers import shared, spread

CHUNK = 16
"""Pages handed to a process at once."""


@dataclass(frozen=True, slots=True)
class Pressed:
    """One finished page."""

    uri: str
    """Of its Markdown, from the docs folder."""
    digest: str
    """Of the finished HTML, which stands in the site."""
    search: str
    """What search knows of it: entries of the index as JSON, with commas between."""


def press(config: Path, uris: Sequence[str], site: Folder, jobs: int | None = None) -> Iterator[Pressed]:
    """Make pages of the docs folder that the configuration names, by their Markdown, into the site's."""
    _shell(config)  # before processes part, so that none needs to read it again
    chunks = [(config, tuple(uris[at : at + CHUNK])) for at in range(0, len(uris), CHUNK)]
    for pages in spread(_press, chunks, jobs, site):
        yield from pages


def forget() -> None:
    """Forget the configuration: the next is another."""
    _shell.cache_clear()


@cache
def _shell(config: Path) -> Shell:
    return Shell(config)


def _press(chunk: tuple[Path, tuple[str, ...]]) -> list[Pressed]:
    config, uris = chunk
    return [_page(uri, _shell(config), shared()) for uri in uris]


def _page(uri: str, shell: Shell, site: Folder) -> Pressed:
    meta, prose = read_page((shell.docs / uri).read_text(encoding="utf-8"))
    finished = shell.page(uri, meta, without_search_marks(prose)).encode()
    digest = site.put(f"{uri.removesuffix('.md')}.html", finished)
    return Pressed(uri, digest, search_entries(page_url(uri), meta, prose))
