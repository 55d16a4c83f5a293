"""Measure one firing: every figure of every probe, with its interval and its plain words.

Each figure is worked out for the best reckoning of the curve and for the curves that the readings allow, in one go;
`intervals` makes the 95 % interval of what these give.
"""

from __future__ import annotations

from functools import cache
from math import isnan

import numpy as np

from builder.base.quantity import Quantity
from builder.checks.firing import Firing
from builder.heat import exposure, rates
from builder.heat.equivalent import ENERGY_HIGH_KJ_MOL, ENERGY_KJ_MOL, ENERGY_LOW_KJ_MOL, equivalent_1h_c
from builder.heat.extremes import Extremes
from builder.heat.figures import Figure, FiringHeat, ProbeHeat, kinds_for, minutes_above_name
from builder.heat.intervals import intervals
from builder.heat.main_fire import ROUGHENED, MainFire, draw_count, main_fire
from builder.heat.remarks import BEFORE_LIGHTING, QUARTZ_C, STEAM_C, Telling, crossings_told, model_told
from builder.heat.wall import wall_lag_c
from builder.readings.curve import Curve, FiringCurves, Floats
from builder.readings.uncertainty import COVERAGE
from builder.settings import HeatSettings, Method


def measure(firing: Firing, curves: FiringCurves, method: Method, heat: HeatSettings) -> FiringHeat:
    """Work out every figure of every probe of one firing."""
    if not curves.curves:
        return FiringHeat((), None)
    count = draw_count(curves.curves)
    fires = [main_fire(curve, firing.own_name, count) for curve in curves.curves]
    lit = [(fire.minutes, fire.celsius) for fire in fires if fire is not None]
    spread = rates.spread_c(lit) if lit else np.full(1 + count + ROUGHENED, np.nan)
    wall = firing.conditions.get("clay.wall")
    thickness = wall if isinstance(wall, Quantity) else None

    def telling(curve: Curve, fire: MainFire) -> Telling:
        return Telling(fire, method, heat, thickness, len(fires), curves.faults_of(curve))

    probes = tuple(
        _before_lighting(curve, heat) if fire is None else _measured(curve, spread, telling(curve, fire))
        for curve, fire in zip(curves.curves, fires, strict=True)
    )
    return FiringHeat(probes, curves.ware)


def _before_lighting(curve: Curve, heat: HeatSettings) -> ProbeHeat:
    missing = {kind.name: Figure(None, remark=BEFORE_LIGHTING) for kind in kinds_for(heat.levels_c)}
    return ProbeHeat(curve.probe.name, missing | {"n_readings": Figure(0.0)})


def _measured(curve: Curve, spread: Floats, telling: Telling) -> ProbeHeat:
    extremes = Extremes.of(telling.fire.minutes, telling.fire.celsius)
    equivalent_c, model = _equivalent(telling.fire)
    samples = {
        **_height_and_rates(telling.fire, telling.heat, extremes),
        **_exposure(telling.fire, telling.heat, telling.method, extremes),
        "equivalent_1h_c": equivalent_c,
        "spread_c": spread,
    }
    samples["wall_lag_c"] = _wall_lag(samples["fastest_rise_c_per_min"], telling)
    said = crossings_told(telling.fire, telling.heat.levels_c) | {"equivalent_1h_c": model}
    figures = _told(samples, said, telling) | _seen(telling.fire)
    return ProbeHeat(curve.probe.name, {kind.name: figures[kind.name] for kind in kinds_for(telling.heat.levels_c)})


def _height_and_rates(fire: MainFire, heat: HeatSettings, extremes: Extremes) -> dict[str, Floats]:
    minutes, celsius = fire.minutes, fire.celsius
    fastest = rates.fastest_rise_c_per_min(minutes, celsius, heat.rise_window_min)
    steam, quartz, fall = rates.rates_between_c_per_min(minutes, celsius, (STEAM_C, QUARTZ_C, QUARTZ_C[::-1]), extremes)
    return {
        "start_c": celsius[:, 0],
        "peak_c": extremes.peak_c,
        "time_to_peak_min": extremes.peak_min,
        "heating_rate_c_per_min": rates.heating_rate_c_per_min(minutes, celsius, extremes),
        # A curve that only falls has no fastest rise; one that stands still rises at 0.
        "fastest_rise_c_per_min": np.maximum(fastest, 0.0 if fastest[0] >= 0.0 else np.nan),
        "steam_rise_c_per_min": steam,
        "quartz_rise_c_per_min": quartz,
        "quartz_fall_c_per_min": fall,
        "cooling_rate_c_per_min": rates.cooling_rate_c_per_min(minutes, celsius, extremes),
    }


