"""Open circuits are dropped, real fires are left alone, and what looks odd is doubted aloud."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from hypothesis.extra.numpy import arrays

from builder.readings import clean
from builder.readings.clean import Run
from builder.readings.curve import Floats

REAL = Path(__file__).parent / "real"
HALF_SECONDS = np.arange(200) / 120.0
"""Minutes of a log with two readings a second."""

INTERVALS_S = [0.5, 1.0, 2.0, 5.0, 10.0, 20.0, 30.0, 60.0]


def simulated_fire(seconds: float, tau_s: float, seed: int) -> tuple[Floats, Floats]:
    """Return minutes and °C of a probe of time constant `tau_s` in flames of 850 °C that flicker by 150 °C in 4 s."""
    random = np.random.default_rng(seed)
    time_s = np.arange(0, 1500, 0.5)
    gas = np.interp(time_s, [0, 120, 600, 900, 1500], [20, 400, 850, 850, 200])
    stays = float(np.exp(-0.5 / 4.0))
    pushes = random.standard_normal(time_s.size) * np.sqrt(1 - stays**2)
    celsius, flicker, follows = np.full(time_s.size, 20.0), 0.0, 1 - float(np.exp(-0.5 / tau_s))
    for at in range(1, time_s.size):
        flicker = stays * flicker + pushes[at]
        flame = gas[at] + 150.0 * flicker * gas[at] / 850.0
        celsius[at] = celsius[at - 1] + follows * (flame - celsius[at - 1])
    every = round(seconds / 0.5)
    return time_s[::every] / 60, celsius[::every].copy()


def real(file: str, column: int) -> tuple[Floats, Floats]:
    """Return minutes and °C of one column, from 1, read as plainly as can be."""
    lines = [line.split(", ") for line in (REAL / file).read_text().splitlines()]
    clock = [line[1].split(" ")[1].split(":") for line in lines]
    minutes = np.array([int(hour) * 60 + int(minute) + float(second) / 60 for hour, minute, second in clock])
    return minutes, np.array([float(line[column - 1]) for line in lines])


@pytest.mark.parametrize("column", [3, 4, 5, 6, 7])
def test_a_real_fire_passing_a_bare_probe_is_left_alone(column: int) -> None:
    assert not clean.spikes(*real("logger-1-fire.txt", column)).any()


@pytest.mark.parametrize("column", [3, 4, 5, 6])
def test_another_real_fire_is_left_alone(column: int) -> None:
    minutes, celsius = real("logger-2-nan-column.txt", column)
    sound = ~np.isnan(celsius)
    assert not clean.spikes(minutes[sound], celsius[sound]).any()


def test_a_contact_that_opened_twice_on_a_cold_afternoon_is_seen() -> None:
    """All else in that column is below 27 °C; the log holds 556.25, then 125.75 and 1298.25 (see real/README.md)."""
    minutes, celsius = real("logger-1-spikes.txt", 7)
    sound = ~np.isnan(celsius)
    marked = clean.spikes(minutes[sound], celsius[sound])
    assert celsius[sound][marked].tolist() == [556.25, 125.75, 1298.25]


def test_the_other_probes_of_that_afternoon_are_left_alone() -> None:
    for column in (3, 4, 5, 6):
        assert not clean.spikes(*real("logger-1-spikes.txt", column)).any()


def test_a_twelve_minute_fire_read_once_a_minute_is_left_alone() -> None:
    """The fire of the demo's kind: 14 to 850 °C and down again, and the wildest flicker that could be written."""
    minutes = np.arange(13.0)
    fire = np.array([14, 60, 210, 380, 565, 700, 790, 830, 850, 812, 740, 690, 640.0])
    flicker = np.array([14, 500, 100, 700, 200, 850, 300, 850, 350, 850, 300, 700, 200.0])
    assert not clean.spikes(minutes, fire).any()
    assert not clean.spikes(minutes, flicker).any()


def test_three_readings_far_apart_are_a_fire_and_no_spike() -> None:
    assert not clean.spikes(np.array([0, 10, 60.0]), np.array([14, 950, 20.0])).any()


@pytest.mark.parametrize(
    ("seconds", "peak", "spike"),
    [
        (0.5, 17 + 99.0, False),  # less than 100 °C is believed at any speed
        (0.5, 17 + 101.0, True),
        (2.5, 17 + 249.0, False),  # half-way from 100 °C at one second to 400 °C at four
        (2.5, 17 + 251.0, True),
        (10.0, 17 + 399.0, False),  # a flame's lick
        (10.0, 17 + 401.0, True),
        (30.0, 17 + 401.0, True),
        (45.0, 17 + 599.0, False),  # half-way from 400 °C at half a minute to 800 °C at a minute
        (45.0, 17 + 601.0, True),
        (60.0, 17 + 799.0, False),  # never more than 800 °C
        (60.0, 17 + 801.0, True),
        (91.0, 17 + 1240.0, False),  # too far apart to judge
        (91.0, 17 + 1281.0, False),
    ],
)
def test_a_spike_is_judged_by_what_a_thermometer_can_follow(seconds: float, peak: float, spike: bool) -> None:
    """Worked by hand from the rule at the head of clean.py."""
    minutes = np.arange(5) * seconds / 60
    celsius = np.array([17, 17, peak, 17, 17.0])
    assert clean.spikes(minutes, celsius).tolist() == [False, False, spike, False, False]


