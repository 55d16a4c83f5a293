"""What the gaps between readings may hide, on curves worked by hand."""

from __future__ import annotations

import pytest

from builder.heat.gaps import gap_at_fastest_min, gaps_at_crossings_min, unseen_peak_c
from tests.heat.curves import floats


def test_the_unseen_peak_lies_where_the_neighbouring_chords_meet() -> None:
    """Worked by hand: up 100 a minute to 500 at minute 2, down 50 a minute from 500 at minute 4: they meet at
    minute 2 + 2/3, 500 + 200/3."""
    reached = unseen_peak_c(floats([1, 2, 4, 5]), floats([400, 500, 500, 450]))
    assert reached == pytest.approx(500 + 200 / 3)


def test_the_peak_of_a_parabola_lies_below_the_unseen_peak() -> None:
    """A parabola turns over evenly: its true top, 800 at minute 5.5, must lie between the reading and the bound."""
    minutes = floats([0, 1, 2, 3, 4, 5, 6, 7, 8, 9])
    celsius = 800 - 20 * (minutes - 5.5) ** 2
    reached = unseen_peak_c(minutes, celsius)
    assert reached is not None
    assert celsius.max() < 800 <= reached


@pytest.mark.parametrize("celsius", [[20.0, 700.0], [20.0, 700.0, 400.0], [20.0, 300.0, 700.0]])
def test_too_few_readings_beside_the_peak_bound_nothing(celsius: list[float]) -> None:
    assert unseen_peak_c(floats(list(range(len(celsius)))), floats(celsius)) is None


def test_the_gap_at_the_fastest_rise_is_that_of_its_stretch() -> None:
    assert gap_at_fastest_min(floats([0, 10, 12]), floats([0, 100, 300])) == 2.0


def test_a_level_that_is_never_crossed_has_no_gap() -> None:
    minutes, celsius = floats([0, 1, 9]), floats([20, 700, 300])
    assert gaps_at_crossings_min(minutes, celsius, (600.0, 900.0)) == [8.0, 0.0]
