"""The pages that are made from the theme alone: for lost addresses by mkdocs, which judges the whole setup by it."""

from __future__ import annotations

import gzip
import io
import logging
import os
from collections.abc import Sequence
from pathlib import Path
from typing import Any

from builder.kept.folder import Folder
from builder.publish.errors import PublishError
from builder.publish.shell import Shell

LOST = "404.html"
SITEMAP = "sitemap.xml"
ZIPPED = f"{SITEMAP}.gz"
TEMPLATES = (LOST, SITEMAP)
"""Pages that are made from the theme alone."""


def make_theme_pages(config: Path, uris: Sequence[str], site: Folder) -> dict[str, str]:
    """Make them for a site of these pages, in its folder; return those there are, with their digests.

    Raises PublishError where mkdocs stops or finds fault with the configuration or the first page.
    """
    for name in (LOST, SITEMAP, ZIPPED):
        site.remove(name)
    _make_lost(config, [uri for uri in uris if uri == "index.md"])
    lost = site.root / LOST
    made = {LOST: site.put(LOST, lost.read_bytes())} if lost.is_file() else {}
    if sitemap := Shell(config).sitemap(uris).encode():
        made |= {SITEMAP: site.put(SITEMAP, sitemap), ZIPPED: site.put(ZIPPED, _zipped(sitemap))}
    return made


def _zipped(content: bytes) -> bytes:
    """Compress a file as mkdocs does, its time the midnight before that of the build."""
    packed, at = io.BytesIO(), int(os.environ["SOURCE_DATE_EPOCH"])
    with gzip.GzipFile(SITEMAP, "wb", fileobj=packed, mtime=at - at % 86_400) as file:
        file.write(content)
    return packed.getvalue()


def _make_lost(config: Path, home: Sequence[str]) -> None:
    from mkdocs.exceptions import MkDocsException

    with heard() as warnings:
        try:
            _load_and_make(str(config), home)
        except MkDocsException as error:
            raise PublishError(f"mkdocs stopped: {error}") from error
    if warnings:
        raise PublishError("mkdocs found fault with the pages:\n" + "\n".join(warnings))


def _load_and_make(path: str, uris: Sequence[str]) -> None:
    """Call the functions of mkdocs' own `build`, in its order."""
    from mkdocs.commands.build import _build_theme_template
    from mkdocs.config import load_config
    from mkdocs.structure.files import File, Files, set_exclusions
    from mkdocs.structure.nav import get_navigation

    config: Any = load_config(path)
    plugins = config.plugins
    plugins.on_startup(command="build", dirty=False)
    config = plugins.on_config(config)
    plugins.on_pre_build(config=config)
    there, to = config.docs_dir, config.site_dir
    files = Files([File(uri, there, to, use_directory_urls=config.use_directory_urls) for uri in uris])
    files = plugins.on_files(files, config=config)
    set_exclusions(files, config)
    nav = plugins.on_nav(get_navigation(files, config), config=config, files=files)
    _build_theme_template(LOST, config.theme.get_env(), files, config, nav)


class _Listener(logging.Handler):
    """Keeps what mkdocs warns of."""

    def __init__(self) -> None:
        super().__init__(logging.WARNING)
        self.warnings: list[str] = []

    def emit(self, record: logging.LogRecord) -> None:
        """Keep a warning."""
        self.warnings.append(record.getMessage())


class heard:
    """Listen to mkdocs' log, and leave it as it was found."""

    def __enter__(self) -> list[str]:
        """Begin to listen; what is heard comes into the list."""
        log = logging.getLogger("mkdocs")
        self._log, self._listener = log, _Listener()
        self._before = log.level, log.propagate
        log.addHandler(self._listener)
        log.setLevel(logging.WARNING)
        log.propagate = False
        return self._listener.warnings

    def __exit__(self, *raised: object) -> None:
        """Leave the log as it was."""
        self._log.removeHandler(self._listener)
        level, self._log.propagate = self._before
        self._log.setLevel(level)
