"""Reads rendered HTML with the standard library's parser: tags, attributes, words, and whether every tag is closed."""

from __future__ import annotations

from dataclasses import dataclass, field
from html.parser import HTMLParser

from builder.publish.site import Page

_VOID = frozenset({"img", "input", "br", "hr", "meta", "link"})


@dataclass
class Tag:
    """One start tag, with the words that stand inside it."""

    name: str
    attributes: dict[str, str]
    words: str = ""

    @property
    def classes(self) -> set[str]:
        """Its classes."""
        return set(self.attributes.get("class", "").split())


@dataclass
class Read:
    """A piece of HTML as read."""

    tags: list[Tag] = field(default_factory=list)
    words: str = ""
    faults: list[str] = field(default_factory=list)

    def all(self, name: str, class_: str = "") -> list[Tag]:
        """Every tag of a name, and of a class where one is given."""
        return [tag for tag in self.tags if tag.name == name and (not class_ or class_ in tag.classes)]

    def ids(self) -> list[str]:
        """Every id."""
        return [tag.attributes["id"] for tag in self.tags if "id" in tag.attributes]


class _Reader(HTMLParser):
    def __init__(self) -> None:
        super().__init__(convert_charrefs=True)
        self.read = Read()
        self._open: list[Tag] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        found = Tag(tag, {name: value or "" for name, value in attrs})
        self.read.tags.append(found)
        if tag not in _VOID:
            self._open.append(found)

    def handle_startendtag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.read.tags.append(Tag(tag, {name: value or "" for name, value in attrs}))

    def handle_endtag(self, tag: str) -> None:
        if not self._open or self._open[-1].name != tag:
            self.read.faults.append(f"</{tag}> closes {self._open[-1].name if self._open else 'nothing'}")
            return
        self._open.pop()

    def handle_data(self, data: str) -> None:
        self.read.words += data
        for tag in self._open:
            tag.words += data

    def close(self) -> None:
        super().close()
        self.read.faults += [f"<{tag.name}> is never closed" for tag in self._open]


def read(html: str) -> Read:
    """Read a piece of HTML."""
    reader = _Reader()
    reader.feed(html)
    reader.close()
    return reader.read


def read_page(page: Page) -> Read:
    """Read a whole page; each of its three parts must be closed in itself, because the theme sets them apart."""
    parts = [read(part) for part in (page.lead, page.prose, page.rest)]
    whole = Read()
    for part in parts:
        whole.tags += part.tags
        whole.words += part.words
        whole.faults += part.faults
    return whole
