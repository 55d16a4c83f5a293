"""The one list of figures of a firing: name, meaning, unit. Exports, pages and tests read it."""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import cache


@dataclass(frozen=True, slots=True)
class Figure:
    """A figure with its 95 % interval. Missing is None, with the reason."""

    value: float | None
    low: float | None = None
    high: float | None = None
    at_least: bool = False
    """The value is a lower bound: the instrument topped out."""
    remark: str = ""
    """A plain sentence: why it is missing, or what the interval leaves out."""


@dataclass(frozen=True, slots=True)
class FigureKind:
    """What one figure is."""

    name: str
    """Column name in the exports, unit included."""
    label: str
    """How the page names it."""
    quantity: str
    """`temperature`, `temperature_step` (a difference), `rate`, `time`, `degree_minutes` or `count`."""
    meaning: str
    """Its definition in one sentence, for the page of figures and the Data Package."""


FIGURE_KINDS: tuple[FigureKind, ...] = (
    FigureKind(
        "start_c",
        "First reading",
        "temperature",
        "The first reading of the main fire; where the log began before lighting, the curve at lighting.",
    ),
    FigureKind("peak_c", "Hottest", "temperature", "The highest reading."),
    FigureKind("time_to_peak_min", "Time to the hottest", "time", "Minutes from lighting to the highest reading."),
    FigureKind(
        "heating_rate_c_per_min",
        "Overall rise",
        "rate",
        "(hottest − first reading) / time between: the overall rate of the open-firing literature.",
    ),
    FigureKind(
        "fastest_rise_c_per_min",
        "Fastest rise",
        "rate",
        "The steepest mean rise over any window of one minute (a setting), exact on the straight-line curve.",
    ),
    FigureKind(
        "steam_rise_c_per_min",
        "Rise through steam",
        "rate",
        "Mean rise from 100 to 200 °C: from the last moment at 100 °C before 200 °C was first reached.",
    ),
    FigureKind(
        "quartz_rise_c_per_min",
        "Rise through quartz",
        "rate",
        "Mean rise from 548 to 598 °C; quartz inverts at 573 °C.",
    ),
    FigureKind(
        "quartz_fall_c_per_min",
        "Fall through quartz",
        "rate",
        "Mean fall from 598 to 548 °C, the last time it came down.",
    ),
    FigureKind("minutes_above", "Minutes above", "time", "Total time at or above a temperature, over all spells."),
    FigureKind("soak_min", "Soak", "time", "Minutes at or above the hottest reading less 50 °C (a setting)."),
    FigureKind("window_min", "Inside the window", "time", "Minutes inside the method's window."),
    FigureKind("over_min", "Above the window", "time", "Minutes above the method's window."),
    FigureKind(
        "over_c_min",
        "Excess over the window",
        "degree_minutes",
        "Area of the curve above the method's window, degrees times minutes.",
    ),
    FigureKind(
        "short_c",
        "Short of the window",
        "temperature_step",
        "How far the hottest reading stayed below the method's window; 0 where it reached it.",
    ),
    FigureKind(
        "equivalent_1h_c",
        "Equivalent one-hour temperature",
        "temperature",
        "The temperature that, held for one hour, does the same first-order work, for an activation energy of "
        "222 kJ/mol; its interval takes in the range over 150 to 300 kJ/mol, the uncertainty of the model.",
    ),
    FigureKind("cooling_rate_c_per_min", "Cooling", "rate", "(hottest − last reading) / time between."),
    FigureKind(
        "spread_c",
        "Spread between probes",
        "temperature_step",
        "With two probes or more: the largest difference between probes at one moment.",
    ),
    FigureKind(
        "wall_lag_c",
        "Lag of the wall",
        "temperature_step",
        "How far the middle of the wall lags its faces at the fastest rise, βL²/2α, L half the thickness. So much "
        "cooler is the middle while the faces are past steam, and by so much the wall is strained.",
    ),
    FigureKind("largest_gap_min", "Largest gap", "time", "The longest time between two readings."),
    FigureKind("n_readings", "Readings", "count", "How many readings the curve stands on."),
)
"""Every figure, in the order of the pages and the exports. `minutes_above` stands for one column a level."""


def minutes_above_name(level_c: float) -> str:
    """Return the name of the figure of minutes above one level.

    >>> minutes_above_name(573.0)
    'minutes_above_573_c'
    """
    return f"minutes_above_{level_c:g}_c"


@cache
def kinds_for(levels_c: tuple[float, ...]) -> tuple[FigureKind, ...]:
    """Return every figure by the name it has in `ProbeHeat.figures`: `minutes_above` written out for each level.

    >>> [kind.label for kind in kinds_for((600.0,)) if kind.quantity == "time"][1]
    'Minutes above 600 °C'
    """
    kinds: list[FigureKind] = []
    for kind in FIGURE_KINDS:
        if kind.name != "minutes_above":
            kinds.append(kind)
            continue
        for level in levels_c:
            meaning = f"Total time at or above {level:g} °C, over all spells."
            kinds.append(
                replace(kind, name=minutes_above_name(level), label=f"{kind.label} {level:g} °C", meaning=meaning)
            )
    return tuple(kinds)


@dataclass(frozen=True, slots=True)
class ProbeHeat:
    """The figures of one probe."""

    probe: str
    figures: dict[str, Figure]
    """By the names of FIGURE_KINDS; `minutes_above` once for each level as `minutes_above_600_c`."""


@dataclass(frozen=True, slots=True)
class FiringHeat:
    """The figures of one firing, a set for each probe."""

    probes: tuple[ProbeHeat, ...]
    ware: int | None
    """Index of the probe that stands for the ware; None without readings."""

    @property
    def ware_figures(self) -> dict[str, Figure]:
        """The figures of the probe that stands for the ware; empty without readings."""
        return {} if self.ware is None else self.probes[self.ware].figures
