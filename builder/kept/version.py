"""Which program this is: what another one kept is not taken up."""

from __future__ import annotations

import sys
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
        for path in sorted(folder.rglob("*")):
            if path.is_file() and "__pycache__" not in path.parts:
                parts += (path.relative_to(folder).as_posix().encode(), path.read_bytes())
    return bytes_digest(*parts)


def _version(library: str) -> str:
    try:
        return version(library)
    except PackageNotFoundError:
        return "none"
