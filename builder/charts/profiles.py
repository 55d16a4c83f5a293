"""Pots drawn as archaeologists draw them: the cut wall on the left, the outside on the right, all to one scale.

An outline is a few points (radius, height) from the foot to the rim, joined by a smooth curve; the wall is the same
outline moved inwards. A drawing stands on its lower edge, so that several share one shelf line.
"""

from __future__ import annotations

import math
import re
from collections.abc import Sequence

from builder.charts.svg import element, number

Point = tuple[float, float]
Outline = tuple[Point, ...]

WALL = 3.2
"""Thickness of the cut wall, in pixels: thicker than to scale, so that it shows."""
_MARGIN = 3.0

FORMS: dict[str, Outline] = {
    "pot": ((9, 0), (19, 8), (22, 20), (17, 31), (14, 35), (17, 41)),
    "jar": ((9, 0), (20, 12), (24, 28), (18, 42), (12, 48), (13, 54), (17, 59)),
    "bottle": ((10, 0), (18, 8), (20, 19), (13, 31), (6, 38), (5, 49), (9, 56)),
    "jug": ((10, 0), (18, 10), (20, 22), (13, 35), (10, 42), (13, 51)),
    "bowl": ((8, 0), (17, 6), (24, 16), (27, 25)),
    "dish": ((12, 0), (22, 4), (30, 12)),
    "plate": ((14, 0), (26, 2.5), (32, 7)),
    "cup": ((8, 0), (11, 9), (12, 17), (13, 25)),
    "beaker": ((8, 0), (12, 10), (12, 22), (11, 30), (14, 38)),
    "lid": ((19, 0), (16, 6), (9, 11), (4, 13), (5, 18)),
    "ladle": ((5, 0), (11, 4), (14, 12)),
    "tile": ((22, 0), (22, 6)),
    "figure": ((12, 0), (9, 10), (11, 22), (6, 31), (7, 39), (3, 44)),
    "bead": ((4, 0), (7, 5), (4, 10)),
}
"""Half outlines from foot to rim, in pixels. A form that is not here is drawn as a plain pot."""
_ALIKE = {
    "pitcher": "jug", "ewer": "jug", "flask": "bottle", "mug": "cup", "tumbler": "beaker", "saucer": "dish",
    "pan": "dish", "basin": "bowl", "urn": "jar", "vase": "jar", "olla": "jar", "cookpot": "pot", "platter": "plate",
    "cover": "lid", "brick": "tile", "bar": "tile", "tablet": "tile", "figurine": "figure", "animal": "figure",
    "whistle": "figure", "whorl": "bead", "weight": "bead", "spoon": "ladle", "dipper": "ladle",
}  # fmt: skip
_CORNERED = frozenset({"tile"})
"""Forms with straight sides."""


def form_drawn(form: str | None) -> str:
    """Choose the drawing for a form in the potter's words: its last known word, singular or plural; else a pot.

    >>> form_drawn("tall water jars"), form_drawn("test tiles"), form_drawn(None)
    ('jar', 'tile', 'pot')
    """
    words: list[str] = re.findall(r"[^\W\d_]+", (form or "").casefold())
    for word in reversed(words):
        for singular in (word, word.removesuffix("s"), word.removesuffix("es")):
            known = _ALIKE.get(singular, singular)
            if known in FORMS:
                return known
    return "pot"


def pot_profile(form: str | None, survival: str) -> str:
    """Draw a piece by its form and how it came through (`sound`, `cracked`, `spalled`, `broken`, `unjudged` …)."""
    key = form_drawn(form)
    outline = FORMS[key]
    height = outline[-1][1]
    widest = max(radius for radius, _ in outline)
    middle = widest + _MARGIN
    right = _joined(outline, key in _CORNERED)
    body = _cut_wall(outline, key in _CORNERED) + _outside(outline, right) + _damage(survival, widest, height)
    turned = element("g", body, transform=f"translate({number(middle)} {number(height + _MARGIN)}) scale(1 -1)")
    class_ = f"profile profile-{survival}" if survival in ("cracked", "spalled", "broken", "unjudged") else "profile"
    width, tall = 2 * middle, height + _MARGIN
    return element(
        "svg",
        turned,
        class_=class_,
        viewBox=f"0 0 {number(width)} {number(tall)}",
        width=width,
        height=tall,
        aria_hidden="true",
    )


