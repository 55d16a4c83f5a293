"""The words of the trade: a page of them all, and hints that explain one where an entry uses it."""

from __future__ import annotations

import re
from collections.abc import Sequence
from functools import cache

from markupsafe import Markup, escape

from builder.fire.words import CHAPTERS, WORDS, Word
from builder.pages.addresses import relative
from builder.pages.fragments import fill
from builder.publish.site import Page

PAGE = "words"
SCRIPT = "words.js"
_NO_HINT_IN = "(?:a|button|code|dt|h[1-6]|label|legend|option|pre|select|summary|svg|textarea)(?![a-z0-9])"
"""Elements whose words are left alone."""
_REST_OF_TAG = r'[^">]*(?:"[^"]*"[^">]*)*>'
_ON_PAGES = ("attempt", "interval", "not-recorded", "rate", "success", "window")
"""Words that are explained on pages of our own too, where they are used in no other sense."""
_OF_FIELDS = {
    "clay.body": "clay-body",
    "clay.temper": "temper",
    "clay.wall": "wall",
    "surface.slip": "slip",
    "surface.paint": "paint",
    "fuel.stack": "stack",
    "warm_up.length": "warm-up",
}
"""The word that stands in a field's label, by the field's dotted path."""


class Hints:
    """The words explained on one page: each is linked where it is first used, and its meaning given once."""

    def __init__(self, page: str) -> None:
        self._page = page
        self._used: dict[str, None] = {}

    def label(self, path: str, words: str) -> Markup | str:
        """Write the label of a field, as a hint where it is a word of the trade."""
        key = _OF_FIELDS.get(path)
        return self.hint(key, words) if key else words

    def hint(self, key: str, words: str) -> Markup:
        """Write words as a hint to a word's meaning: a link to the page of words, described by that meaning."""
        self._used[WORDS[key].key] = None
        address = relative(self._page, f"{PAGE}.html", key)
        return Markup(  # noqa: S704 - an address and a key of our own, and escaped words
            f'<a class="hint" href="{address}" aria-describedby="word-{key}">{escape(words)}</a>'
        )

    def story(self, html: str) -> Markup:
        """Make the first use of each word in cleaned HTML a hint; words within links, code and headings stay."""
        return self._marked(html, set(self._used), _keys(stories=True))

    def first_uses(self, html: str, met: set[str]) -> Markup:
        """Do the same to finished HTML of our own, for the words that are not met yet; `met` takes those marked."""
        return self._marked(html, met, _keys(stories=False))

    def meanings(self) -> tuple[Word, ...]:
        """Return the words used, in the order of their first use."""
        return tuple(WORDS[key] for key in self._used)

    def _marked(self, html: str, met: set[str], keys: dict[str, str]) -> Markup:
        def first(found: re.Match[str]) -> str:
            key = keys[found[0].casefold()]
            if key in met:
                return found[0]
            met.add(key)
            return self.hint(key, Markup(found[0]))  # noqa: S704 (a part of HTML that is clean already)

        parts: list[str] = []
        inside, at = 0, 0
        for found in _tags_and_words(tuple(keys)).finditer(html):
            if found.lastgroup:
                # How many elements around us there are in which no hint is made.
                inside += -1 if found["closing"] else 1
            elif not inside and not found[0].startswith("<"):
                parts += (html[at : found.start()], first(found))
                at = found.end()
        return Markup("".join((*parts, html[at:])))  # noqa: S704


def words_page() -> Page:
    """Make the page of words."""
    sentence = "What the words on this site mean: the potter’s, the thermometer’s and the counting ones."
    return Page(
        path=PAGE,
        title="Words",
        description=sentence,
        lead=fill("words_lead.html", PAGE, sentence=sentence, chapters=CHAPTERS),
        prose=fill("words.html", PAGE, chapters=CHAPTERS, names=WORDS),
        tags=tuple(word.name for word in WORDS.values()),
        kind="reference",
    )


@cache
def _keys(*, stories: bool) -> dict[str, str]:
    """Every form that stories, or pages of our own, are searched for, to the key of its word."""
    words = (word for word in WORDS.values() if word.in_stories or (word.key in _ON_PAGES and not stories))
    return {form.casefold(): word.key for word in words for form in (word.name, *word.forms)}


@cache
def _tags_and_words(forms: tuple[str, ...]) -> re.Pattern[str]:
    """Match any of those forms as a whole word, the longest first, and every tag, so that no word is found within one.

    Tags of elements whose words are left alone are named `alone`; of other tags a run is one match. The pattern begins
    with the few letters with which a match can begin: what lies between them is passed over several times as fast.
    """
    rests: dict[str, list[str]] = {}
    for form in forms:
        rests.setdefault(form[0], []).append(form[1:])
    words = "|".join(f"(?<=[{first}{first.upper()}]){_ways_on(rest)}" for first, rest in rests.items())
    other_tag = rf"(?!/?{_NO_HINT_IN}){_REST_OF_TAG}"
    tags = rf"(?P<closing>/?)(?P<alone>{_NO_HINT_IN}){_REST_OF_TAG}|{other_tag}(?:\s*<{other_tag})*"
    either = "".join(rests)
    return re.compile(rf"[<{either}{either.upper()}](?:(?<=<)(?:{tags})|(?<![\w&-].)(?i:{words})(?![\w-]))")


def _ways_on(forms: Sequence[str]) -> str:
    """Write a pattern of all forms letter by letter: one that begins as none of them does is given up at once."""
    rests: dict[str, list[str]] = {}
    for form in forms:
        rests.setdefault(form[:1], []).append(form[1:])
    ways = [re.escape(letter) + _ways_on(rest) for letter, rest in rests.items() if letter]
    ways += [""] * ("" in rests)
    return ways[0] if len(ways) == 1 else f"(?:{'|'.join(ways)})"
