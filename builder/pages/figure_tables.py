"""The tables of the page of figures: emissivities, classes, cones, glow, hardness, advice, straight from the code."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from types import ModuleType

from markupsafe import Markup, escape

from builder.archive import windows
from builder.base import cones
from builder.base.cones import CONES
from builder.checks import calibrations, limits
from builder.fire import fuel, reasons, weather
from builder.fire.advice import RULES
from builder.fire.cautions import BY_KEY
from builder.heat import doubted, equivalent, exposure, gaps, intervals, main_fire, rates, remarks, wall
from builder.pages.marked_numbers import temperature
from builder.readings import (
    calibration,
    calibration_line,
    clean,
    infrared,
    instrument,
    spot,
    thermocouple,
    tolerance,
    uncertainty,
)
from builder.readings.emissivity import EMISSIVITIES
from builder.readings.tolerance import CLASS_NAMES, PROMISES, Promise
from builder.ware import as_written, glow, hardness, munsell, porosity, shrinkage
from builder.ware.glow import SCALES
from builder.ware.hardness import SCRATCHERS, TOOLS_SOURCE

HOLDING: tuple[ModuleType, ...] = (
    clean, calibration, calibration_line, instrument, spot, infrared, thermocouple, uncertainty, calibrations, limits,
    main_fire, intervals, equivalent, remarks, windows, reasons, fuel, weather, cones, glow, as_written, munsell,
)  # fmt: skip
"""Modules whose numbers the page lists."""

CALCULATIONS: tuple[Callable[..., object], ...] = (
    thermocouple.emf_mv, thermocouple.temperature_c, tolerance.tolerance_c, infrared.planck, infrared.band_radiance,
    infrared.true_temperature_c, calibration_line.fitted, clean.believed_c, uncertainty.rectangular_sd,
    uncertainty.draws, uncertainty.band, uncertainty.propagated, intervals.intervals,
    doubted.stuck_for, doubted.last_before_drawn_c,
    rates.peak_c, rates.time_to_peak_min, rates.heating_rate_c_per_min, rates.fastest_rise_c_per_min,
    rates.rise_between_c_per_min, rates.fall_between_c_per_min, rates.cooling_rate_c_per_min, rates.spread_c,
    exposure.minutes_above, exposure.soak_min, exposure.window_min, exposure.minutes_over, exposure.area_above_c_min,
    exposure.short_c, equivalent.equivalent_1h_c, wall.wall_lag_c, wall.settling_min, gaps.unseen_peak_c,
    porosity.absorption_pct, porosity.porosity_pct, porosity.bulk_density_g_cm3, shrinkage.shrinkage_pct,
    munsell.swatch, munsell.luminance, hardness.mohs_band, glow.read_glow,
    fuel.equilibrium_moisture_pct, fuel.net_heat_mj, weather.saturation_pressure_hpa, weather.dew_point_c,
    weather.vapour_pressure_deficit_kpa, weather.fosberg_index,
)  # fmt: skip
"""Calculations whose docstrings the page prints, in the order of the work."""


@dataclass(frozen=True, slots=True)
class Table:
    """One table of the page."""

    key: str
    heading: str
    words: str
    columns: tuple[str, ...]
    rows: tuple[tuple[Markup, ...], ...]


def tables() -> tuple[Table, ...]:
    """Return every table of the page of figures."""
    return (_classes(), _emissivities(), _cones(), _glow(), _hardness(), _advice(), _limits())


def _table(key: str, heading: str, words: str, columns: str, rows: list[tuple[object, ...]]) -> Table:
    return Table(key, heading, words, tuple(columns.split("|")), tuple(tuple(map(escape, row)) for row in rows))


def _classes() -> Table:
    words = (
        "How far new thermocouple wire may be off, and the temperatures between which that is promised. Outside them "
        "nothing is promised and nothing is assumed. IEC 60584-1:2013; ASTM E230/E230M-12, table 1."
    )
    rows: list[tuple[object, ...]] = [
        (
            CLASS_NAMES[name],
            " ".join(promise.types),
            _promise(promise),
            _range(promise),
            _REMEMBERED[promise.from_memory],
        )
        for name, promises in PROMISES.items()
        for promise in promises
    ]
    return _table("classes", "Classes of tolerance", words, "Class|Types|±|Range|Seen in print", rows)


_REMEMBERED = {
    "": "yes",
    "lower end": "yes, but the lower end of the range",
    "range": "yes, but the ends of the range",
    "all": "no, from memory",
}
"""How a table says what of a class was seen."""


def _promise(promise: Promise) -> Markup:
    share = f"{100 * promise.share:g} %"
    step = temperature(promise.step_c, "temperature_step", 1)
    if promise.beyond_c:
        return Markup("{} and {} of what lies above {}").format(step, share, temperature(promise.beyond_c))
    return Markup("{} or {}, the larger").format(step, share) if promise.step_c else escape(share)


def _range(promise: Promise) -> Markup:
    return Markup("{} to {}").format(temperature(promise.low_c, bare=True), temperature(promise.high_c))


def _emissivities() -> Table:
    words = (
        "What handbooks print; they disagree, so ranges are kept. No value for wood ash or a slip, and none for "
        "fired clay at red heat between 8 and 14 µm, was found in print, so none is given."
    )
    rows: list[tuple[object, ...]] = [
        (one.material, f"{one.low:.2f}" if one.low == one.high else f"{one.low:.2f} to {one.high:.2f}", one.band,
         one.source)
        for one in EMISSIVITIES
    ]  # fmt: skip
    return _table("emissivities", "Emissivities", words, "Of|Emissivity|Over|Source", rows)


def _cones() -> Table:
    words = (
        "When cones go down in a kiln, by the rise over the last 100 °C. A fire that peaks within half an hour rises "
        "at 1,000 °C an hour and more, several times faster than the fastest column: there a cone tells which "
        f"fire did more, and is no thermometer. Source: {cones.SOURCE}. Other editions differ by up to 15 °C."
    )
    rows: list[tuple[object, ...]] = [
        (one.name, *(("–" if celsius is None else temperature(celsius)) for celsius in one[1:4]),
         "yes" if one.seen else "no, from memory")
        for one in CONES
    ]  # fmt: skip
    columns = "Cone|Large, 60 °C an hour|Large, 150 °C an hour|Small, 300 °C an hour|Seen in print"
    return _table("cones", "Witness cones", words, columns, rows)


def _glow() -> Table:
    least, most = glow.WORTH_C
    words = (
        "Two published scales of the colour of hot iron. They disagree on what a cherry red is by more than 100 °C, so "
        f"a temperature read from the glow is worth ± {least:.0f} to {most:.0f} °C."
    )
    rows: list[tuple[object, ...]] = [
        (shade.name, _span(shade.low_c, shade.high_c), scale.source) for scale in SCALES for shade in scale.shades
    ]
    return _table("glow", "Colours of the glow", words, "Colour|Temperature|Scale", rows)


def _span(low_c: float, high_c: float) -> Markup:
    if low_c == high_c:
        return temperature(low_c)
    return Markup("{} to {}").format(temperature(low_c, bare=True), temperature(high_c))


def _hardness() -> Table:
    words = (
        "What scratches a piece is harder than it, what does not is no harder. Mohs' scale is an order and no measure. "
        f"The minerals are the scale itself; the tools: {TOOLS_SOURCE}."
    )
    rows: list[tuple[object, ...]] = [
        (one.name, f"{one.low:g}" if one.low == one.high else f"{one.low:g} to {one.high:g}") for one in SCRATCHERS
    ]
    return _table("hardness", "Scratch hardness", words, "Scratched with|Mohs", rows)


def _advice() -> Table:
    words = (
        "Each rule with where it comes from. A rule only decides whether a line is printed; none ever says that "
        "something may be done."
    )
    kinds = {"stop": "reason to stop", "look": "reason to look again", "record": "worth writing down"}
    rows: list[tuple[object, ...]] = [
        (rule.name, kinds[rule.kind], _when(rule.words), BY_KEY[rule.caution].heading if rule.caution else "–",
         rule.source)
        for rule in RULES
    ]  # fmt: skip
    return _table("advice", "Rules of advice", words, "Rule|Kind|Applies|Caution|Source", rows)


def _limits() -> Table:
    words = (
        "Between which values an entry's numbers can lie, and mostly do: outside the first is an error, outside the "
    )
    rows: list[tuple[object, ...]] = [
        (path, " to ".join(one.possible), " to ".join(one.usual), one.reason, one.source)
        for path, one in limits.LIMITS.items()
    ]
    columns = "Field|Possible|Usual|Because|Source"
    return _table("limits", "Limits of an entry's values", f"{words}second a question.", columns, rows)


def _when(function: Callable[..., object]) -> str:
    """Give when a rule applies, in the words of its docstring."""
    return (function.__doc__ or "").removeprefix("Apply ").rstrip(".").capitalize()
