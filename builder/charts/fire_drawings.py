"""Sections through the four kinds of fire, drawn by hand for this project, for the home page and the methods.

All four share one ground line at the same height and run to both edges, so that side by side they make one horizon.
"""

from __future__ import annotations

from collections.abc import Sequence

from builder.charts.svg import element, path_data

WIDTH, GROUND, ABOVE, BELOW = 240, 128, 36, 60
"""Width, row of the ground line, room above row 0 for smoke, and room below the ground line, in pixels."""
_HEIGHT = ABOVE + GROUND + BELOW

_Place = tuple[float, float, float, float]
_Stick = tuple[tuple[float, float], tuple[float, float]]


def fire_drawing(kind: str) -> str:
    """Draw a section through a `ground`, `pit`, `trench` or `kiln` fire; any other word gives the first."""
    body = _DRAWINGS.get(kind, _on_ground)()
    return element(
        "svg",
        body,
        class_="fire-drawing",
        viewBox=f"0 {-ABOVE} {WIDTH} {_HEIGHT}",
        width=WIDTH,
        height=_HEIGHT,
        aria_hidden="true",
    )


def _on_ground() -> str:
    sticks = [((52 + 9 * at, GROUND), (112 + 2.0 * at - 7, 52 + (at * 7) % 17)) for at in range(15)]
    pots = [
        (82, GROUND, 30, 26),
        (118, GROUND, 34, 29),
        (155, GROUND, 30, 25),
        (101, 101, 28, 24),
        (135, 100, 26, 23),
    ]
    return (
        _glow(120, 108, 92, 62)
        + _sticks(sticks)
        + _pots(pots)
        + _smoke(116, 42)
        + _ground([(0, GROUND), (WIDTH, GROUND)])
        + _hatching(0, WIDTH)
    )


def _pit() -> str:
    pots = [(94, 168, 30, 26), (128, 174, 34, 30), (156, 162, 26, 23), (108, 142, 28, 24), (140, 143, 26, 24)]
    return (
        _glow(120, 138, 90, 52)
        + _pots(pots)
        + _sticks(_lying(64, 176, 116, 126))
        + _smoke(96, 104)
        + _smoke(136, 96)
        + element("path", class_="fire-ground", d=f"M0 {GROUND}H56C62 160 84 177 120 177S178 160 184 {GROUND}H{WIDTH}")
        + _hatching(0, 56)
        + _hatching(184, WIDTH)
    )


def _trench() -> str:
    cut = [(0, GROUND), (20, GROUND), (32, 164), (208, 164), (220, GROUND), (WIDTH, GROUND)]
    pots = [(50 + 35 * at, 164, 28 - at % 3 * 3, 25 - at % 2 * 4) for at in range(5)]
    return (
        _glow(120, 138, 112, 46)
        + _pots(pots)
        + _sticks(_lying(22, 218, 119, 130))
        + _smoke(68, 106)
        + _smoke(122, 98)
        + _smoke(178, 106)
        + _ground(cut)
        + _hatching(0, 20)
        + _hatching(220, WIDTH)
    )


def _kiln() -> str:
    wall = (
        "M70 128V78c0-28 20-44 43-47V20h14v11c23 3 43 19 43 47v50h-11V78c0-20-15-35-39-36-24 1-39 16-39 36v50z"
        "M81 100h78v5H81z"
    )
    pots = [(98, 100, 28, 25), (128, 100, 30, 27), (150, 100, 18, 20), (112, 75, 24, 20), (138, 74, 22, 21)]
    return (
        _glow(120, 84, 84, 66)
        + _pots(pots)
        + _sticks(_lying(84, 156, 112, 126))
        + element("path", class_="fire-wall", d=wall)
        + _smoke(120, 14)
        + _ground([(0, GROUND), (WIDTH, GROUND)])
        + _hatching(0, WIDTH)
    )


_DRAWINGS = {"ground": _on_ground, "pit": _pit, "trench": _trench, "kiln": _kiln}


def _glow(x: float, y: float, across: float, down: float) -> str:
    """Warm air around a fire: ellipses laid over one another, so that no gradient needs an id."""
    return "".join(
        element("ellipse", class_="fire-glow", cx=x, cy=y, rx=across * share, ry=down * share)
        for share in (1.0, 0.88, 0.76, 0.64, 0.52, 0.4)
    )


def _pots(places: Sequence[_Place]) -> str:
    """Pots standing mouth down, each by the middle of its rim, its widest and its height."""
    return element("path", class_="fire-pots", d="".join(_pot(*place) for place in places))


def _pot(x: float, y: float, width: float, height: float) -> str:
    """One pot mouth down: rim, neck, belly, round base."""
    half, rim, neck, shoulder = width / 2, width * 0.4, width * 0.31, 0.2 * width
    fall, top, low = 0.14 * height, y - height, y - 0.3 * height
    return (
        f"M{x - rim:.1f} {y:.1f}H{x + rim:.1f}L{x + neck:.1f} {y - fall:.1f}"
        f"C{x + half * 1.15:.1f} {low:.1f} {x + half:.1f} {top:.1f} {x + shoulder:.1f} {top:.1f}H{x - shoulder:.1f}"
        f"C{x - half:.1f} {top:.1f} {x - half * 1.15:.1f} {low:.1f} {x - neck:.1f} {y - fall:.1f}z"
    )


def _sticks(sticks: Sequence[_Stick]) -> str:
    return element("path", class_="fire-sticks", d="".join(path_data(stick) for stick in sticks))


def _lying(left: float, right: float, top: float, bottom: float) -> list[_Stick]:
    """Branches laid across, by a fixed rule that looks like none."""
    width, depth = right - left, bottom - top
    found = []
    for at in range(int(width / 7)):
        start = left + (at * 37 % 89) / 89 * width * 0.66
        length = width * (0.18 + (at * 23 % 31) / 31 * 0.16)
        row = top + (at * 29 % 53) / 53 * depth
        found.append(((start, row), (start + length, row + (at * 13 % 9 - 4) * 0.7)))
    return found


def _smoke(x: float, y: float) -> str:
    """A thread of smoke that starts at a place and rises."""
    return element("path", class_="fire-smoke", d=f"M{x:g} {y:g}c-9-12 8-17 2-30s7-16 5-26")


def _ground(points: Sequence[tuple[float, float]]) -> str:
    return element("path", class_="fire-ground", d=path_data(points))


def _hatching(left: float, right: float) -> str:
    """Short slanting strokes under the ground line, as a section shows earth."""
    strokes = [f"M{x:g} {GROUND + 1}l-5 {6 + x % 3:g}" for x in range(int(left) + 6, int(right), 6)]
    return element("path", class_="fire-earth", d="".join(strokes))
