"""The working folder built by another generator (zensical), and how its site differs from ours."""

from __future__ import annotations

import re
import subprocess
import sys
from dataclasses import dataclass
from html.parser import HTMLParser
from pathlib import Path

ITS_OWN_FILES = re.compile(r"404\.html|assets/.*|search\.json|sitemap\.xml")
"""Files that it writes beside ours: its theme's own, which no page of ours asks for, its search index, its sitemap."""
OUR_LAST_STEPS = frozenset({".ashbook-site", "sw.js"})
"""What we do after the generator: the mark of a folder that we made, and the worker's list of what it keeps."""
ON_A_HOST_ONLY = frozenset({"404.html", "sitemap.xml", "sitemap.xml.gz"})
"""Files of a generator's own that we write too, where the archive has an address."""
_LEADING = re.compile(r"\./(?=.)")


@dataclass(frozen=True, slots=True)
class Compared:
    """What came of comparing two sites."""

    pages: int
    files: int
    dotted: int
    """Addresses that it begins with `./`."""
    unmarked: int
    """Elements that have lost the mark which keeps them out of the search index."""
    faults: tuple[str, ...]
    """All other differences."""


def build_with_the_other(work: Path) -> subprocess.CompletedProcess[str]:
    """Build the site from a working folder; its pages lie in `site-new` there."""
    command = [sys.executable, "-m", "zensical", "build", "--config-file", str(work / "mkdocs.yml")]
    return subprocess.run(command, cwd=work, capture_output=True, text=True, check=False)


def compare_sites(ours: Path, theirs: Path) -> Compared:
    """Compare two sites: their files byte for byte, their pages element by element and word by word."""
    mine, other = _files(ours), _files(theirs)
    faults = [f"only ours: {name}" for name in sorted(mine - other - OUR_LAST_STEPS - ON_A_HOST_ONLY)]
    faults += [f"only theirs: {name}" for name in sorted(other - mine) if not ITS_OWN_FILES.fullmatch(name)]
    pages = sorted(name for name in mine & other if name.endswith(".html") and name not in ON_A_HOST_ONLY)
    files = sorted((mine & other) - set(pages) - OUR_LAST_STEPS - ON_A_HOST_ONLY)
    faults += [f"{name} differs" for name in files if (ours / name).read_bytes() != (theirs / name).read_bytes()]
    dotted = unmarked = 0
    for name in pages:
        one, two = _Reader.read(ours / name), _Reader.read(theirs / name)
        dotted += two.dotted
        unmarked += one.marked - two.marked
        if one.seen != two.seen:
            at = next((n for n, (a, b) in enumerate(zip(one.seen, two.seen, strict=False)) if a != b), -1)
            faults.append(f"{name}: {one.seen[at]!r} became {two.seen[at]!r}")
    return Compared(len(pages), len(files), dotted, unmarked, tuple(faults))


def _files(site: Path) -> set[str]:
    return {path.relative_to(site).as_posix() for path in site.rglob("*") if path.is_file()}


class _Reader(HTMLParser):
    """Takes down a page's elements with their attributes, and its words; blanks between words count as one."""

    def __init__(self) -> None:
        super().__init__(convert_charrefs=True)
        self.seen: list[str] = []
        self.dotted = self.marked = 0
        self._words = ""

    @classmethod
    def read(cls, page: Path) -> _Reader:
        """Read a page."""
        reader = cls()
        reader.feed(page.read_text(encoding="utf-8"))
        reader.close()
        reader.end_words()
        return reader

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        """Note an element; addresses without `./`, and without the mark against the search index."""
        self.end_words()
        told = []
        for name, value in attrs:
            if name == "data-search-exclude":
                self.marked += 1
                continue
            self.dotted += bool(_LEADING.match(value or ""))
            told.append(f"{name}={_LEADING.sub('', value or '', count=1) if _LEADING.match(value or '') else value}")
        self.seen.append(f"<{tag} {' '.join(told)}>")

    def handle_endtag(self, tag: str) -> None:
        """Note an element's end."""
        self.end_words()
        self.seen.append(f"</{tag}>")

    def handle_data(self, data: str) -> None:
        """Gather words."""
        self._words += data

    def handle_comment(self, data: str) -> None:
        """Note a comment."""
        self.end_words()
        self.seen.append(f"<!--{data}-->")

    def end_words(self) -> None:
        """Note the words since the last element."""
        words = " ".join(self._words.split())
        if words:
            self.seen.append(words)
        self._words = ""
