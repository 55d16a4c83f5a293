"""The conditions of the rules of advice, one function each: the words where it applies, None where it does not.

The limits below are common practice and no more, except where a source is named; they decide only whether a line is
printed, never whether something may be done.
"""

from __future__ import annotations

import re

from builder.fire.evidence import Evidence

STRONG_WIND_KM_H = 20.0
"""Wind that moves small branches and raises dust: the lower end of Beaufort's step 4."""
HIGH_FOSBERG = 50.0
"""Fosberg index from which fire weather is commonly called significant."""
LONG_DRY_DAYS = 7
"""A week without rain."""
DRY_AIR_PCT = 30.0
"""Relative humidity below which the air counts as dry."""
WET_WOOD_PCT = 25.0
"""Moisture, of the dry mass, above which wood is commonly called unseasoned."""
WATER_SMOKING_C = 120.0
"""Warmth by which loose water is commonly out of a wall (Rice 1987)."""
STEAM_RISE_C_PER_MIN = 10.0
"""Rise through steam below which nothing is said of it."""
WORTH_TELLING_LAG_C = 5.0
"""Lag of the middle of a wall below which nothing is said of it, °C."""
LIME_C = 600.0
"""Heat from which limestone temper is reported to spall a pot."""
FEW_READINGS_ON_THE_WAY = 4
"""A gap longer than this part of the way to the hottest reading may have hidden the peak."""

_STONES = re.compile(r"\b(?:stones?|rocks?|flints?|cobbles?|pebbles?|slates?|boulders?|concrete)\b")
_BURNING = re.compile(r"\b(?:peat|turf|grass|roots?|leaf mould|leaf litter|stubble|moss|heather|straw)\b")
_METALS = re.compile(
    r"\b(?:lead|galena|litharge|minium|cadmium|arsenic|orpiment|realgar|antimony|mercury|cinnabar|vermilion|"
    r"chrome|chromium|manganese|cobalt|copper|malachite|nickel|barium|uranium)\b"
)
_TREATED = re.compile(
    r"\b(?:treated|painted|varnished|creosoted?|pallets?|plywood|chipboard|mdf|particle board|sleepers?|decking|"
    r"demolition|plastics?|tyres?|rubber)\b"
)
_DUNG = re.compile(r"\b(?:dung|manure)\b")
_CALCAREOUS = re.compile(r"\b(?:shells?|limestone|calcite|marble|chalk|lime|calcareous|marl|coral|dolomite)\b")


def wind(evidence: Evidence) -> str | None:
    """Apply where the wind was strong."""
    speed = evidence.amount("weather.wind")
    if speed is None or speed < STRONG_WIND_KM_H:
        return None
    return (
        f"The wind was written down as {evidence.written('weather.wind')}, enough to move small branches and carry "
        "sparks: a reason to stop."
    )


def fire_weather(evidence: Evidence) -> str | None:
    """Apply where the fire-weather index was high."""
    index = evidence.circumstances.fosberg.value
    if index is None or index < HIGH_FOSBERG:
        return None
    return f"The Fosberg fire-weather index of that air and wind is {index:.0f} of 100: a reason to stop."


def dry_spell(evidence: Evidence) -> str | None:
    """Apply after a long time without rain."""
    days = evidence.amount("weather.dry_days")
    if days is None or days < LONG_DRY_DAYS:
        return None
    return (
        f"It had not rained for {days:.0f} days. Ask again whether a burn ban is in force, and look at what is dry "
        "around the fire: a reason to stop."
    )


def dry_air(evidence: Evidence) -> str | None:
    """Apply in dry air."""
    humidity = evidence.amount("weather.humidity")
    if humidity is None or humidity > DRY_AIR_PCT:
        return None
    return f"The air was dry, at {evidence.written('weather.humidity')}: sparks catch more readily, a reason to stop."


def damp_ground(evidence: Evidence) -> str | None:
    """Apply on damp or wet ground."""
    damp = evidence.written("setting.damp")
    if damp not in {"damp", "wet"}:
        return None
    return (
        f"The ground was {damp}. It steams under the fire and can throw earth and stones: a reason to wait or to move."
    )


def burning_ground(evidence: Evidence) -> str | None:
    """Apply where the ground itself can burn."""
    ground = evidence.named(_BURNING, "setting.ground")
    if not ground:
        return None
    return (
        f"The fire lay on or in ground with {ground}, which can carry it out of sight: a reason to stop, and to "
        "watch for long after."
    )


def stones(evidence: Evidence) -> str | None:
    """Apply where pots or fire stood on stones."""
    stone = evidence.named(_STONES, "setting.support", "setting.ground")
    if not stone:
        return None
    return (
        f"The setting names {stone}. Stones that hold water burst in the fire: a reason to stop and prop on dry brick."
    )


def pigment(evidence: Evidence) -> str | None:
    """Apply where a paint or slip names a heavy metal."""
    metal = evidence.named(_METALS, "surface.paint", "surface.slip", "surface.finish")
    if not metal:
        return None
    return (
        f"The surface names {metal}. Heavy metals harm in grinding, in the smoke and in use: a reason to stop until "
        "it is known what is in it."
    )


def treated_timber(evidence: Evidence) -> str | None:
    """Apply where the fuel names treated timber or rubbish."""
    timber = evidence.named(_TREATED, "fuel.wood", "fuel.form")
    if not timber:
        return None
    return f"The fuel names {timber}. Such wood can give off poisons and leave them in the ash: a reason to stop."


