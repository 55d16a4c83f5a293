"""Differences of two rates meet the published table, and are told apart only where zero is left out."""

from __future__ import annotations

import pytest
from statsmodels.stats.proportion import proportion_confint

from builder.archive.archive import Rate
from builder.archive.differences import differences, hybrid_interval

# Newcombe 1998, Statistics in Medicine 17:873, Table II, method 10 (published to four decimals).
TABLE_II = [
    ((56, 70), (48, 80), (0.0524, 0.3339)),
    ((9, 10), (3, 10), (0.1705, 0.8090)),
    ((6, 7), (2, 7), (0.0582, 0.8062)),
    ((0, 10), (0, 10), (-0.2775, 0.2775)),
    ((10, 10), (0, 20), (0.6791, 1.0)),
    ((10, 10), (0, 10), (0.6075, 1.0)),
]


@pytest.mark.parametrize(("first", "second", "published"), TABLE_II)
def test_the_hybrid_interval_on_wilson_limits_meets_the_published_table(
    first: tuple[int, int], second: tuple[int, int], published: tuple[float, float]
) -> None:
    limits = [(x / n, *proportion_confint(x, n, method="wilson")) for x, n in (first, second)]
    _, low, high = hybrid_interval(limits[0], limits[1])
    assert (low, high) == pytest.approx(published, abs=6e-5)


def _rate(method: str, rate: float | None, low: float, high: float, outcome: str = "success") -> Rate:
    return Rate(method, outcome, 5, 10, 5, 0, rate, low, high, 1.0, 10.0, "x")


def test_each_pair_of_the_same_outcome_is_compared_once() -> None:
    rates = [
        _rate("a", 0.9, 0.8, 0.95),
        _rate("b", 0.4, 0.3, 0.5),
        _rate("c", None, 0, 1),
        _rate("a", 0.9, 0.8, 1, "paint"),
    ]
    found = differences(rates)
    assert [(one.first.method, one.second.method) for one in found] == [("a", "b")]
    assert found[0].told_apart
    assert not differences([_rate("a", 0.6, 0.4, 0.8), _rate("b", 0.5, 0.3, 0.7)])[0].told_apart
