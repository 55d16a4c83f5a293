"""The working window of each method and each ware, from the archive's own firings."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from builder.archive.archive import Archive, Record
from builder.archive.window import Window, working_window
from builder.archive.window_curves import WindowFiring
from builder.heat.figures import Figure
from builder.settings import Method, Settings
from builder.ware.outcome import Verdict

NEEDS_HEAT = "carbon"
"""The outcome that needs heat: carbon burns off only when it is hot enough for long enough."""
DESTROYED_BY_HEAT = "paint"
"""The outcome that heat destroys: plant paint burns away."""
KEPT_CARBON = "black"
"""Where this word counts as success, carbon is to stay: then the outcome does not need heat."""
UNKNOWN_PEAK_SD_C = 15.0
"""Standard uncertainty of a peak of which no interval is known, °C: a rule, not a measurement."""
PEAK = "peak_c"


@dataclass(frozen=True, slots=True)
class WindowQuestion:
    """What the window of some firings is found from, and nothing else."""

    told: tuple[WindowFiring, ...]
    level: float
    """The chance above which a temperature counts as inside."""

    @property
    def seen(self) -> object:
        """All of it."""
        return self.told, self.level

    def answer(self) -> Window:
        """Find the window."""
        return working_window(self.told, self.level)


def looked_for(method: Method) -> bool:
    """Tell whether a method counts both an outcome that needs heat and one that heat destroys.

    >>> looked_for(Method("a", "A", "pit", "", {"carbon": ("cleared",), "paint": ("held",)}))
    True
    >>> looked_for(Method("a", "A", "pit", "", {"carbon": ("black",), "paint": ("held",)}))
    False
    """
    carbon = method.success.get(NEEDS_HEAT, ())
    return bool(carbon) and KEPT_CARBON not in carbon and DESTROYED_BY_HEAT in method.success


def windows_by_method(archive: Archive, settings: Settings) -> Mapping[str, Window]:
    """Find the window of each method that has firings and counts both kinds of outcome."""
    return {key: asked.answer() for key, asked in method_windows(archive, settings).items()}


def windows_by_ware(archive: Archive, settings: Settings) -> Mapping[str, Window]:
    """Find the window of each ware, by its name as first written, over all methods that count both outcomes."""
    return {ware: asked.answer() for ware, asked in ware_windows(archive, settings).items()}


def method_windows(archive: Archive, settings: Settings) -> Mapping[str, WindowQuestion]:
    """Return what the window of each method is found from."""
    groups = {key: records for key, records in archive.by_method().items() if looked_for(settings.methods[key])}
    return {key: _asked(records, settings.window_level) for key, records in groups.items()}


def ware_windows(archive: Archive, settings: Settings) -> Mapping[str, WindowQuestion]:
    """Return what the window of each ware is found from."""
    by_ware: dict[str, tuple[str, list[Record]]] = {}
    for record in archive.records:
        ware = record.firing.ware
        if ware and looked_for(settings.methods[record.firing.method]):
            by_ware.setdefault(ware.casefold(), (ware, []))[1].append(record)
    return {ware: _asked(records, settings.window_level) for ware, records in by_ware.values()}


def _asked(records: Sequence[Record], level: float) -> WindowQuestion:
    """Firings without a peak, or with one known only as "at least", tell nothing."""
    return WindowQuestion(tuple(one for one in (told_by(record) for record in records) if one is not None), level)


def told_by(record: Record, figure: str = PEAK, unknown_sd: float = UNKNOWN_PEAK_SD_C) -> WindowFiring | None:
    """Return what one firing tells about the window along a figure of its heat; None where that is not known."""
    heat = record.figure(figure)
    if heat is None or heat.value is None or heat.at_least:
        return None
    return WindowFiring(
        heat.value, _sd(heat, unknown_sd), outcome_count(record, NEEDS_HEAT), outcome_count(record, DESTROYED_BY_HEAT)
    )


def _sd(figure: Figure, unknown: float) -> float:
    """The standard uncertainty that a 95 % interval stands for: its width over 2 · 1.96."""
    if figure.low is None or figure.high is None:
        return unknown
    return (figure.high - figure.low) / 3.919928


def outcome_count(record: Record, outcome: str) -> tuple[int, int] | None:
    """Return pieces that came out well and pieces judged, by one outcome; None where none was judged."""
    verdicts = [(judged.by_outcome.get(outcome), judged.piece.count) for judged in record.pieces]
    good = sum(count for verdict, count in verdicts if verdict is Verdict.YES)
    bad = sum(count for verdict, count in verdicts if verdict is Verdict.NO)
    return (good, good + bad) if good + bad else None
