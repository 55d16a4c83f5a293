"""The site's own search index: words to pages in small files, of which a search loads the few that it needs.

Every file is a script that hands its content to the reader's search, so that the same index works from a web host and
from a folder, where a browser lets no script read a file. Words are folded (no accents, no capitals) and cut as
`theme/scripts/search_reader.js` cuts what is asked for; they stand in the order of the alphabet, so that the beginning
of a word finds every word that begins so. No word is stemmed: that works in every language alike.
"""

from __future__ import annotations

import json
import re
import unicodedata
from collections import Counter
from collections.abc import Iterable, Iterator, Mapping, MutableMapping, Sequence
from dataclasses import dataclass
from functools import lru_cache
from html import unescape

from builder.kept.digest import digest

FOLDER = "search"
DIRECTORY = f"{FOLDER}/directory.js"
"""Address of the file that says where all others begin: the only one that every search loads."""

TITLE, TAG, OFTEN, ONCE = 3, 2, 1, 0
"""Where a page has a word: in its title, its tags, three times or more in its text, or less."""

WORDS_BYTES = 12_000
"""Size of a file of words, about: one search loads one or two."""
PAGES_EACH = 8
"""Pages in a file of titles and texts."""
_LONGEST = 40
"""Letters of a word; no word that is longer can be told from another with the same beginning."""

_WORD = re.compile(r"[^\W_]+")
_UNSPACED = re.compile(
    "[\u0e00-\u0eff\u1000-\u109f\u1780-\u17ff\u2e80-\u312f\u31a0-\u9fff\uf900-\ufaff\U00020000-\U0003ffff]+"
)
"""Scripts that put no space between words: cut into pairs of letters."""
_TAG = re.compile(r'<(?:"[^"]*"|[^">])*>')
_DIGITS = "0123456789abcdefghijklmnopqrstuvwxyz"


@dataclass(frozen=True, slots=True)
class Part:
    """A stretch of a page's text, from one heading to the next."""

    anchor: str
    """Empty for what stands before the first heading."""
    heading: str
    text: str


@dataclass(frozen=True, slots=True)
class Searched:
    """One page as search knows it."""

    address: str
    title: str
    tags: tuple[str, ...]
    parts: tuple[Part, ...]


def searched_pages(entries: Iterable[str]) -> Iterator[Searched]:
    """Read pages from what mkdocs' search takes down of each: objects of JSON with commas between, its own first."""
    return (searched_page(told) for told in entries if told)


def searched_page(told: str) -> Searched:
    """Read one page from what mkdocs' search takes down of it."""
    found = json.loads(f"[{told}]")
    first = found[0]
    parts = tuple(
        Part(one["location"].partition("#")[2], "" if one is first else _plain(one["title"]), _plain(one["text"]))
        for one in found
    )
    return Searched(first["location"].partition("#")[0], first["title"], tuple(first.get("tags", ())), parts)


