"""Published counts of clustered successes, retyped from the papers."""

from __future__ import annotations

RATS_CONTROL = tuple(
    zip(
        (13, 12, 9, 9, 8, 8, 12, 11, 9, 9, 8, 11, 4, 5, 7, 7),
        (13, 12, 9, 9, 8, 8, 13, 12, 10, 10, 9, 13, 5, 7, 10, 10),
        strict=True,
    )
)
"""Weil 1970, Food and Cosmetics Toxicology 8:177: pups alive of pups born, litters of the control group; as analysed
by Williams 1975, Biometrics 31:949, and by Rao and Scott 1992, Biometrics 48:577."""

SEEDS = {
    "O75 bean": ((10, 39), (23, 62), (23, 81), (26, 51), (17, 39)),
    "O75 cucumber": ((5, 6), (53, 74), (55, 72), (32, 51), (46, 79), (10, 13)),
    "O73 bean": ((8, 16), (10, 30), (8, 28), (23, 45), (0, 4)),
    "O73 cucumber": ((3, 12), (22, 41), (15, 30), (32, 51), (3, 7)),
}
"""Crowder 1978, Applied Statistics 27:34, table 3: seeds germinated of seeds on each plate."""
