"""The lines of advice of one firing: what in its record is a reason to stop, or to look again, next time.

Every rule is one row of `RULES`. Advice reports what was written down and defers; it never approves. A fast fire is
no fault: a main fire of ten to fifteen minutes is ordinary for such ware.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from builder.checks.firing import Firing
from builder.fire import reasons
from builder.fire.cautions import BY_KEY
from builder.fire.circumstances import FireCircumstances
from builder.fire.evidence import Evidence
from builder.heat.figures import FiringHeat

PRACTICE = "common practice, no source"


@dataclass(frozen=True, slots=True)
class Advice:
    """One line of advice."""

    name: str
    """Name of the rule that gave it."""
    kind: str
    """`stop`: a reason to stop, next time; `look`: a reason to look again; `record`: something worth writing down."""
    words: str
    """One or two sentences for the page."""
    caution: str
    """Key of the caution that it belongs to; empty where it concerns the heat alone."""
    title: str
    """Heading of that caution; empty likewise."""
    source: str
    """Where the rule comes from."""


@dataclass(frozen=True, slots=True)
class Rule:
    """One rule of advice."""

    name: str
    kind: str
    caution: str
    """Key of a caution, or empty."""
    words: Callable[[Evidence], str | None]
    """Gives the line where the rule applies, None where it does not."""
    source: str


RULES: tuple[Rule, ...] = (
    Rule("wind", "stop", "wind", reasons.wind, "the Beaufort scale's fourth step"),
    Rule("fire-weather", "stop", "wind", reasons.fire_weather, "Fosberg 1978; the limit of 50 is common practice"),
    Rule("dry-spell", "stop", "wind", reasons.dry_spell, PRACTICE),
    Rule("dry-air", "stop", "wind", reasons.dry_air, PRACTICE),
    Rule("damp-ground", "stop", "ground", reasons.damp_ground, PRACTICE),
    Rule("burning-ground", "stop", "ground", reasons.burning_ground, PRACTICE),
    Rule("stones", "stop", "stones", reasons.stones, PRACTICE),
    Rule("pigment", "stop", "pigments", reasons.pigment, PRACTICE),
    Rule("treated-timber", "stop", "fuel", reasons.treated_timber, PRACTICE),
    Rule("dung", "stop", "fuel", reasons.dung, PRACTICE),
    Rule(
        "steam",
        "look",
        "steam",
        reasons.steam,
        "IAPWS-95 for the pressure of steam; water smoking to 120 °C: Rice 1987",
    ),
    Rule("no-warm-up", "record", "steam", reasons.no_warm_up, PRACTICE),
    Rule("wet-wood", "look", "smoke", reasons.wet_wood, PRACTICE),
    Rule(
        "calcareous",
        "look",
        "",
        reasons.calcareous,
        "abstract in American Antiquity: limestone temper spalls over 600 °C",
    ),
    Rule("quartz", "look", "hot-ware", reasons.quartz, "quartz inverts at 573 °C, 0.45 % in length"),
    Rule("over-window", "look", "", reasons.over_window, "the method's window, set by the group"),
    Rule("short-of-window", "look", "", reasons.short_of_window, "the method's window, set by the group"),
    Rule("topped-out", "look", "", reasons.topped_out, "the thermometer's own limit"),
    Rule("coarse-log", "record", "", reasons.coarse_log, PRACTICE),
    Rule("porous", "look", "food", reasons.porous, PRACTICE),
)
"""Every rule, in the order of the page."""


def advice(firing: Firing, heat: FiringHeat, circumstances: FireCircumstances) -> tuple[Advice, ...]:
    """Give the lines of advice that follow from what was recorded of one firing, in the order of the rules."""
    evidence = Evidence(firing, heat, circumstances)
    lines = ((rule, rule.words(evidence)) for rule in RULES)
    return tuple(_line(rule, words) for rule, words in lines if words is not None)


def _line(rule: Rule, words: str) -> Advice:
    """Make a line of a rule and its words."""
    title = BY_KEY[rule.caution].heading if rule.caution else ""
    return Advice(rule.name, rule.kind, words, rule.caution, title, rule.source)
