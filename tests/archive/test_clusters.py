"""Design effects and the archive's correlation against published data and by hand."""

from __future__ import annotations

from collections.abc import Sequence

import pytest
from hypothesis import given
from hypothesis import strategies as st

from builder.archive.clusters import Correlation, correlation, design_effect, kish_effect, own_effect
from tests.archive.published import RATS_CONTROL, SEEDS

firings = st.lists(
    st.integers(1, 8).flatmap(lambda n: st.tuples(st.integers(0, n), st.just(n))), min_size=1, max_size=30
)


def anova_intraclass(counts: Sequence[tuple[int, int]]) -> float:
    """The intraclass correlation of the analysis of variance: (MSB − MSW) / (MSB + (n₀ − 1) MSW)."""
    k, total, hits = len(counts), sum(n for _, n in counts), sum(x for x, _ in counts)
    p = hits / total
    between = sum(n * (x / n - p) ** 2 for x, n in counts) / (k - 1)
    within = sum(x * (n - x) / n for x, n in counts) / (total - k)
    size = (total - sum(n * n for _, n in counts) / total) / (k - 1)
    return (between - within) / (between + (size - 1) * within)


def raw(*methods: Sequence[tuple[int, int]]) -> float:
    """r, before the start of 0.3 worth five firings is mixed in."""
    shared = correlation(methods)
    return (shared.rho * (shared.firings + 5) - 1.5) / shared.firings


@pytest.mark.parametrize(
    ("counts", "effect", "pieces"),
    [
        # check value clustered-001, -008, -010, -012: own code and R's aod::raoscott agree (Rao and Scott 1992).
        (RATS_CONTROL, 1.23249539, 128.19520522),
        (SEEDS["O75 bean"], 2.44139371, 111.41177244),
        (SEEDS["O75 cucumber"], 2.11576707, 139.42933698),
        (SEEDS["O73 bean"], 1.89444796, 64.92656583),
    ],
)
def test_the_own_design_effect_is_rao_and_scotts(
    counts: Sequence[tuple[int, int]], effect: float, pieces: float
) -> None:
    own = own_effect(counts)
    assert own == pytest.approx(effect, abs=1e-6)
    assert own is not None
    assert sum(n for _, n in counts) / own == pytest.approx(pieces, abs=1e-5)


def test_a_method_with_ten_firings_of_either_kind_is_trusted_alone() -> None:
    """The rats' control group: g = 10, so w = 1, and ρ does not matter."""
    for rho in (0.0, 0.3, 1.0):
        assert design_effect(RATS_CONTROL, rho) == pytest.approx(1.232495, abs=1e-6)


@pytest.mark.parametrize(
    ("sizes", "rho", "effect"),
    # check value clustered-020, -022, -023 (Kish 1965) and -024 (Donner, Birkett and Buck 1981).
    [([10, 10], 0.05, 1.45), ([8, 8], 0.3, 3.1), ([5], 0.0, 1.0), ([4, 8, 12, 20], 0.1, 2.3181818182)],
)
def test_kishs_design_effect_is_the_published_one(sizes: list[int], rho: float, effect: float) -> None:
    assert kish_effect(sizes, rho) == pytest.approx(effect, abs=1e-9)


@pytest.mark.parametrize(
    ("group", "published"),
    # check value clustered-007, -009, -011, -013: Crowder's seeds, own code and R's aod.
    [("O75 bean", 0.02711594), ("O75 cucumber", 0.01333885), ("O73 bean", 0.04146201), ("O73 cucumber", 0.02072931)],
)
def test_the_intraclass_correlation_that_ours_is_held_against_is_the_published_one(
    group: str, published: float
) -> None:
    assert anova_intraclass(SEEDS[group]) == pytest.approx(published, abs=1e-6)
    assert raw(SEEDS[group]) == pytest.approx(published, abs=0.03), "uneven sizes: near it, not equal"


@given(st.integers(2, 8), st.lists(st.integers(0, 8), min_size=2, max_size=20))
def test_with_firings_of_one_size_the_correlation_is_that_of_the_analysis_of_variance(
    size: int, hits: list[int]
) -> None:
    """Both are (MSB − MSW) / (MSB + (k − 1) MSW) when all firings hold k pieces; ours is then held within 0 and 1."""
    counts = [(min(hit, size), size) for hit in hits]
    total = sum(hit for hit, _ in counts)
    if not 0 < total < size * len(counts):
        assert correlation([counts]) == Correlation(0.3, 0)
        return
    assert raw(counts) == pytest.approx(min(1.0, max(0.0, anova_intraclass(counts))), abs=1e-9)


def test_the_correlation_of_two_methods_by_hand() -> None:
    """Worked by hand. First method 2/2, 0/2, 1/2: A 0.5; B (6−3)(3·3 − 1)/(36 − 12) = 1. Second 1/3, 3/3: A 2/3;
    B (6−2)(4·2 − 2)/(36 − 18) = 4/3. r = 1 − (7/6)/(7/3) = 0.5, J = 2 + 1, ρ = (1.5 + 1.5)/8."""
    shared = correlation([[(2, 2), (0, 2), (1, 2)], [(1, 3), (3, 3)]])
    assert shared.rho == pytest.approx(0.375)
    assert shared.firings == 3


@pytest.mark.parametrize(
    "methods",
    [[], [[(1, 2)]], [[(2, 2), (2, 2)]], [[(0, 2), (0, 3)]], [[(1, 1), (0, 1), (1, 1)]]],
    ids=["no method", "one firing", "all sound", "none sound", "single pieces"],
)
def test_an_archive_that_cannot_tell_starts_at_three_tenths(methods: list[list[tuple[int, int]]]) -> None:
    assert correlation(methods) == Correlation(0.3, 0)


def test_the_design_effect_mixes_its_own_with_the_archives() -> None:
    """Worked by hand: 2/2, 0/2, 1/2: own 1.5 · ⅙² ... = 3/2 · (1 + 1 + 0)/36 · 6/0.25 = 2; kish at ρ 0.3 = 1.3;
    firings with a success 2, with a failure 2, so w = 0.2 and 0.2 · 2 + 0.8 · 1.3 = 1.44."""
    assert design_effect([(2, 2), (0, 2), (1, 2)], 0.3) == pytest.approx(1.44)


@pytest.mark.parametrize(
    ("counts", "effect"),
    [
        ([(4, 4)], 1.9),
        ([(0, 4), (0, 4)], 1.9),
        ([(3, 4)], 1.9),
        ([(1, 1)], 1.0),
        ([(1, 1), (0, 1), (1, 1), (1, 1)], 1.0),
    ],
    ids=["all of one firing", "none of two", "one firing", "one piece", "firings of one piece"],
)
def test_where_a_method_cannot_tell_its_own_the_archives_correlation_stands_in(
    counts: list[tuple[int, int]], effect: float
) -> None:
    """Worked by hand: 1 + (4 − 1) · 0.3 = 1.9; exactly 1 where every firing holds one piece."""
    assert design_effect(counts, 0.3) == pytest.approx(effect)


@given(firings, st.floats(0.0, 1.0))
def test_a_design_effect_never_makes_more_of_the_pieces_than_they_are(
    counts: list[tuple[int, int]], rho: float
) -> None:
    assert design_effect(counts, rho) >= 1.0


@given(st.lists(firings, max_size=6))
def test_the_correlation_stays_between_nought_and_one(methods: list[list[tuple[int, int]]]) -> None:
    assert 0.0 <= correlation(methods).rho <= 1.0
