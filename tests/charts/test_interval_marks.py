"""Marks of a rate and of a difference: they stand where the numbers say, on a scale that is never cut."""

from __future__ import annotations

import xml.etree.ElementTree as ElementTree

import pytest

from builder.charts.interval_marks import difference_mark, rate_mark


def drawn(svg: str) -> tuple[float, float, float]:
    """Columns of the stroke and of the bar's two ends."""
    mark = ElementTree.fromstring(svg)
    stroke = next(part for part in mark if part.get("class") == "chart-stroke")
    bar = next(part for part in mark if part.get("class") == "chart-interval")
    left = float(bar.get("x", ""))
    column = stroke.get("d", "").partition(" ")[0].removeprefix("M")
    return float(column), left, left + float(bar.get("width", ""))


@pytest.mark.parametrize(
    ("given", "columns"),
    [
        ((0.0, -0.5, 0.5), (100, 50, 150)),
        ((-0.32, -0.55, -0.08), (68, 45, 92)),
        ((0.47, 0.12, 0.67), (147, 112, 167)),
        ((1.0, -1.0, 1.0), (200, 0, 200)),
    ],
)
def test_no_difference_is_the_middle_and_a_hundred_either_way_the_ends(
    given: tuple[float, float, float], columns: tuple[float, float, float]
) -> None:
    """Worked by hand: 100 + 100 times the difference."""
    assert drawn(difference_mark(*given)) == pytest.approx(columns)


def test_limits_beyond_the_scale_are_held_inside_it() -> None:
    """Newcombe's hybrid interval can reach past a whole."""
    assert drawn(difference_mark(0.9, 0.2, 1.04)) == pytest.approx((190, 120, 200))


@pytest.mark.parametrize(
    ("given", "columns"),
    [((0.5, 0.2, 0.7), (65, 26, 91)), ((0.0, 0.0, 0.3), (0, 0, 39)), ((1.0, 0.4, 1.0), (130, 52, 130))],
)
def test_a_rate_stands_between_nothing_and_a_hundred(
    given: tuple[float, float, float], columns: tuple[float, float, float]
) -> None:
    """Worked by hand: 130 times the rate."""
    assert drawn(rate_mark(*given)) == pytest.approx(columns)


def test_who_listens_hears_the_words_beside_it_instead() -> None:
    assert all('aria-hidden="true"' in svg for svg in (difference_mark(0.1, 0.0, 0.2), rate_mark(0.1, 0.0, 0.2)))
