"""Addresses of the site's pages, and how one points at another: relatively, so that a folder works too."""

from __future__ import annotations

from urllib.parse import quote


def page_file(page: str) -> str:
    """File of a page from the site's root: `firings/index` is `firings/index.html`."""
    return f"{page}.html"


def relative(from_page: str, to_file: str, anchor: str = "") -> str:
    """Point from a page to a file of the site, both from the root.

    >>> relative("firings/2026-05-02-pale-jar", "methods/open-fire.html")
    '../methods/open-fire.html'
    >>> relative("firings/index", "firings/2026-05-02-pale-jar/drawn.jpg")
    '2026-05-02-pale-jar/drawn.jpg'
    """
    here, there = from_page.split("/")[:-1], to_file.split("/")
    shared = 0
    while shared < min(len(here), len(there) - 1) and here[shared] == there[shared]:
        shared += 1
    steps = [".."] * (len(here) - shared) + [quote(part) for part in there[shared:]]
    return "/".join(steps) + (f"#{quote(anchor)}" if anchor else "")


def firing_page(slug: str) -> str:
    """Page of one firing."""
    return f"firings/{slug}"


def firing_file(slug: str, name: str) -> str:
    """A file that belongs to one firing: a photo, its readings."""
    return f"firings/{slug}/{name}"


def method_page(key: str) -> str:
    """Page of one method."""
    return f"methods/{key}"


def potter_page(key: str) -> str:
    """Page of one potter."""
    return f"potters/{key}"
