"""The words explained on every page but the firings' own, which explain theirs as they are written."""

from __future__ import annotations

import re
from dataclasses import replace

from markupsafe import Markup

from builder.pages.fragments import fill
from builder.pages.words_page import PAGE, SCRIPT, Hints
from builder.publish.site import Page

_ALONE = (PAGE, "before-you-light", "compare", "fields", "fireside", "problems", "write-up")
"""Pages without hints: forms, whose words are explained beside each field, a sheet for paper, lists of names."""
_OTHER_SENSES = {"figures": ("rate", "window")}
"""Words that a page uses in another sense: there a rate is of heating, and a window a stretch of time."""
_LISTS = re.compile(r'(<ol class="[\w-]+-lines"[^<]*(?:<(?!/ol>)[^<]*)*</ol>)')
"""Lists of firings: their words are links and materials, and there may be thousands of lines."""
_FOLDED = re.compile(r"(<details[^<]*(?:<(?!/details>)[^<]*)*</details>)")


def explained(page: Page) -> Page:
    """Explain each word of the trade and of the counting where the page first uses it, and where a folded part does."""
    if page.path in _ALONE or page.kind == "firing":
        return page
    hints = Hints(page.path)
    open_words, folded_words = set(_OTHER_SENSES.get(page.path, ())), set(_OTHER_SENSES.get(page.path, ()))

    def marked(html: str) -> str:
        return "".join(
            part if part.startswith("<ol") else _parts(part, hints, open_words, folded_words)
            for part in _LISTS.split(html)
        )

    lead, prose, rest = marked(page.lead), marked(page.prose), marked(page.rest)
    meanings = hints.meanings()
    if not meanings:
        return page
    rest += fill("meanings.html", page.path, meanings=meanings)
    return replace(page, lead=lead, prose=prose, rest=rest, scripts=(*page.scripts, SCRIPT))


def _parts(html: str, hints: Hints, open_words: set[str], folded_words: set[str]) -> Markup:
    return Markup("").join(
        hints.first_uses(part, folded_words if part.startswith("<details") else open_words)
        for part in _FOLDED.split(html)
    )
