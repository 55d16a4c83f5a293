"""The data that the comparing page reads: a script that only defines data, whatever a potter writes."""

from __future__ import annotations

import json
from typing import Any

from builder.pages.compare_data import firing_data, shelf_data
from tests.pages.invented import FIGURES, SETTINGS, record, unread

HOSTILE = "</script><script>alert(1)</script>\u2028'\"\\"


def told(data: bytes) -> Any:
    """What a script defines, read as JSON."""
    return json.loads(data.decode().partition(" = ")[2].rstrip().removesuffix(";"))


def test_a_firing_carries_its_curve_its_figures_and_what_was_recorded() -> None:
    one = told(firing_data(record(3), SETTINGS))
    assert one["number"] == 3
    assert one["window"] == [660.0, 800.0]
    assert one["lit"] == 10 * 60 + 42
    assert max(one["curve"]["celsius"]) == 742.0
    assert one["told"]["fuel.wood"]["same"] == ["birch", "hazel"]
    hottest = next(figure for figure in one["figures"] if figure["label"] == ["Hottest"])
    assert (hottest["low"], hottest["high"]) == (FIGURES["peak_c"].low, FIGURES["peak_c"].high)


def test_an_interval_without_width_decides_nothing() -> None:
    one = told(firing_data(record(), SETTINGS))
    short = next(figure for figure in one["figures"] if figure["label"] == ["Short of the window"])
    assert "low" not in short
    assert "high" not in short


def test_without_readings_there_is_no_curve_and_without_a_clock_no_hour() -> None:
    one = told(firing_data(unread(lit=None), SETTINGS))
    assert one["curve"] is None
    assert one["lit"] is None
    assert one["figures"] == []


def test_hostile_words_end_no_script_and_come_back_as_they_were() -> None:
    one = record(title=HOSTILE, place=HOSTILE, conditions={"clay.body": HOSTILE})
    data = firing_data(one, SETTINGS)
    assert b"<" not in data
    assert "\u2028" not in data.decode()
    assert told(firing_data(one, SETTINGS))["title"] == HOSTILE
    assert "".join(told(firing_data(one, SETTINGS))["told"]["clay.body"]["said"]) == HOSTILE


def test_what_every_comparison_needs_names_every_condition() -> None:
    assert ["clay.wall", "Clay", "Wall"] in told(shelf_data())["conditions"]
