"""The table of figures: grouped by what a reader asks, nothing left out, noughts to pass over."""

from __future__ import annotations

import re

from builder.heat.figures import FIGURE_KINDS, Figure
from builder.pages.figure_rows import GROUPS, figure_rows, rows_html


def test_every_figure_is_in_one_group() -> None:
    grouped = [kind for _, kinds in GROUPS for kind in kinds]
    assert sorted(grouped) == sorted(kind.name for kind in FIGURE_KINDS)


def test_figures_stand_under_the_question_that_they_answer() -> None:
    figures = {"n_readings": Figure(13.0, None, None), "peak_c": Figure(735.0, 706.0, 764.0), "start_c": Figure(14.0)}
    html = str(rows_html(figure_rows(figures), "firings/one"))
    words = re.findall(r'scope="rowgroup"[^>]*>([^<]*)|figures\.html#(\w+)', html)
    assert [one or other for one, other in words] == [
        "How hot", "start_c", "peak_c", "How well it was seen", "n_readings"
    ]  # fmt: skip


def test_a_sure_nought_is_marked_and_an_unsure_one_is_not() -> None:
    figures = {"over_min": Figure(0.0), "window_min": Figure(0.0, 0.0, 0.6)}
    html = str(rows_html(figure_rows(figures), "firings/one"))
    assert re.findall(r'<tr class="(\w+)"><th scope="row"><a href="[^#]*#(\w+)"', html) == [
        ("figure", "window_min"),
        ("nought", "over_min"),
    ]