def _joined(points: Sequence[Point], straight: bool) -> str:
    """Join points by a Catmull and Rom curve, as path commands after a move to the first of them."""
    if straight or len(points) < 3:
        return "".join(f"L{_at(point)}" for point in points[1:])
    padded = [points[0], *points, points[-1]]
    commands = []
    for before, start, end, after in zip(padded, padded[1:], padded[2:], padded[3:], strict=False):
        leave = (start[0] + (end[0] - before[0]) / 6, start[1] + (end[1] - before[1]) / 6)
        reach = (end[0] - (after[0] - start[0]) / 6, end[1] - (after[1] - start[1]) / 6)
        commands.append(f"C{_at(leave)} {_at(reach)} {_at(end)}")
    return "".join(commands)


def _at(point: Point) -> str:
    return f"{number(point[0])} {number(point[1])}"


def _inner(outline: Outline) -> Outline:
    """Move an outline inwards by the wall's thickness, square to it, and close it above the base."""
    found = [(0.0, WALL), (max(outline[0][0] - WALL * 0.6, 1.0), WALL)]
    for at in range(1, len(outline)):
        before, after = outline[at - 1], outline[min(at + 1, len(outline) - 1)]
        along = (after[0] - before[0], after[1] - before[1])
        length = math.hypot(*along)
        radius, height = outline[at]
        inwards = (max(radius - WALL * along[1] / length, 0.4), height + WALL * along[0] / length)
        rim = at == len(outline) - 1
        found.append((inwards[0], outline[at][1]) if rim else (inwards[0], max(inwards[1], WALL)))
    return tuple(found)


def _cut_wall(outline: Outline, straight: bool) -> str:
    """Fill the wall on the left between outside and inside."""
    left = [(-radius, height) for radius, height in outline]
    if straight:
        return element("path", class_="profile-cut", d=f"M0 0H{number(left[0][0])}V{number(left[-1][1])}H0z")
    inside = [(-radius, height) for radius, height in reversed(_inner(outline))]
    data = f"M0 0L{_at(left[0])}{_joined(left, False)}L{_at(inside[0])}{_joined(inside[:-1], False)}L{_at(inside[-1])}z"
    return element("path", class_="profile-cut", d=data)


def _outside(outline: Outline, right: str) -> str:
    """Draw the right half's outline, the foot, the rim and the middle line."""
    foot, rim, height = outline[0][0], outline[-1][0], outline[-1][1]
    data = f"M0 0H{number(foot)}{right}M{number(-rim)} {number(height)}H{number(rim)}M0 0V{number(height)}"
    return element("path", class_="profile-line", d=data)


def _damage(survival: str, widest: float, height: float) -> str:
    """Draw what the fire did, on the right half, sized to the piece."""
    across, up = widest / 20, height / 40
    lines = ["L".join(_at((x * across, y * up)) for x, y in line) for line in _DAMAGE.get(survival, ())]
    return element("path", class_="profile-damage", d="".join(f"M{line}" for line in lines)) if lines else ""


_DAMAGE: dict[str, tuple[Outline, ...]] = {
    "cracked": (((9, 40), (7, 33), (10.5, 28), (7.5, 21), (10, 16)),),
    "spalled": (((5, 20), (8, 25), (13, 24), (14, 18), (10, 14), (6, 15), (5, 20)),),
    "broken": (
        ((0, 27), (4, 22), (7, 28), (11, 20), (14, 25), (18, 19)),
        ((7, 28), (9, 40)),
        ((11, 20), (9, 0)),
    ),
}
"""Lines of damage on a right half 20 wide and 40 high."""
