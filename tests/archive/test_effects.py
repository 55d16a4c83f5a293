"""How large an effect may be, within methods and on firings, not on pieces."""

from __future__ import annotations

import pytest

from builder.archive.clusters import design_effect
from builder.archive.differences import hybrid_interval
from builder.archive.effects import effect
from builder.archive.proportions import agresti_coull
from builder.archive.tallies import Tally

WITH = [(3, 4), (4, 4), (2, 3)]
WITHOUT = [(1, 4), (0, 2), (2, 4), (1, 1)]


Told = tuple[str, Tally, float]


def _firing(method: str, successes: int, judged: int, value: float) -> Told:
    return method, Tally(successes, judged, 0), value


def _told(method: str = "a") -> list[Told]:
    return [_firing(method, *count, 1.0) for count in WITH] + [_firing(method, *count, 0.0) for count in WITHOUT]


def test_of_one_method_it_is_the_plain_difference_on_clustered_limits() -> None:
    """Worked by hand: 9 of 11 less 4 of 11, each with Agresti and Coull's limits on its own effective number."""
    found = effect(_told(), number=False, correlation=0.2)
    assert found is not None
    limits = [
        (x / 11, *agresti_coull(x / 11, 11 / design_effect(counts, 0.2))) for x, counts in ((9, WITH), (4, WITHOUT))
    ]
    assert (found.difference, found.low, found.high) == pytest.approx(hybrid_interval(limits[0], limits[1]))
    assert (found.having.firings, found.having.pieces, found.having.successes) == (3, 11, 9)
    assert (found.lacking.firings, found.lacking.pieces, found.lacking.successes) == (4, 11, 4)


def test_a_method_that_knows_one_side_only_counts_for_nothing() -> None:
    alone = [*_told(), *[_firing("b", 5, 5, 1.0)] * 9]
    assert effect(alone, number=False, correlation=0.2) == effect(_told(), number=False, correlation=0.2)
    assert effect([_firing("b", 5, 5, 1.0), _firing("a", 0, 5, 0.0)], number=False, correlation=0.2) is None


def test_methods_are_put_together_by_what_differs_inside_them() -> None:
    """Worked by hand: in either method 10 of 100 better with it, though most of it was used where success is rare."""
    told = [_firing("a", 20, 100, 1.0), _firing("a", 1, 10, 0.0), _firing("b", 9, 10, 1.0), _firing("b", 80, 100, 0.0)]
    found = effect(told, number=False, correlation=0.0)
    assert found is not None
    assert found.difference == pytest.approx(0.1)


def test_a_number_is_parted_at_its_middle_value() -> None:
    told = [_firing("a", 1, 2, float(value)) for value in (4, 5, 5, 6, 7, 8)]
    found = effect(told, number=True, correlation=0.2)
    assert found is not None
    assert found.split == 6
    assert (found.lacking.firings, found.having.firings) == (3, 3)


def test_a_number_that_never_changed_has_no_effect() -> None:
    assert effect([_firing("a", 1, 2, 5.0)] * 4, number=True, correlation=0.2) is None


def test_pieces_that_could_not_be_judged_count_in_part_and_make_no_interval_narrower() -> None:
    """Worked by hand: with it 2 of 4 judged and two more that count 3/4 each, 3.5 of 6; the limits stand on four."""
    told = [("a", Tally(2, 4, 2, 1.5, 2), 1.0), _firing("a", 1, 4, 0.0)]
    found = effect(told, number=False, correlation=0.0)
    assert found is not None
    assert (found.having.successes, found.having.pieces) == (2, 4)
    assert (found.having.rate, found.having.low, found.having.high) == (3.5 / 6, *agresti_coull(3.5 / 6, 4))
