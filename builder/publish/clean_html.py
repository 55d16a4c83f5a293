"""Contributed Markdown to safe HTML: what somebody wrote can be read, and can do nothing."""

from __future__ import annotations

import re
from functools import lru_cache
from html import escape

import nh3

_WORDS = frozenset({"p", "br", "hr", "em", "strong", "code", "pre", "blockquote", "ul", "ol", "li", "a"})
_TAGS = _WORDS | {"h2", "h3", "h4", "h5", "h6", "table", "thead", "tbody", "tr", "th", "td"}
_ATTRIBUTES = {"a": {"href", "title"}, "ol": {"start"}}
_REL = "nofollow noopener noreferrer ugc"

_OUTSIDE_LINK = re.compile(r"(?:https?://[^\s/]|mailto:[^\s@]+@[^\s@])", re.IGNORECASE)
_INSIDE_LINK = re.compile(
    r"(?:\.\./)*[A-Za-z0-9][A-Za-z0-9_-]*(?:[./][A-Za-z0-9_-]+)*/?(?:#[A-Za-z0-9_-]+)?|#[A-Za-z0-9_-]+"
)

_UNWANTED = re.compile("[\x00-\x08\x0b-\x1f\x7f-\x9f\u202a-\u202e\ufeff\ufffe\uffff\ud800-\udfff]")
"""Control characters, and the marks that turn the reading direction around under the reader's eyes."""

_BLANK_LINES = re.compile(r"\n{2,}")

_MOST_BRACKETS = 1000
"""Reading links takes time by the square of the opening brackets; no story has so many."""

_SIGN_OF_MARKUP = re.compile(r"[^\w \n.,;:?!'\"()/%°–—‘’“”…-]")
_NUMBERED = re.compile(r"\d+\.")

_MOST_NESTED = 100
"""Reading HTML takes time by the square of its depth; no story is nested so deep."""
_TAG = re.compile(r"<(/?)([A-Za-z][A-Za-z0-9]*)")
_EMPTY_TAGS = frozenset({"br", "hr"})

_SCROLL = '<div class="scroll" tabindex="0" role="region" aria-label="Table">'
"""Around each table, so that a wide one scrolls within itself on a phone; added after cleaning, as ours."""


def clean_markdown(markdown: str, *, inside: bool = False) -> str:
    """Turn contributed Markdown into HTML that is safe to publish.

    Links go to http, https and mailto addresses only; `inside` is for prose that the group itself answers for:
    links to the site's own pages pass as well, and its headings stand right below the page's title.
    """
    text = _plain(markdown).strip("\n")
    if text and not _may_be_markup(text):
        return "\n".join(f"<p>{part}</p>" for part in _BLANK_LINES.split(text))
    return _cleaned(_convert(text, inside), inside)


def _may_be_markup(text: str) -> bool:
    """Tell whether Markdown or HTML could take anything for more than words; in most stories there is nothing."""
    if "_" in text or _SIGN_OF_MARKUP.search(text):
        return True
    return any(line.startswith((" ", "-")) or line.endswith(" ") or _NUMBERED.match(line) for line in text.split("\n"))


@lru_cache(maxsize=1)
def clean_story(story: str, *, made: bool) -> str:
    """Turn a firing's story into HTML that is safe to publish; the last one is kept, for a page and a file need it.

    A story is contributed Markdown, or (`made`) the HTML that another archive made of such: it is cleaned all the same.
    """
    if not made:
        return clean_markdown(story)
    html = _plain(story)
    return _cleaned(_paragraphs(html) if _tangled(html) else html, False)


def _tangled(html: str) -> bool:
    """Tell whether HTML is nested deeper than any that was cleaned before; a tag that closes no open one counts not."""
    inside: list[str] = []
    for closing, name in _TAG.findall(html):
        if closing and inside and inside[-1] == name:
            inside.pop()
        elif not closing and name not in _EMPTY_TAGS:
            inside.append(name)
            if len(inside) > _MOST_NESTED:
                return True
    return False


def _plain(text: str) -> str:
    return _UNWANTED.sub("", text.replace("\r\n", "\n").replace("\r", "\n"))


def _cleaned(html: str, inside: bool) -> str:
    def allowed(tag: str, name: str, value: str) -> str | None:
        if (tag, name) != ("a", "href"):
            return value
        good = _OUTSIDE_LINK.match(value) or (inside and _INSIDE_LINK.fullmatch(value))
        return value if good else None

    clean = nh3.clean(
        html,
        tags=set(_TAGS),
        attributes=_ATTRIBUTES,
        attribute_filter=allowed,
        url_schemes={"http", "https", "mailto"},
        link_rel=_REL,
        strip_comments=True,
    )
    return clean.replace("<table>", _SCROLL + "<table>").replace("</table>", "</table></div>")


def _convert(text: str, inside: bool) -> str:
    """Read Markdown; what is tangled beyond what anybody writes becomes plain paragraphs."""
    from builder.publish.markdown_reader import reader  # only now: most stories are plain words

    if text.count("[") <= _MOST_BRACKETS:
        try:
            return reader(inside).reset().convert(text)
        except RecursionError:
            pass
    return _paragraphs(text)


def _paragraphs(text: str) -> str:
    return "".join(f"<p>{escape(part)}</p>" for part in text.split("\n\n"))
