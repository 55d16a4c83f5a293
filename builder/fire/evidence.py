"""What is known of one firing, asked in the way that advice asks: by path, by word, by figure."""

from __future__ import annotations

import re
from dataclasses import dataclass

from builder.base.quantity import Quantity
from builder.checks.firing import Firing
from builder.fire.circumstances import FireCircumstances
from builder.heat.figures import Figure, FiringHeat

_DENIED = re.compile(r"\b(?:no|not|without|never|free of|instead of)\s+(?:\w+\s+)?$")


@dataclass(frozen=True, slots=True)
class Evidence:
    """One firing's entry, its heat and its circumstances."""

    firing: Firing
    heat: FiringHeat
    circumstances: FireCircumstances

    def amount(self, path: str) -> float | None:
        """Give a recorded quantity or count in its canonical unit, or None."""
        found = self.firing.conditions.get(path)
        if isinstance(found, Quantity):
            return found.canonical
        return float(found) if isinstance(found, int) else None

    def written(self, path: str) -> str:
        """Give a recorded condition in the potter's words; empty where nothing was recorded."""
        found = self.firing.conditions.get(path)
        if isinstance(found, Quantity):
            return found.raw
        if isinstance(found, tuple):
            return ", ".join(found)
        return "" if found is None else str(found)

    def named(self, pattern: re.Pattern[str], *paths: str) -> str:
        """Give the first words under some paths that a pattern finds there and that are not denied (`no lead`)."""
        for path in paths:
            text = self.written(path).casefold()
            for found in pattern.finditer(text):
                if not _DENIED.search(text[: found.start()]) and not text[found.end() :].startswith("-free"):
                    return found.group()
        return ""

    def recorded(self, prefix: str) -> bool:
        """Tell whether anything was recorded under a group of conditions."""
        return any(path.startswith(f"{prefix}.") for path in self.firing.conditions)

    def figure(self, name: str) -> Figure:
        """Give a figure of the ware's probe; without a value where it has none."""
        return self.heat.ware_figures.get(name, Figure(None))

    def value(self, name: str) -> float | None:
        """Give the value of a figure of the ware's probe, or None."""
        return self.figure(name).value

    def surely(self, name: str) -> float | None:
        """Give the value of a figure that is above nothing beyond its uncertainty, or None."""
        figure = self.figure(name)
        sure = figure.value is not None and figure.value > 0.0 and (figure.low is None or figure.low > 0.0)
        return figure.value if sure else None

    @property
    def cracked_or_dull(self) -> bool:
        """Tell whether a piece came out cracked or rings dull."""
        return any(piece.survival == "cracked" or piece.ring == "dull" for piece in self.firing.pieces)
