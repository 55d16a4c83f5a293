"""Which program this is: what another one kept is not taken up."""

from __future__ import annotations

import os
import re
import sys
from collections.abc import Iterator
from functools import cache
from pathlib import Path

from builder.kept.digest import bytes_digest, plain_digest

LIBRARIES = ("jinja2", "markdown", "matplotlib", "mkdocs", "mkdocs-material", "nh3", "numpy", "pillow", "pyyaml")
"""Libraries that have a hand in what the site's bytes are."""

_DISTRIBUTION = re.compile(r"(?P<name>.+)-(?P<version>[^-]+)\.dist-info")
"""A folder that says which version of a library is installed."""
_PARTED = re.compile(r"[-_.]+")

_known: dict[Path, tuple[str, str]] = {}
"""Digests of folders, with how the files in them looked."""
_first: dict[Path, str] = {}
"""Digests of folders when this process first looked."""


def program_version(*folders: Path) -> str:
    """Return the digest of the program's own files in some folders, of Python and of the libraries that matter."""
    parts = [sys.version, sys.platform, *(f"{name} {library_version(name)}" for name in LIBRARIES)]
    return bytes_digest(*(part.encode() for part in (*parts, *map(_content, folders))))


def own_version() -> str:
    """Return the version of the program without its theme; nothing where its files changed since it began."""
    package = Path(__file__).resolve().parents[1]
    version = program_version(package)
    return version if _known[package][1] == _first[package] else ""


def _content(folder: Path) -> str:
    """Return the digest of all files below a folder; they are read again where one looks otherwise."""
    found = sorted(_files_below(str(folder)))
    look = plain_digest(tuple(found))
    known_look, digest = _known.get(folder, ("", ""))
    if known_look != look:
        digest = bytes_digest(*(part for address, path, *_ in found for part in (address.encode(), _read(path))))
        _known[folder] = (look, digest)
    _first.setdefault(folder, digest)
    return digest


def _read(path: str) -> bytes:
    with open(path, "rb") as file:  # noqa: PTH123 - a Path costs as much as the reading
        return file.read()


def _files_below(folder: str, below: str = "") -> Iterator[tuple[str, str, int, int, int, int]]:
    """Yield the address of each file with its path and its look, but for what Python keeps beside its own."""
    for item in os.scandir(folder):
        if item.is_dir():
            if item.name != "__pycache__":
                yield from _files_below(item.path, f"{below}{item.name}/")
        elif item.is_file():
            status = item.stat()
            look = status.st_size, status.st_mtime_ns, status.st_ctime_ns, status.st_ino
            yield f"{below}{item.name}", item.path, *look


def library_version(library: str) -> str:
    """Return a library's version, by the name of the folder that tells of it; `none` where it is not installed."""
    return _versions().get(_plain(library)) or _version_told(library)


@cache
def _versions() -> dict[str, str]:
    """Return the versions of all that is installed; of two of one name, that which Python finds first."""
    found: dict[str, str] = {}
    for place in sys.path:
        try:
            names = os.listdir(place or ".")  # noqa: PTH208 - a Path costs as much as the call
        except OSError:
            continue
        for match in filter(None, map(_DISTRIBUTION.fullmatch, sorted(names))):
            found.setdefault(_plain(match["name"]), match["version"])
    return found


def _plain(name: str) -> str:
    return _PARTED.sub("-", name).lower()


def _version_told(library: str) -> str:
    """Ask for the version of a library that is installed in another way."""
    from importlib.metadata import PackageNotFoundError, version  # only now: it loads a reader of letters

    try:
        return version(library)
    except PackageNotFoundError:
        return "none"
