"""The working window is found where there is one, and not claimed where the firings cannot tell.

The fixed check (14 firings) and its values were computed with a second program of the same procedure, written apart
from this one; the case of perfect separation likewise. No printed example of this procedure exists.
"""

from __future__ import annotations

import numpy as np
import pytest

from builder.archive.window import Finding, working_window
from builder.archive.window_curves import WindowFiring

PEAKS = (612, 655, 668, 690, 705, 722, 741, 760, 778, 795, 812, 838, 861, 902)
SDS = (10, 20, 8, 15, 25, 10, 30, 12, 18, 10, 22, 9, 15, 28)
NEEDS = "0/3 1/4 1/2 3/5 1/1 2/3 6/6 2/2 4/4 2/3 5/5 2/2 4/4 3/3"
DESTROYED = "3/3 3/3 2/2 4/4 1/1 2/3 5/5 2/2 4/4 3/3 4/5 1/3 2/4 0/3"


def counts(text: str) -> list[tuple[int, int]]:
    return [(int(good), int(recorded)) for good, recorded in (pair.split("/") for pair in text.split())]


def _fixed() -> list[WindowFiring]:
    rows = zip(PEAKS, SDS, counts(NEEDS), counts(DESTROYED), strict=True)
    return [WindowFiring(*row) for row in rows]


def test_the_fixed_check_gives_its_ends_its_best_peak_and_its_chance() -> None:
    window = working_window(_fixed())
    assert window.finding is Finding.WINDOW
    assert window.low is not None
    assert window.high is not None
    assert (window.low.low_c, window.low.value_c, window.low.high_c) == pytest.approx((626, 684, 720), abs=4)
    assert (window.high.low_c, window.high.value_c, window.high.high_c) == pytest.approx((802, 842, 922), abs=4)
    assert window.best_c == pytest.approx((763, 735, 791), abs=0.5)
    assert window.best_chance == pytest.approx((0.817, 0.634, 0.941), abs=1e-3)
    at_700 = int(np.argmin(np.abs(window.grid_c - 700)))
    assert window.works[at_700] == pytest.approx(0.8085, abs=1e-3)


def test_perfect_separation_in_six_firings_is_too_few_to_tell() -> None:
    needs = (0, 0, 0, 1, 1, 1)
    destroyed = (1, 1, 1, 1, 1, 0)
    firings = [WindowFiring(620 + 40 * i, 15, (needs[i], 1), (destroyed[i], 1)) for i in range(6)]
    window = working_window(firings)
    assert window.finding is Finding.TOO_FEW
    assert (window.low, window.high, window.best_c) == (None, None, None)
    assert window.chance.shape == (3, len(window.grid_c))


@pytest.mark.parametrize("firings", [[], _fixed()[:4]])
def test_under_five_firings_nothing_is_fitted(firings: list[WindowFiring]) -> None:
    window = working_window(firings)
    assert window.finding is Finding.TOO_FEW
    assert window.grid_c.size == 0


def test_five_firings_with_one_kind_of_outcome_only_are_too_few() -> None:
    firings = [WindowFiring(700 + 10 * i, 15, (1, 2), None) for i in range(9)]
    assert working_window(firings).finding is Finding.TOO_FEW


def test_where_everything_fails_there_is_no_window() -> None:
    firings = [WindowFiring(620 + 20 * i, 10, (0, 5), (0, 5)) for i in range(14)]
    assert working_window(firings).finding is Finding.NONE


def test_an_end_beyond_the_temperatures_looked_at_stays_open() -> None:
    firings = [WindowFiring(620 + 20 * i, 10, (5, 5), (5, 5)) for i in range(14)]
    window = working_window(firings)
    assert window.finding is Finding.WINDOW
    assert window.low is not None
    assert window.high is not None
    assert window.low.value_c is None
    assert window.high.value_c is None
    assert window.best_c is None


def test_firings_without_either_outcome_change_nothing() -> None:
    bare = working_window([*_fixed(), WindowFiring(1000, 15, None, None)])
    assert bare.low == working_window(_fixed()).low
    assert bare.firings == 14


def test_a_less_certain_peak_makes_a_less_certain_window() -> None:
    vague = [WindowFiring(f.peak_c, 60, f.needs_heat, f.destroyed) for f in _fixed()]
    sharp = [WindowFiring(f.peak_c, 1, f.needs_heat, f.destroyed) for f in _fixed()]
    assert working_window(vague).works.max() <= working_window(sharp).works.max()
