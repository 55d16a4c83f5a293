"""What a site is made of: finished pages and files. Nothing here knows of firings."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date


@dataclass(frozen=True, slots=True)
class Page:
    """One finished page. Its HTML is sound already: nothing contributed is in it uncleaned."""

    path: str
    """Address from the site's root, without the ending: `index`, `firings/2026-05-02-pale-jar`."""
    title: str
    description: str
    """One sentence for search engines and previews; plain text."""
    lead: str = ""
    """HTML before the prose. Not searched."""
    prose: str = ""
    """HTML of the prose, the only part (with title and tags) that search looks into."""
    rest: str = ""
    """HTML after the prose. Not searched."""
    tags: tuple[str, ...] = ()
    """Words that search finds the page by, beside its title and prose."""
    section: str = ""
    """Which entry of the site's header it belongs to: `firings`, `results`, `cautions` …"""
    kind: str = "page"
    """Its layout: `home`, `firing`, `firings`, `page` …; becomes a class of the body."""
    scripts: tuple[str, ...] = ()
    """Scripts of the theme that it needs beside those of every page."""
    searched: bool = True
    image: str = ""
    """Address of its preview picture from the site's root."""
    author: str = ""
    """Who wrote it, where that is one of the group."""
    published: date | None = None
    """The day of what it tells of."""
    json_ld: str = ""
    """JSON-LD as text, sound already."""


@dataclass(frozen=True, slots=True)
class Picture:
    """One picture as the site shows it."""

    address_name: str
    """File name on the site: `drawn-480.jpg`."""
    width: int
    height: int
    data: bytes
    """The JPEG file, without any metadata."""


@dataclass(frozen=True, slots=True)
class SiteFacts:
    """What every page shows of the site."""

    name: str
    """Title of the archive, in the header."""
    group: str
    description: str
    language: str
    url: str
    """Address of the published site with a closing slash; empty while it has none."""
    notice: str
    header: tuple[tuple[str, str, str], ...]
    """The header's entries: section, words, page path."""
    footer: tuple[tuple[str, str, str], ...]
    """The footer's entries, likewise."""
    licence: str
    offline: tuple[str, ...] = ()
    """Paths of the pages that a browser keeps, with what they load, so that they open without a signal."""


@dataclass(frozen=True, slots=True)
class Written:
    """A page as Markdown, or another file, that stands in the docs folder already."""

    address: str
    """From the docs folder; a page's ends in `.md`."""
    digest: str
    """Of its content."""


@dataclass(frozen=True, slots=True)
class Site:
    """A whole site before it is written."""

    facts: SiteFacts
    pages: tuple[Page, ...] = ()
    files: Mapping[str, bytes] = field(default_factory=dict)
    """Other files by address from the site's root: data, pictures, feeds."""
    newest: date | None = None
    """Date of the newest thing in it, which stands for the day it was made: the same content gives the same bytes."""
    written: tuple[Written, ...] = ()
    """Pages and files beside those, which stand in the docs folder already."""
