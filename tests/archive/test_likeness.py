"""Firings are alike by Gower's coefficient over what was recorded of both."""

from __future__ import annotations

import numpy as np
import pytest

from builder.archive import likeness
from builder.archive.likeness import LEAST_SHARED, Trait, most_alike


def test_the_coefficient_follows_gowers_definition() -> None:
    # Worked by hand: numbers 1 − |10−15|/20 = 0.75; words 1; words 0; sets 1 shared of 3 = 1/3; mean 0.520833.
    first: dict[str, Trait] = {"peak": 10.0, "method": "pit", "slip": "white", "wood": frozenset({"hazel", "birch"})}
    second: dict[str, Trait] = {"peak": 15.0, "method": "pit", "slip": "red", "wood": frozenset({"hazel", "ash"})}
    third: dict[str, Trait] = {"peak": 30.0, "method": "trench", "slip": "red", "wood": frozenset({"oak"})}
    alike = most_alike([first, second, third])
    assert alike[0][0].place == 1
    assert alike[0][0].likeness == pytest.approx(0.520833, abs=1e-6)
    assert alike[0][0].shared == ("method",)


def test_firings_that_share_too_little_are_not_called_alike() -> None:
    few: dict[str, Trait] = {str(number): "same" for number in range(LEAST_SHARED - 1)}
    assert most_alike([few, few]) == ((), ())


def test_what_was_not_recorded_of_both_counts_neither_way() -> None:
    base: dict[str, Trait] = {str(number): "same" for number in range(LEAST_SHARED)}
    more: dict[str, Trait] = {**base, "only here": "x"}
    assert most_alike([base, more])[0][0].likeness == 1.0


def test_a_number_that_is_the_same_everywhere_is_alike() -> None:
    base: dict[str, Trait] = {str(number): 5.0 for number in range(LEAST_SHARED)}
    assert most_alike([base, base])[0][0].likeness == 1.0


def test_an_archive_of_one_has_nothing_to_compare() -> None:
    assert most_alike([{"a": 1.0}]) == ((),)
    assert most_alike([]) == ()


def test_the_answer_does_not_depend_on_how_many_are_compared_at_a_time(monkeypatch: pytest.MonkeyPatch) -> None:
    chance = np.random.default_rng(3)
    woods = ("hazel", "birch", "oak")
    traits: list[dict[str, Trait]] = [
        {
            **{f"number {n}": float(chance.normal()) for n in range(4) if chance.random() < 0.8},
            "wood": frozenset(chance.choice(woods, 2).tolist()),
            "slip": str(chance.choice(["white", "red"])),
        }
        for _ in range(40)
    ]
    whole = most_alike(traits)
    monkeypatch.setattr(likeness, "BLOCK_CELLS", 7 * 40)
    assert most_alike(traits) == whole


def test_it_says_how_many_traits_it_compared() -> None:
    base: dict[str, Trait] = {str(number): "same" for number in range(6)}
    assert most_alike([base, {**base, "only here": 1.0}])[0][0].compared == 6
