"""What was measured on a piece: porosity, density, shrinkage, colour, each with what the writing down is worth."""

from __future__ import annotations

from dataclasses import dataclass

from builder.checks.firing import Marks, Piece, Weighed
from builder.heat.figures import Figure
from builder.ware.as_written import figure_of_written
from builder.ware.munsell import Swatch, swatch
from builder.ware.porosity import absorption_pct, bulk_density_g_cm3, porosity_pct
from builder.ware.shrinkage import shrinkage_pct

MEASURES_NOTE = "The intervals hold how finely weights and lengths were written down, and nothing else."
"""The sentence that goes with these figures on a page."""


@dataclass(frozen=True, slots=True)
class PieceMeasures:
    """Everything that can be worked out from what was measured on one piece; None where nothing was measured."""

    absorption_pct: Figure | None = None
    """Water absorption, % of the dry mass."""
    porosity_pct: Figure | None = None
    """Apparent porosity, % of the outer volume."""
    bulk_density_g_cm3: Figure | None = None
    """Bulk density, g/cm³."""
    drying_pct: Figure | None = None
    """Linear shrinkage from wet to dry, %."""
    firing_pct: Figure | None = None
    """Linear shrinkage from dry to fired, %."""
    shrinkage_pct: Figure | None = None
    """Linear shrinkage from wet to fired, %."""
    swatch: Swatch | None = None
    """Its colour for the screen, where a Munsell colour was written down and a screen can be told it."""


def piece_measures(piece: Piece) -> PieceMeasures:
    """Work out all that was measured on a piece, with 95 % intervals from how finely it was written down."""
    absorption, porosity, density = _weighed(piece.weighed) if piece.weighed else (None, None, None)
    drying, firing, whole = _marked(piece.marks) if piece.marks else (None, None, None)
    return PieceMeasures(
        absorption_pct=absorption,
        porosity_pct=porosity,
        bulk_density_g_cm3=density,
        drying_pct=drying,
        firing_pct=firing,
        shrinkage_pct=whole,
        swatch=swatch(piece.colour) if piece.colour else None,
    )


def _weighed(weighed: Weighed) -> tuple[Figure, Figure, Figure]:
    """Work out absorption, porosity and density from the weighings."""
    dry, soaked, hung = weighed.dry, weighed.soaked, weighed.hung
    if soaked.canonical < dry.canonical:
        return (Figure(None, remark="The soaked piece weighs less than the dry one."),) * 3
    absorption = figure_of_written(absorption_pct, dry, soaked)
    if hung is None:
        missing = Figure(None, remark="It was not weighed hung in water.")
        return absorption, missing, missing
    if hung.canonical >= dry.canonical:
        missing = Figure(None, remark="Hung in water it weighs no less than dry, so it has no volume.")
        return absorption, missing, missing
    return (
        absorption,
        figure_of_written(porosity_pct, dry, soaked, hung),
        figure_of_written(bulk_density_g_cm3, dry, soaked, hung),
    )


def _marked(marks: Marks) -> tuple[Figure | None, Figure | None, Figure | None]:
    """Work out the shrinkage from wet to dry, from dry to fired and from wet to fired."""
    steps = ((marks.wet, marks.dry), (marks.dry, marks.fired), (marks.wet, marks.fired))
    drying, firing, whole = (
        figure_of_written(shrinkage_pct, a, b) if a and b and a.canonical > 0 else None for a, b in steps
    )
    return drying, firing, whole
