"""The site's shell around a finished page: the theme's templates, filled as mkdocs fills them.

Templates are given what of mkdocs' context they use, and no more: `page`, `config`, `pages`, and the filter `url`.
"""

from __future__ import annotations

import posixpath
from collections.abc import Callable, Iterator, Mapping, Sequence
from functools import lru_cache
from pathlib import Path
from typing import Any
from urllib.parse import quote, urljoin, urlsplit

import jinja2
from jinja2.runtime import Context

from builder.publish.compiled import Compiled, Templates
from builder.publish.read_back import read_lines

_SHARED = ("partials/looks.html", "partials/header.html", "partials/footer.html")
"""Parts that are the same on all pages of one folder and one section."""


class Shell:
    """A configuration with the theme's templates, ready to make pages."""

    def __init__(self, config: Path) -> None:
        self.config = read_lines(config.read_text(encoding="utf-8"))
        self.docs = config.parent / self.config["docs_dir"]
        self.out = config.parent / self.config["site_dir"]
        theme = config.parent / self.config["theme"]["custom_dir"]
        loader = jinja2.FileSystemLoader(theme)
        self.env = Templates(  # each template escapes by itself
            loader=loader, auto_reload=False, bytecode_cache=Compiled()
        )
        self.env.filters["url"] = _url
        for name in _SHARED:
            part = self.env.get_template(name)
            part.root_render_func = _once_a_section(part.root_render_func)

    def page(self, uri: str, meta: Mapping[str, Any], content: str) -> str:
        """Return a finished page, by its Markdown's address."""
        page = {
            "meta": meta,
            "content": content,
            "url": page_url(uri),
            "is_homepage": uri == "index.md",
            "canonical_url": self._canonical(uri),
        }
        return self.env.get_template("main.html").render(page=page, config=self.config)

    def sitemap(self, uris: Sequence[str]) -> str:
        """Return the sitemap of pages; empty where the site has no address."""
        pages = [{"page": {"canonical_url": self._canonical(uri)}} for uri in uris]
        return self.env.get_template("sitemap.xml").render(pages=pages, config=self.config)

    def _canonical(self, uri: str) -> str | None:
        site = self.config.get("site_url")
        return urljoin(site, page_url(uri)) if site else None


def _once_a_section(fill: Callable[[Context], Iterator[str]]) -> Callable[[Context], Iterator[str]]:
    """Have a part of the shell filled once for each folder and section: it takes as long as all else of a page."""
    filled: dict[tuple[str, str], str] = {}

    def part(context: Context) -> Iterator[str]:
        page = context["page"]
        place = page["url"].rpartition("/")[0], page["meta"].get("section", "")
        if place not in filled:
            filled[place] = "".join(fill(context))
        yield filled[place]

    return part


def page_url(uri: str) -> str:
    """Return a page's address in the site as links spell it, by that of its Markdown."""
    return quote(f"{uri.removesuffix('.md')}.html")


@jinja2.pass_context
def _url(context: Context, address: str) -> str:
    """Lead from the page to an address of the site; an address with a host, a root or a mark stays as it is."""
    return _lead(address, context["page"]["url"].rpartition("/")[0])


@lru_cache(maxsize=10_000)
def _lead(address: str, folder: str) -> str:
    parsed = urlsplit(address)
    if parsed.scheme or parsed.netloc or address.startswith(("/", "#")):
        return address
    return posixpath.relpath(address, folder or ".")
