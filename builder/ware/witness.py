"""Witness cones as what they are in an open fire: an order, and no thermometer."""

from __future__ import annotations

from dataclasses import dataclass

from builder.base.cones import FASTEST_C_PER_H, RANK, Cone, cone_named
from builder.checks.firing import Witness


@dataclass(frozen=True, slots=True)
class ConeWitness:
    """What the witness cones of one firing bear out."""

    down: Cone | None
    """The hardest cone that went down."""
    standing: Cone | None
    """The softest cone that stood."""
    unknown: tuple[str, ...]
    """Words that name no cone with a published column."""

    @property
    def contradicts(self) -> bool:
        """Tell whether a cone stood that softens before one that went down, or the same one did both."""
        return self.down is not None and self.standing is not None and RANK[self.standing.name] <= RANK[self.down.name]


def cone_witness(witness: Witness) -> ConeWitness | None:
    """Give what the cones bear out; None where none is recorded."""
    if not witness.cones_down and not witness.cones_standing:
        return None
    down, standing = (
        [(word, cone_named(word)) for word in words] for words in (witness.cones_down, witness.cones_standing)
    )
    return ConeWitness(
        max((cone for _, cone in down if cone), key=lambda cone: RANK[cone.name], default=None),
        min((cone for _, cone in standing if cone), key=lambda cone: RANK[cone.name], default=None),
        tuple(word for word, cone in (*down, *standing) if cone is None),
    )


def columns_c(cone: Cone) -> tuple[int, int]:
    """Give the lowest and the highest temperature published for a cone, over all rates, °C.

    >>> from builder.base.cones import cone_named
    >>> columns_c(cone_named("016")), columns_c(cone_named("022"))
    ((769, 825), (630, 630))
    """
    printed = [one for one in (cone.large_60_c, cone.large_150_c, cone.small_300_c) if one is not None]
    return min(printed), max(printed)


def outside_columns(rise_c_per_min: float | None) -> bool:
    """Tell whether a fire rose faster than any published column: then a cone tells an order and no temperature.

    >>> outside_columns(60.0), outside_columns(4.0), outside_columns(None)
    (True, False, True)
    """
    return rise_c_per_min is None or rise_c_per_min * 60.0 > FASTEST_C_PER_H
