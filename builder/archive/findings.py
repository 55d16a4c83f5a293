"""What the firings say together, beyond their rates: windows, differences, what goes with success, likeness."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from builder.archive.archive import Archive
from builder.archive.conditions import Tried, try_conditions
from builder.archive.differences import Difference, differences
from builder.archive.likeness import Alike, most_alike
from builder.archive.traits import traits, trials
from builder.archive.window import Window
from builder.archive.windows import windows_by_method, windows_by_ware
from builder.settings import Settings


@dataclass(frozen=True, slots=True)
class Findings:
    """All of it."""

    windows: Mapping[str, Window]
    """By method."""
    ware_windows: Mapping[str, Window]
    """By ware, over all methods."""
    differences: tuple[Difference, ...]
    """Each pair of methods, over all success."""
    tried: tuple[Tried, ...]
    """Every condition that was tried against success, found or not."""
    alike: tuple[tuple[Alike, ...], ...]
    """For each record of the archive, in its order, the firings most like it."""


def find_out(archive: Archive, settings: Settings) -> Findings:
    """Work out what all firings say together."""
    rates = [rate for rate in archive.rates if rate.outcome == "success" and rate.method in settings.methods]
    return Findings(
        windows_by_method(archive, settings.window_level),
        windows_by_ware(archive, settings.window_level),
        differences(rates),
        try_conditions(trials(archive.records)),
        most_alike([traits(record) for record in archive.records]),
    )
