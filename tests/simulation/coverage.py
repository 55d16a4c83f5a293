"""How often the 95 % interval of each figure holds the truth, on simulated main fires read once a minute by hand.

A fire is drawn (how long, how hot, how it falls), then a thermometer of a known kind: its calibration error and all
else that its readings share, drawn once; its aim and its rounding, drawn for each reading. They go through the
same functions as an entry's. The truth is the figure of the curve at the moments of reading, straight between them.
What the log misses between its readings is counted apart, against the fire itself: no interval promises that.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field
from datetime import date

import numpy as np

from builder.base.quantity import Quantity, parse_quantity
from builder.checks.firing import CalibrationPoint, Firing, Probe
from builder.heat.figures import Figure
from builder.heat.firing_heat import measure
from builder.readings.curve import Curve, FiringCurves, Floats
from builder.readings.infrared import true_temperature_c
from builder.readings.instrument import temperatures
from builder.readings.spot import AIM_SD_C, ASSUMED_BACKGROUND_C
from builder.readings.tolerance import tolerance_c
from builder.settings import HeatSettings, Method

METHOD = Method("open-fire", "Open fire", "ground", "", {"survival": ("sound",)}, 700.0, 800.0)
HEAT = HeatSettings()
DENSE_A_MINUTE = 20
"""Points a minute at which the fire itself is followed."""

FIGURES = (
    "start_c", "peak_c", "heating_rate_c_per_min", "fastest_rise_c_per_min", "steam_rise_c_per_min",
    "quartz_rise_c_per_min", "quartz_fall_c_per_min", "minutes_above_600_c", "minutes_above_700_c", "soak_min",
    "window_min", "over_c_min", "short_c", "cooling_rate_c_per_min",
)  # fmt: skip
"""Figures that are counted. Those of a model (equivalent temperature, lag of the wall) take in a range of constants
that nobody draws, and the time of the peak is a reading's own minute."""


def _quantity(words: str, kind: str) -> Quantity:
    found = parse_quantity(words, kind)
    assert isinstance(found, Quantity), found
    return found


@dataclass(frozen=True, slots=True)
class Instrument:
    """A kind of thermometer: what its entry says, and what it shows of true temperatures."""

    name: str
    probe: Callable[[np.random.Generator], tuple[Probe, Callable[[Floats], Floats]]]
    """Draw one such thermometer: the probe as recorded, and what it shows at true °C, aim and rounding left out."""
    aim_sd_c: float


def _class_2(random: np.random.Generator) -> tuple[Probe, Callable[[Floats], Floats]]:
    """A thermocouple K of class 2: off by one share of its tolerance, the same all over."""
    share = random.uniform(-1.0, 1.0)
    return Probe(
        "wall", "thermocouple", type="K", tolerance="IEC 2"
    ), lambda true: true + share * tolerance_c(true, "K", "IEC 2")


def _spot(random: np.random.Generator) -> tuple[Probe, Callable[[Floats], Floats]]:
    """A spot thermometer set to 0.95 before ware of an emissivity anywhere from 0.85 to 0.95, good to 2 %."""
    emissivity, share = random.uniform(0.85, 0.95), random.uniform(-0.02, 0.02)
    probe = Probe(
        "wall",
        "spot thermometer",
        emissivity_set=_quantity("0.95", "emissivity"),
        emissivity=_quantity("0.85 to 0.95", "emissivity"),
        accuracy_share=_quantity("2 %", "share"),
    )

    def shown(true: Floats) -> Floats:
        seen = true_temperature_c(true, emissivity, 0.95, ASSUMED_BACKGROUND_C, ASSUMED_BACKGROUND_C)
        return seen / (1.0 + share)

    return probe, shown


def _checked(random: np.random.Generator) -> tuple[Probe, Callable[[Floats], Floats]]:
    """A thermometer off by a line, checked by its potter at 0, 400 and 950 °C, each known to 3 °C either way."""
    height, slope = random.uniform(-10.0, 10.0), random.uniform(-0.01, 0.01)
    points = []
    for true in (0.0, 400.0, 950.0):
        told = true + random.uniform(-3.0, 3.0)
        shown = f"{true + height + slope * true:.2f} °C"
        known = f"{told - 3:.2f} °C to {told + 3:.2f} °C"
        points.append(CalibrationPoint(_quantity(shown, "temperature"), _quantity(known, "temperature")))
    return Probe("wall", calibrated=tuple(points)), lambda true: true + height + slope * true


def _unknown(random: np.random.Generator) -> tuple[Probe, Callable[[Floats], Floats]]:
    """A thermometer of which nothing is recorded, off by what the archive allows for that."""
    off = random.normal(0.0, 15.0)
    return Probe("wall"), lambda true: true + off


INSTRUMENTS = (
    Instrument("thermocouple K, class 2", _class_2, 0.0),
    Instrument("spot thermometer, emissivity 0.85 to 0.95", _spot, AIM_SD_C),
    Instrument("checked by the potter at three points", _checked, 0.0),
    Instrument("nothing recorded", _unknown, 0.0),
)


