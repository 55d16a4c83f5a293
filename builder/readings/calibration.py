"""How far a thermometer may be off as a whole: its class, its maker's ±, or an allowance for not knowing."""

from __future__ import annotations

import numpy as np

from builder.checks.firing import Probe
from builder.readings import thermocouple
from builder.readings.calibration_line import Line
from builder.readings.curve import CommonError, Floats
from builder.readings.tolerance import CLASS_NAMES, REMEMBERED, promise_of, tolerance_c

UNKNOWN_SD_C = 15.0
"""Standard uncertainty of a thermometer of which nothing is recorded, °C: a rule of this archive, not a measurement.
The working window takes the same where a peak's own uncertainty is unknown."""
COLD_JUNCTION_HALF_RANGE_C = 1.0
"""How well the temperature of a meter's terminals is known where no range is written: common practice, no source."""
ORDERING_C = (250.0, 550.0)
"""Where the wire of type K shifts with time by short-range ordering, °C: a maker's technical note."""

Errors = tuple[CommonError, ...]
Notes = tuple[str, ...]


def calibration(probe: Probe, shown_c: Floats, line: Line | None = None) -> tuple[Errors, Notes]:
    """Give the errors of a probe's calibration where it showed `shown_c` [°C], and in words where each comes from.

    A class and a maker's ± are half-widths of a rectangle (JCGM 100:2008, 4.3.7); where neither covers a reading,
    the archive's allowance does. The potter's own `line` takes their place between its points; beyond them, and all
    over for a single point, they stay in beside it.
    """
    wire, wire_notes = _by_class(probe, shown_c)
    maker, maker_notes = _by_maker(probe, shown_c)
    allowance = np.where(wire + maker == 0.0, UNKNOWN_SD_C, 0.0)
    own, own_notes, beyond = _by_potter(line, shown_c)
    errors = (
        CommonError(f"tolerance {CLASS_NAMES.get(probe.tolerance or '', '')}", "rectangular", *_both(wire * beyond)),
        CommonError("the maker's accuracy", "rectangular", *_both(maker * beyond)),
        CommonError("accuracy not recorded", "normal", *_both(allowance * beyond)),
        *own,
    )
    kept = tuple(error for error in errors if error.up_c.any())
    left = allowance * beyond
    allowance_notes = (_allowance_words(bool(left.all())),) if left.any() else ()
    promised = (*wire_notes, *maker_notes) if beyond.any() else ()
    return kept, (*own_notes, *promised, *allowance_notes, *_wire_habits(probe, shown_c))


def _both(width: Floats) -> tuple[Floats, Floats]:
    return width, width


def _by_potter(line: Line | None, shown_c: Floats) -> tuple[Errors, Notes, Floats]:
    """Give what the potter's calibration leaves open, its words, and 1 for each reading beyond its points, else 0."""
    if line is None:
        return (), (), np.ones_like(shown_c)
    if not line.slope_sd:
        words = (
            f"Put right by the potter's own check at {line.middle_c:.0f} °C: {_signed(line.height_c)} °C for every "
            "reading. One point tells nothing of how the error grows, so what else is known of the probe stays in."
        )
        return line.errors(shown_c), (words,), np.ones_like(shown_c)
    beyond = np.where((shown_c < line.low_c) | (shown_c > line.high_c), 1.0, 0.0)
    ends = [float(line.correction_c(end)) for end in (line.low_c, line.high_c)]
    words = (
        f"Put right by the potter's own calibration, a straight line: {_signed(ends[0])} °C at {line.low_c:.0f} °C and "
        f"{_signed(ends[1])} °C at {line.high_c:.0f} °C shown (JCGM 100:2008, H.3). Its height and its slope are in "
        "the intervals."
    )
    if not beyond.any():
        return line.errors(shown_c), (words,), beyond
    on = "Beyond its points the line is drawn on, and what else is known of the probe stays in there."
    return line.errors(shown_c), (words, on), beyond


def _signed(degrees: float) -> str:
    return f"{degrees:+.1f}".replace("-", "−")


