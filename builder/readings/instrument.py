"""What a thermometer's numbers are worth: degrees Celsius, the errors they share, the error of each, and why."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from builder.checks.firing import Probe
from builder.readings import thermocouple
from builder.readings.calibration import calibration, cold_junction
from builder.readings.calibration_line import fitted
from builder.readings.curve import CommonError, Floats
from builder.readings.spot import AIM_SD_C, SPOT, Glance, glance
from builder.readings.uncertainty import rectangular_sd

STEP_C = {"°C": 1.0, "°F": 5.0 / 9.0}
"""Smallest step of a display where none is recorded, °C: one degree of its unit."""
STEP_MV = 0.01
"""Smallest step of a meter in millivolts where none is recorded: common practice, no source."""

Refusals = tuple[tuple[int, str], ...]


@dataclass(frozen=True, slots=True)
class Instrumented:
    """A probe's values as temperatures, with what they are worth."""

    celsius: Floats
    """Shape (n,), °C; NaN where refused."""
    common: tuple[CommonError, ...]
    """Errors that all readings share."""
    own_sd_c: Floats
    """Shape (n,): standard uncertainty of each reading on its own, °C."""
    at_least: bool
    """A reading stands at the highest that the thermometer can show."""
    notes: tuple[str, ...]
    """What the uncertainty takes in and what it leaves out, in sentences for the page."""
    refused: Refusals
    """Index of each reading that stands for no temperature, and why in plain words."""


def temperatures(probe: Probe, values: Floats, unit: str) -> Instrumented:
    """Make a probe's `values`, shape (n,), in `unit` (°C, °F or mV) into temperatures with what they are worth.

    A potter's own calibration is applied first. Errors are worked out for what the thermometer showed; where a spot
    thermometer is put right for emissivity, they grow by as much as the correction stretches a degree.
    """
    read_c, unreadable = _shown(probe, np.asarray(values, dtype=np.float64), unit)
    line = fitted(probe.calibrated) if probe.calibrated else None
    shown_c = read_c if line is None else read_c + line.correction_c(read_c)
    seen = glance(probe, shown_c) if probe.instrument == SPOT else Glance.as_shown(shown_c)
    errors, calibration_notes = calibration(probe, read_c, line)
    junction, junction_notes = cold_junction(probe, shown_c) if unit == "mV" else ((), ())
    step_c = _step_c(probe, shown_c, unit)
    topped_out, limit_notes = _topped_out(probe, read_c, step_c)
    return Instrumented(
        celsius=seen.celsius,
        common=(*(_stretched(error, seen.gain) for error in (*errors, *junction)), *seen.errors),
        own_sd_c=_own_sd_c(probe, step_c) * seen.gain,
        at_least=topped_out,
        notes=(*calibration_notes, *junction_notes, *seen.notes, *limit_notes),
        refused=tuple(sorted((*unreadable, *seen.refused))),
    )


def _shown(probe: Probe, values: Floats, unit: str) -> tuple[Floats, Refusals]:
    """Give what the thermometer showed in °C, and the millivolts that stand for no temperature."""
    if unit == "°C":
        return values, ()
    if unit == "°F":
        return (values - 32.0) / 1.8, ()
    if probe.type is None or probe.cold_junction is None:
        missing = "the letter of the type" if probe.type is None else "the temperature of the meter's terminals"
        return np.full_like(values, np.nan), _refuse(~np.isnan(values), values, f"stands for nothing without {missing}")
    celsius = thermocouple.temperature_c(values, probe.type, probe.cold_junction.canonical)
    low, high = thermocouple.range_c(probe.type)
    words = f"is not what type {probe.type} gives anywhere between {low:.0f} and {high:.0f} °C"
    return celsius, _refuse(np.isnan(celsius) & ~np.isnan(values), values, words)


def _refuse(which: np.ndarray, values: Floats, words: str) -> Refusals:
    """Name the readings in millivolts that stand for no temperature."""
    return tuple((int(index), f"{values[index]:g} mV {words}") for index in np.flatnonzero(which))


def _step_c(probe: Probe, shown_c: Floats, unit: str) -> Floats:
    """Give the smallest step between two readings, shape (n,), °C."""
    if probe.resolution is not None:
        return np.full_like(shown_c, probe.resolution.canonical)
    if unit == "mV":
        slope = thermocouple.seebeck_mv_per_c(shown_c, probe.type) if probe.type else np.full_like(shown_c, np.nan)
        return np.nan_to_num(STEP_MV / slope)
    return np.full_like(shown_c, STEP_C[unit])


def _own_sd_c(probe: Probe, step_c: Floats) -> Floats:
    """Give the standard uncertainty of each reading on its own, °C: half a step either way, and the aim."""
    aim_sd_c = AIM_SD_C if probe.instrument == SPOT else 0.0
    return np.hypot(rectangular_sd(step_c / 2.0), aim_sd_c)


def _topped_out(probe: Probe, shown_c: Floats, step_c: Floats) -> tuple[bool, tuple[str, ...]]:
    """Tell whether a reading came within a step of the highest that the thermometer can show."""
    if probe.limit is None or not np.any(shown_c > probe.limit.canonical - step_c):
        return False, ()
    return True, (
        f"The thermometer can show no more than {probe.limit.raw}, and it got there: the fire was at least so hot.",
    )


def _stretched(error: CommonError, gain: Floats) -> CommonError:
    """Carry an error of what was shown over to the temperature that it stands for."""
    down_c = error.down_c * gain
    return CommonError(error.name, error.shape, down_c, down_c if error.even else error.up_c * gain)
