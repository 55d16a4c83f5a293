"""Curves and firings for the tests of heat."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date

import numpy as np
from hypothesis import strategies as st

from builder.base.quantity import Quantity
from builder.checks.firing import Firing, Probe
from builder.readings.curve import CommonError, Curve, FiringCurves, Floats
from builder.settings import HeatSettings, Method

HAND_LOG = (
    np.arange(13.0),
    np.array([14.0, 120.0, 300.0, 450.0, 560.0, 640.0, 700.0, 760.0, 812.0, 790.0, 700.0, 610.0, 540.0]),
)
"""A main fire of twelve minutes read by hand once a minute."""
NARROW = Method("open-fire", "Open fire", "ground", "", {"survival": ("sound",)}, 650.0, 800.0)
NO_WINDOW = Method("pit", "Pit", "pit", "", {"survival": ("sound",)})
HEAT = HeatSettings()


def floats(values: Sequence[float]) -> Floats:
    return np.array(values, dtype=float)


def curve(
    minutes: Sequence[float] | Floats,
    celsius: Sequence[float] | Floats,
    name: str = "wall",
    own_sd_c: float = 1.0,
    common_c: float = 3.0,
    at_least: bool = False,
) -> Curve:
    """One probe with a rectangular common error of ± `common_c` and `own_sd_c` a reading."""
    n = len(minutes)
    common = CommonError("calibration", "rectangular", np.full(n, common_c), np.full(n, common_c))
    return Curve(
        Probe(name),
        floats(list(minutes)),
        floats(list(celsius)),
        ("",) * n,
        "°C",
        ("",) * n,
        (common,),
        np.full(n, own_sd_c),
        at_least,
    )


def curves(*probes: Curve) -> FiringCurves:
    return FiringCurves(probes, 0 if probes else None, (), ())


def firing(wall_mm: float | None = 6.0, slug: str = "2026-05-02-pale-jar") -> Firing:
    conditions = {} if wall_mm is None else {"clay.wall": millimetres(wall_mm, wall_mm)}
    return Firing(slug, "", "Pale jar", date(2026, 5, 2), "wren", "open-fire", (), "", conditions=conditions)


def millimetres(low: float, high: float) -> Quantity:
    middle = (low + high) / 2
    return Quantity(f"{middle} mm", "length", middle, "mm", middle, low, high)


@st.composite
def logs(draw: st.DrawFn) -> tuple[Floats, Floats]:
    """A log of two to twelve readings, minutes and degrees on a coarse grid so that ties and flats happen."""
    n = draw(st.integers(2, 12))
    steps = draw(st.lists(st.integers(1, 40), min_size=n - 1, max_size=n - 1))
    celsius = draw(st.lists(st.integers(0, 110), min_size=n, max_size=n))
    return np.concatenate([[0.0], np.cumsum(steps) / 4.0]), floats([10.0 * c for c in celsius])
