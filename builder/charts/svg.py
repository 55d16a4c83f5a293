"""Writing SVG: elements, escaped words, short paths, and how wide words will stand.

No style attributes: the site's Content-Security-Policy forbids them. Looks come from classes in charts.css.
"""

from __future__ import annotations

import html
import re
from collections.abc import Iterable, Sequence
from functools import cache, lru_cache

import numpy as np
from markupsafe import Markup
from numpy.typing import NDArray

from builder.readings.curve import Floats

Tenths = NDArray[np.int64]

_NOT_XML = re.compile("[\x00-\x08\x0b\x0c\x0e-\x1f\ud800-\udfff\ufffe\uffff]")
"""Characters that no XML 1.0 document may hold, section 2.2."""
_NOT_AS_IT_STANDS = re.compile(rf"{_NOT_XML.pattern}|[&<>\"']")
_NOT_IDENTIFIER = re.compile(r"[^A-Za-z0-9_-]+")
_EM = {
    **dict.fromkeys("ABCDEFGHKLNOPQRSTUVXYZ", 0.74),
    **dict.fromkeys(" .,:;'|!iljI·’", 0.32),
    **dict.fromkeys("tfrJ()[]-/", 0.42),
    **dict.fromkeys("mwMW@%—…", 0.96),
}
"""Widths of letters in em, in groups: those of DejaVu Sans, about the widest face that a reader's system may have."""


def escaped(words: str) -> str:
    """Make words safe as the text or an attribute of XML; characters that XML cannot hold are left out."""
    return html.escape(_NOT_XML.sub("", words), quote=True) if _NOT_AS_IT_STANDS.search(words) else words


def identifier(words: str) -> str:
    """Make words safe as an id."""
    return _NOT_IDENTIFIER.sub("-", words)


def number(value: float) -> str:
    """Write a coordinate with one decimal at most: a tenth of a pixel is less than any eye sees."""
    return f"{round(value, 1) + 0.0:g}"


def element(tag: str, *children: str, **attributes: str | float | None) -> str:
    """Write one element; `class_` stands for `class`, underscores for hyphens, None leaves an attribute out.

    Children are markup already; attributes are escaped here.
    """
    written = "".join(
        [
            f' {_attribute(key)}="{escaped(value) if isinstance(value, str) else number(value)}"'
            for key, value in attributes.items()
            if value is not None
        ]
    )
    body = "".join(children)
    return f"<{tag}{written}>{body}</{tag}>" if body else f"<{tag}{written}/>"


@cache
def _attribute(key: str) -> str:
    return key.rstrip("_").replace("_", "-")


def degrees(celsius: float, bare: bool = False) -> str:
    """Write a temperature as part of a text, marked so that the reader's script can show it in °F.

    >>> degrees(742.3)
    '<tspan class="t" data-c="742.3">742 °C</tspan>'
    """
    words = degree_words(celsius, bare)
    return element("tspan", words, class_="t bare" if bare else "t", data_c=celsius)


def degree_words(celsius: float, bare: bool = False) -> str:
    """Write a temperature plainly, to measure it: with a real minus, and without its unit where `bare`."""
    number_words = f"{celsius:.0f}".replace("-", "−")
    return number_words if bare else f"{number_words} °C"


def path_data(points: Iterable[tuple[float, float]], closed: bool = False) -> str:
    """Write a polyline as the `d` of a path: the first point absolute, then steps, which are shorter.

    >>> path_data([(0, 10), (5, 7.5), (6, 7.5)])
    'M0 10l5-2.5 1 0'
    """
    tenths = [round(ordinate * 10) for point in points for ordinate in point]
    steps = [tenths[at] - tenths[at - 2] for at in range(2, len(tenths))]
    return _written_path(tenths[:2], steps, closed)


def line_tenths(x: Floats, y: Floats) -> Tenths:
    """Give the points of a line, pixels of shape (n,) each, in whole tenths of a pixel, shape (2, n)."""
    return np.rint(np.array((x, y)) * 10.0).astype(np.int64)


