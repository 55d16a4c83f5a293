"""Pieces from one fire share its luck: how strongly, and how many pieces a method's pieces are worth.

A firing counts as (successes, judged pieces), a method as its firings, those with at least one judged piece. The
constants were chosen by simulation of 2,064 situations: 2 to 60 firings a method, 1 to 8 pieces a firing.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import TypeAlias

FiringCount: TypeAlias = tuple[int, int]
"""Successes and judged pieces of one firing."""

START_CORRELATION = 0.3
"""What ρ is taken for before the archive has anything to say; chosen by the simulation."""
START_FIRINGS = 5
"""How many firings that start is worth; chosen by the simulation."""
TRUSTED_FIRINGS = 10
"""From so many firings with a success and so many with a failure a method's own spread is trusted alone; likewise."""


@dataclass(frozen=True, slots=True)
class Correlation:
    """How far pieces of one fire share its luck, over the whole archive."""

    rho: float
    """From 0 (each piece on its own) to 1 (a fire spares all or none), the start mixed in."""
    firings: int
    """Firings it was estimated from, beyond one a method: J."""


def correlation(methods: Iterable[Sequence[FiringCount]]) -> Correlation:
    """Return ρ: how much rarer disagreement is inside a firing than between firings of one method.

    r = 1 − A/B held within 0 and 1, A = Σ Σ x(n−x)/n over firings, B = Σ (N−m)[X(N−X) − Σ x(n−x)]/(N² − Σ n²) over the
    methods with two firings or more, a firing of two pieces or more, and neither all nor no successes; J the sum of
    their m − 1; ρ = (J r + 5 · 0.3)/(J + 5). With firings of one size, r of a single method is the intraclass
    correlation of the analysis of variance (Ridout, Demétrio and Firth 1999, Biometrics 55:137).

    >>> correlation([[(2, 2), (0, 2)]] * 6).rho > 0.6
    True
    """
    within = between = 0.0
    spare = 0
    for firings in methods:
        m, x, n = len(firings), sum(x for x, _ in firings), sum(n for _, n in firings)
        if m < 2 or not 0 < x < n or max(size for _, size in firings) < 2:
            continue
        inside = sum(hit * (size - hit) for hit, size in firings)
        within += sum(hit * (size - hit) / size for hit, size in firings)
        between += (n - m) * (x * (n - x) - inside) / (n * n - sum(size * size for _, size in firings))
        spare += m - 1
    if between == 0.0:
        return Correlation(START_CORRELATION, 0)
    r = min(1.0, max(0.0, 1.0 - within / between))
    return Correlation((spare * r + START_FIRINGS * START_CORRELATION) / (spare + START_FIRINGS), spare)


def kish_effect(sizes: Sequence[int], rho: float) -> float:
    """Return the design effect of firings of these sizes at correlation `rho`: 1 + (Σn²/Σn − 1)ρ.

    Source: Kish 1965, Survey Sampling; for uneven sizes Donner, Birkett and Buck 1981, American Journal of
    Epidemiology 114:906.

    >>> round(kish_effect([4, 8, 12, 20], 0.1), 4)
    2.3182
    """
    return 1.0 + (sum(size * size for size in sizes) / sum(sizes) - 1.0) * rho


def own_effect(firings: Sequence[FiringCount]) -> float | None:
    """Return the design effect that a method's own firings show; None where all or none of its pieces succeeded.

    v n / p(1−p), v = m/(m−1) n⁻² Σ (x_j − n_j p)². None for a single firing too. Source: Rao and Scott 1992,
    Biometrics 48:577.

    >>> own_effect([(3, 3), (0, 3)])
    6.0
    """
    m, x, n = len(firings), sum(x for x, _ in firings), sum(n for _, n in firings)
    if m < 2 or not 0 < x < n:
        return None
    p = x / n
    variance = m / (m - 1) / n**2 * sum((hit - size * p) ** 2 for hit, size in firings)
    return variance * n / (p * (1.0 - p))


def design_effect(firings: Sequence[FiringCount], rho: float) -> float:
    """Return how many times fewer pieces a method's judged pieces are worth, 1 or more.

    max(1, w own + (1−w) kish), w = min(1, g/10), g the smaller of the numbers of firings (of two pieces or more) with a
    success and with a failure; kish alone where own is not defined; 1 where every firing has a single piece.

    >>> design_effect([(1, 1), (0, 1), (1, 1)], 0.3)
    1.0
    """
    sizes = [size for _, size in firings]
    if max(sizes) == 1:
        return 1.0
    kish, own = kish_effect(sizes, rho), own_effect(firings)
    if own is None:
        return max(1.0, kish)
    several = [(hit, size) for hit, size in firings if size > 1]
    telling = min(sum(hit > 0 for hit, _ in several), sum(hit < size for hit, size in several))
    trust = min(1.0, telling / TRUSTED_FIRINGS)
    return max(1.0, trust * own + (1.0 - trust) * kish)