@dataclass
class Count:
    """What came of one figure over many firings."""

    known: int = 0
    held: int = 0
    held_of_fire: int = 0
    """Intervals that hold the figure of the fire itself, between the readings too."""
    missed: list[float] = field(default_factory=list)
    """The figure of the fire itself less that of the sampled curve."""

    @property
    def share(self) -> float:
        """Share of the intervals that hold the truth of the sampled curve."""
        return self.held / self.known if self.known else np.nan


def counted(firings: int, seed: int = 1, *, between: bool = True) -> dict[str, dict[str, Count]]:
    """Simulate some fires, each read by every kind of thermometer, and count by thermometer and figure.

    `between` follows the fire between the readings too, which takes most of the time.
    """
    random = np.random.default_rng(seed)
    counts = {instrument.name: {name: Count() for name in FIGURES} for instrument in INSTRUMENTS}
    for number in range(firings):
        dense_min, dense_c = _fire(random)
        minutes, true_c = dense_min[::DENSE_A_MINUTE], dense_c[::DENSE_A_MINUTE]
        truth = _figures(_exact(minutes, true_c), "truth")
        fire = _figures(_exact(dense_min, dense_c), "truth") if between else {}
        for instrument in INSTRUMENTS:
            figures = _figures(_read(instrument, minutes, true_c, random), f"{instrument.name} {number}")
            for name, count in counts[instrument.name].items():
                _count(count, figures[name], truth[name].value, fire[name].value if between else None)
    return counts


def pooled(counts: dict[str, dict[str, Count]]) -> dict[str, Count]:
    """Add the counts of all thermometers up, by figure."""
    every = counts.values()
    return {
        name: Count(sum(one[name].known for one in every), sum(one[name].held for one in every)) for name in FIGURES
    }


def _count(count: Count, figure: Figure, truth: float | None, fire: float | None) -> None:
    """Count one interval; a truth of 0, which every interval that begins there holds, is left out."""
    if figure.value is None or figure.low is None or figure.high is None or not truth:
        return
    slack = 1e-9 * max(1.0, abs(truth))
    count.known += 1
    count.held += figure.low - slack <= truth <= figure.high + slack
    if fire is not None:
        count.held_of_fire += figure.low - slack <= fire <= figure.high + slack
        count.missed.append(fire - truth)


def _fire(random: np.random.Generator) -> tuple[Floats, Floats]:
    """Draw a main fire, minutes and °C, twenty points a minute: up in 9 to 20 minutes, then down by Newton's law."""
    top_min, length = random.uniform(9.0, 20.0), 36
    minutes = np.linspace(0.0, length, length * DENSE_A_MINUTE + 1)
    peak, start = random.uniform(620.0, 900.0), random.uniform(15.0, 60.0)
    bend, held = random.uniform(0.8, 1.6), random.uniform(0.0, 3.0)
    rise = np.clip(minutes / top_min, 0.0, 1.0)
    up = start + (peak - start) * (1.0 - (1.0 - rise) ** (1.0 + bend))
    down = np.exp(-np.maximum(minutes - top_min - held, 0.0) / random.uniform(12.0, 25.0))
    flicker = 12.0 * np.sin(minutes * random.uniform(1.5, 3.0) + random.uniform(0.0, 6.0)) * rise
    return minutes, 20.0 + (up - 20.0) * down + flicker


def _read(instrument: Instrument, minutes: Floats, true_c: Floats, random: np.random.Generator) -> Curve:
    probe, shown = instrument.probe(random)
    aimed = true_c + random.normal(0.0, instrument.aim_sd_c, true_c.size) if instrument.aim_sd_c else true_c
    return _curve(probe, minutes, np.round(shown(aimed)))


def _curve(probe: Probe, minutes: Floats, read_c: Floats) -> Curve:
    made = temperatures(probe, read_c, "°C")
    blank = ("",) * read_c.size
    return Curve(probe, minutes, made.celsius, blank, "°C", blank, made.common, made.own_sd_c, False, made.notes)


def _exact(minutes: Floats, celsius: Floats) -> Curve:
    """Give a curve that is known without error."""
    blank = ("",) * celsius.size
    return Curve(Probe("wall"), minutes, celsius, blank, "°C", blank, (), np.zeros(celsius.size))


def _figures(curve: Curve, slug: str) -> dict[str, Figure]:
    firing = Firing(slug, "", "", date(2026, 5, 2), "wren", "open-fire", (), "")
    return measure(firing, FiringCurves((curve,), 0, (), ()), METHOD, HEAT).ware_figures


def in_words(name: str, counts: dict[str, Count]) -> str:
    """Lay the counts of one kind of thermometer out as a table."""
    heads = f"{'figure':26}{'firings':>8}{'held':>8}{'of fire':>9}{'missed: middle':>16}{'95 % below':>12}"
    return "\n".join([f"\n{name}", heads, *(_line(figure, count) for figure, count in counts.items() if count.known)])


def _line(figure: str, count: Count) -> str:
    held = f"{figure:26}{count.known:8d}{100 * count.share:7.1f}%"
    if not count.missed:
        return held
    missed = np.array(count.missed)
    middle, most = float(np.median(missed)), float(np.quantile(np.abs(missed), 0.95))
    return f"{held}{100 * count.held_of_fire / count.known:8.1f}%{middle:16.2f}{most:12.2f}"
