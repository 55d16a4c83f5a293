"""The service worker's list: the few pages that must open without a signal, and what they need, under one version.

The version is the hash of their contents, so that the same site gives the same bytes, and any change to one of these
pages brings a new worker to the devices that keep them.
"""

from __future__ import annotations

import hashlib
import json
from collections.abc import Iterable
from html.parser import HTMLParser
from pathlib import Path, PurePosixPath
from urllib.parse import unquote, urlsplit

from builder.publish.errors import PublishError

WORKER = "sw.js"
"""Address of the worker: the site's root, which is all that it may serve."""
_GAP = '{ version: "", addresses: [] }'


def worker_script(site: Path, theme: Path, pages: Iterable[str]) -> bytes:
    """Write the worker of a site whose pages and files are all in their places."""
    text = (theme / WORKER).read_text(encoding="utf-8")
    if text.count(_GAP) != 1:
        raise PublishError(f"theme/{WORKER} has no place for the list of what it keeps: {_GAP}")
    addresses = needed(site, pages)
    kept = json.dumps({"version": _version(site, addresses, text), "addresses": addresses})
    return text.replace(_GAP, kept).encode()


def needed(site: Path, pages: Iterable[str]) -> list[str]:
    """Return the addresses of the pages, and of every file of the site that one of them loads."""
    found = {f"{page}.html" for page in pages}
    for page in list(found):
        reader = _Loads()
        reader.feed((site / page).read_text(encoding="utf-8"))
        found |= {_address(page, target) for target in reader.found if not urlsplit(target).scheme}
    return sorted(found)


def _address(page: str, target: str) -> str:
    """A link's address from the site's root."""
    parts: list[str] = list(PurePosixPath(page).parts[:-1])
    for part in PurePosixPath(unquote(urlsplit(target).path)).parts:
        if part == "..":
            parts.pop()
        else:
            parts.append(part)
    return "/".join(parts)


def _version(site: Path, addresses: list[str], worker: str) -> str:
    """Hash the contents, the addresses and the worker itself."""
    total = hashlib.sha256(worker.encode())
    for address in addresses:
        total.update(f"\0{address}\0".encode())
        total.update(hashlib.sha256((site / address).read_bytes()).digest())
    return total.hexdigest()[:16]


class _Loads(HTMLParser):
    """Takes down what a page loads: style sheets, its mark, scripts, pictures."""

    def __init__(self) -> None:
        super().__init__()
        self.found: list[str] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        """Look at one element."""
        given = dict(attrs)
        loads = tag == "link" and given.get("rel") in ("stylesheet", "icon")
        address = given.get("href") if loads else given.get("src") if tag in ("script", "img") else None
        if address:
            self.found.append(address)
