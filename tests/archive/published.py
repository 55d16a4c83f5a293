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

_NV = "0" * 21 + "1" * 5 + "0" * 21 + "1" * 4 + "0" * 19 + "1" + "000" + "11" + "0" + "1" + "0"
_PI = (
    "13 16 8 34 20 5 17 10 26 17 8 7 20 10 18 16 18 8 29 12 20 38 22 7 25 15 7 28 11 19 10 10 18 14 21 11 17 25 16 19 "
    "15 33 24 48 12 19 2 22 40 5 0 21 15 29 15 12 3 20 23 12 22 42 15 13 14 19 12 13 10 12 49 6 5 17 11 21 5 19 33"
)
_EH = (
    "1.64 2.26 3.14 2.68 1.28 2.31 1.80 1.68 1.56 2.31 2.01 1.89 3.15 1.23 1.27 1.76 2.00 2.64 0.88 1.27 "
    "1.37 0.97 1.14 0.88 0.91 0.58 0.97 1.50 1.33 2.37 1.82 3.13 1.31 1.92 1.64 2.01 1.88 1.93 2.11 1.29 "
    "1.72 0.75 1.92 1.84 1.11 1.61 1.18 1.44 1.18 0.93 1.17 1.19 1.06 2.02 2.29 2.33 2.90 1.70 1.41 2.25 "
    "1.54 1.97 1.75 2.16 2.57 1.37 3.61 2.04 2.17 1.69 0.27 1.84 1.30 0.96 1.01 0.98 0.35 1.02 0.85"
)
_HG = "0" * 17 + "1" * 10 + "0" * 16 + "1" * 10 + "0" * 16 + "1" * 10
ENDOMETRIAL = tuple(
    (int(nv), int(pi), float(eh), int(hg)) for nv, pi, eh, hg in zip(_NV, _PI.split(), _EH.split(), _HG, strict=True)
)
"""Heinze and Schemper 2002, Statistics in Medicine 21:2409: neovascularisation, pulsatility index, endometrium height
and histology grade (1 high) of 79 cases, the data of Dr E. Asseryanis."""
