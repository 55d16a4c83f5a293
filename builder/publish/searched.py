"""What search knows of a page: what mkdocs' search plugin would take down of it, from finished prose.

Prose that an entry brings has no headings to lead to, and beside it stands at most a plain part that is left out: its
words alone are wanted, and no reader of HTML is needed to find them. Other pages go through the plugin itself.
"""

from __future__ import annotations

import json
import re
from collections.abc import Mapping
from html import unescape
from types import SimpleNamespace
from typing import Any

_MARK = re.compile(r"data-search-\w+=\"[^\"]+\"")
_MARK_AND_SPACE = re.compile(rf"\s?{_MARK.pattern}")
"""What the plugin takes out of a page when it has read it; it is looked for without the space, which is everywhere."""

_DIVIDING_TAG = re.compile(r"<(?:h[1-6][^>]*\sid\b|(?:object|script|style)\b|!)")

_LEFT_OUT = re.compile(r"<div\b[^<>]*\sdata-search-exclude>(?:(?!</?div\b).)*</div>", re.DOTALL)
"""A part that is left out and has no such part in it."""

_APART = re.compile(r"</?(?:p|code|pre|li|ol|ul|sub|sup)\b[^>]*>")
"""Elements that part one word from the next."""
_TAG = re.compile(r"""</?[a-zA-Z](?:"[^"]*"|'[^']*'|[^'">])*>""")


def search_entries(url: str, meta: Mapping[str, Any], prose: str) -> str:
    """Return the entries of the index for a page, as objects of JSON with commas between; none where it is left out."""
    if meta.get("search", {}).get("exclude"):
        return ""
    plain = _LEFT_OUT.sub("", prose)
    if _is_divided(plain):
        entries = _by_plugin(url, meta, prose)
    else:
        entries = [{"location": url, "title": str(meta["title"]).strip(), "text": _words(plain)}]
        if meta.get("tags"):
            entries[0]["tags"] = [tag for tag in meta["tags"] if tag]
    return ",".join(json.dumps(entry, separators=(",", ":")) for entry in entries)


def _is_divided(prose: str) -> bool:
    """Tell whether prose has parts: headings that can be led to, and what is left out."""
    lower = prose.lower()
    return "data-search-exclude" in lower or "linenodiv" in lower or _DIVIDING_TAG.search(lower) is not None


def without_search_marks(prose: str) -> str:
    """Return prose without the attributes that speak to search alone."""
    return _MARK_AND_SPACE.sub("", prose) if _MARK.search(prose) else prose


def _words(prose: str) -> str:
    """Return the text of prose as one line, escaped."""
    text = unescape(_TAG.sub("", _APART.sub(" ", prose)))
    return " ".join(text.split()).replace("&", "&amp;").replace("<", "&lt;").replace(">", "&gt;")


def _by_plugin(url: str, meta: Mapping[str, Any], prose: str) -> list[dict[str, Any]]:
    from material.plugins.search.plugin import SearchIndex  # type: ignore[import-untyped]

    index = SearchIndex()
    index.add_entry_from_context(SimpleNamespace(meta=meta, content=prose, toc=[], url=url, title=meta["title"]))
    return list(index.entries)