def dung(evidence: Evidence) -> str | None:
    """Apply where dung was burnt."""
    word = evidence.named(_DUNG, "fuel.wood", "fuel.form")
    if not word:
        return None
    return (
        f"The fuel names {word}. Its dust and smoke carry germs and irritate lungs; ask whether it may be burnt there."
    )


def steam(evidence: Evidence) -> str | None:
    """Apply where pots that were not warm enough to have lost their loose water went fast through steam."""
    warmed, rise = evidence.amount("warm_up.pot_temperature"), evidence.value("steam_rise_c_per_min")
    if warmed is None or warmed >= WATER_SMOKING_C or rise is None or rise < STEAM_RISE_C_PER_MIN:
        return None
    wall = evidence.written("clay.wall")
    thickness = f"a wall of {wall}" if wall else "the wall"
    return (
        f"The pots were warmed to {evidence.written('warm_up.pot_temperature')}, and the main fire then went from "
        f"100 to 200 °C at {rise:.0f} °C a minute. Water still in {thickness} would stand at 4.8 bar at 150 °C and "
        f"15.5 bar at 200 °C.{_lagging(evidence)} Warmer pots before lighting leave less of it."
    )


def _lagging(evidence: Evidence) -> str:
    """Say how far the middle of the wall was behind, where that is known and worth saying."""
    lag = evidence.value("wall_lag_c")
    if lag is None or lag < WORTH_TELLING_LAG_C:
        return ""
    return (
        f" At its fastest the middle of the wall lagged its faces by about {lag:.0f} °C: it was still steaming when "
        "they were past it, and the difference strains the wall."
    )


def no_warm_up(evidence: Evidence) -> str | None:
    """Apply where nothing is known of the warm-up."""
    if evidence.recorded("warm_up"):
        return None
    return "Nothing is recorded about a warm-up. How long and how warm is what tells whether steam was a danger."


def wet_wood(evidence: Evidence) -> str | None:
    """Apply where the wood was wet."""
    moisture = evidence.amount("fuel.moisture")
    if moisture is None or moisture < WET_WOOD_PCT:
        return None
    return (
        f"The wood held {evidence.written('fuel.moisture')} of water: more smoke, less heat, and steam about the pots."
    )


def calcareous(evidence: Evidence) -> str | None:
    """Apply where limy temper went over the heat that spalls it."""
    temper, peak = evidence.named(_CALCAREOUS, "clay.temper", "clay.body"), evidence.value("peak_c")
    if not temper or peak is None or peak < LIME_C:
        return None
    return (
        f"The clay holds {temper}, and the hottest reading was {peak:.0f} °C. Fired over {LIME_C:.0f} °C such "
        "temper can turn to lime, which swells as it takes up water from the air: look at the pots again after "
        "some weeks."
    )


def quartz(evidence: Evidence) -> str | None:
    """Apply where ware came out cracked or dull and the fall through the quartz inversion was read."""
    fall = evidence.value("quartz_fall_c_per_min")
    if fall is None or not evidence.cracked_or_dull:
        return None
    return (
        f"On the way down it went from 598 to 548 °C at {fall:.0f} °C a minute. Quartz shrinks by 0.45 % in length "
        "at 573 °C, and pieces cracked or rang dull: look whether the cracks are sharp-edged and clean, as dunting "
        "leaves them."
    )


def over_window(evidence: Evidence) -> str | None:
    """Apply where the fire spent time above the method's window, whatever its readings are worth."""
    over = evidence.surely("over_min")
    if over is None:
        return None
    return f"The curve stood above the method's window for {_minutes(over)}."


def short_of_window(evidence: Evidence) -> str | None:
    """Apply where the hottest reading fell short of the method's window, whatever it is worth."""
    short = evidence.surely("short_c")
    if short is None:
        return None
    return f"The hottest reading stayed {short:.0f} °C below the method's window."


def topped_out(evidence: Evidence) -> str | None:
    """Apply where the thermometer reached its end."""
    if not evidence.figure("peak_c").at_least:
        return None
    return "The thermometer reached the highest that it can show, so the fire was at least so hot, perhaps much hotter."


def coarse_log(evidence: Evidence) -> str | None:
    """Apply where a gap between readings is a large part of the way to the hottest."""
    gap, way = evidence.value("largest_gap_min"), evidence.value("time_to_peak_min")
    if gap is None or not way or gap * FEW_READINGS_ON_THE_WAY <= way:
        return None
    return f"The longest gap between two readings was {_minutes(gap)}; what the fire did in it is not known."


def porous(evidence: Evidence) -> str | None:
    """Apply to all ware, with the number where it was weighed."""
    weighed = [piece for piece in evidence.firing.pieces if piece.weighed is not None]
    if not weighed:
        return "Ware from an open fire stays porous: it is not for food or drink."
    soaked = max(100.0 * (p.weighed.soaked.canonical / p.weighed.dry.canonical - 1.0) for p in weighed if p.weighed)
    return f"The ware took up as much as {soaked:.0f} % of its weight in water: it is not for food or drink."


def _minutes(minutes: float) -> str:
    """Write minutes with a tenth only where it says something."""
    rounded = f"{minutes:.0f}" if minutes >= 10.0 else f"{minutes:.1f}".removesuffix(".0")
    return f"{rounded} minute" if rounded == "1" else f"{rounded} minutes"
