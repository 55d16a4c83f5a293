"""The plain sentence beside a figure: why it is missing, and what its interval leaves out."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from builder.base.quantity import Quantity
from builder.heat.doubted import Band, last_before_drawn_c, lone_floor_c, stuck_for
from builder.heat.equivalent import ENERGY_HIGH_KJ_MOL, ENERGY_LOW_KJ_MOL
from builder.heat.faults import fault_words
from builder.heat.figures import minutes_above_name
from builder.heat.gaps import gap_at_fastest_min, gaps_at_crossings_min, unseen_peak_c
from builder.heat.main_fire import MainFire
from builder.heat.wall import settling_min
from builder.readings.curve import Repair
from builder.settings import HeatSettings, Method

STEAM_C = (100.0, 200.0)
"""Between these the water in the pores boils off: the stretch in which damp ware bursts."""
QUARTZ_C = (548.0, 598.0)
"""25 degrees to either side of the inversion of quartz at 573 °C."""

BEFORE_LIGHTING = "All readings were taken before the main fire was lit."
_SINGLE = "A single reading has no length in time."
_NO_WINDOW = "The method names no window of temperatures."

_WORTH_TELLING_C = 10.0
"""An unseen peak lower than this above the highest reading is within what any thermometer in a fire is worth."""
_CLOSE_MIN = 2.0
"""Readings no further apart than this draw a fire well enough: nobody is told off for a minute-by-minute log."""

_LOWER_BOUNDS = {
    "peak_c",
    "time_to_peak_min",
    "fastest_rise_c_per_min",
    "over_c_min",
    "equivalent_1h_c",
    "cooling_rate_c_per_min",
    "wall_lag_c",
}
"""Figures that can only be larger than what a probe at its limit shows."""


@dataclass(frozen=True, slots=True)
class Telling:
    """All that the sentences beside one probe's figures need to know."""

    fire: MainFire
    method: Method
    heat: HeatSettings
    wall: Quantity | None
    """Thickness of the wall, mm; None where it was not recorded."""
    probes: int
    """How many probes the firing had."""
    faults: tuple[Repair, ...] = ()
    """What was dropped or doubted of this probe's readings."""

    @property
    def _top(self) -> float:
        return float(self.fire.best.max())

    def at_least(self, name: str) -> bool:
        """Tell whether a figure is a lower bound: the probe topped out, or was drawn too soon."""
        return self._beyond_limit(name) or self._drawn_too_soon(name)

    def _beyond_limit(self, name: str) -> bool:
        if not self.fire.topped_out:
            return False
        beyond = {minutes_above_name(level) for level in self.heat.levels_c if level > self._top}
        low, high = self.method.window_low_c, self.method.window_high_c
        if high is not None and high >= self._top:
            beyond.add("over_min")
        if low is not None and low > self._top:
            beyond.add("window_min")
        return name in _LOWER_BOUNDS | beyond

    def doubted(self, name: str, low: float, high: float) -> tuple[float, float]:
        """Carry the ends of an interval as far as the readings that are doubted leave open."""
        if not self.faults:
            return low, high
        if name == "peak_c":
            return min(low, lone_floor_c(self.fire, self.faults)), high
        drawn_c = last_before_drawn_c(self.fire, self.faults)
        if name == "cooling_rate_c_per_min" or (name == "quartz_fall_c_per_min" and (drawn_c or 0.0) > QUARTZ_C[0]):
            return (low if drawn_c is None else 0.0), high
        band = self._counted_at(name)
        less, more = (0.0, 0.0) if band is None else stuck_for(band, self.faults)
        return low - less, high + more

    def _drawn_too_soon(self, name: str) -> bool:
        """Tell whether the probe was drawn while what a figure counts still went on."""
        drawn_c = last_before_drawn_c(self.fire, self.faults) if self.faults else None
        if drawn_c is None:
            return False
        band = self._counted_at("over_min" if name == "over_c_min" else name)
        return name == "equivalent_1h_c" if band is None else drawn_c >= band[0]

    def _counted_at(self, name: str) -> Band | None:
        """Return the temperatures at which the minutes of a figure are counted; None where it counts none."""
        low, high = self.method.window_low_c, self.method.window_high_c
        bands = {minutes_above_name(level): (level, np.inf) for level in self.heat.levels_c}
        bands["soak_min"] = (self._top - self.heat.soak_within_c, np.inf)
        bands["window_min"] = (-np.inf if low is None else low, np.inf if high is None else high)
        if high is not None:
            bands["over_min"] = (high, np.inf)
        return bands.get(name)

    def why_missing(self, name: str) -> str:
        """Say why a figure has no value."""
        if name in ("window_min", "over_min", "over_c_min", "short_c"):
            return self._no_window(name)
        if name == "spread_c":
            return "Only one probe was read." if self.probes < 2 else "No two probes were read at the same time."
        if name == "wall_lag_c" and self.wall is None:
            return "The thickness of the wall was not recorded."
        if self.fire.minutes.size < 2:
            return _SINGLE
        return self._no_passage(name)

    def _no_window(self, name: str) -> str:
        low, high = self.method.window_low_c, self.method.window_high_c
        if low is None and high is None:
            return _NO_WINDOW
        if name == "short_c" and low is None:
            return "The method's window has no lower edge."
        if name != "short_c" and name != "window_min" and high is None:
            return "The method's window has no upper edge."
        return _SINGLE

    def _no_passage(self, name: str) -> str:
        best = self.fire.best
        if name == "heating_rate_c_per_min":
            return "The first reading is the hottest."
        if name == "cooling_rate_c_per_min":
            return "The last reading is the hottest."
        if name in ("fastest_rise_c_per_min", "wall_lag_c"):
            if best.max() <= best[0]:
                return "The temperature only fell."
            return f"The readings span less than the {self.heat.rise_window_min:g} min over which the rise is taken."
        low, high = STEAM_C if name == "steam_rise_c_per_min" else QUARTZ_C
        if best.max() < high:
            return f"It never reached {high:g} °C."
        if name == "quartz_fall_c_per_min":
            return f"The readings end before it had cooled to {low:g} °C."
        return f"It stood above {low:g} °C already when the readings begin."

    def remark(self, name: str) -> str:
        """Say what the interval of a known figure leaves out; empty where there is nothing to say."""
        told = (
            self._of_limit(name),
            fault_words(name, self.faults),
            self._of_gaps(name),
            self._of_wall(name),
        )
        return " ".join(filter(None, told))

    def _of_limit(self, name: str) -> str:
        if not self.fire.topped_out:
            return ""
        low, high = self.method.window_low_c, self.method.window_high_c
        if self._beyond_limit(name):
            return "The probe reached its limit: it may have been more."
        if name == "soak_min" or (name == "short_c" and low is not None and low > self._top):
            return "The probe reached its limit: it may have been less."
        if name in ("heating_rate_c_per_min", "spread_c"):
            return "The probe reached its limit: it may have been more or less."
        if name == "window_min" and (high is None or high <= self._top):
            return ""
        return "The probe reached its limit: it may have been less." if name == "window_min" else ""

    def _of_gaps(self, name: str) -> str:
        fire = self.fire
        if name == "peak_c":
            return self._unseen_peak()
        if name == "fastest_rise_c_per_min":
            gap = gap_at_fastest_min(fire.minutes, fire.best)
            if gap > max(self.heat.rise_window_min, _CLOSE_MIN):
                return f"The readings there stand {gap:.2g} min apart: a faster rise between them does not show."
        return ""

    def _unseen_peak(self) -> str:
        fire = self.fire
        top = int(fire.best.argmax())
        if fire.minutes.size > 1 and top == fire.minutes.size - 1:
            return "The last reading is the hottest: it may have gone higher afterwards."
        reached = unseen_peak_c(fire.minutes, fire.best)
        if reached is None or reached - self._top < _WORTH_TELLING_C:
            return ""
        return f"Between readings it may have gone higher, to about {round(reached, -1):.0f} °C if it turned evenly."

    def _of_wall(self, name: str) -> str:
        if name == "wall_lag_c" and self.wall is not None:
            settling = settling_min(self.wall.canonical, self.heat.wall_diffusivity_mm2_s[0])
            if settling > self.heat.rise_window_min:
                return f"So thick a wall lags so far only after {settling:.2g} min of such a rise: it may be less."
        return ""


def crossings_told(fire: MainFire, levels_c: tuple[float, ...]) -> dict[str, str]:
    """Say which of the temperatures for which minutes above are counted were crossed between readings far apart."""
    gaps = gaps_at_crossings_min(fire.minutes, fire.best, levels_c)
    return {
        minutes_above_name(level): f"It crossed {level:g} °C between readings {gap:.2g} min apart."
        for level, gap in zip(levels_c, gaps, strict=True)
        if gap > _CLOSE_MIN
    }


def model_told(low_c: float, high_c: float) -> str:
    """Say what the equivalent one-hour temperature is, °C, at both ends of the range of activation energies."""
    return (
        f"{low_c:.0f} °C for {ENERGY_LOW_KJ_MOL:g} kJ/mol, {high_c:.0f} °C for {ENERGY_HIGH_KJ_MOL:g} kJ/mol; "
        "the interval takes this range in."
    )