def test_a_spike_to_the_end_of_type_k_is_dropped_from_a_log_read_every_ten_seconds() -> None:
    """A loose contact in a fire of 657 °C: 1371.75 °C is the last value of type K's table, +714 °C."""
    minutes, celsius = simulated_fire(10.0, tau_s=8.0, seed=3)
    top = int(celsius.argmax())
    celsius[top + 5] = 1371.75
    assert np.flatnonzero(clean.spikes(minutes, celsius)).tolist() == [top + 5]


@pytest.mark.parametrize("seconds", INTERVALS_S)
def test_a_lone_value_beyond_the_reach_of_a_fire_is_dropped_at_any_interval(seconds: float) -> None:
    minutes, celsius = simulated_fire(seconds, tau_s=8.0, seed=4)
    struck = celsius.size // 2
    celsius[struck] = 1371.75
    assert np.flatnonzero(clean.spikes(minutes, celsius)).tolist() == [struck]


@pytest.mark.parametrize("seconds", [s for s in INTERVALS_S if s <= 30])
def test_a_lone_jump_of_hundreds_of_degrees_is_dropped_from_a_steady_log(seconds: float) -> None:
    """+450 °C and back within half a minute: more than the 400 °C believed, and well within the scale."""
    minutes, celsius = simulated_fire(seconds, tau_s=30.0, seed=5)
    struck = celsius.size // 2
    celsius[struck] += 450.0
    assert np.flatnonzero(clean.spikes(minutes, celsius)).tolist() == [struck]


@pytest.mark.parametrize("seconds", INTERVALS_S)
@pytest.mark.parametrize("tau_s", [8.0, 30.0])
def test_a_flickering_fire_loses_no_reading_at_any_interval(seconds: float, tau_s: float) -> None:
    for seed in range(8):
        assert not clean.spikes(*simulated_fire(seconds, tau_s, seed)).any()


