"""What the firings say together, beyond their rates: windows, differences, what goes with success, what to try next."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from builder.archive.archive import SUCCESS, Archive
from builder.archive.conditions import Tried, try_conditions
from builder.archive.differences import Difference, differences
from builder.archive.literature import Beside, beside_literature
from builder.archive.planning import NextCondition, Telling, firings_to_tell, next_condition
from builder.archive.progress import Progress, progress
from builder.archive.questions import Ask, ask_anew
from builder.archive.soaking import Soaking, SoakingQuestion, soaking_question
from builder.archive.traits import trials
from builder.archive.window import Window
from builder.archive.windows import looked_for, method_windows, ware_windows
from builder.settings import Settings


@dataclass(frozen=True, slots=True)
class Findings:
    """All of it; empty findings are those of an archive without a firing."""

    windows: Mapping[str, Window] = field(default_factory=dict)
    """By method, of those that count an outcome that needs heat and one that heat destroys."""
    ware_windows: Mapping[str, Window] = field(default_factory=dict)
    """By ware, over all such methods."""
    soakings: Mapping[str, Soaking] = field(default_factory=dict)
    """By method: minutes above a temperature held against the peak."""
    differences: tuple[Difference, ...] = ()
    """Each pair of methods, over all success."""
    tellings: tuple[Telling, ...] = ()
    """For each pair that is not told apart, how many firings would."""
    tried: tuple[Tried, ...] = ()
    """Every condition that was tried against success, found or not."""
    next_condition: NextCondition | None = None
    progress: Mapping[str, tuple[Progress, ...]] = field(default_factory=dict)
    """By potter: each ware that they made twice or more."""
    literature: tuple[Beside, ...] = ()
    """Published open firings with the group's own beside them."""


NO_FINDINGS = Findings()
"""Nothing worked out: pages leave those parts away."""


def find_out(archive: Archive, settings: Settings, ask: Ask = ask_anew) -> Findings:
    """Work out what all firings say together; what costs the most by way of `ask`."""
    order = {key: place for place, key in enumerate(settings.methods)}
    rates = [rate for rate in archive.rates if rate.outcome == SUCCESS and rate.method in order]
    pairs = differences(sorted(rates, key=lambda rate: order[rate.method]))
    tried = try_conditions(trials(archive), archive.correlation, ask)
    judged = {key: [archive.tally(one).judged for one in found] for key, found in archive.by_method().items()}
    sizes = {key: [size for size in found if size] for key, found in judged.items()}
    return Findings(
        ask("windows", method_windows(archive, settings)),
        ask("ware windows", ware_windows(archive, settings)),
        _known(ask("soakings", _soakings(archive, settings))),
        pairs,
        firings_to_tell(pairs, sizes, archive.correlation),
        tried,
        next_condition(tried, [size for found in sizes.values() for size in found], archive.correlation),
        progress(archive),
        beside_literature(archive.records, settings),
    )


def _soakings(archive: Archive, settings: Settings) -> Mapping[str, SoakingQuestion]:
    return {
        key: soaking_question(records, settings.heat.levels_c, settings.window_level)
        for key, records in archive.by_method().items()
        if looked_for(settings.methods[key])
    }


def _known(answers: Mapping[str, Soaking | None]) -> Mapping[str, Soaking]:
    return {key: one for key, one in answers.items() if one is not None}