def cold_junction(probe: Probe, shown_c: Floats) -> tuple[Errors, Notes]:
    """Give the error that the temperature of the meter's terminals brings into readings in millivolts.

    A degree at the terminals is worth S(t_junction)/S(t) degrees at the tip, S the slope of the reference function.
    """
    if probe.cold_junction is None or probe.type is None:
        return (), ()
    junction = probe.cold_junction
    half = (junction.high - junction.low) / 2.0 or COLD_JUNCTION_HALF_RANGE_C
    slope = thermocouple.seebeck_mv_per_c(junction.canonical, probe.type)
    width = np.nan_to_num(half * np.abs(slope / thermocouple.seebeck_mv_per_c(shown_c, probe.type)))
    note = f"The meter's terminals were at {junction.raw}, taken as known to {half:g} °C either way."
    return (CommonError("temperature of the meter's terminals", "rectangular", width, width),), (note,)


def _by_class(probe: Probe, shown_c: Floats) -> tuple[Floats, Notes]:
    """Give the half-width that the probe's class promises, 0 where it promises nothing."""
    nothing = np.zeros_like(shown_c)
    if probe.tolerance is None:
        return nothing, ()
    name = CLASS_NAMES[probe.tolerance]
    if probe.type is None:
        return nothing, (f"{name} says nothing without the letter of the thermocouple's type.",)
    width = np.nan_to_num(tolerance_c(shown_c, probe.type, probe.tolerance))
    if not width.any():
        return nothing, (f"{name} promises nothing for type {probe.type} at these temperatures.",)
    promised = (
        f"Taken in: the tolerance of {name} for type {probe.type}, {width.max():.1f} °C either way at the widest. "
        "It is promised for new wire only; drift in use is not in it (Webster 2021, Meas. Sci. Technol. 32:085007)."
    )
    promise = promise_of(probe.type, probe.tolerance)
    if promise is not None and promise.from_memory in REMEMBERED:
        promised = f"{promised} {REMEMBERED[promise.from_memory]}"
    if width.all():
        return width, (promised,)
    return width, (promised, f"Some readings lie outside the range of {name}, where it promises nothing.")


def _by_maker(probe: Probe, shown_c: Floats) -> tuple[Floats, Notes]:
    """Give the half-width that the maker states: the larger of its degrees and its share."""
    stated = [part.raw for part in (probe.accuracy, probe.accuracy_share) if part is not None]
    if not stated:
        return np.zeros_like(shown_c), ()
    step_c = probe.accuracy.canonical if probe.accuracy else 0.0
    share = probe.accuracy_share.canonical / 100.0 if probe.accuracy_share else 0.0
    width = np.nan_to_num(np.maximum(step_c, share * np.abs(shown_c)))
    larger = ", whichever is more" if len(stated) == 2 else ""
    return width, (f"Taken in: the maker's accuracy, {' or '.join(stated)} either way{larger}.",)


def _allowance_words(everywhere: bool) -> str:
    """Say in words that the archive's allowance stands in for what is not known."""
    which = "How far this thermometer may be off is" if everywhere else "For some readings how far it may be off is"
    return (
        f"{which} not recorded: a standard uncertainty of {UNKNOWN_SD_C:.0f} °C is allowed for it, a rule of this "
        "archive and not a measurement."
    )


def _wire_habits(probe: Probe, shown_c: Floats) -> Notes:
    """Say what a thermocouple does in a fire that no class and no maker's ± covers."""
    if probe.instrument != "thermocouple":
        return ()
    low, high = ORDERING_C
    lag = (
        "Not taken in: how far the tip lags a fast rise. At 60 °C a minute each second of its time constant is 1 °C.",
    )
    if probe.type != "K" or not np.any((shown_c >= low) & (shown_c <= high)):
        return lag
    return (
        *lag,
        f"Not taken in: between {low:.0f} and {high:.0f} °C the wire of type K reads higher with time, by about 1 °C "
        "after minutes and 4 °C after hours (short-range ordering; a maker's technical note).",
    )
