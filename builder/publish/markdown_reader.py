"""The reader of contributed Markdown: it knows no raw HTML, and its headings stand below the page's own."""

from __future__ import annotations

import xml.etree.ElementTree as etree
from collections.abc import Mapping
from functools import cache

from markdown import Markdown
from markdown.treeprocessors import Treeprocessor

_OWN_HEADINGS = {"h1": "h2"}
"""In the group's own prose: the page has its h1 already."""

_HEADINGS = {"h1": "h3", "h2": "h4", "h3": "h5", "h4": "h6", "h5": "h6"}
"""In an entry, whose page has an h1 and parts that are h2: what is contributed stands below them."""


class _Tame(Treeprocessor):
    """Lower the headings and let the words of a picture stand for it; photos are named in the front matter."""

    def __init__(self, headings: Mapping[str, str]) -> None:
        super().__init__()
        self._headings = headings

    def run(self, root: etree.Element) -> None:
        for element in root.iter():
            element.tag = self._headings.get(element.tag, element.tag)
            if element.tag == "img":
                element.tag, element.text = "em", element.get("alt", "")


@cache
def reader(inside: bool) -> Markdown:
    """Make the Markdown reader, once; raw HTML is plain text to it, and attribute lists and macros are unknown."""
    reader = Markdown(extensions=["tables", "sane_lists"], output_format="html")
    reader.preprocessors.deregister("html_block")
    reader.inlinePatterns.deregister("html")
    reader.treeprocessors.register(_Tame(_OWN_HEADINGS if inside else _HEADINGS), "tame", 0)
    return reader
