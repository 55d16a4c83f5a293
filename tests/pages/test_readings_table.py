"""The readings as a file: everything that was read, in a form that other programs read back."""

from __future__ import annotations

import csv
import io

from builder.pages.readings_table import MOST_ROWS, readings_csv, readings_table
from builder.readings.curve import FiringCurves
from tests.pages.invented import curve, record


def test_the_file_has_a_row_for_each_reading_of_each_probe() -> None:
    one = record(curves=FiringCurves((curve(), curve("rim", unit="°F")), 0, (), ()))
    rows = list(csv.DictReader(io.StringIO(readings_csv(one).decode(), newline="")))
    assert [row["probe"] for row in rows] == ["wall"] * 5 + ["rim"] * 5
    assert rows[2] == {
        "firing": "2026-05-02-pale-jar",
        "probe": "wall",
        "minute": "4.5",
        "as_read": "565 °C",
        "unit": "°C",
        "temperature_c": "565.0",
        "note": "",
    }


def test_thinning_keeps_the_first_the_last_and_the_hottest_reading() -> None:
    minutes = [minute / 7 for minute in range(1400)]
    celsius = [20.0 + minute for minute in range(1399)] + [500.0]
    import numpy as np

    table = readings_table(FiringCurves((curve(minutes=minutes, celsius=np.array(celsius)),), 0, (), ()))
    assert len(table.rows) <= MOST_ROWS + 1
    assert table.total == 1400
    cells = [row[1][0] for row in table.rows]
    assert 'data-c="20"' in cells[0]
    assert 'data-c="500"' in cells[-1]
    assert any('data-c="1418"' in cell for cell in cells)


def test_a_reading_that_was_converted_shows_what_was_read() -> None:
    made = curve(as_read=("57", "500", "1049", "1368", "1184"), unit="°F")
    table = readings_table(FiringCurves((made,), 0, (), ()))
    assert "read 1368 °F" in table.rows[3][1][0]
    assert "read" not in readings_table(FiringCurves((curve(),), 0, (), ())).rows[3][1][0]
