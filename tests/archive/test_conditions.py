"""What goes with success is found where it does, and seldom where nothing does."""

from __future__ import annotations

import numpy as np
import pytest
from statsmodels.stats.multitest import multipletests

from builder.archive.conditions import false_discovery, try_conditions
from builder.archive.tallies import Tally
from tests.archive.tried import Trial, chance_of, trials_of

# Benjamini and Hochberg 1995, section 4: p values of fifteen hypotheses of a trial; four stand at 5 %.
PUBLISHED = [
    0.0001, 0.0004, 0.0019, 0.0095, 0.0201, 0.0278, 0.0298, 0.0344,
    0.0459, 0.3240, 0.4262, 0.5719, 0.6528, 0.7590, 1.0,
]  # fmt: skip


def test_four_of_the_fifteen_published_hypotheses_stand() -> None:
    assert false_discovery(PUBLISHED) == (True,) * 4 + (False,) * 11


def test_false_discovery_agrees_with_an_outside_library() -> None:
    chance = np.random.default_rng(1)
    for _ in range(50):
        p = list(chance.uniform(size=12) ** 3)
        assert list(false_discovery(p)) == list(multipletests(p, 0.05, method="fdr_bh")[0])


def _trial(method: str, successes: int, judged: int, value: float | None) -> Trial:
    return Trial(method, Tally(successes, judged, 0), value)


def _trials(effect: float, seed: int, firings: int = 24) -> list[Trial]:
    chance = np.random.default_rng(seed)
    trials = []
    for number in range(firings):
        value = float(chance.normal())
        luck = chance.normal(0, 0.8)
        rate = 1 / (1 + np.exp(-(effect * value + luck)))
        trials.append(_trial("ab"[number % 2], int(chance.binomial(4, rate)), 4, value))
    return trials


def test_a_strong_condition_is_found_with_its_direction() -> None:
    """Walls do good and slips as much harm; the wind does nothing."""
    chance = np.random.default_rng(1)
    by_condition: dict[str, list[Trial]] = {"wall": [], "wind": [], "slip": []}
    for number in range(24):
        wall, wind, slip = (float(chance.normal()) for _ in range(3))
        rate = 1 / (1 + np.exp(-(3.0 * wall - 3.0 * slip + chance.normal(0, 0.8))))
        good = int(chance.binomial(4, rate))
        for name, value in (("wall", wall), ("wind", wind), ("slip", slip)):
            by_condition[name].append(_trial("ab"[number % 2], good, 4, value))
    tried = try_conditions(trials_of(by_condition))
    assert {one.condition: one.direction for one in tried if one.found} == {"wall": 1, "slip": -1}


def test_what_has_nothing_to_do_with_success_is_found_no_more_often_than_promised() -> None:
    # 200 archives without any effect: about 10 are expected under 0.05; more than 22 has a chance below 0.0005.
    hits = sum(chance_of(_trials(0.0, seed), "x", 199)[0] <= 0.05 for seed in range(200))
    assert hits <= 22


def test_a_difference_between_methods_alone_is_no_effect_of_a_condition() -> None:
    trials = [_trial("a", 4, 4, 1.0)] * 6 + [_trial("b", 0, 4, 0.0)] * 6
    assert chance_of(trials, "x") == (1.0, 0)


def test_missing_values_are_counted_and_never_filled_in() -> None:
    trials = [*_trials(0.0, 1, 6), _trial("a", 2, 4, None), _trial("a", 0, 0, 1.0)]
    tried = try_conditions(trials_of({"wall": trials}))[0]
    assert (tried.firings, tried.missing) == (6, 1)


@pytest.mark.parametrize("trials", [[], [_trial("a", 1, 2, 1.0)], [_trial("a", 1, 2, None)] * 5])
def test_a_condition_that_cannot_be_tried_has_a_chance_of_one(trials: list[Trial]) -> None:
    assert chance_of(trials, "x") == (1.0, 0)


def test_the_same_archive_gives_the_same_answer() -> None:
    assert chance_of(_trials(1.0, 5), "wall") == chance_of(_trials(1.0, 5), "wall")


def test_who_forgets_to_write_down_paint_does_not_seem_to_fail_for_it() -> None:
    """Worked by hand: of four pots one is lost; where it alone can be judged, each of the others counts for one."""
    told, forgetful = Tally(3, 4, 0), Tally(0, 1, 3, expected=3.0, stood_for=3)
    trials = [Trial("a", told, 0.0)] * 6 + [Trial("a", forgetful, 1.0)] * 6
    assert chance_of(trials, "x") == (1.0, 0)
    assert chance_of([Trial("a", Tally(*one.tally.count, 0), one.value) for one in trials], "x")[0] < 0.01
