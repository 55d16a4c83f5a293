"""mkdocs at work on the pages that need it, over all cores; what it makes of a page depends on that page alone.

The functions called are those of mkdocs' own `build`, in its order. Plain `mkdocs build` over the same configuration
makes the same site from all pages; a test holds that.
"""

from __future__ import annotations

import json
import logging
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import Any

from builder.kept.digest import bytes_digest
from builder.publish.errors import PublishError
from builder.workers import spread

CHUNK = 16
"""Pages handed to a process at once."""
TEMPLATES = ("404.html", "sitemap.xml")
"""Pages that are made from the theme alone."""


@dataclass(frozen=True, slots=True)
class Pressed:
    """One finished page."""

    uri: str
    """Of its Markdown, from the docs folder."""
    digest: str
    """Of the finished HTML, which stands in the site."""
    search: str
    """What search knows of it: entries of the index as JSON, with commas between."""


def press(config: Path, uris: Sequence[str], jobs: int | None = None) -> Iterator[Pressed]:
    """Make pages by their Markdown's addresses; raises PublishError where mkdocs stops or finds fault."""
    _mkdocs(str(config))  # before processes part, so that none needs to read it again
    chunks = [(str(config), tuple(uris[at : at + CHUNK])) for at in range(0, len(uris), CHUNK)]
    for pages, warnings in spread(_press, chunks, jobs):
        _refuse(warnings)
        yield from pages


def press_templates(config: Path, uris: Sequence[str]) -> dict[str, str]:
    """Make the pages that come from the theme alone and name all others; return those there are, with their digests."""
    from mkdocs.commands.build import _build_theme_template

    at = _mkdocs(str(config))
    site = Path(at.config.site_dir)
    made = [site / name for name in (*TEMPLATES, f"{TEMPLATES[-1]}.gz")]
    for path in made:
        path.unlink(missing_ok=True)
    with heard() as warnings:
        files, nav = at.files(uris)
        for file in files.documentation_pages():
            at.page(file)
        for name in TEMPLATES:
            _build_theme_template(name, at.env, files, at.config, nav)
    _refuse(warnings)
    return {path.name: bytes_digest(path.read_bytes()) for path in made if path.is_file()}


def forget() -> None:
    """Forget the configuration: the next is another."""
    _mkdocs.cache_clear()


class _Mkdocs:
    """A configuration as mkdocs has loaded it, with its templates."""

    def __init__(self, config: str) -> None:
        from mkdocs.config import load_config

        self.config = load_config(config)
        plugins = self.config.plugins
        plugins.on_startup(command="build", dirty=False)
        self.config = plugins.on_config(self.config)
        plugins.on_pre_build(config=self.config)
        self.env = self.config.theme.get_env()
        self.search: Any = next(plugin for name, plugin in plugins.items() if name.endswith("search"))
        self.env.get_template("main.html")

    def files(self, uris: Sequence[str]) -> tuple[Any, Any]:
        """Return these pages as mkdocs' files, with the navigation, which is the home page alone."""
        from mkdocs.structure.files import File, Files, set_exclusions
        from mkdocs.structure.nav import get_navigation

        config, home = self.config, "index.md"
        if home not in uris and (Path(config.docs_dir) / home).is_file():
            uris = (home, *uris)  # the navigation names it
        there, to = config.docs_dir, config.site_dir
        files = Files([File(uri, there, to, use_directory_urls=config.use_directory_urls) for uri in uris])
        files = config.plugins.on_files(files, config=config)
        set_exclusions(files, config)
        nav = config.plugins.on_nav(get_navigation(files, config), config=config, files=files)
        return files, nav

    def page(self, file: Any) -> Any:
        """Return a file's page."""
        from mkdocs.structure.pages import Page

        return file.page or Page(None, file, self.config)


@cache
def _mkdocs(config: str) -> _Mkdocs:
    from mkdocs.exceptions import MkDocsException

    try:
        return _Mkdocs(config)
    except MkDocsException as error:
        raise PublishError(f"mkdocs stopped: {error}") from error


def _press(chunk: tuple[str, tuple[str, ...]]) -> tuple[list[Pressed], list[str]]:
    """Make some pages; give them back with what mkdocs warned of."""
    from mkdocs.exceptions import MkDocsException

    at = _mkdocs(chunk[0])
    with heard() as warnings:
        try:
            files, nav = at.files(chunk[1])
            pages = [_page(uri, at, files, nav) for uri in chunk[1]]
        except MkDocsException as error:
            raise PublishError(f"mkdocs stopped: {error}") from error
    return pages, warnings


def _page(uri: str, at: _Mkdocs, files: Any, nav: Any) -> Pressed:
    from mkdocs.commands.build import _build_page, _populate_page

    page = at.page(files.get_file_from_path(uri))
    at.search.search_index.entries = []
    _populate_page(page, at.config, files)
    _build_page(page, at.config, [], nav, at.env)
    entries = at.search.search_index.entries
    search = ",".join(json.dumps(entry, separators=(",", ":"), default=str) for entry in entries)
    page.content = page.markdown = None
    return Pressed(uri, bytes_digest(Path(page.file.abs_dest_path).read_bytes()), search)


def _refuse(warnings: Sequence[str]) -> None:
    if warnings:
        raise PublishError("mkdocs found fault with the pages:\n" + "\n".join(warnings))


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
