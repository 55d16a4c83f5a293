"""A probe's readings as a curve: minutes from lighting, degrees, and what each is worth."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TypeAlias

import numpy as np
from numpy.typing import NDArray

from builder.checks.firing import Probe

Floats: TypeAlias = NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class Event:
    """Something that happened at the fire, at its minute from lighting."""

    minute: float
    words: str


@dataclass(frozen=True, slots=True)
class Repair:
    """A reading that was dropped, moved or doubted, and why: nothing is put right silently."""

    kind: str
    """Left out: `blank`, `not a number`, `no time`, `impossible`, `refused`, `spike`, `before lighting`, `no readings`.
    Put right: `out of order`, `doubled time`, `half seconds`. Doubted and kept: `topped out`, `frozen`, `pulled out`,
    `lone`, `restless`, `gap`."""
    words: str
    """One sentence for the entry's page."""
    minute: float | None = None
    as_read: str = ""
    probe: str = ""
    """Name of the probe whose reading it was; empty where it concerns the whole log."""
    celsius: float | None = None
    """The temperature of a reading that was left out as a spike, or is doubted, °C."""
    until: float | None = None
    """For a stretch of readings: the minute of its last."""


@dataclass(frozen=True, slots=True)
class CommonError:
    """An error that shifts all readings of a probe alike (calibration, emissivity): it does not average out."""

    name: str
    """What it is, for the page: `tolerance IEC 60584-1 class 2`, `emissivity 0.85 to 0.95`."""
    shape: str
    """`rectangular` or `normal`: how the one shared draw is spread."""
    down_c: Floats
    """Shape (n,): degrees by which each reading may be too high; half-width (rectangular) or standard uncertainty."""
    up_c: Floats
    """Shape (n,): degrees by which each reading may be too low. A normal error that is the same both ways may be below
    0 at some readings: it moves those against the others, as an error of a slope does."""

    @property
    def even(self) -> bool:
        """Whether it is the same both ways: such an error holds one array twice, and need be reckoned with once."""
        return self.up_c is self.down_c


@dataclass(frozen=True, slots=True)
class Curve:
    """One probe's curve, straight between readings."""

    probe: Probe
    minutes: Floats
    """Shape (n,), n ≥ 1: minutes from lighting the main fire, strictly increasing."""
    celsius: Floats
    """Shape (n,): best reckoning of the temperature at the probe, °C."""
    as_read: tuple[str, ...]
    """Each reading as it was written down."""
    unit: str
    """Unit of the readings as written."""
    remarks: tuple[str, ...]
    """Words beside each reading; empty where there were none."""
    common: tuple[CommonError, ...]
    """Errors shared by all readings."""
    own_sd_c: Floats
    """Shape (n,): standard uncertainty of each reading on its own (resolution, aim), °C."""
    at_least: bool = False
    """The probe topped out: the peak is a lower bound."""
    notes: tuple[str, ...] = ()
    """What the uncertainty takes in and what it leaves out, in sentences for the page."""


@dataclass(frozen=True, slots=True)
class FiringCurves:
    """All that was read at one firing."""

    curves: tuple[Curve, ...]
    """One a probe, in the order of the entry; a probe without one sound reading has none."""
    ware: int | None
    """Index of the curve that stands for the ware; None without readings."""
    events: tuple[Event, ...]
    repairs: tuple[Repair, ...]

    @property
    def ware_curve(self) -> Curve | None:
        """The curve that stands for the ware."""
        return None if self.ware is None else self.curves[self.ware]

    def faults_of(self, curve: Curve) -> tuple[Repair, ...]:
        """What was dropped or doubted of one curve's readings; a repair that names no probe is a lone probe's own."""
        lone = len(self.curves) == 1
        return tuple(one for one in self.repairs if one.probe == curve.probe.name or (lone and not one.probe))


NO_CURVES = FiringCurves((), None, (), ())
"""A firing whose temperature nobody wrote down."""