def pages_files(pages: int) -> list[str]:
    """Return the addresses of the files of titles and texts, for so many pages."""
    return [f"{FOLDER}/pages-{number}.js" for number in range(-(-pages // PAGES_EACH))]


def pages_file(number: int, pages: Iterable[Searched]) -> bytes:
    """Return one of them, of its own pages."""
    return _script("pages", number, [_told(page) for page in pages])


def words_files(words: Mapping[str, str]) -> tuple[dict[str, bytes], list[str]]:
    """Return the files of counted words by their addresses, and the word that each begins with."""
    shards = list(_shards(words))
    files = {f"{FOLDER}/words-{number}.js": _script("words", number, shard) for number, shard in enumerate(shards)}
    return files, [next(iter(shard)) for shard in shards]


def directory_file(digests: Mapping[str, str], pages: int, begin: Sequence[str]) -> bytes:
    """Return the directory of an index of so many pages; `digests` are those of all other files, by address."""
    version = digest(*(known for _, known in sorted(digests.items())))[:12]
    return _script("directory", 0, {"version": version, "pages": pages, "each": PAGES_EACH, "begin": begin})


def words_of(text: str) -> list[str]:
    """Cut a text into folded words.

    >>> words_of("Crème-brûlée at 742 °C"), words_of("赤い土")
    (['creme', 'brulee', 'at', '742', 'c'], ['赤い', 'い土', '土'])
    """
    words = _WORD.findall(folded(text))
    if text.isascii():  # no word of it needs cutting but for its length
        return [word[:_LONGEST] for word in words]
    return [part for word in words for part in _cut(word)]


def folded(text: str) -> str:
    """Take accents and capitals off a text."""
    if text.isascii():
        return text.lower()
    decomposed = unicodedata.normalize("NFKD", text)
    return "".join(letter for letter in decomposed if unicodedata.category(letter)[0] != "M").lower()


@lru_cache(maxsize=100_000)
def _cut(word: str) -> tuple[str, ...]:
    if word.isascii() or not _UNSPACED.search(word):
        return (word[:_LONGEST],)
    parts: list[str] = []
    at = 0
    for run in _UNSPACED.finditer(word):
        parts += [word[at : run.start()]]
        parts += [run[0][place : place + 2] for place in range(len(run[0]))]
        at = run.end()
    return tuple(part[:_LONGEST] for part in (*parts, word[at:]) if part)


def _places(page: Searched) -> dict[str, int]:
    """Return for each word of a page where the page has it."""
    text = Counter([word for part in page.parts for word in words_of(f"{part.heading} {part.text}")])
    where = {word: OFTEN if count > 2 else ONCE for word, count in text.items()}
    where |= dict.fromkeys((word for tag in page.tags for word in words_of(tag)), TAG)
    return where | dict.fromkeys(words_of(page.title), TITLE)


def counted(pages: Iterable[Searched]) -> dict[str, str]:
    """Return for each word the pages that have it, in their order, and where, as the files hold it."""
    found: dict[str, list[tuple[int, int]]] = {}
    for number, page in enumerate(pages):
        for word, place in _places(page).items():
            found.setdefault(word, []).append((number, place))
    return {word: _packed(places) for word, places in found.items()}


def recount(words: MutableMapping[str, str], number: int, before: Searched, now: Searched) -> None:
    """Let words that were counted with a page be those with another in its place."""
    old, new = _places(before), _places(now)
    for word in old.keys() | new.keys():
        if old.get(word) != new.get(word):
            places = _unpacked(words.get(word, ""))
            places.pop(number, None)
            if word in new:
                places[number] = new[word]
            if places:
                words[word] = _packed(sorted(places.items()))
            else:
                del words[word]


def _shards(words: Mapping[str, str]) -> Iterator[dict[str, str]]:
    """Cut the words, in the order of their letters' numbers as scripts order them, into files of about one size."""
    shard: dict[str, str] = {}
    size = 0
    for word in sorted(words, key=lambda word: word.encode("utf-16-be")):
        shard[word] = words[word]
        size += len(word) + len(shard[word]) + 6
        if size > WORDS_BYTES:
            yield shard
            shard, size = {}, 0
    if shard:
        yield shard


def _packed(pages: Sequence[tuple[int, int]]) -> str:
    """Write pages as steps from one to the next, each with its place: step · 4 + place, in base 36."""
    before, steps = -1, []
    for number, place in pages:
        steps.append(_base36((number - before) * 4 + place))
        before = number
    return " ".join(steps)


def _unpacked(steps: str) -> dict[int, int]:
    """Read what `_packed` wrote."""
    number, places = -1, {}
    for step in steps.split():
        value = int(step, 36)
        number += value >> 2
        places[number] = value & 3
    return places


@lru_cache(maxsize=10_000)
def _base36(number: int) -> str:
    words = ""
    while number:
        number, last = divmod(number, 36)
        words = _DIGITS[last] + words
    return words or "0"


def _told(page: Searched) -> list[object]:
    return [page.address, page.title, list(page.tags), [[part.anchor, part.heading, part.text] for part in page.parts]]


def _script(kind: str, number: int, content: object) -> bytes:
    """Write a file of the index; what is in it can neither end the script nor be anything but text."""
    told = json.dumps(content, ensure_ascii=False, separators=(",", ":"))
    for sign in "<\u2028\u2029":
        told = told.replace(sign, f"\\u{ord(sign):04x}")
    return f'ashbookSearchHas("{kind}",{number},{told});\n'.encode()


def _plain(html: str) -> str:
    """Turn the HTML of an entry into words with single spaces."""
    return " ".join(unescape(_TAG.sub(" ", html)).split())
