"""A whole firing measured: every figure there, every interval sound, every gap told in plain words."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from builder.heat.figures import FIGURE_KINDS, Figure, kinds_for
from builder.heat.firing_heat import measure
from builder.heat.main_fire import ROUGHENED, draw_count, main_fire
from builder.readings.curve import NO_CURVES, Curve, Floats
from builder.readings.uncertainty import DRAWS
from builder.settings import Method
from tests.heat.curves import HAND_LOG, HEAT, NARROW, NO_WINDOW, curve, curves, firing, logs, millimetres


def figures(*probes: Curve, method: Method = NARROW, wall_mm: float | None = 6.0) -> dict[str, Figure]:
    return measure(firing(wall_mm), curves(*probes), method, HEAT).ware_figures


def value(figure: Figure) -> float:
    assert figure.value is not None
    return figure.value


def test_a_hand_log_of_twelve_minutes_gets_every_figure() -> None:
    """One reading a minute, two probes: nothing is missing."""
    second = curve(HAND_LOG[0], HAND_LOG[1] * 0.95, "rim")
    found = figures(curve(*HAND_LOG), second)
    assert [name for name, figure in found.items() if figure.value is None] == []
    assert list(found) == [kind.name for kind in kinds_for(HEAT.levels_c)]


def test_a_hand_log_once_a_minute_is_not_scolded() -> None:
    """The only sentence about gaps is how much higher the peak may have been."""
    remarks = {name: figure.remark for name, figure in figures(curve(*HAND_LOG)).items() if "apart" in figure.remark}
    assert remarks == {}


def test_the_figures_of_the_hand_log_are_those_worked_by_hand() -> None:
    """Worked by hand from HAND_LOG: peak 812 at minute 8; fastest 180 from minute 1 to 2; over 800 from 7 + 40/52 to
    8 + 12/22; cooling (812 − 540) / 4; lag 180 · 3² / (2 · 0.5 · 60)."""
    found = figures(curve(*HAND_LOG))
    over = 12 / 52 + 12 / 22
    expected = {
        "start_c": 14.0,
        "peak_c": 812.0,
        "time_to_peak_min": 8.0,
        "heating_rate_c_per_min": (812 - 14) / 8,
        "fastest_rise_c_per_min": 180.0,
        "steam_rise_c_per_min": 100 / (1 + 80 / 180 - 86 / 106),
        "quartz_rise_c_per_min": 50 / (4 + 38 / 80 - (3 + 98 / 110)),
        "quartz_fall_c_per_min": 50 / (11 + 62 / 70 - (11 + 12 / 70)),
        "minutes_above_600_c": 11 + 10 / 70 - 4.5,
        "minutes_above_900_c": 0.0,
        "over_min": over,
        "over_c_min": over * 12 / 2,
        "short_c": 0.0,
        "window_min": (10 + 50 / 90) - (5 + 10 / 60) - over,
        "cooling_rate_c_per_min": 272 / 4,
        "wall_lag_c": 27.0,
        "largest_gap_min": 1.0,
        "n_readings": 13.0,
    }
    assert {name: value(found[name]) for name in expected} == pytest.approx(expected)


def test_the_interval_of_a_calibration_error_does_not_average_out() -> None:
    """A rectangular error of ± 8 °C shared by all readings and nothing else: the peak's 95 % interval is ± 7.6 °C,
    and the overall rise, a difference, has none."""
    found = figures(curve(*HAND_LOG, own_sd_c=0.0, common_c=8.0))
    peak, rise = found["peak_c"], found["heating_rate_c_per_min"]
    assert [peak.low, peak.high] == pytest.approx([812 - 7.6, 812 + 7.6], abs=0.4)
    assert [rise.low, rise.high] == pytest.approx([99.75, 99.75])


def test_a_calibration_error_moves_both_ends_of_a_time_above() -> None:
    """After check value uncertainty-013: e (1/22 + 1/9) for the 5.7 °C that 95 % of a rectangle of ± 6 °C spans."""
    up, down = 600 / 22, 600 / 9
    found = figures(curve([0, up, up + down], [300, 900, 300], own_sd_c=0.0, common_c=6.0))["minutes_above_600_c"]
    half = 5.7 * (1 / 22 + 1 / 9)
    plain = (up + down) / 2
    assert [found.low, found.high] == pytest.approx([plain - half, plain + half], abs=0.05)


def test_the_equivalent_temperatures_interval_takes_in_the_range_of_the_model() -> None:
    """The table of the bonfire: 729.27 °C at 150 kJ/mol, 761.52 °C at 300; 95 % of that range with no other error."""
    found = figures(curve([0, 12, 22, 30, 45, 70], [20, 500, 800, 820, 650, 200], own_sd_c=0.0, common_c=0.0))
    equivalent = found["equivalent_1h_c"]
    assert value(equivalent) == pytest.approx(748.76, abs=0.02)
    assert equivalent.low == pytest.approx(729.27, abs=2.0)
    assert equivalent.high == pytest.approx(761.52, abs=2.0)
    assert equivalent.remark.startswith("729 °C for 150 kJ/mol, 762 °C for 300 kJ/mol")


def test_the_walls_lag_takes_in_the_range_of_its_diffusivity_and_of_its_thickness() -> None:
    """27 °C at α 0.5; α from 0.3 to 0.8 mm²/s alone spans 16.9 to 45.0, and a wall of 5 to 7 mm widens that."""
    sure = figures(curve(*HAND_LOG, own_sd_c=0.0))["wall_lag_c"]
    assert sure.low == pytest.approx(27 * 0.5 / 0.8, abs=0.6)
    assert sure.high == pytest.approx(27 * 0.5 / 0.3, abs=2.5)
    rough = firing()
    vague = type(rough)(
        **{f: getattr(rough, f) for f in rough.__slots__} | {"conditions": {"clay.wall": millimetres(5, 7)}}
    )
    wide = measure(vague, curves(curve(*HAND_LOG, own_sd_c=0.0)), NARROW, HEAT).ware_figures["wall_lag_c"]
    assert wide.low is not None and sure.low is not None and wide.low < sure.low
    assert wide.high is not None and sure.high is not None and wide.high > sure.high


@pytest.mark.parametrize(
    ("probe", "name", "words"),
    [
        (curve([0, 5], [20, 180]), "steam_rise_c_per_min", "It never reached 200 °C."),
        (curve([0, 5], [120, 500]), "steam_rise_c_per_min", "It stood above 100 °C already when the readings begin."),
        (curve([0, 5], [20, 800]), "quartz_fall_c_per_min", "The readings end before it had cooled to 548 °C."),
        (curve([0, 5], [20, 800]), "cooling_rate_c_per_min", "The last reading is the hottest."),
        (curve([0, 5], [800, 20]), "heating_rate_c_per_min", "The first reading is the hottest."),
        (curve([0, 5], [800, 20]), "fastest_rise_c_per_min", "The temperature only fell."),
        (curve([0, 0.5], [20, 80]), "fastest_rise_c_per_min", "The readings span less than the 1 min"),
        (curve([3], [700]), "minutes_above_600_c", "A single reading has no length in time."),
        (curve([3], [700]), "equivalent_1h_c", "A single reading has no length in time."),
        (curve([3], [700]), "window_min", "A single reading has no length in time."),
        (curve(*HAND_LOG), "spread_c", "Only one probe was read."),
        (curve([-9, -5], [20, 30]), "peak_c", "All readings were taken before the main fire was lit."),
    ],
)  # fmt: skip
def test_a_missing_figure_says_why(probe: Curve, name: str, words: str) -> None:
    figure = figures(probe)[name]
    assert figure.value is None
    assert figure.remark.startswith(words)


@pytest.mark.parametrize(
    ("low_c", "high_c", "missing"),
    [
        (None, None, {"window_min", "over_min", "over_c_min", "short_c"}),
        (650.0, None, {"over_min", "over_c_min"}),
        (None, 800.0, {"short_c"}),
        (650.0, 800.0, set()),
    ],
)
def test_a_window_with_an_open_edge_gives_what_it_can(
    low_c: float | None, high_c: float | None, missing: set[str]
) -> None:
    found = figures(curve(*HAND_LOG), method=Method("m", "M", "pit", "", {}, low_c, high_c))
    names = {"window_min", "over_min", "over_c_min", "short_c"}
    assert {name for name in names if found[name].value is None} == missing
    assert all("window" in found[name].remark for name in missing)


def test_a_wall_that_was_not_measured_has_no_lag() -> None:
    assert figures(curve(*HAND_LOG), wall_mm=None)["wall_lag_c"].remark == "The thickness of the wall was not recorded."


def test_a_thick_wall_is_said_not_to_follow_so_short_a_rise() -> None:
    """L²/α for a wall of 12 mm is 1.2 min (check value heatwork-064: 72 s), longer than the window of 1 min."""
    assert "only after 1.2 min" in figures(curve(*HAND_LOG), wall_mm=12.0)["wall_lag_c"].remark
    assert figures(curve(*HAND_LOG), wall_mm=6.0)["wall_lag_c"].remark == ""


def test_a_probe_that_topped_out_gives_lower_bounds_without_an_upper_end() -> None:
    found = figures(curve(*HAND_LOG, at_least=True))
    bounds = {name for name, figure in found.items() if figure.at_least}
    assert bounds == {
        "peak_c", "time_to_peak_min", "fastest_rise_c_per_min", "over_c_min", "equivalent_1h_c",
        "cooling_rate_c_per_min", "wall_lag_c", "minutes_above_900_c",
    }  # fmt: skip
    assert all(found[name].high is None and found[name].low is not None for name in bounds)
    assert "may have been less" in found["soak_min"].remark
    assert found["minutes_above_600_c"].remark == ""


def test_a_coarse_log_says_that_the_fire_may_have_gone_higher() -> None:
    """Worked by hand: from 700 at minute 20 on at 10 a minute, and back from 650 at minute 30 at 35 a minute: they
    meet after 300/45 = 6.67 min at 766.7 °C; on the other side of the reading only at 738 °C."""
    found = figures(curve([0, 10, 20, 30, 40], [20, 600, 700, 650, 300]))
    assert found["peak_c"].remark == "Between readings it may have gone higher, to about 770 °C if it turned evenly."
    assert "10 min apart" in found["minutes_above_600_c"].remark
    assert "10 min apart" in found["fastest_rise_c_per_min"].remark


def test_the_highest_reading_at_the_end_says_that_it_may_have_gone_higher() -> None:
    assert "afterwards" in figures(curve([0, 5, 10], [20, 400, 700]))["peak_c"].remark


def test_a_log_that_began_before_lighting_is_measured_from_lighting() -> None:
    """Worked by hand: on the line from 60 °C at −2 to 240 °C at 1 the curve stands at 180 °C at lighting."""
    found = figures(curve([-30, -2, 1, 6], [20, 60, 240, 740]))
    assert value(found["start_c"]) == pytest.approx(180.0)
    assert value(found["heating_rate_c_per_min"]) == pytest.approx(560 / 6)
    assert value(found["largest_gap_min"]) == 5.0
    assert value(found["n_readings"]) == 3.0


def test_a_reading_at_lighting_itself_is_the_first() -> None:
    found = figures(curve([-5, 0, 6], [20, 60, 700]))
    assert (value(found["start_c"]), value(found["n_readings"])) == (60.0, 2.0)


def test_a_firing_without_readings_has_no_probes() -> None:
    heat = measure(firing(), NO_CURVES, NARROW, HEAT)
    assert (heat.probes, heat.ware, heat.ware_figures) == ((), None, {})


def test_every_probe_is_measured_and_shares_the_spread() -> None:
    """Worked by hand: the rim stands 30 °C below the wall throughout."""
    wall, rim = curve(*HAND_LOG, own_sd_c=0.0), curve(HAND_LOG[0], HAND_LOG[1] - 30.0, "rim", own_sd_c=0.0)
    heat = measure(firing(), curves(wall, rim), NO_WINDOW, HEAT)
    assert [probe.probe for probe in heat.probes] == ["wall", "rim"]
    assert [value(probe.figures["spread_c"]) for probe in heat.probes] == pytest.approx([30.0, 30.0])
    assert value(heat.probes[1].figures["peak_c"]) == 782.0


def test_the_same_entry_gives_the_same_intervals() -> None:
    assert figures(curve(*HAND_LOG)) == figures(curve(*HAND_LOG))


@settings(max_examples=60)
@given(logs(), st.floats(0.0, 20.0), st.floats(0.0, 20.0), st.booleans())
def test_every_interval_holds_its_value_whatever_was_read(
    log: tuple[Floats, Floats], own_sd_c: float, common_c: float, at_least: bool
) -> None:
    """Flat curves, curves that only fall, curves too cold for a figure: never an exception, never a NaN."""
    found = figures(curve(*log, own_sd_c=own_sd_c, common_c=common_c, at_least=at_least))
    for name, figure in found.items():
        if figure.value is None:
            assert figure.remark and figure.low is None and figure.high is None, name
            continue
        assert np.isfinite(figure.value), name
        assert figure.low is None or figure.low <= figure.value, name
        assert figure.high is None or figure.high >= figure.value, name
        assert figure.at_least == (figure.high is None) or name in ("largest_gap_min", "n_readings"), name


def test_a_loggers_thousands_of_readings_get_fewer_draws_of_every_probe_alike() -> None:
    """250,000 numbers at most, never fewer than 200 draws."""
    short, long = curve(*HAND_LOG), curve(np.arange(5000.0), np.full(5000, 300.0))
    assert draw_count((short,)) == DRAWS
    assert draw_count((short, long)) == 200
    fire = main_fire(short, "seed", 200)
    assert fire is not None
    assert fire.celsius.shape == (1 + 200 + ROUGHENED, 13)


def test_each_kind_of_figure_is_known_by_one_name_and_has_a_meaning() -> None:
    names = [kind.name for kind in kinds_for(HEAT.levels_c)]
    assert len(set(names)) == len(names) == len(FIGURE_KINDS) - 1 + len(HEAT.levels_c)
    assert all(kind.meaning.endswith(".") for kind in kinds_for(HEAT.levels_c))
