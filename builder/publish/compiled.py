"""Templates as Python's code, kept beside the program's own bytecode: compiling them takes longer than filling them.

They lie in the program's folder, never in a project's, so that a folder sent by somebody else runs nothing. Where that
folder cannot be written, or Python was told to write no bytecode, templates are compiled in each process.
"""

from __future__ import annotations

import contextlib
import marshal
import os
import sys
import tempfile
from collections.abc import MutableMapping
from importlib.util import cache_from_source
from pathlib import Path
from typing import Any

from jinja2 import BytecodeCache, Environment
from jinja2.bccache import Bucket

from builder.kept.version import own_version


class Compiled(BytecodeCache):
    """Templates that one version of the program compiled: what it works out beforehand stands in them."""

    def __init__(self, folder: Path | None = None) -> None:
        self._version = own_version()
        self._folder = folder or Path(cache_from_source(__file__)).parent / "templates"

    def get_cache_key(self, name: str, filename: str | None = None) -> str:
        """Name a template's file: by its own name and the folder of templates it belongs to."""
        place = (filename or name).replace("\\", "/").removesuffix(f"/{name}")
        return f"{place.rpartition('/')[2]}.{name}.pyc".replace("/", ".")

    def load_bytecode(self, bucket: Bucket) -> None:
        """Take up a template's code, if it is of this version and of the same words."""
        if not self._version:
            return
        with contextlib.suppress(OSError, ValueError, EOFError, TypeError):
            content = (self._folder / bucket.key).read_bytes()
            head = self._head(bucket)
            if content.startswith(head):
                bucket.code = marshal.loads(content[len(head) :])  # noqa: S302 - it lies where Python's own code does

    def dump_bytecode(self, bucket: Bucket) -> None:
        """Keep a template's code, where that can be done; never a part of it."""
        if sys.dont_write_bytecode or not self._version:
            return
        with contextlib.suppress(OSError):
            self._folder.mkdir(parents=True, exist_ok=True)
            handle, name = tempfile.mkstemp(dir=self._folder)
            try:
                with os.fdopen(handle, "wb") as file:
                    file.write(self._head(bucket) + marshal.dumps(bucket.code))
                Path(name).replace(self._folder / bucket.key)
            except OSError:
                Path(name).unlink(missing_ok=True)

    def _head(self, bucket: Bucket) -> bytes:
        return f"{self._version} {bucket.checksum}\n".encode()


class Templates(Environment):
    """An environment whose templates each have what all may use in one dict.

    Jinja would look through a chain of two, name by name, whenever one is filled, and again for each that it includes.
    """

    def make_globals(self, d: MutableMapping[str, Any] | None) -> MutableMapping[str, Any]:
        """Give the names that a template may use beside those it is filled with."""
        return {**self.globals, **(d or {})}
