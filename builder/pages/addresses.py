"""Addresses of the site's pages, and how one points at another: relatively, so that a folder works too."""

from __future__ import annotations

import re
import unicodedata
from functools import lru_cache
from hashlib import sha256
from urllib.parse import quote

from builder.archive.ways_in import folded

_LONGEST = 60
"""Letters of an address made from a word; some sticks and archives cut longer names."""
_TAKEN = re.compile(r"index|con|prn|aux|nul|com\d|lpt\d|.*-[0-9a-f]{10}")
"""Names that stand for something else: an index, a device of some systems, or another word's address with its mark."""


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
    return _relative(from_page.rpartition("/")[0], to_file, anchor)


@lru_cache(maxsize=8192)
def _relative(from_folder: str, to_file: str, anchor: str) -> str:
    """Point from a folder to a file: all pages of one folder point at the same file in the same way."""
    here, there = from_folder.split("/") if from_folder else [], to_file.split("/")
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


def preview_file(slug: str) -> str:
    """The picture of one firing for previews; only a site with an address of its own has it."""
    return firing_file(slug, "preview.png")


def method_page(key: str) -> str:
    """Page of one method."""
    return f"methods/{key}"


def potter_page(key: str) -> str:
    """Page of one potter."""
    return f"potters/{key}"


def group_page(source: str) -> str:
    """Page of one group whose published data this archive is built from, by the key of its source."""
    return f"groups/{word_address(source.replace('-', ' '))}"


def word_address(word: str) -> str:
    """Make a page's name of any word in any script: readable where its letters allow, and a different one for each.

    A word that is more than small letters, digits and single spaces carries a mark made from the word itself, so that
    two words never share an address and a word's address does not depend on the other words.

    >>> word_address("Crushed  sherd")
    'crushed-sherd'
    >>> word_address("crushed sherd!"), word_address("砂"), word_address("index")
    ('crushed-sherd-fd019bd69e', 'word-e3b9205e07', 'index-1bc04b5291')
    """
    key = folded(word)
    letters = unicodedata.normalize("NFKD", key).encode("ascii", "ignore").decode()
    plain = re.sub(r"[^a-z0-9]+", "-", letters).strip("-")[:_LONGEST].rstrip("-")
    if plain.replace("-", " ") == key and plain and not _TAKEN.fullmatch(plain):
        return plain
    return f"{plain or 'word'}-{sha256(key.encode()).hexdigest()[:10]}"


@lru_cache(maxsize=4096)
def material_page(path: str, word: str) -> str:
    """Page of one word recorded for one condition, by its dotted path: `clay.temper` and `shell`."""
    return f"materials/{path.rpartition('.')[2].replace('_', '-')}-{word_address(word)}"


@lru_cache(maxsize=4096)
def place_page(place: str) -> str:
    """Page of one place."""
    return f"places/{word_address(place)}"


def year_page(year: int) -> str:
    """Page of one year."""
    return f"years/{year}"
