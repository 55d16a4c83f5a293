"""How the figures are worked out: definitions, formulas, constants, sources, and what the intervals hold."""

from __future__ import annotations

from dataclasses import dataclass

from builder.base import constants
from builder.base.constants import Constant
from builder.heat.figures import FIGURE_KINDS
from builder.pages.code_words import calculation, held_numbers
from builder.pages.figure_tables import CALCULATIONS, HOLDING, tables
from builder.pages.fragments import fill
from builder.pages.numbers import MINUS
from builder.publish.site import Page
from builder.settings import Settings
from builder.ware.measures import MEASURES_NOTE


@dataclass(frozen=True, slots=True)
class Formula:
    """How one figure is worked out."""

    formula: str
    source: str = ""


FORMULAS = {
    "heating_rate_c_per_min": Formula(
        "(T_max − T_first) / (t_max − t_first)",
        "The overall rate of the literature on open firings: Gosselain 1992, Livingstone Smith 2001.",
    ),
    "fastest_rise_c_per_min": Formula("max over t of (T(t + w) − T(t)) / w, w the window of the settings"),
    "steam_rise_c_per_min": Formula("100 °C / (time from 100 to 200 °C on the way up)"),
    "quartz_rise_c_per_min": Formula(
        "50 °C / (time from 548 to 598 °C on the way up)",
        "Quartz turns from its low to its high form at 573 °C and grows by it.",
    ),
    "quartz_fall_c_per_min": Formula("50 °C / (time from 598 to 548 °C on the way down)"),
    "minutes_above": Formula("the sum of all spells with T(t) ≥ the level"),
    "soak_min": Formula("the sum of all spells with T(t) ≥ T_max − 50 °C"),
    "over_c_min": Formula("∫ max(0, T(t) − upper edge) dt"),
    "short_c": Formula("max(0, lower edge − T_max)"),
    "equivalent_1h_c": Formula(
        "exp(−E / (R T_e)) · 60 min = ∫ exp(−E / (R T(t))) dt, with E = 222 kJ/mol, shown with its range over 150 to "
        "300",
        "The equivalent firing temperature of Tite 1995; E for the dehydroxylation of kaolinite from Redfern 1987.",
    ),
    "cooling_rate_c_per_min": Formula("(T_max − T_last) / (t_last − t_max)"),
    "spread_c": Formula("max over t, and over pairs of probes, of |T_a(t) − T_b(t)|"),
    "wall_lag_c": Formula(
        "β L² / 2α, β the fastest rise, L half of the wall’s thickness, α its thermal diffusivity",
        "A plate heated from both faces at a steady rate, after its first moments (Carslaw and Jaeger 1959).",
    ),
}


def figures_page(settings: Settings) -> Page:
    """Say how every figure is worked out."""
    page, sentence = (
        "figures",
        "What each figure means, its formula, where it comes from, and what it leaves out.",
    )
    lead = fill(
        "figures.html",
        page,
        sentence=sentence,
        settings=settings,
        kinds=FIGURE_KINDS,
        formulas=FORMULAS,
        constants=[_shown(constant) for constant in _constants()],
        measures_note=MEASURES_NOTE,
    )
    rest = fill(
        "figures_rest.html",
        page,
        tables=tables(),
        held=[held for module in HOLDING for held in held_numbers(module)],
        calculations=[calculation(function) for function in CALCULATIONS],
    )
    return Page(
        path=page,
        title="How the figures are worked out",
        description=sentence,
        lead=lead,
        rest=rest,
        section="figures",
        kind="reference",
    )


def _constants() -> tuple[Constant, ...]:
    """Every constant of the program, in the order in which they are written down."""
    return tuple(value for value in vars(constants).values() if isinstance(value, Constant))


def _shown(constant: Constant) -> dict[str, str]:
    value = f"{constant.value:.12g}"
    if "e" in value:
        digits, power = value.split("e")
        value = f"{digits} × 10^{int(power)}"
    return {
        "value": value.replace("-", MINUS),
        "unit": constant.unit,
        "meaning": constant.meaning,
        "source": constant.source,
        "year": str(constant.year),
    }
