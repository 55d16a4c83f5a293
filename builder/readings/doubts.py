"""What looks odd about a curve and was kept: the end of a scale, a stuck probe, one drawn from the fire, a gap."""

from __future__ import annotations

from collections.abc import Iterator

from builder.readings import clean
from builder.readings.clean import Run
from builder.readings.curve import Curve, Repair


def doubts(curve: Curve) -> list[Repair]:
    """Say what is to be doubted about a curve, a word for each."""
    return [*_top(curve), *_stuck(curve), *_drawn(curve), *_alone(curve), *_gap(curve)]


def in_minutes(minute: float) -> str:
    """Write a minute from lighting as repairs name it."""
    return f"{minute:.1f} min".replace("-", "−")


def _doubt(curve: Curve, kind: str, run: Run, words: str) -> Repair:
    """Make a doubt about a reading, or about a stretch of them."""
    first, last = run.first, run.last
    until = float(curve.minutes[last]) if last > first else None
    told = f"{curve.probe.name}: {words}"
    minute, celsius = float(curve.minutes[first]), float(curve.celsius[first])
    return Repair(kind, told, minute, curve.as_read[first], curve.probe.name, celsius, until)


def _at(curve: Curve, index: int) -> str:
    return in_minutes(float(curve.minutes[index]))


def _top(curve: Curve) -> Iterator[Repair]:
    if curve.at_least:
        top = int(curve.celsius.argmax())
        words = "the thermometer came to its limit; the fire was at least so hot."
        yield _doubt(curve, "topped out", Run(top, top), words)
    run = clean.topped_out(curve.minutes, curve.celsius) if curve.probe.limit is None else None
    if run is not None:
        times, since = run.last - run.first + 1, _at(curve, run.first)
        words = f"the highest reading stands {times} times in a row from {since}; the scale may have ended there, so "
        yield _doubt(curve, "topped out", run, f"{words}the fire was at least so hot.")


def _stuck(curve: Curve) -> Iterator[Repair]:
    for run in clean.frozen(curve.minutes, curve.celsius):
        stretch = f"from {_at(curve, run.first)} to {_at(curve, run.last)}"
        words = f"the reading did not move {stretch}; the probe may have stuck. The readings were kept."
        yield _doubt(curve, "frozen", run, words)


def _drawn(curve: Curve) -> Iterator[Repair]:
    index = clean.pulled_out(curve.minutes, curve.celsius)
    if index is not None:
        words = f"the fall at {_at(curve, index)} is too fast for ware; the probe was probably drawn from the fire. "
        yield _doubt(curve, "pulled out", Run(index, index), f"{words}The readings were kept.")


def _alone(curve: Curve) -> Iterator[Repair]:
    index = clean.lone(curve.minutes, curve.celsius)
    if index is None or index != int(curve.celsius.argmax()):
        return
    off_c = curve.celsius[index] - max(curve.celsius[index - 1], curve.celsius[index + 1])
    words = (
        f"the hottest reading, at {_at(curve, index)}, stands {off_c:.0f} °C above both readings beside it: a flame "
        "that touched the probe, perhaps, or a loose contact. It was kept."
    )
    yield _doubt(curve, "lone", Run(index, index), words)


def _gap(curve: Curve) -> Iterator[Repair]:
    gap = clean.largest_gap(curve.minutes)
    if gap is not None:
        index, minutes = gap
        words = f"nothing was read for {minutes:.1f} min after {_at(curve, index)}."
        yield _doubt(curve, "gap", Run(index, index + 1), words)
