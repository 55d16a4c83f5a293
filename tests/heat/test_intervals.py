"""Whether an interval of 95 % holds the truth as often as it says, by simulation with a fixed seed."""

from __future__ import annotations

from collections.abc import Callable

import numpy as np
import pytest

from builder.heat import exposure, rates
from builder.heat.figures import Figure
from builder.heat.firing_heat import measure
from builder.heat.intervals import intervals
from builder.readings.curve import Floats
from tests.heat.curves import HAND_LOG, HEAT, NARROW, curve, curves, firing

MINUTES = np.arange(31.0)
TRUTH = 20.0 + 780.0 * np.exp(-(((MINUTES - 12.0) / 6.0) ** 2))
"""A smooth fire that peaks at 800 °C at minute 12."""

FIGURES: dict[str, Callable[[Floats], Floats]] = {
    "peak": rates.peak_c,
    "fastest rise": lambda celsius: rates.fastest_rise_c_per_min(MINUTES, celsius, 1.0),
    "soak": lambda celsius: exposure.soak_min(MINUTES, celsius, 50.0),
    "minutes above 700": lambda celsius: exposure.minutes_above(MINUTES, celsius, 700.0),
    "short of 820": lambda celsius: exposure.short_c(celsius, 820.0),
}


@pytest.mark.parametrize("figure", FIGURES)
def test_the_truth_lies_inside_as_often_as_promised(figure: str) -> None:
    """400 logs of one fire, each reading good to 5 °C, all of a log shifted alike by up to 6 °C: at least 92 of 100
    intervals hold the true figure (the sampling error of 400 is 1.1), and they are not twice as wide as need be."""
    random, worked = np.random.default_rng(7), FIGURES[figure]
    truth, inside, widths, spread = float(worked(TRUTH)), 0, [], []
    for _ in range(400):
        read = TRUTH + random.normal(0.0, 5.0, 31) + random.uniform(-6.0, 6.0)
        drawn = read + random.normal(0.0, 5.0, (300, 31)) + random.uniform(-6.0, 6.0, (300, 1))
        rough = random.normal(0.0, 5.0, (50, 31))
        samples = worked(np.vstack([read, drawn, read + rough, read - rough]))[:, np.newaxis]
        low, high, _ = intervals(samples, slice(1, 301))
        inside += bool(low[0] <= truth <= high[0])
        widths.append(high[0] - low[0])
        spread.append(samples[0, 0])
    assert inside / 400 >= 0.92
    assert np.mean(widths) < 2.0 * 3.92 * np.std(spread)


def test_what_readings_push_up_widens_the_interval_downwards() -> None:
    """Worked by hand: value 10, drawn 10 to 16, roughened 12, so pushed by 2 and widened by 6 below."""
    drawn = np.linspace(10.0, 16.0, 1001)
    low, high, known = intervals(np.concatenate([[10.0], drawn, np.full(9, 12.0)])[:, np.newaxis], slice(1, 1002))
    assert low[0] == pytest.approx(10.15 - 6.0)
    assert high[0] == pytest.approx(15.85)
    assert known[0] == 1.0


def test_errors_that_all_readings_share_push_nothing() -> None:
    """A lopsided shared error stays lopsided: nothing is mirrored where the roughened curves are the best curve."""
    samples = np.concatenate([[10.0], np.linspace(10.0, 30.0, 1001), np.full(9, 10.0)])[:, np.newaxis]
    low, high, _ = intervals(samples, slice(1, 1002))
    assert (low[0], high[0]) == (10.0, 29.5)


def test_curves_without_the_figure_are_left_out_and_counted() -> None:
    nothing = np.full(10, np.nan)
    samples = np.concatenate([[5.0], np.full(30, 5.0), nothing, [np.nan] * 9])[:, np.newaxis]
    low, high, known = intervals(samples, slice(1, 41))
    assert (low[0], high[0], known[0]) == (5.0, 5.0, 0.75)


def test_a_figure_of_one_reading_keeps_its_plain_interval() -> None:
    """Roughening comes in pairs of opposite errors, so the first reading, say, is pushed not at all: the interval of a
    reading good to 5 °C is its own 1.96 · 5 to either side, within 3 %: its draws come from equally likely strata."""
    start = figures_of_a_spot_log()["start_c"]
    assert start.low is not None and start.high is not None
    assert 14.0 - start.low == pytest.approx(9.8, rel=0.03)
    assert start.high - 14.0 == pytest.approx(9.8, rel=0.03)


def figures_of_a_spot_log() -> dict[str, Figure]:
    """The hand log, read by a spot thermometer without any shared error."""
    return measure(firing(), curves(curve(*HAND_LOG, own_sd_c=5.0, common_c=0.0)), NARROW, HEAT).ware_figures
