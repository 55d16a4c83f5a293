"""The working window of each method and each ware, from the archive's own firings."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from builder.archive.archive import Archive, Record
from builder.archive.window import Window, working_window
from builder.archive.window_curves import WindowFiring
from builder.ware.outcome import Verdict

NEEDS_HEAT = "carbon"
"""The outcome that needs heat: carbon burns off only when it is hot enough for long enough."""
DESTROYED_BY_HEAT = "paint"
"""The outcome that heat destroys: plant paint burns away."""
UNKNOWN_PEAK_SD_C = 15.0
"""Standard uncertainty of a peak of which no interval is known, °C: a rule, not a measurement."""


def windows_by_method(archive: Archive, level: float) -> Mapping[str, Window]:
    """Find the window of each method that has firings with a peak."""
    return _windows(archive.by_method(), level)


def windows_by_ware(archive: Archive, level: float) -> Mapping[str, Window]:
    """Find the window of each ware, over all methods that it was fired with."""
    by_ware: dict[str, list[Record]] = {}
    for record in archive.records:
        if record.firing.ware:
            by_ware.setdefault(record.firing.ware, []).append(record)
    return _windows(by_ware, level)


def _windows(groups: Mapping[str, Sequence[Record]], level: float) -> dict[str, Window]:
    told = {key: [one for one in map(told_by, records) if one is not None] for key, records in groups.items()}
    return {key: working_window(firings, level) for key, firings in told.items() if firings}


def told_by(record: Record) -> WindowFiring | None:
    """Return what one firing tells about the window; None without a peak, or with one known only as "at least"."""
    peak = record.heat.ware_figures.get("peak_c")
    if peak is None or peak.value is None or peak.at_least:
        return None
    known = peak.low is not None and peak.high is not None
    sd_c = ((peak.high or 0.0) - (peak.low or 0.0)) / 3.919928 if known else UNKNOWN_PEAK_SD_C
    return WindowFiring(peak.value, sd_c, _count(record, NEEDS_HEAT), _count(record, DESTROYED_BY_HEAT))


def _count(record: Record, outcome: str) -> tuple[int, int] | None:
    """Return pieces that came out well and pieces judged, by one outcome; None where none was judged."""
    verdicts = [(judged.by_outcome.get(outcome), judged.piece.count) for judged in record.pieces]
    good = sum(count for verdict, count in verdicts if verdict is Verdict.YES)
    bad = sum(count for verdict, count in verdicts if verdict is Verdict.NO)
    return (good, good + bad) if good + bad else None