@pytest.mark.parametrize("every", [1, 2, 4, 10, 20, 60, 120])
@pytest.mark.parametrize(("file", "columns"), [("logger-1-fire.txt", 5), ("logger-2-nan-column.txt", 4)])
def test_the_real_grass_fires_lose_no_reading_when_read_more_seldom(file: str, columns: int, every: int) -> None:
    """Two readings a second, thinned to one a second, two seconds … a minute, from each of ten beginnings."""
    for column in range(3, 3 + columns):
        minutes, celsius = real(file, column)
        sound = ~np.isnan(celsius)
        for start in range(0, every, max(1, every // 10)):
            assert not clean.spikes(minutes[sound][start::every], celsius[sound][start::every]).any()


def test_a_lone_reading_that_is_believed_is_named_where_it_stands_far_off() -> None:
    """570 °C on the way between neighbours of 300 and 310 °C, once a minute: 260 above the higher, 250 is told."""
    minutes = np.arange(5.0)
    assert clean.lone(minutes, np.array([300, 300, 570, 310, 310.0])) == 2
    assert clean.lone(minutes, np.array([300, 300, 40, 310, 310.0])) == 2
    assert clean.lone(minutes, np.array([300, 300, 550, 310, 310.0])) is None
    assert clean.lone(minutes * 2, np.array([300, 300, 570, 310, 310.0])) is None


def test_a_contact_that_opens_downwards_is_seen_too() -> None:
    celsius = np.full(200, 640.0)
    celsius[50] = 0.0
    assert np.flatnonzero(clean.spikes(HALF_SECONDS, celsius)).tolist() == [50]


def test_a_front_that_comes_and_stays_is_no_spike() -> None:
    celsius = np.where(np.arange(200) < 100, 17.0, 817.0)
    assert not clean.spikes(HALF_SECONDS, celsius).any()


def test_a_sound_reading_between_two_spikes_stays() -> None:
    celsius = np.full(200, 17.0)
    celsius[[50, 52]] = 1298.25
    assert np.flatnonzero(clean.spikes(HALF_SECONDS, celsius)).tolist() == [50, 52]


def test_a_probe_that_jumps_all_the_time_is_restless() -> None:
    celsius = np.where(np.arange(200) % 4 == 1, 900.0, 17.0)
    assert clean.restless(clean.spikes(HALF_SECONDS, celsius))
    assert not clean.restless(np.arange(200) < 3)


@given(st.integers(0, 60).flatmap(lambda count: st.tuples(*[arrays(float, count, elements=st.floats(-90, 1800))] * 2)))
def test_any_curve_is_judged_without_a_fault(pair: tuple[Floats, Floats]) -> None:
    minutes, celsius = np.sort(pair[0]), pair[1]
    assert clean.spikes(minutes, celsius).shape == minutes.shape
    order, out_of_order = clean.order_of(pair[0])
    assert np.array_equal(pair[0][order], minutes)
    assert (out_of_order == 0) == bool(np.all(np.diff(pair[0]) >= 0))
    clean.doubles(minutes), clean.frozen(minutes, celsius), clean.pulled_out(minutes, celsius)
    clean.largest_gap(minutes)


@given(st.floats(0.4, 60), st.floats(20, 45), st.floats(100, 1000), st.integers(20, 200))
def test_no_smooth_fire_loses_a_reading(seconds: float, rise_c: float, peak: float, count: int) -> None:
    """A fire that rises by up to 45 °C a second, as fast as the real logs, then cools by Newton's law."""
    time_s = np.arange(count) * seconds
    top = count // 2
    celsius = np.minimum(14 + rise_c * time_s, peak)
    celsius[top:] = 14 + (celsius[top] - 14) * np.exp(-(time_s[top:] - time_s[top]) / 20)
    assert not clean.spikes(time_s / 60, celsius).any()


def test_out_of_order_times_are_put_in_order_and_counted() -> None:
    order, count = clean.order_of(np.array([0, 2, 1, 3, 2.5]))
    assert order.tolist() == [0, 2, 1, 4, 3]
    assert count == 2


def test_one_moment_read_several_times_is_found() -> None:
    assert clean.doubles(np.array([0, 1, 1, 2, 3, 3, 3.0])) == (Run(1, 2), Run(4, 6))
    assert clean.doubles(np.array([0, 1, 2.0])) == ()


def test_a_hot_probe_that_does_not_move_is_frozen() -> None:
    minutes = np.arange(20.0)
    celsius = np.concatenate(([14.0, 300, 700], np.full(9, 512.25), np.linspace(500, 200, 8)))
    assert clean.frozen(minutes, celsius) == (Run(3, 11),)
    assert clean.frozen(minutes, celsius + np.arange(20) * 0.25) == ()
    assert clean.frozen(minutes, np.full(20, 14.0)) == ()


def test_a_highest_value_that_repeats_is_the_end_of_a_scale() -> None:
    minutes = np.arange(7.0)
    assert clean.topped_out(minutes, np.array([14, 800, 1000, 1000, 1000, 1000, 900.0])) == Run(2, 5)
    assert clean.topped_out(minutes, np.array([14, 800, 900, 1000, 1000, 1000, 1000.0])) == Run(3, 6)
    assert clean.topped_out(minutes, np.array([14, 800, 1000, 1000, 900, 1000, 1000.0])) is None
    assert clean.topped_out(minutes, np.full(7, 14.0)) is None


def _rounded(seconds: float, peak_c: float, scale_c: float = 2000.0) -> tuple[Floats, Floats]:
    """A fire that turns evenly, faster before its top than after, as a display that ends at `scale_c` shows it."""
    minutes = np.arange(0.0, 40.0, seconds / 60.0)
    celsius = 20.0 + (peak_c - 20.0) * np.exp(-(((minutes - 12.0) / np.where(minutes < 12.0, 5.0, 9.0)) ** 2))
    return minutes, np.minimum(np.round(celsius), scale_c)


@pytest.mark.parametrize("seconds", INTERVALS_S)
@pytest.mark.parametrize("peak_c", [701.0, 788.4, 850.6, 912.49])
def test_the_rounded_top_of_a_fire_that_is_read_often_is_no_end_of_a_scale(seconds: float, peak_c: float) -> None:
    assert clean.topped_out(*_rounded(seconds, peak_c)) is None


@pytest.mark.parametrize("seconds", INTERVALS_S)
def test_the_same_fire_cut_off_by_the_end_of_a_scale_is_seen(seconds: float) -> None:
    minutes, celsius = _rounded(seconds, 850.0, scale_c=800.0)
    found = clean.topped_out(minutes, celsius)
    assert found is not None
    assert set(celsius[found.first : found.last + 1].tolist()) == {800.0}


def test_a_probe_drawn_from_the_fire_is_seen_by_its_fall() -> None:
    minutes = np.arange(6.0)
    assert clean.pulled_out(minutes, np.array([14, 400, 800, 850, 60, 40.0])) == 4
    assert clean.pulled_out(minutes, np.array([14, 400, 800, 850, 300, 800.0])) is None  # it came back
    assert clean.pulled_out(minutes, np.array([14, 400, 800, 850, 640, 500.0])) is None


def test_a_gap_is_noted_where_it_is_much_larger_than_the_others() -> None:
    assert clean.largest_gap(np.array([0, 1, 2, 9, 10.0])) == (2, 7.0)
    assert clean.largest_gap(np.array([0, 5, 10, 20, 25.0])) is None
    assert clean.largest_gap(np.array([0, 10.0])) is None
