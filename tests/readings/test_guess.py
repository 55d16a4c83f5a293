"""What a log of which nothing is known yet seems to hold: its hottest reading, and where the main fire begins."""

from __future__ import annotations

import numpy as np
import pytest

from builder.readings.guess import lighting, see

BEFORE = "".join(f"{9 + (30 + n) // 60}:{(30 + n) % 60:02},{20 + 2 * n}\n" for n in range(40))
"""Forty minutes of warming at 2 °C a minute: from 9:30 and 20 °C to 10:09 and 98 °C."""


def test_lighting_is_where_the_steep_rise_begins_after_a_warm_up() -> None:
    """Worked by hand: 2 °C a minute until 10:10 and 100 °C, then 90 °C a minute."""
    log = "time,wall (°C)\n" + BEFORE + "10:10,100\n10:11,190\n10:12,280\n10:14,460\n10:18,820\n10:25,600\n"
    seen = see(log.encode())
    assert seen is not None
    assert seen.time == "clock"
    assert seen.peak is not None
    assert (seen.peak.time, seen.peak.value) == ("10:18:00", 820.0)
    assert seen.lit is not None
    assert (seen.lit.time, seen.lit.value) == ("10:10:00", 100.0)


def test_a_log_that_begins_with_the_fire_has_no_lighting_to_offer() -> None:
    seen = see(b"time,wall (C)\n0:00,14\n2:00,210\n4:30,565\n9:10,812\n12:00,640\n")
    assert seen is not None
    assert seen.lit is None
    assert seen.peak is not None
    assert seen.peak.time == "9:10"


def test_elapsed_seconds_are_written_as_an_entry_takes_them() -> None:
    """Worked by hand: level for an hour and a minute, 3,660 s, then 100 °C a minute."""
    level = "".join(f"{second},20.{second % 2}\n" for second in range(0, 3660, 60))
    rise = "".join(f"{3660 + 60 * n},{20 + 100 * n}\n" for n in range(8))
    seen = see(f"time (s),wall (°C)\n{level}{rise}4200,500\n".encode())
    assert seen is not None
    assert seen.lit is not None
    assert seen.lit.time == "1:01:00"


@pytest.mark.parametrize("step_s", [1.0, 10.0, 30.0])
def test_lighting_is_found_within_a_reading_whatever_the_interval(step_s: float) -> None:
    """A level log with noise of 0.3 °C, lit at 600 s, that then rises by 1.5 °C a second."""
    seconds = np.arange(0.0, 1000.0, step_s)
    values = 20 + np.clip(seconds - 600.0, 0.0, None) * 1.5 + np.random.default_rng(1).normal(0, 0.3, seconds.size)
    hottest = int(np.argmax(values))
    found = seconds[lighting(seconds[: hottest + 1], values[: hottest + 1])]
    assert abs(found - 600.0) <= max(step_s, 3.0)


@pytest.mark.parametrize("preamble", ["Logger 7;serial 3\n", "Logger 7;serial 3;\n"])
def test_what_a_logger_says_of_itself_above_the_headings_names_no_column(preamble: str) -> None:
    seen = see(f"{preamble}time;T1 (°C);T2 (°C)\n0:00;14;13\n2:00;210;40\n4:30;565;200\n".encode())
    assert seen is not None
    assert [column.heading for column in seen.columns] == ["T1 (°C)", "T2 (°C)"]


def test_names_with_their_units_in_the_row_below_are_one_heading() -> None:
    seen = see(b"time;wall;ash\n;C;C\n0:00;14;13\n2:00;210;40\n4:30;565;200\n")
    assert seen is not None
    assert [column.heading for column in seen.columns] == ["wall C", "ash C"]
