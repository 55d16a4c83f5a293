"""Linear shrinkage from the distance between two marks."""

from __future__ import annotations


def shrinkage_pct(before_mm: float, after_mm: float) -> float:
    """Give the linear shrinkage [%] of a distance [mm] measured before and after, on its length before.

    100 (before − after)/before: wet to dry, dry to fired, or wet to fired for the whole; the parts do not add up,
    1 − s = (1 − s_drying)(1 − s_firing). Negative where it grew. Source: ASTM C326.

    >>> shrinkage_pct(100.0, 90.0)
    10.0
    """
    return 100.0 * (before_mm - after_mm) / before_mm
