"""A glance with a spot thermometer: put right for emissivity where that can be done, and what it is worth."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from builder.base.quantity import Quantity
from builder.checks.firing import Probe
from builder.readings.curve import CommonError, Floats
from builder.readings.emissivity import ware_range
from builder.readings.infrared import band_slope, true_temperature_c

SPOT = "spot thermometer"
"""The word of the entry's field `instrument`."""
AIM_SD_C = 5.0
"""How far the same spot, aimed at twice, differs, °C: common practice, no source."""
EMISSIVITY_HALF_RANGE = 0.05
"""How well an emissivity written as one number is known: common practice, no source; handbooks differ by more."""
ASSUMED_BACKGROUND_C = 20.0
"""Surroundings that a spot thermometer takes for granted, °C: common practice, no source."""
USUAL_SETTING = 0.95
"""Emissivity that such thermometers are mostly set to; used only to say in words what an error of it weighs."""

_FLAME = "Not taken in: flame, smoke and steam between the thermometer and the ware."


@dataclass(frozen=True, slots=True)
class Glance:
    """What a thermometer's readings say of the ware."""

    celsius: Floats
    """Shape (n,), °C; NaN where there is no solution."""
    gain: Floats
    """Shape (n,): degrees of the ware for each degree shown."""
    errors: tuple[CommonError, ...]
    """What emissivity and surroundings add to the errors."""
    notes: tuple[str, ...]
    refused: tuple[tuple[int, str], ...]

    @classmethod
    def as_shown(cls, shown_c: Floats, errors: tuple[CommonError, ...] = (), notes: tuple[str, ...] = ()) -> Glance:
        """Take the readings as the thermometer showed them."""
        return cls(shown_c, np.ones_like(shown_c), errors, notes, ())


def glance(probe: Probe, shown_c: Floats) -> Glance:
    """Put the readings of a spot thermometer, shape (n,) [°C], right for the emissivity of the ware.

    That takes both the emissivity it was set to and the ware's own; without them the readings stand as shown, and what
    handbooks give for such ware is an error that all readings share. An emissivity or a background written as a range
    gives such an error too, lopsided as it comes.
    """
    if probe.emissivity_set is None or probe.emissivity is None:
        return _unknown_emissivity(probe, shown_c)
    setting = probe.emissivity_set.canonical
    low, middle, high = _emissivity_range(probe.emissivity)
    cool, around, hot = _background_range(probe.background)

    def ware_c(read_c: Floats, emissivity: float, background_c: float) -> Floats:
        return true_temperature_c(read_c, setting, emissivity, background_c, ASSUMED_BACKGROUND_C)

    best = ware_c(shown_c, middle, around)
    by_emissivity = ware_c(shown_c, high, around), ware_c(shown_c, low, around)
    by_background = (ware_c(shown_c, middle, hot), ware_c(shown_c, middle, cool)) if cool < hot else (best, best)
    unsolved = np.isnan(np.sum((best, *by_emissivity, *by_background), axis=0)) & ~np.isnan(shown_c)
    celsius = np.where(unsolved, np.nan, best)
    errors = (
        _either_way(f"emissivity {low:.2f} to {high:.2f}", celsius, *by_emissivity),
        _either_way(f"surroundings of {cool:.0f} to {hot:.0f} °C", celsius, *by_background),
    )
    return Glance(
        celsius=celsius,
        gain=np.nan_to_num(setting * band_slope(shown_c) / (middle * band_slope(celsius))),
        errors=tuple(error for error in errors if error.up_c.any() or error.down_c.any()),
        notes=(*_correction_words(probe, shown_c, celsius, (low, high), by_emissivity), _FLAME),
        refused=_no_solution(unsolved, shown_c, low, hot),
    )


def _unknown_emissivity(probe: Probe, shown_c: Floats) -> Glance:
    """Leave the readings as shown, with the error that an emissivity anywhere in the handbooks' range would make."""
    low, high = ware_range() if probe.emissivity is None else _emissivity_range(probe.emissivity)[::2]
    setting = probe.emissivity_set.canonical if probe.emissivity_set else USUAL_SETTING

    def ware_c(emissivity: float) -> Floats:
        return true_temperature_c(shown_c, setting, emissivity, ASSUMED_BACKGROUND_C, ASSUMED_BACKGROUND_C)

    missing = "not recorded" if probe.emissivity is None else "the setting not recorded"
    error = _either_way(f"emissivity {low:.2f} to {high:.2f}, {missing}", shown_c, ware_c(high), ware_c(low))
    return Glance.as_shown(shown_c, (error,), (_unknown_emissivity_words(probe, shown_c, error), _FLAME))


