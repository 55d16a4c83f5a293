"""How the figures are worked out: definitions, formulas, constants, sources, and what the intervals hold."""

from __future__ import annotations

from dataclasses import dataclass

from builder.base import constants
from builder.base.constants import Constant
from builder.heat.figures import FIGURE_KINDS
from builder.pages.fragments import fill
from builder.pages.numbers import MINUS
from builder.publish.site import Page
from builder.settings import Settings


@dataclass(frozen=True, slots=True)
class Formula:
    """How one figure is worked out."""

    formula: str
    source: str = ""


@dataclass(frozen=True, slots=True)
class Part:
    """A part of the page beside the list of figures."""

    anchor: str
    heading: str
    paragraphs: tuple[str, ...]
    sources: tuple[str, ...] = ()


FORMULAS = {
    "heating_rate_c_per_min": Formula(
        "(T_max − T_first) / (t_max − t_first)",
        "The overall rate of the literature on open firings: Gosselain 1992, Journal of Archaeological Science 19:243; "
        "Livingstone Smith 2001, Journal of Archaeological Science 28:991.",
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
        "exp(−E/R T_e) · 60 min = ∫ exp(−E/R T(t)) dt, with E = 222 kJ/mol, shown with its range over 150 to 300",
        "The equivalent firing temperature of Tite 1995; E for the dehydroxylation of kaolinite from Redfern 1987.",
    ),
    "cooling_rate_c_per_min": Formula("(T_max − T_last) / (t_last − t_max)"),
    "spread_c": Formula("max over t, and over pairs of probes, of |T_a(t) − T_b(t)|"),
    "wall_lag_c": Formula(
        "β L² / 2α, β the fastest rise, L half of the wall's thickness, α its thermal diffusivity",
        "A plate heated from both faces at a steady rate, after its first moments (Carslaw and Jaeger 1959).",
    ),
}

PARTS = (
    Part(
        "uncertainty",
        "What the intervals take in",
        (
            "Every figure has a 95 % interval, found by working it out for a thousand curves that the readings allow. "
            "An error of calibration, of a thermocouple's class or of an assumed emissivity shifts all readings of a "
            "probe together, so each such curve draws it once; it does not average out. Resolution and aim are drawn "
            "for each reading.",
            "The draws begin from the firing's own name, so that the same entry gives the same interval every time.",
            "The intervals leave out what nobody can know from the readings: whether the probe was as hot as the ware, "
            "and what the fire did between two readings. Where the readings are far apart the fire may have gone "
            "higher; the remark beside the figure says so.",
            "A thermometer that repeats its highest value has probably topped out: its hottest is then “at least”.",
        ),
        (
            "JCGM 100:2008, Guide to the expression of uncertainty in measurement",
            "JCGM 101:2008, propagation of distributions by a Monte Carlo method",
        ),
    ),
    Part(
        "instruments",
        "Thermometers",
        (
            "Thermocouples go by the ITS-90 reference functions, exactly inverted; a cold junction is added as a "
            "voltage and not as degrees. A class of tolerance holds for new wire and inside its own range only.",
            "Spot thermometers see the 8 to 14 µm band: the temperature is found from the integral of Planck's law over "
            "that band, with the emissivity that was set, the emissivity of the ware and what the ware mirrors. Where "
            "there is no solution, the reading is refused in words.",
            "Witness cones are witnesses only. An open fire heats far faster than any published column for them.",
        ),
        (
            "NIST Monograph 175 (Burns and others 1993)",
            "IEC 60584-1:2013 and ASTM E230, classes of tolerance",
            "ASTM E2758, practice for infrared thermometers",
        ),
    ),
    Part(
        "pieces",
        "Pieces",
        (
            "From the weights dry D, soaked M and hung in water S: absorption 100 (M − D)/D, apparent porosity "
            "100 (M − D)/(M − S), bulk density D/(M − S) in g/cm³. Shrinkage is the loss of length between two marks, "
            "as a share of the earlier length. The intervals hold how finely weights and lengths were written down.",
            "A Munsell notation is turned into a screen colour by the 1943 renotation. A screen only comes near it.",
        ),
        ("ASTM C373 and C20", "Newhall, Nickerson and Judd 1943, Munsell renotation; ASTM D1535"),
    ),
    Part(
        "circumstances",
        "The air and the wood",
        (
            "The moisture that wood comes to in air of a temperature and humidity is that of the Wood Handbook's "
            "equation. The net heat in the wood is what is left of its dry heat after its water has been boiled off. "
            "The fire-weather index of Fosberg only ever adds a reason to stop; a low one gives none to light.",
        ),
        ("Wood Handbook, FPL-GTR-282, equation 4-5", "Fosberg 1978, fire weather index"),
    ),
    Part(
        "rates",
        "Success rates",
        (
            "A piece succeeds when every outcome that its method counts is among the accepted ones, fails when one is "
            "not, and cannot be judged when one is not recorded and none has failed. What cannot be judged is counted "
            "and shown, and never in the rate. A ware without paint is not judged on paint.",
            "Pieces from one fire share its luck. The correlation ρ within fires is that of the whole archive, mixed "
            "with a starting value of 0.3 worth five firings. The design effect mixes Kish's, from ρ and the sizes of "
            "the firings, with the method's own after Rao and Scott; the effective number of pieces is the number "
            "divided by it. The limits are Agresti and Coull's on that number, z = 1.96.",
            "What the constants are and where the rule is known to fail stands on the page of results.",
        ),
        (
            "Rao and Scott 1992, Biometrics 48:577",
            "Agresti and Coull 1998, The American Statistician 52:119",
            "Kish 1965, Survey Sampling",
        ),
    ),
)


def figures_page(settings: Settings) -> Page:
    """Say how every figure is worked out."""
    page, sentence = (
        "figures",
        "What each figure means, the formula behind it, where it comes from, and what it leaves out.",
    )
    lead = fill(
        "figures.html",
        page,
        sentence=sentence,
        settings=settings,
        kinds=FIGURE_KINDS,
        formulas=FORMULAS,
        parts=PARTS,
        constants=[_shown(constant) for constant in _constants()],
    )
    return Page(
        path=page,
        title="How the figures are worked out",
        description=sentence,
        lead=lead,
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
