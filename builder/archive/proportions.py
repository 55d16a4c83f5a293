"""Limits of a proportion: Wilson's, and Agresti and Coull's on an effective number of pieces."""

from __future__ import annotations

from math import sqrt

Z95 = 1.959964
"""Two-sided 95 % point of the normal distribution."""


def wilson(successes: float, pieces: float, z: float = Z95) -> tuple[float, float]:
    """Return Wilson's score limits of a proportion, `pieces` above 0; at 0 and at all of them an end is exactly 0 or 1.

    (p + z²/2n ± z√(p(1−p)/n + z²/4n²)) / (1 + z²/n). Source: Wilson 1927, Journal of the American Statistical
    Association 22:209; compared in Newcombe 1998, Statistics in Medicine 17:857, method 3.

    >>> [round(end, 4) for end in wilson(81, 263)]
    [0.2553, 0.3662]
    """
    p = successes / pieces
    middle = (p + z * z / (2 * pieces)) / (1 + z * z / pieces)
    half = z * sqrt(p * (1 - p) / pieces + z * z / (4 * pieces * pieces)) / (1 + z * z / pieces)
    low = 0.0 if successes == 0 else middle - half
    high = 1.0 if successes == pieces else middle + half
    return low, high


def agresti_coull(p: float, pieces: float, z: float = Z95) -> tuple[float, float]:
    """Return Agresti and Coull's limits of a proportion `p` that stands on `pieces` (above 0, need not be whole).

    N = n + z², c = (pn + z²/2)/N, c ± z√(c(1−c)/N), held within 0 and 1. About 5 % wider than Wilson's, with the same
    middle. Source: Agresti and Coull 1998, The American Statistician 52:119.

    >>> [round(end, 4) for end in agresti_coull(0.9, 10)]
    [0.574, 1.0]
    """
    total = pieces + z * z
    middle = (p * pieces + z * z / 2) / total
    half = z * sqrt(middle * (1 - middle) / total)
    return max(0.0, middle - half), min(1.0, middle + half)
