"""The bytes of a built site, read without a browser: what would be more than words in them.

Our own pages are written strictly: each `<` begins a tag, each value stands in double quotes. Where that holds, every
reader of HTML sees the same elements, and a scan that goes on from `<` to `<` sees all that a browser would.
"""

from __future__ import annotations

import csv
import html
import io
import json
import re
from collections.abc import Iterator
from dataclasses import dataclass, field
from pathlib import Path
from xml.etree import ElementTree

_TAG = re.compile(r'<(/?)([a-zA-Z][a-zA-Z0-9-]*)((?:\s+[a-zA-Z_:][a-zA-Z0-9_:.-]*(?:="[^"<]*")?)*)\s*/?>')
_ATTRIBUTE = re.compile(r'\s+([a-zA-Z_:][a-zA-Z0-9_:.-]*)(?:="([^"]*)")?')
_SCHEME = re.compile(r"[\x00-\x20]*([a-zA-Z][a-zA-Z0-9+.\s-]*):")
_FORMULA = re.compile(r"[=+\-@\t\r\n＝＋－＠]")
_NUMBER = re.compile(r"[+-]?\d+(\.\d+)?\Z|-+\Z")
"""What may begin like a formula: a number, or dashes alone, as a thermometer writes them for nothing."""
_NEVER = frozenset(
    "style iframe frame frameset object embed applet base math portal fencedframe bgsound marquee keygen".split()
)
"""Elements that no page has."""
_ADDRESSES = frozenset("href src action formaction xlink:href data poster background cite longdesc manifest".split())
_FOLLOWED = frozenset({"a", "link", "meta"})
"""Elements that may name another host: nothing is asked of it before a reader follows."""


@dataclass(slots=True)
class Seen:
    """What was seen in the bytes."""

    pages: int = 0
    size: int = 0
    shapes: set[str] = field(default_factory=set)
    """Every kind of element with the names of its attributes; those inside prose by themselves."""
    faults: list[str] = field(default_factory=list)


def look_through(site: Path) -> Seen:
    """Read every file of a site."""
    seen = Seen()
    for path in sorted(each for each in site.rglob("*") if each.is_file()):
        address = path.relative_to(site).as_posix()
        raw = path.read_bytes()
        seen.size += len(raw)
        if path.suffix == ".html":
            seen.pages += 1
            seen.faults += [f"{address}: {fault}" for fault in page_faults(raw.decode(), seen.shapes)]
        else:
            seen.faults += [f"{address}: {fault}" for fault in _file_faults(address, path.suffix, raw)]
    return seen


def page_faults(page: str, shapes: set[str] | None = None) -> Iterator[str]:
    """Yield what a page must not hold; its elements are noted in `shapes`."""
    at, prose = page.find("<"), _Prose()
    shapes = set() if shapes is None else shapes
    while at >= 0:
        if at == 0 and page[:15].lower() == "<!doctype html>":
            at = page.find("<", 1)
            continue
        tag = _TAG.match(page, at)
        if tag is None:
            yield f"no tag of ours: {page[at : at + 80]!r}"
            at = page.find("<", at + 1)
            continue
        end, name = tag.end(), tag[2].lower()
        attributes = {each[1].lower(): html.unescape(each[2] or "") for each in _ATTRIBUTE.finditer(tag[3])}
        if not tag[1]:
            yield from element_faults(name, attributes)
            if name == "script":
                closing = page.find("</script", end)
                yield from _script_faults(page[end:closing], attributes)
                end = closing
            shapes.add(" ".join([*(["prose"] if prose.inside else []), name, *sorted(attributes)]))
        prose.pass_by(name, bool(tag[1]), attributes)
        at = page.find("<", end)


@dataclass(slots=True)
class _Prose:
    """Knows whether the scan is inside a story."""

    tag: str = ""
    depth: int = 0

    @property
    def inside(self) -> bool:
        return self.depth > 0

    def pass_by(self, name: str, closing: bool, attributes: dict[str, str]) -> None:
        if self.inside and name == self.tag:
            self.depth += -1 if closing else 1
        elif not closing and not self.inside and {"prose", "story"} & set(attributes.get("class", "").split()):
            self.tag, self.depth = name, 1


def element_faults(name: str, attributes: dict[str, str]) -> Iterator[str]:
    """Yield what an element must not be or have."""
    if name in _NEVER:
        yield f"<{name}>"
    if name == "meta" and attributes.get("http-equiv", "").lower() not in ("", "content-security-policy"):
        yield f"<meta http-equiv={attributes['http-equiv']}>"
    for key, value in attributes.items():
        if key.startswith("on") or key in ("style", "srcdoc", "ping", "nonce"):
            yield f"<{name} {key}={value[:80]!r}>"
        if key in _ADDRESSES and not _good_address(name, value):
            yield f"<{name} {key}={value[:80]!r}>"
        if key in ("srcset", "imagesrcset") and "//" in value:
            yield f"<{name} {key}={value[:80]!r}>"


def _good_address(name: str, value: str) -> bool:
    scheme = _SCHEME.match(value)
    if scheme is not None:
        named = re.sub(r"\s", "", scheme[1]).lower()
        return (name in _FOLLOWED and named in ("http", "https", "mailto")) or value.startswith("data:image/svg+xml,")
    return not re.match(r"[\x00-\x20]*[/\\]\s*[/\\]", value)


def _script_faults(text: str, attributes: dict[str, str]) -> Iterator[str]:
    """A script is a file of our own, or data that can be read as JSON."""
    if "src" in attributes:
        if text.strip():
            yield f"words inside a script: {text[:80]!r}"
    elif attributes.get("type", "") not in ("application/json", "application/ld+json"):
        yield f"a script in the page: {text[:80]!r}"
    else:
        yield from _json_faults(text)


def _json_faults(text: str) -> Iterator[str]:
    try:
        json.loads(text)
    except ValueError as error:
        yield f"no JSON: {error}"
    if "<" in text:
        yield "data with a `<` in it"


def _file_faults(address: str, suffix: str, raw: bytes) -> Iterator[str]:
    if suffix == ".csv":
        text = raw.decode("utf-8-sig")
        mark = "\t" if "\t" in text.partition("\n")[0] else ","
        for row in csv.reader(io.StringIO(text, newline=""), delimiter=mark, strict=True):
            yield from (f"a formula: {cell!r}" for cell in row if _FORMULA.match(cell) and not _NUMBER.match(cell))
    elif suffix == ".json":
        try:
            json.loads(raw)
        except ValueError as error:
            yield f"no JSON: {error}"
    elif suffix == ".xml":
        if b"<!" in raw:
            yield "a declaration in XML"
        ElementTree.fromstring(raw)
    elif suffix == ".js" and not address.startswith("scripts/") and address != "sw.js" and b"<" in raw:
        yield "data with a `<` in it"
