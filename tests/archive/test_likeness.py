"""Firings are alike by Gower's coefficient over what was recorded of both."""

from __future__ import annotations

import numpy as np
import pytest

from builder.archive import likeness as likeness_module
from builder.archive.likeness import LEAST_SHARED, Alike, Trait, likeness


def test_the_coefficient_follows_gowers_definition() -> None:
    # Worked by hand: numbers 1 − |10−15|/20 = 0.75; words 1; words 0; sets 1 shared of 3 = 1/3; mean 0.520833.
    first: dict[str, Trait] = {"peak": 10.0, "method": "pit", "slip": "white", "wood": frozenset({"hazel", "birch"})}
    second: dict[str, Trait] = {"peak": 15.0, "method": "pit", "slip": "red", "wood": frozenset({"hazel", "ash"})}
    third: dict[str, Trait] = {"peak": 30.0, "method": "trench", "slip": "red", "wood": frozenset({"oak"})}
    alike = likeness([first, second, third]).best
    assert alike[0][0].place == 1
    assert alike[0][0].likeness == pytest.approx(0.520833, abs=1e-6)
    assert alike[0][0].shared == ("method",)


def test_firings_that_share_too_little_are_not_called_alike() -> None:
    few: dict[str, Trait] = {str(number): "same" for number in range(LEAST_SHARED - 1)}
    assert likeness([few, few]).best == ((), ())


def test_what_was_not_recorded_of_both_counts_neither_way() -> None:
    base: dict[str, Trait] = {str(number): "same" for number in range(LEAST_SHARED)}
    more: dict[str, Trait] = {**base, "only here": "x"}
    assert likeness([base, more]).best[0][0].likeness == 1.0


def test_a_number_that_is_the_same_everywhere_is_alike() -> None:
    base: dict[str, Trait] = {str(number): 5.0 for number in range(LEAST_SHARED)}
    assert likeness([base, base]).best[0][0].likeness == 1.0


def test_an_archive_of_one_has_nothing_to_compare() -> None:
    assert likeness([{"a": 1.0}]).best == ((),)
    assert likeness([]).best == ()


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
    whole = likeness(traits).best
    monkeypatch.setattr(likeness_module, "BLOCK_CELLS", 7 * 40)
    assert likeness(traits).best == whole


def test_it_says_how_many_traits_it_compared() -> None:
    base: dict[str, Trait] = {str(number): "same" for number in range(6)}
    assert likeness([base, {**base, "only here": 1.0}]).best[0][0].compared == 6


def _drawn(chance: np.random.Generator) -> dict[str, Trait]:
    """Traits of few values, so that many firings are equally like one another."""
    found: dict[str, Trait] = {f"number {n}": float(chance.integers(3)) for n in range(3) if chance.random() < 0.8}
    found |= {f"word {n}": str(chance.choice(["white", "red"])) for n in range(3) if chance.random() < 0.8}
    return {**found, "wood": frozenset(chance.choice(["hazel", "birch", "oak"], 2).tolist())}


@pytest.mark.parametrize("seed", range(6))
def test_what_was_found_before_changes_nothing_but_the_time(seed: int, monkeypatch: pytest.MonkeyPatch) -> None:
    """Firings come, go, change places and traits; now and then one is hotter or cooler than all others."""
    chance = np.random.default_rng(seed)
    monkeypatch.setattr(likeness_module, "BLOCK_CELLS", 200)
    drawn = {f"firing {number}": _drawn(chance) for number in range(30)}
    order, before = list(drawn), None
    looked = _counting(monkeypatch)
    for number in range(30, 60):
        for _ in range(chance.integers(1, 4)):
            one = order[chance.integers(len(order))]
            place, what = int(chance.integers(len(order))), chance.random()
            if what < 0.3:
                order.remove(one)
            if what > 0.9:
                order.remove(one)
                order.insert(place, one)
            elif what > 0.3:
                drawn[f"firing {number}"] = _drawn(chance) | ({"number 0": 9.0} if what > 0.8 else {})
                order.insert(place, f"firing {number}")
        traits = [drawn[name] for name in order]
        looked.clear()
        found = likeness(traits, tuple(order), before)
        few = len(looked)
        assert found.best == likeness(traits).best
        before = found
    assert few


def test_of_firings_that_stood_only_those_are_looked_at_whose_likes_are_gone(monkeypatch: pytest.MonkeyPatch) -> None:
    chance = np.random.default_rng(1)
    traits = [_drawn(chance) for _ in range(60)]
    names = tuple(str(place) for place in range(60))
    before = likeness(traits, names, None)
    changed = before.best[0][0].place
    others = [place for place, best in enumerate(before.best) if changed in {one.place for one in best}]
    traits[changed] = _drawn(chance)
    looked = _counting(monkeypatch)
    found = likeness(traits, (*names[:changed], "changed", *names[changed + 1 :]), before)
    assert looked == sorted({*others, changed})
    assert found.best == likeness(traits).best
    assert len(others) < 10


def _counting(monkeypatch: pytest.MonkeyPatch) -> list[int]:
    """Collect the places that are looked at among all."""
    looked: list[int] = []
    real = likeness_module._block

    def block(rows: list[int]) -> list[tuple[Alike, ...]]:
        looked.extend(rows)
        return real(rows)

    monkeypatch.setattr(likeness_module, "_block", block)
    return looked
