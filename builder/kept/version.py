"""Which program this is: what another one kept is not taken up."""

from __future__ import annotations

import os
import sys
from collections.abc import Iterator
from importlib.metadata import PackageNotFoundError, version
from pathlib import Path

from builder.kept.digest import bytes_digest

LIBRARIES = ("jinja2", "markdown", "matplotlib", "mkdocs", "mkdocs-material", "nh3", "numpy", "pillow", "pyyaml")
"""Libraries that have a hand in what the site's bytes are."""


def program_version(*folders: Path) -> str:
    """Return the digest of the program's own files in some folders, of Python and of the libraries that matter."""
    parts = [sys.version.encode(), sys.platform.encode()]
    parts += (f"{name} {_version(name)}".encode() for name in LIBRARIES)
    for folder in folders:
        for address, path in sorted(_files_below(str(folder))):
            parts += (address.encode(), Path(path).read_bytes())
    return bytes_digest(*parts)


def _files_below(folder: str, below: str = "") -> Iterator[tuple[str, str]]:
    """Yield the address of each file with its path, but for what Python keeps beside its own."""
    for item in os.scandir(folder):
        if item.is_dir():
            if item.name != "__pycache__":
                yield from _files_below(item.path, f"{below}{item.name}/")
        elif item.is_file():
            yield f"{below}{item.name}", item.path


def _version(library: str) -> str:
    try:
        return version(library)
    except PackageNotFoundError:
        return "none"
