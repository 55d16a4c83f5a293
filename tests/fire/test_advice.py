"""Advice: each rule speaks when its reason is in the record, is silent otherwise, and never approves."""

from __future__ import annotations

import re

import pytest

from builder.checks.firing import Firing, Piece
from builder.fire.advice import PRACTICE, RULES, Advice, advice
from builder.fire.cautions import BY_KEY, CAUTIONS
from builder.fire.circumstances import fire_circumstances
from builder.heat.figures import Figure, FiringHeat, ProbeHeat
from tests.fire.firings import SOUND, firing, heat, weighed

NO_HEAT = FiringHeat((), None)
CRACKED = (Piece("jar", "cracked"),)


def _lines(one: Firing, figures: FiringHeat = NO_HEAT) -> dict[str, Advice]:
    return {line.name: line for line in advice(one, figures, fire_circumstances(one))}


def _within_its_uncertainty(name: str, value: float) -> FiringHeat:
    """Make a figure whose interval reaches down to nothing."""
    return FiringHeat((ProbeHeat("wall", {name: Figure(value, 0.0, 3.0 * value)}),), 0)


SPEAKS: list[tuple[str, Firing, FiringHeat]] = [
    ("wind", firing(weather__wind="24 km/h"), NO_HEAT),
    ("fire-weather", firing(weather__air="35 °C", weather__humidity="10 %", weather__wind="40 km/h"), NO_HEAT),
    ("dry-spell", firing(weather__dry_days=9), NO_HEAT),
    ("dry-air", firing(weather__humidity="25 %"), NO_HEAT),
    ("damp-ground", firing(setting__damp="wet"), NO_HEAT),
    ("burning-ground", firing(setting__ground="hollow in the peat"), NO_HEAT),
    ("stones", firing(setting__support="three river stones"), NO_HEAT),
    ("pigment", firing(surface__paint="copper and manganese"), NO_HEAT),
    ("treated-timber", firing(fuel__wood=("hazel", "old pallets")), NO_HEAT),
    ("dung", firing(fuel__wood=("sheep dung",)), NO_HEAT),
    ("steam", firing(warm_up__pot_temperature="60 °C"), heat(steam_rise_c_per_min=80.0)),
    ("no-warm-up", firing(), NO_HEAT),
    ("wet-wood", firing(fuel__moisture="32 %"), NO_HEAT),
    ("calcareous", firing(clay__temper=("crushed shell",)), heat(peak_c=790.0)),
    ("quartz", firing(CRACKED), heat(quartz_fall_c_per_min=55.0)),
    ("over-window", firing(), heat(over_min=2.5)),
    ("short-of-window", firing(), heat(short_c=34.0)),
    ("topped-out", firing(), heat(at_least=True, peak_c=1100.0)),
    ("coarse-log", firing(), heat(largest_gap_min=6.0, time_to_peak_min=20.0)),
    ("porous", firing(), NO_HEAT),
]

SILENT: list[tuple[str, Firing, FiringHeat]] = [
    ("wind", firing(weather__wind="8 km/h"), NO_HEAT),
    ("fire-weather", firing(weather__air="14 °C", weather__humidity="55 %", weather__wind="8 km/h"), NO_HEAT),
    ("dry-spell", firing(weather__dry_days=3), NO_HEAT),
    ("dry-air", firing(weather__humidity="55 %"), NO_HEAT),
    ("damp-ground", firing(setting__damp="dry"), NO_HEAT),
    ("burning-ground", firing(setting__ground="bare sand"), NO_HEAT),
    ("stones", firing(setting__support="dry brick, no stones"), NO_HEAT),
    ("pigment", firing(surface__paint="plant", surface__slip="lead-free white"), NO_HEAT),
    ("pigment", firing(surface__slip="white, without any lead"), NO_HEAT),
    ("treated-timber", firing(fuel__wood=("hazel", "birch")), NO_HEAT),
    ("dung", firing(fuel__wood=("hazel",)), NO_HEAT),
    ("steam", firing(warm_up__pot_temperature="160 °C"), heat(steam_rise_c_per_min=120.0)),
    ("steam", firing(), heat(steam_rise_c_per_min=120.0)),
    ("steam", firing(warm_up__pot_temperature="60 °C"), heat(steam_rise_c_per_min=3.0)),
    ("no-warm-up", firing(warm_up__length="45 min"), NO_HEAT),
    ("wet-wood", firing(fuel__moisture="14 %"), NO_HEAT),
    ("calcareous", firing(clay__temper=("crushed shell",)), heat(peak_c=560.0)),
    ("calcareous", firing(clay__temper=("crushed sherd",)), heat(peak_c=790.0)),
    ("quartz", firing(SOUND), heat(quartz_fall_c_per_min=55.0)),
    ("over-window", firing(), heat(over_min=0.0)),
    ("short-of-window", firing(), heat(short_c=0.0)),
    ("short-of-window", firing(), _within_its_uncertainty("short_c", 4.0)),
    ("over-window", firing(), _within_its_uncertainty("over_min", 0.5)),
    ("quartz", firing((Piece("jar", "spalled"),)), heat(quartz_fall_c_per_min=55.0)),
    ("topped-out", firing(), heat(peak_c=812.0)),
    ("coarse-log", firing(), heat(largest_gap_min=1.0, time_to_peak_min=9.0)),
]


