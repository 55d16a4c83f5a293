"""What the site's search needs beside mkdocs-material's own index and worker, so that it works from a memory stick.

A browser starts no worker from a file and lets no script read one. The same worker therefore also comes wrapped
in a function that runs it within the page, and the same index also comes as a script.
"""

from __future__ import annotations

import importlib.util
from collections.abc import Iterable
from functools import cache
from pathlib import Path

IN_PAGE = "search/in_page.js"
"""Address of the worker's script wrapped to run within a page."""

INDEX = "search/search_index.json"
"""Address of the index as mkdocs-material writes it."""

INDEX_SCRIPT = "search/search_index.js"
"""Address of the same index as a script."""

SEPARATOR = r"[\s\u200b\-–—,:;!?=\[\]()\"“”‘’/…]+|\.(?!\d)|&[lg]t;|&amp;"
"""What stands between two words; a point within a number does not."""

_WORKERS = "assets/javascripts/workers"
_WRAPPED = (
    "window.ashbookSearcher = function (addEventListener, postMessage, importScripts, parent) {{\n{worker}\n}};\n"
)


@cache
def _material() -> Path:
    """Folder of mkdocs-material's templates, found without importing it."""
    spec = importlib.util.find_spec("material")
    if spec is None or spec.origin is None:
        raise FileNotFoundError("mkdocs-material is not installed")
    return Path(spec.origin).parent / "templates"


@cache
def worker_address() -> str:
    """Address of the search worker on the site; its name changes with mkdocs-material's release."""
    found = sorted((_material() / _WORKERS).glob("search.*.min.js"))
    if len(found) != 1:
        raise FileNotFoundError("mkdocs-material has no search worker where one is expected")
    return f"{_WORKERS}/{found[0].name}"


@cache
def in_page_searcher() -> bytes:
    """The worker's script as a function of what a worker would find around it."""
    worker = (_material() / worker_address()).read_text(encoding="utf-8")
    lines = [line for line in worker.splitlines() if not line.startswith("//# sourceMappingURL")]
    return _WRAPPED.format(worker="\n".join(lines)).encode()


def search_language(language: str) -> str:
    """The language whose words search knows to tell apart; English where it knows none of this one."""
    code = language.lower().split("-")[0]
    script = _material() / "assets/javascripts/lunr/min" / f"lunr.{code}.min.js"
    return code if code.isalpha() and script.is_file() else "en"


def index(head: str, entries: Iterable[str]) -> str:
    """Put entries, each written as JSON, into an index of nothing."""
    empty = '"docs":[]}'
    if not head.endswith(empty):
        raise ValueError("the search index is not written as it used to be")
    return f"{head.removesuffix(']}')}{','.join(entry for entry in entries if entry)}]}}"


def index_script(index: str) -> bytes:
    """Write the index as a script."""
    return f"window.ashbookSearchIndex = {index};\n".encode()


def borrowed(language: str) -> dict[str, Path]:
    """What the search of a language needs of mkdocs-material's files, by address; all its others are left out."""
    wanted = {worker_address()}
    if search_language(language) != "en":
        lunr = "assets/javascripts/lunr"
        wanted |= {f"{lunr}/min/lunr.stemmer.support.min.js", f"{lunr}/min/lunr.{search_language(language)}.min.js"}
        wanted |= {f"{lunr}/tinyseg.js", f"{lunr}/wordcut.js"}
    return {address: _material() / address for address in sorted(wanted)}
