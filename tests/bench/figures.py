"""`python -m tests.bench.figures [COUNT]`: what the figures of firings of 60 readings cost, with full uncertainty.

The aim is at most 5 seconds of one core for a thousand. Prints; never fails.
"""

from __future__ import annotations

import os

os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")

import sys
import time
from datetime import date

import numpy as np

from builder.checks.firing import Firing, Probe
from builder.heat.firing_heat import measure
from builder.readings.curve import Curve, FiringCurves
from builder.readings.instrument import temperatures
from builder.settings import HeatSettings, Method

METHOD = Method("open-fire", "Open fire", "ground", "", {"survival": ("sound",)}, 640.0, 800.0)
PROBE = Probe("wall", "thermocouple", type="K", tolerance="IEC 2")


def main(count: int) -> None:
    """Measure `count` firings and print the seconds of one core."""
    minutes = np.linspace(0.0, 40.0, 60)
    shape = np.interp(minutes, [0, 12, 16, 40], [14, 780, 800, 260])
    random = np.random.default_rng(1)
    started = time.process_time()
    for number in range(count):
        made = temperatures(PROBE, np.round(shape + random.normal(0.0, 8.0, 60)), "°C")
        blank = ("",) * 60
        curve = Curve(PROBE, minutes, made.celsius, blank, "°C", blank, made.common, made.own_sd_c)
        firing = Firing(f"firing-{number}", "", "", date(2026, 5, 2), "wren", "open-fire", (), "")
        measure(firing, FiringCurves((curve,), 0, (), ()), METHOD, HeatSettings())
    seconds = time.process_time() - started
    print(f"{count:,} firings of 60 readings: {seconds:.1f} s of one core, {1000 * seconds / count:.1f} ms each")


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 1000)