def _exposure(fire: MainFire, heat: HeatSettings, method: Method, extremes: Extremes) -> dict[str, Floats]:
    low, high = method.window_low_c, method.window_high_c
    levels = {minutes_above_name(level): level for level in heat.levels_c}
    found = dict.fromkeys([*levels, "soak_min", "window_min", "over_min", "over_c_min", "short_c"], _nothing(fire))
    if low is not None:
        found["short_c"] = exposure.short_c(extremes.peak_c[:, np.newaxis], low)
    if fire.minutes.size < 2:
        return found
    stretches = exposure.Stretches.of(fire.minutes, fire.celsius, extremes)
    found |= {name: stretches.minutes_above(level) for name, level in levels.items()}
    found["soak_min"] = stretches.minutes_above(extremes.peak_c - heat.soak_within_c)
    over = np.zeros(fire.celsius.shape[0])
    if high is not None:
        over = found["over_min"] = stretches.minutes_above(high, at_level=False)
        found["over_c_min"] = stretches.area_above_c_min(high)
    if low is not None or high is not None:
        found["window_min"] = stretches.minutes_inside(low, over)
    return found


def _equivalent(fire: MainFire) -> tuple[Floats, str]:
    """Return each curve's equivalent, and in words the best one's at both ends of the model's range."""
    energies = _spread_evenly(fire, ENERGY_KJ_MOL, ENERGY_LOW_KJ_MOL, ENERGY_HIGH_KJ_MOL, 2)
    energies = np.concatenate([energies, [ENERGY_LOW_KJ_MOL, ENERGY_HIGH_KJ_MOL]])
    found = equivalent_1h_c(fire.minutes, np.vstack([fire.celsius, fire.best, fire.best]), energies)
    return found[:-2], model_told(*found[-2:].tolist())


def _wall_lag(fastest: Floats, telling: Telling) -> Floats:
    if telling.wall is None:
        return _nothing(telling.fire)
    fire, wall = telling.fire, telling.wall
    diffusivity = _spread_evenly(fire, *telling.heat.wall_diffusivity_mm2_s, 3)
    thickness = _spread_evenly(fire, wall.canonical, wall.low, wall.high, 5)
    return wall_lag_c(fastest, thickness, diffusivity)


def _spread_evenly(fire: MainFire, best: float, low: float, high: float, prime: int) -> Floats:
    """Return a number for each curve: `low` to `high` over the drawn ones, by the fractional parts of j√prime."""
    numbers = np.full(fire.celsius.shape[0], best)
    numbers[fire.drawn] = low + (high - low) * _fractions(fire.celsius.shape[0], prime)[fire.drawn]
    return numbers


@cache
def _fractions(count: int, prime: int) -> Floats:
    """Return the fractional parts of j√prime for j from 0 on, shape (count,)."""
    return np.asarray(np.arange(count) * np.sqrt(prime) % 1.0)


def _nothing(fire: MainFire) -> Floats:
    return np.full(fire.celsius.shape[0], np.nan)


def _seen(fire: MainFire) -> dict[str, Figure]:
    gap = rates.largest_gap_min(fire.read_at)
    return {
        "largest_gap_min": Figure(gap) if gap is not None else Figure(None, remark="There is a single reading."),
        "n_readings": Figure(float(fire.read_at.size)),
    }


def _told(samples: dict[str, Floats], said: dict[str, str], telling: Telling) -> dict[str, Figure]:
    """Make a Figure of each figure's samples; of some that is `said` beside what is told of all."""
    fire = telling.fire
    told = {
        name: Figure(None, remark=telling.why_missing(name)) for name, sample in samples.items() if isnan(sample[0])
    }
    names = [name for name in samples if name not in told]
    together = np.array([samples[name] for name in names]).T
    lows, highs, shares = intervals(together, fire.drawn)
    for name, value, least, most, share in zip(
        names, together[0].tolist(), lows.tolist(), highs.tolist(), shares.tolist(), strict=True
    ):
        floor, ceiling = _possible(name, fire)
        low, high = telling.doubted(name, least, most)
        at_least = telling.at_least(name)
        remark = " ".join(filter(None, (telling.remark(name), said.get(name), _without(share))))
        told[name] = Figure(value, max(low, floor), None if at_least else min(high, ceiling), at_least, remark)
    return told


def _possible(name: str, fire: MainFire) -> tuple[float, float]:
    """Return the least and the most that a figure can be on this curve: an interval reaches no further."""
    if name in ("start_c", "peak_c", "equivalent_1h_c"):
        return -np.inf, np.inf
    first, last = float(fire.minutes[0]), float(fire.minutes[-1])
    if name == "time_to_peak_min":
        return first, last
    timed = name in ("soak_min", "window_min", "over_min") or name.startswith("minutes_above")
    return 0.0, last - first if timed else np.inf


def _without(known: float) -> str:
    """Say how many of the drawn curves lack a figure that a share `known` of them has; empty where nearly all have."""
    if known >= COVERAGE:
        return ""
    return f"Of the curves that the readings allow, {100 * (1 - known):.0f} % have no such figure."