def line_data(tenths: Tenths, closed: bool = False) -> str:
    """Write a polyline of many points as `path_data` does."""
    steps = tenths[:, 1:] - tenths[:, :-1]
    return _written_path(tenths[:, 0].tolist(), steps.T.ravel().tolist(), closed)


def _written_path(start: Sequence[int], steps: Sequence[int], closed: bool) -> str:
    """Write a path from its first point and its steps, across and down in turns, all in tenths of a pixel."""
    if not start:
        return ""
    moved = f"M{start[0] / 10:g} {start[1] / 10:g}"
    drawn = "l" + "".join(map(_TENTHS.__getitem__, steps)).removeprefix(" ") if steps else ""
    return moved + drawn + ("z" if closed else "")


class _Tenths(dict[int, str]):
    """Numbers of tenths as they are written after another; most steps of a line are a few of the same small ones."""

    def __missing__(self, tenths: int) -> str:
        written = f"{tenths / 10:g}" if tenths < 0 else f" {tenths / 10:g}"  # a minus parts them as a space does
        if len(self) < 20_000:
            self[tenths] = written
        return written


_TENTHS = _Tenths()


@lru_cache(maxsize=4096)
def words_width(words: str, size: float, bold: bool = False) -> float:
    """How wide words will stand at a size, in the same unit, in the widest face they may be set in."""
    return size * (1.1 if bold else 1.0) * sum([_EM.get(letter) or _em(letter) for letter in words])


def _em(letter: str) -> float:
    """Width of a letter in no group: a full em in the scripts of East Asia."""
    return 0.62 if letter < "\u2e80" else 1.0


def cut_words(words: str, longest: int) -> str:
    """Shorten words to at most `longest` characters at the end of a word, with an ellipsis."""
    words = " ".join(words.split())
    if len(words) <= longest:
        return words
    cut = words[: longest - 1]
    at_space = cut.rfind(" ")
    return (cut[:at_space] if at_space > longest // 2 else cut).rstrip(" ,;:.–") + "…"


def wrapped_words(words: str, width: float, size: float) -> tuple[str, ...]:
    """Break words into at most two lines of a width in pixels; what is still too long is cut with an ellipsis.

    >>> wrapped_words("a fire on damp ground", 100, 14)
    ('a fire on', 'damp ground')
    """
    words = " ".join(words.split())
    if words_width(words, size) <= width:
        return (words,)
    at_space = words.rfind(" ", 0, _fitting(words, width, size) + 1)
    if at_space > 0:
        return words[:at_space], _fitted(words[at_space + 1 :], width, size)
    at = max(_fitting(words, width - words_width("-", size), size), 1)
    return f"{words[:at]}-", _fitted(words[at:], width, size)


def _fitting(words: str, width: float, size: float) -> int:
    """How many letters of some words fit a width."""
    return next((at for at in range(len(words), 0, -1) if words_width(words[:at], size) <= width), 0)


def _fitted(words: str, width: float, size: float) -> str:
    if words_width(words, size) <= width:
        return words
    return words[: _fitting(words, width - words_width("…", size), size)].rstrip() + "…"


def drawing(name: str, class_: str, size: tuple[float, float], title: str, words: str, body: Sequence[str]) -> str:
    """Write a drawing that a screen reader announces by its title and describes by `words`, escaped unless Markup."""
    name = identifier(name)
    return element(
        "svg",
        element("title", escaped(title), id=f"{name}-title"),
        element("desc", words if isinstance(words, Markup) else escaped(words), id=f"{name}-desc"),
        *body,
        xmlns="http://www.w3.org/2000/svg",
        class_=class_,
        viewBox=f"0 0 {number(size[0])} {number(size[1])}",
        width=size[0],
        height=size[1],
        role="img",
        aria_labelledby=f"{name}-title {name}-desc",
    )
