"""What a fault of the instrument means for each figure: the plain words that go beside it."""

from __future__ import annotations

from collections.abc import Sequence

from builder.readings.curve import Repair

_HEIGHT = frozenset({"peak_c", "time_to_peak_min", "short_c"})
_SPEED = frozenset({"fastest_rise_c_per_min", "heating_rate_c_per_min", "wall_lag_c"})
_LENGTH = frozenset({"soak_min", "window_min", "over_min", "over_c_min", "equivalent_1h_c"})
_FALL = frozenset({"cooling_rate_c_per_min", "quartz_fall_c_per_min"})
_ABOVE = "minutes_above_"


def fault_words(name: str, faults: Sequence[Repair]) -> str:
    """Say what the faults that one probe showed mean for the figure `name`; empty where they mean nothing for it."""
    if not faults:
        return ""
    told = (_words(name, kind, [fault for fault in faults if fault.kind == kind]) for kind in _KINDS)
    return " ".join(filter(None, told))


_KINDS = ("restless", "spike", "lone", "frozen", "pulled out")


def _words(name: str, kind: str, faults: list[Repair]) -> str:
    if not faults:
        return ""
    long = name in _LENGTH or name.startswith(_ABOVE)
    first = faults[0]
    if kind == "restless" and name in _HEIGHT | _SPEED | _LENGTH:
        return "The probe jumped about as a loose contact does: to be doubted."
    if kind == "spike" and name == "peak_c":
        many = len(faults) > 1
        return f"{len(faults):,} readings were left out as spikes." if many else "One reading was left out as a spike."
    if kind == "lone" and (name in _HEIGHT | _SPEED or name == "soak_min"):
        interval = " The interval reaches down to what the others say." if name == "peak_c" else ""
        return f"It stands on one reading, far above those beside it, at {_at(first.minute)}.{interval}"
    if kind == "frozen" and (long or name in _FALL):
        return f"The probe did not move from {_at(first.minute)} to {_at(first.until)} and may have stuck."
    if kind == "pulled out" and (long or name in _FALL):
        return f"The probe was probably drawn from the fire at {_at(first.minute)}: what follows is not the ware's."
    return ""


def _at(minute: float | None) -> str:
    """Write a minute from lighting."""
    return f"{minute or 0.0:.1f} min".replace("-", "−")