@pytest.mark.parametrize(("rule", "one", "figures"), SPEAKS, ids=[case[0] for case in SPEAKS])
def test_a_rule_speaks_where_its_reason_is_recorded(rule: str, one: Firing, figures: FiringHeat) -> None:
    assert rule in _lines(one, figures)


@pytest.mark.parametrize(("rule", "one", "figures"), SILENT, ids=[case[0] for case in SILENT])
def test_a_rule_is_silent_where_it_is_not(rule: str, one: Firing, figures: FiringHeat) -> None:
    assert rule not in _lines(one, figures)


def test_every_rule_is_tested_both_ways_but_the_one_that_always_speaks() -> None:
    names = {rule.name for rule in RULES}
    assert {case[0] for case in SPEAKS} == names
    assert {case[0] for case in SILENT} == names - {"porous"}


def test_a_main_fire_of_twelve_minutes_is_not_scolded() -> None:
    """Ten to fifteen minutes is ordinary for plant-painted, pale-slipped ware: common practice, no source."""
    one = firing(
        warm_up__length="45 min",
        warm_up__pot_temperature="160 °C",
        setting__support="dry brick",
        weather__wind="8 km/h",
        clay__wall="6 mm",
    )
    fast = heat(
        peak_c=812.0,
        time_to_peak_min=9.0,
        heating_rate_c_per_min=88.0,
        fastest_rise_c_per_min=160.0,
        steam_rise_c_per_min=110.0,
        quartz_fall_c_per_min=70.0,
        largest_gap_min=1.0,
        over_min=0.0,
        short_c=0.0,
    )
    assert set(_lines(one, fast)) == {"porous"}


def test_the_steam_line_tells_how_far_the_middle_of_the_wall_was_behind() -> None:
    """Below 5 °C nothing is said of it."""
    damp = firing(warm_up__pot_temperature="60 °C")
    thick, thin = (_lines(damp, heat(steam_rise_c_per_min=80.0, wall_lag_c=lag))["steam"].words for lag in (24.0, 4.0))
    assert "lagged its faces by about 24 °C" in thick
    assert "lagged" not in thin


def test_the_steam_line_tells_the_wall_where_it_was_recorded() -> None:
    one = firing(warm_up__pot_temperature="60 °C", clay__wall="9 mm")
    words = _lines(one, heat(steam_rise_c_per_min=80.0))["steam"].words
    assert "a wall of 9 mm" in words
    assert "80 °C a minute" in words


def test_weighed_ware_is_told_its_own_number() -> None:
    """(921 − 812)/812 = 13.4 %: worked by hand."""
    assert "13 % of its weight" in _lines(firing((weighed("812 g", "921 g"),)))["porous"].words


def test_no_line_and_no_caution_says_that_anything_is_safe() -> None:
    words = [line.words for _, one, figures in SPEAKS for line in _lines(one, figures).values()]
    words += [sentence for caution in CAUTIONS for sentence in (caution.heading, *caution.sentences)]
    approving = re.compile(
        r"\b(?:safe|safely|harmless|no danger|no risk|may go ahead|all right|well done)\b", re.IGNORECASE
    )
    assert [sentence for sentence in words if approving.search(sentence)] == []


def test_every_reason_to_stop_belongs_to_a_caution() -> None:
    assert all(rule.caution in BY_KEY for rule in RULES if rule.kind == "stop")
    assert all(rule.caution in BY_KEY for rule in RULES if rule.caution)


def test_every_rule_names_a_source_or_says_that_it_has_none() -> None:
    assert all(rule.source for rule in RULES)
    assert sum(rule.source == PRACTICE for rule in RULES) > 0


def test_a_line_carries_its_caution_s_heading() -> None:
    line = _lines(firing(weather__wind="24 km/h"))["wind"]
    assert (line.kind, line.caution, line.title) == ("stop", "wind", "Wind, dry air and dry grass")


def test_the_cautions_are_the_whole_usual_list() -> None:
    """Each of the subjects that have to be there, by a word of it."""
    text = " ".join(" ".join((caution.heading, *caution.sentences)) for caution in CAUTIONS).casefold()
    subjects = (
        "burn ban", "permit", "landowner", "fire service", "wind", "dry grass", "steam", "damp ground", "stones",
        "hot ware", "carbon monoxide", "silica", "lead", "heavy metals", "food or drink", "dung", "treated timber",
        "ash is cold", "water, a rake", "clothing", "replica", "sherds", "licensed",
    )  # fmt: skip
    assert [subject for subject in subjects if subject not in text] == []
    assert len({caution.key for caution in CAUTIONS}) == len(CAUTIONS)


def test_minutes_are_written_without_a_tenth_that_says_nothing() -> None:
    told = {gap: _lines(firing(), heat(largest_gap_min=gap, time_to_peak_min=gap)) for gap in (1.0, 6.0, 2.5, 50.0)}
    words = [lines["coarse-log"].words.split(" was ")[1].split(";")[0] for lines in told.values()]
    assert words == ["1 minute", "6 minutes", "2.5 minutes", "50 minutes"]
