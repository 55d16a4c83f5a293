"""One probe's column of a table to its curve, with a word for everything that was dropped, merged or doubted."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from builder.readings import clean
from builder.readings.curve import Curve, Floats, Repair
from builder.readings.doubts import doubts, in_minutes
from builder.readings.instrument import Instrumented, temperatures
from builder.readings.table import Column

MOST_REFUSALS_TOLD = 5
"""So many refused readings are told one by one; more are counted."""


@dataclass(frozen=True, slots=True)
class _Track:
    """One probe's readings that hold a number, in order of time."""

    minutes: Floats
    values: Floats
    as_read: tuple[str, ...]
    remarks: tuple[str, ...]

    def kept(self, which: NDArray[np.bool_]) -> _Track:
        index = np.flatnonzero(which)
        return _Track(self.minutes[index], self.values[index], _at(self.as_read, index), _at(self.remarks, index))


def _at(texts: Sequence[str], index: NDArray[np.intp]) -> tuple[str, ...]:
    return tuple(texts[number] for number in index.tolist())


def probe_curve(
    column: Column, minutes: Floats, index: NDArray[np.intp], remarks: Sequence[str]
) -> tuple[Curve | None, list[Repair]]:
    """Make one column a curve, or nothing where it holds no sound reading, and say what was done to it."""
    name = column.probe.name
    sound = index[~np.isnan(column.values[index]) & (minutes[index] >= 0)]
    track = _Track(minutes[sound], column.values[sound], _at(column.as_read, sound), _at(remarks, sound))
    track, repairs = _without_doubles(track, name)
    instrumented = _seen(column, track)
    if instrumented is not None and instrumented.refused:
        track, told = _without_refused(track, dict(instrumented.refused), name)
        repairs.extend(told)
        instrumented = _seen(column, track)
    if instrumented is not None:
        sound_track, told = _without_spikes(track, instrumented.celsius, name)
        repairs.extend(told)
        if sound_track is not track:
            track, instrumented = sound_track, _seen(column, sound_track)
    if instrumented is None:
        repairs.append(Repair("no readings", f"{name} has no sound reading after lighting, and so no curve."))
        return None, repairs
    curve = Curve(
        column.probe, track.minutes, instrumented.celsius, track.as_read, column.unit, track.remarks,
        instrumented.common, instrumented.own_sd_c, instrumented.at_least, instrumented.notes,
    )  # fmt: skip
    found = doubts(curve)
    at_least = any(doubt.kind == "topped out" for doubt in found)
    return replace(curve, at_least=at_least), [*repairs, *found]


def _seen(column: Column, track: _Track) -> Instrumented | None:
    return temperatures(column.probe, track.values, column.unit) if track.minutes.size else None


def _without_refused(track: _Track, why: dict[int, str], name: str) -> tuple[_Track, list[Repair]]:
    """Leave out the readings for which the instrument knows no temperature."""
    keep = np.ones(track.minutes.size, dtype=bool)
    keep[list(why)] = False
    if len(why) > MOST_REFUSALS_TOLD:
        first = min(why)
        words = f"{name}: {len(why):,} readings stand for no temperature and were left out. The first: {why[first]}."
        return track.kept(keep), [Repair("refused", words, float(track.minutes[first]), track.as_read[first], name)]
    told = [
        Repair("refused", f"{name}: {words}.", float(track.minutes[index]), track.as_read[index], name)
        for index, words in why.items()
    ]
    return track.kept(keep), told


def _without_spikes(track: _Track, celsius: Floats, name: str) -> tuple[_Track, list[Repair]]:
    """Leave out the readings that no thermometer can have shown."""
    spiked = clean.spikes(track.minutes, celsius)
    if not spiked.any():
        return track, []
    if clean.restless(spiked):
        count = int(np.count_nonzero(spiked))
        words = f"{name}: {count:,} readings jump there and back faster than a thermometer can; so many that none was "
        return track, [Repair("restless", words + "dropped, and the curve is to be doubted.", probe=name)]
    told = [
        Repair(
            "spike",
            f"{name}: `{track.as_read[index]}` at {in_minutes(track.minutes[index])} is a jump there and back that "
            "no thermometer can follow, as when a contact opens; it was dropped.",
            float(track.minutes[index]),
            track.as_read[index],
            name,
            float(celsius[index]),
        )
        for index in np.flatnonzero(spiked).tolist()
    ]
    return track.kept(~spiked), told


def _without_doubles(track: _Track, name: str) -> tuple[_Track, list[Repair]]:
    """Make of several readings at one moment a single one, their mean, and say so."""
    found = clean.doubles(track.minutes)
    if not found:
        return track, []
    values, as_read, remarks = track.values.copy(), list(track.as_read), list(track.remarks)
    keep = np.ones(values.size, dtype=bool)
    differing: list[int] = []
    for run in found:
        stretch = slice(run.first, run.last + 1)
        written = list(dict.fromkeys(as_read[stretch]))
        values[run.first] = track.values[stretch].mean()
        as_read[run.first] = " / ".join(written)
        remarks[run.first] = "; ".join(filter(None, dict.fromkeys(remarks[stretch])))
        keep[run.first + 1 : run.last + 1] = False
        if np.ptp(track.values[stretch]) > 0:
            differing.append(run.first)
    words = f"{name}: {_moments(len(found))} with more than one reading; "
    words += "all the same." if not differing else f"{len(differing):,} of them differ, and their mean was taken."
    first = differing[0] if differing else found[0].first
    merged = _Track(track.minutes, values, tuple(as_read), tuple(remarks)).kept(keep)
    return merged, [Repair("doubled time", words, float(track.minutes[first]), as_read[first])]


def _moments(count: int) -> str:
    return "one moment" if count == 1 else f"{count:,} moments"
