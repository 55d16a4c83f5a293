"""The chart of a window: sound, the same at every width, and never surer than what was found."""

from __future__ import annotations

import re
import xml.etree.ElementTree as ElementTree
from dataclasses import replace

import pytest

from builder.archive.window import Finding, Window, working_window
from builder.charts.piles import levels, runs, tick_step
from builder.charts.window_chart import window_chart
from builder.charts.window_marks import FiringPots
from tests.archive.window_check import fixed_check

FOUND = working_window(fixed_check())
FEW = working_window(fixed_check()[:4])
UNSURE = replace(FOUND, finding=Finding.TOO_FEW, low=None, high=None, best_c=None, best_chance=None)
OPEN = working_window([replace(one, destroyed=(9, 9)) for one in fixed_check()])
POTS = [
    FiringPots(one.peak_c, one.peak_c - 20, one.peak_c + 20, 2, {"carbon stayed in": 1, "paint did not hold": 0})
    for one in fixed_check()
]


def drawn(window: Window, pots: list[FiringPots] = POTS) -> ElementTree.Element:
    return ElementTree.fromstring(window_chart(window, pots, "window-x", "Words & <more>."))


def classes(chart: ElementTree.Element) -> set[str]:
    return {name for part in chart.iter() for name in (part.get("class") or "").split()}


@pytest.mark.parametrize("window", [FOUND, FEW, UNSURE, OPEN], ids=["found", "few", "unsure", "open"])
def test_there_are_three_drawings_with_words_and_no_style_of_their_own(window: Window) -> None:
    chart = drawn(window)
    drawings = [part for part in chart if part.tag.endswith("svg")]
    assert [part.get("class") for part in drawings] == [
        f"chart-drawing chart-{width}" for width in ("wide", "middling", "phone")
    ]
    assert all("Words & <more>." in [inner.text for inner in part] for part in drawings)
    assert not [part for part in chart.iter() if part.get("style")]
    ids = [part.get("id") for part in chart.iter() if part.get("id")]
    assert len(ids) == len(set(ids))


def test_every_pot_is_a_stroke() -> None:
    """Worked by hand: fourteen firings with two pots that came out well and one lost: 28 and 14 strokes a drawing."""
    for part in drawn(FOUND):
        strokes = {inner.get("class"): inner.get("d", "").count("M") for inner in part.iter()}
        assert (strokes["chart-pot"], strokes["chart-pot-lost"]) == (28, 14)


def test_a_way_of_failing_that_never_came_has_no_row() -> None:
    words = [inner.text for inner in drawn(FOUND).iter() if inner.text]
    assert "14 carbon stayed in" in words
    assert not [one for one in words if "paint did not hold" in one]


def test_a_window_has_a_solid_bar_with_hatched_ends_and_the_ends_in_numbers() -> None:
    chart = drawn(FOUND)
    assert {"chart-works", "chart-may"} <= classes(chart)
    assert "chart-arrow" not in classes(chart)
    words = ["".join(inner.itertext()) for inner in chart.iter()]
    assert FOUND.low is not None
    assert f"{FOUND.low.low_c:.0f} to {FOUND.low.high_c:.0f}" in words


def test_the_clay_band_and_the_ember_line_stand_where_it_works_and_nowhere_else() -> None:
    """As wide as the solid bar below the curves; neither is drawn where no window is told."""
    for part in drawn(FOUND):
        shown = {inner.get("class"): inner for inner in part.iter()}
        band, bar = shown["chart-band"], shown["chart-works"]
        assert (band.get("x"), band.get("width")) == (bar.get("x"), bar.get("width"))
        steps = re.findall(r"-?[\d.]+", shown["chart-product chart-in"].get("d", ""))[::2]
        right = float(bar.get("x", "")) + float(bar.get("width", ""))
        assert sum(map(float, steps)) == pytest.approx(right, abs=0.5), "each point is written as a step from the last"
    assert not classes(drawn(UNSURE)) & {"chart-band", "chart-in"}


def test_an_open_end_has_an_arrow() -> None:
    assert "chart-arrow" in classes(drawn(OPEN))


def test_too_few_firings_have_their_band_but_no_bar_and_no_numbers_for_ends() -> None:
    found = classes(drawn(UNSURE))
    assert "chart-ribbon" in found
    assert not found & {"chart-works", "chart-may", "chart-arrow"}
    assert "chart-ribbon" not in classes(drawn(FEW)), "under five firings nothing is fitted"


def test_the_product_is_dashed_where_no_firing_was() -> None:
    assert "chart-beyond" in classes(drawn(FOUND))


def test_without_any_firing_there_is_no_chart() -> None:
    assert window_chart(working_window([]), [], "x", "") == ""


def test_the_same_window_is_drawn_the_same() -> None:
    assert window_chart(FOUND, POTS, "x", "") == window_chart(working_window(fixed_check()), POTS, "x", "")


def test_forty_pots_of_one_fire_stay_inside_the_drawing() -> None:
    chart = drawn(FOUND, [FiringPots(740.0, None, None, 40, {"carbon stayed in": 40})])
    for part in chart:
        assert float(part.get("height", 0)) < 700


def test_marks_are_kept_apart_until_the_levels_are_full() -> None:
    assert levels([(0, 0), (1, 1), (2, 2), (10, 10)], 4, 2) == (0, 1, 0, 0)
    assert list(runs([])) == []
    assert tick_step(7, 6) == 2
