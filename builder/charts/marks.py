"""Small marks, drawn by hand for this project: how a piece came out, and the kinds of fire.

A page that shows marks carries `mark_sprite()` once; each mark then only points into it. Shape tells the outcome,
colour comes second. Marks are hidden from screen readers: the same always stands beside them in words.
"""

from __future__ import annotations

from collections.abc import Iterable
from functools import cache

from builder.charts.svg import element

UNJUDGED = "unjudged"
_POT = "M4.4 1.6h7.2l-1 2.1c1.9 1.1 3 3 3 5.2 0 2.4-1.3 4.5-3.4 5.6H5.8c-2.1-1.1-3.4-3.2-3.4-5.6 0-2.2 1.1-4.1 3-5.2z"
_CRACK = "M8.5 1.5 7.1 5.1l2 1.9-1.9 3.1 1.1 1.9.8-.4-.8-1.5L10.3 7 8.2 4.9 9.5 1.5z"
_FLAKE = "M6.7 7.2 9.3 6.5 11.2 8.3 10.6 10.9 7.9 11.6 5.9 9.8z"
_CHIP = "M8.1 8.4h1.2v1.3H8.1z"
_BROKEN = (
    "M2.4 9 4.6 7.2 6.4 9.7 8.4 7.5 10.2 10 13.6 8.9c0 2.4-1.3 4.5-3.4 5.6H5.8C3.7 13.4 2.4 11.3 2.4 9z"
    "M7.3 1.5 10.8 2.6 10.5 5.9 7.9 5.2z"
)


def _filled(*parts: str) -> str:
    return element("path", fill="currentColor", fill_rule="evenodd", d="".join(parts))


def _outlined(data: str, dash: str | None = None) -> str:
    return element("path", fill="none", stroke="currentColor", stroke_width="1.2", stroke_dasharray=dash, d=data)


_POT_SYMBOLS = {
    "whole": _filled(_POT),
    "unwanted": _outlined(_POT + "M3 7h10M2.5 9.6h11M3.5 12.2h9"),
    "hollow": _outlined(_POT),
    "cracked": _filled(_POT, _CRACK),
    "flaked": _filled(_POT, _FLAKE, _CHIP),
    "broken": _filled(_BROKEN),
    "unknown": _outlined(_POT, "1.6 1.5"),
}
"""Outcome shapes, 16 by 16."""

_FIRE_SYMBOLS = {
    "ground": _outlined("M1 16.5h30M7 16.5 18 3.5M25 16.5 14 3.5M11.5 16.5 16 8l4.5 8.5")
    + element("path", fill="currentColor", d="M12.5 16.5c0-3 1.5-5 3.5-5s3.5 2 3.5 5z"),
    "pit": _outlined("M1 6.5h30") + element("path", fill="currentColor", d="M9 6.5h14c0 6.5-2.5 9.5-7 9.5s-7-3-7-9.5z"),
    "trench": _outlined("M1 6.5h30") + element("path", fill="currentColor", d="M4 6.5h24l-2.5 6.5h-19z"),
    "kiln": _outlined("M1 16.5h30")
    + element(
        "path",
        fill="currentColor",
        fill_rule="evenodd",
        d="M8 16.5V9.5c0-4.2 3-7 6.7-7.5v-1h2.6v1c3.7.5 6.7 3.3 6.7 7.5v7zM13 16.5v-3c0-1.8 1.2-3 3-3s3 1.2 3 3v3z",
    ),
}
"""Sections through the kinds of fire, 32 by 20; the ground is the line."""


@cache
def mark_sprite() -> str:
    """Give the symbols that every mark of a page points to; it goes into the page once, before the first mark."""
    symbols = [element("symbol", body, id=f"mark-{key}", viewBox="0 0 16 16") for key, body in _POT_SYMBOLS.items()]
    symbols += [element("symbol", body, id=f"fire-{key}", viewBox="0 0 32 20") for key, body in _FIRE_SYMBOLS.items()]
    return element("svg", *symbols, class_="mark-sprite", aria_hidden="true", width=0, height=0)


@cache
def pot_mark(survival: str, succeeded: str) -> str:
    """Show how a piece came out: its survival (or `unjudged`) by shape, its verdict by colour.

    The verdict is `yes`, `no` or `unjudged`. A whole piece that failed for another reason than survival is striped;
    one that is not judged is an outline.
    """
    shape = _shape(survival, succeeded)
    return _use(f"mark-{shape}", "mark mark-soft" if shape == "unwanted" else f"mark mark-{succeeded}", 16, 16)


def pot_marks(pieces: Iterable[tuple[str, str, int]]) -> str:
    """Show several pieces in a row: of each its survival, its verdict and how many there are of it."""
    marks = [pot_mark(survival, succeeded) for survival, succeeded, count in pieces for _ in range(count)]
    return element("span", *marks, class_="marks")


def _shape(survival: str, succeeded: str) -> str:
    broken_forms = {"cracked": "cracked", "spalled": "flaked", "broken": "broken"}
    if survival in broken_forms:
        return broken_forms[survival]
    if survival == UNJUDGED:
        return "unknown"
    return {"yes": "whole", "no": "unwanted"}.get(succeeded, "hollow")


@cache
def fire_mark(kind: str) -> str:
    """Show a kind of fire (`ground`, `pit`, `trench`, `kiln`) as a small section; another word shows the ground's."""
    return _use(f"fire-{kind if kind in _FIRE_SYMBOLS else 'ground'}", "mark mark-fire", 32, 20)


def _use(symbol: str, class_: str, width: int, height: int) -> str:
    use = element("use", href=f"#{symbol}")
    return element("svg", use, class_=class_, width=width, height=height, aria_hidden="true")