def effect_c(shown_c: float, setting: float = USUAL_SETTING, change: float = EMISSIVITY_HALF_RANGE) -> float:
    """Give the degrees that an emissivity lower by `change` than the `setting` is worth where `shown_c` was read.

    >>> round(effect_c(800.0))
    32
    """
    return (
        float(true_temperature_c(shown_c, setting, setting - change, ASSUMED_BACKGROUND_C, ASSUMED_BACKGROUND_C))
        - shown_c
    )


def _emissivity_range(emissivity: Quantity) -> tuple[float, float, float]:
    """Give an emissivity's low end, best value and high end; one number is known to ± 0.05."""
    if emissivity.low < emissivity.high:
        return emissivity.low, emissivity.canonical, emissivity.high
    value = emissivity.canonical
    return value - min(EMISSIVITY_HALF_RANGE, value / 2.0), value, min(value + EMISSIVITY_HALF_RANGE, 1.0)


def _background_range(background: Quantity | None) -> tuple[float, float, float]:
    """Give how hot the mirrored surroundings were: low end, best value, high end, °C."""
    if background is None:
        return ASSUMED_BACKGROUND_C, ASSUMED_BACKGROUND_C, ASSUMED_BACKGROUND_C
    return background.low, background.canonical, background.high


def _either_way(name: str, best: Floats, one: Floats, other: Floats) -> CommonError:
    """Make an error of the two ends of what is known, whichever of them is the hotter."""
    down = np.nan_to_num(best - np.minimum(one, other))
    up = np.nan_to_num(np.maximum(one, other) - best)
    return CommonError(name, "rectangular", np.maximum(down, 0.0), np.maximum(up, 0.0))


def _no_solution(unsolved: np.ndarray, shown_c: Floats, low: float, hot: float) -> tuple[tuple[int, str], ...]:
    """Say of each reading without a solution why it has none."""
    return tuple(
        (
            int(index),
            f"{shown_c[index]:.0f} °C cannot come from the ware: at an emissivity of {low:.2f} the mirrored "
            f"surroundings of {hot:.0f} °C alone would show more",
        )
        for index in np.flatnonzero(unsolved)
    )


def _correction_words(
    probe: Probe, shown_c: Floats, celsius: Floats, emissivity: tuple[float, float], ends: tuple[Floats, Floats]
) -> tuple[str, ...]:
    """Say what the correction for emissivity did and may be wrong by, and what the surroundings were taken for.

    `ends` are the ware's temperatures at the high and at the low end of the `emissivity`, °C.
    """
    low, high = emissivity
    surroundings = probe.background.raw if probe.background else f"{ASSUMED_BACKGROUND_C:.0f} °C (not recorded)"
    if np.isnan(celsius).all():
        return ()
    top = int(np.nanargmax(celsius))
    setting = probe.emissivity_set.raw if probe.emissivity_set else ""
    return (
        f"Put right for emissivity: set to {setting}, the ware's taken as {low:.2f} to {high:.2f}, so that "
        f"{shown_c[top]:.0f} °C shown stands for {celsius[top]:.0f} °C (Planck's law from 8 to 14 µm). At {high:.2f} "
        f"it would be {celsius[top] - ends[0][top]:.0f} °C less, at {low:.2f} "
        f"{ends[1][top] - celsius[top]:.0f} °C more; the intervals take this in.",
        f"The surroundings mirrored in the ware are taken as {surroundings}; hotter ones make the reading too high.",
    )


def _unknown_emissivity_words(probe: Probe, shown_c: Floats, error: CommonError) -> str:
    """Say what it may cost that the emissivity was not written down."""
    low, high = ware_range()
    missing = "The emissivity it was set to" if probe.emissivity_set is None else "The ware's emissivity"
    words = (
        f"{missing} is not recorded, so the readings stand as shown; handbooks give {low:.2f} to {high:.2f} for "
        "such ware, and the intervals take that in."
    )
    if np.isnan(shown_c).all():
        return words
    setting = probe.emissivity_set.canonical if probe.emissivity_set else USUAL_SETTING
    top = int(np.nanargmax(shown_c))
    read_c = float(shown_c[top])
    return (
        f"{words} At {read_c:.0f} °C shown an emissivity lower than the setting by {EMISSIVITY_HALF_RANGE:g} means "
        f"{effect_c(read_c, setting):.0f} °C more; the whole range means up to {error.up_c[top]:.0f} °C more"
        + (f" or {error.down_c[top]:.0f} °C less." if error.down_c[top] >= 0.5 else ".")
    )
