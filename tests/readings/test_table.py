"""Readings are read from rows and from files of every shape that potters and loggers write."""

from __future__ import annotations

import codecs
import re
import time
from unittest.mock import patch

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from builder.base.codes import CODES
from builder.base.problem import Place
from builder.base.units import DEGREE_SIGNS
from builder.checks.firing import Probe
from builder.readings import rows as readings_rows
from builder.readings.cells import MAX_BYTES, MAX_ROWS
from builder.readings.log_file import read_log
from builder.readings.rows import read_rows
from builder.readings.table import Table, TableRead
from builder.readings.times import read_times
from tests.readings.entries import file_of, rows_of

ENTRY = Place("content/firings/2026-05-02-jar/entry.md")
C, F, MV = (Probe("wall", unit=unit) for unit in ("°C", "°F", "mV"))


def rows(*texts: str, probes: tuple[Probe, ...] = (Probe("wall"),), time: str | None = "elapsed") -> TableRead:
    return read_rows(rows_of(texts, probes, time), "entry.md")


def log(text: str | bytes, *probes: Probe, time: str | None = "elapsed", time_column: str | None = None) -> TableRead:
    data = text.encode() if isinstance(text, str) else text
    return read_log(file_of("log.csv", probes or (C,), time, time_column), data, ENTRY, "log.csv")


def table(read: TableRead) -> Table:
    assert read.table is not None, read.problems
    assert read.problems == ()
    return read.table


def values(read: TableRead, column: int = 0) -> list[float | None]:
    return [None if np.isnan(value) else round(float(value), 6) for value in table(read).columns[column].values]


def seconds(read: TableRead) -> list[float]:
    return [round(float(second), 6) for second in table(read).seconds]


# Inline rows


def test_rows_hold_a_time_a_temperature_and_words() -> None:
    read = rows("0:00   14 °C   lit", "4:30  565 °C   flames over the rim", "12:00 640 °C")
    assert seconds(read) == [0, 270, 720]
    assert values(read) == [14, 565, 640]
    assert table(read).remarks == ("lit", "flames over the rim", "")
    assert table(read).columns[0].as_read == ("14 °C", "565 °C", "640 °C")


@pytest.mark.parametrize(
    ("text", "value", "unit"),
    [
        ("1:00 785 °C", 785, "°C"), ("1:00\t785C", 785, "°C"), ("1:00, 785 °C", 785, "°C"),
        ("1:00 | 785 °C | words", 785, "°C"), ("1:00 785\u00ba C", 785, "°C"), ("1:00 785 \u2103", 785, "°C"),
        ("1:00 1,450 °F", 1450, "°F"), ("1:00 1450F raked", 1450, "°F"), ("1:00 1 450 °F", 1450, "°F"),
        ("1:00 785,5 °C", 785.5, "°C"), ("1:00 about 700 °C", 700, "°C"), ("1:00 ~700 °C", 700, "°C"),
        ("1:00 650-700 °C", 675, "°C"), ("1:00 \u22125 °C", -5, "°C"), ("1:00 1073 K", 799.85, "°C"),
        ("1:00 31.214 mV", 31.214, "mV"), ("1:00 700 °C, then rain", 700, "°C"), ("1:00 565 deg C", 565, "°C"),
    ],
)  # fmt: skip
def test_a_row_takes_a_temperature_however_it_is_written(text: str, value: float, unit: str) -> None:
    read = rows(text)
    assert values(read) == [value]
    assert table(read).columns[0].unit == unit


@pytest.mark.parametrize("gap", ["-", "–", "—", "---", "nan", "NaN", "n/a", "OPEN", "Err", "?"])
def test_a_row_says_in_many_ways_that_a_probe_was_not_read(gap: str) -> None:
    read = rows(f"1:00 {gap} 640 °C raked", probes=(Probe("rim"), Probe("foot")))
    assert values(read, 0) == [None]
    assert values(read, 1) == [640]
    assert table(read).remarks == ("raked",)


def test_a_row_of_words_alone_is_an_event() -> None:
    read = rows("0:00 14 °C", "5:00 open the stack", "6:00 none too soon")
    assert values(read) == [14, None, None]
    assert table(read).remarks == ("", "open the stack", "none too soon")


def test_a_temperature_in_the_words_of_an_event_stays_there() -> None:
    read = rows("0:00 14 °C lit", "4:30 over 800 °C by the glow", "9:00 smoke gone above 600 °C or so")
    assert values(read) == [14, None, None]
    assert table(read).remarks[1] == "over 800 °C by the glow"


def test_what_a_probe_showed_instead_of_a_number_is_listed_and_a_dash_is_not() -> None:
    read = rows("0:00 14 °C", "1:00 nan", "2:00 OL", "3:00 -", "4:00 700 °C")
    assert [repair.words for repair in table(read).repairs] == ["2 of 5 readings of wall are no number (`nan`)."]


def test_rows_in_two_units_come_out_in_the_commoner_one() -> None:
    read = rows("1:00 100 °C", "2:00 212 °F", "3:00 300 °C")
    assert values(read) == [100, 100, 300]  # 212 °F is 100 °C (NIST SP 811)
    assert table(read).columns[0].as_read == ("100 °C", "212 °F", "300 °C")


@pytest.mark.parametrize(
    ("mode", "texts", "expected"),
    [
        ("elapsed", ["0:00", "12:30", "75:00", "1:20:30"], [0, 750, 4500, 4830]),
        ("elapsed", ["2 min", "2.5 min", "1 h 2 min", "90 s"], [120, 150, 3720, 90]),
        ("elapsed", ["12:30.5", "0:01:02.5"], [750.5, 62.5]),
        ("clock", ["9:05", "18:05", "18:05:30"], [32_700, 65_100, 65_130]),
        ("clock", ["12:30 am", "12:00 PM", "6:05pm", "6:05 p.m."], [1800, 43_200, 65_100, 65_100]),
        ("clock", ["23:59", "0:01", "0:02:30"], [86_340, 86_460, 86_550]),
        (None, ["2017-10-25 18:56:4.0", "2017-10-25T18:56:05Z"], [68_164, 68_165]),
        (None, ["2017-10-25 23:59:59", "2017-10-26 0:0:1"], [86_399, 86_401]),
        (None, ["25/10/2017 18:56", "25/10/2017 18:57"], [68_160, 68_220]),
        (None, ["10/25/2017 6:56 PM", "10/25/2017 6:57 PM"], [68_160, 68_220]),
        (None, ["31.12.2025 23:59:00", "01.01.2026 00:01:00"], [86_340, 86_460]),
    ],
)
def test_times_are_read_as_they_are_written(mode: str | None, texts: list[str], expected: list[float]) -> None:
    """Expected seconds are worked by hand: hours · 3600 + minutes · 60 + seconds, a day more past midnight."""
    read = read_times(texts, mode)
    assert read.faults == ()
    assert read.seconds == pytest.approx(expected)


FAULTS = [
    # row, code, column in the entry (rows begin in column 5), words of the help
    ("4.30  565 °C", "reading-time", 5, "`4:30`"),
    ("4  565 °C", "reading-time", 5, "`4:00` or `4 min`"),
    ("  4:75  565 °C", "reading-time", 7, "`4:30`"),
    ("half four  565 °C", "reading-time", 5, "`4:30`"),
    ("4:3  565 °C", "reading-time", 5, "`4:03` or `4:30`"),
    ("4:30  565", "quantity-unit", 11, "`565 °C`"),
    ("4:30  565 mm", "quantity-unit", 11, "`565 °C`"),
    ("4:30  5b5 °C", "reading-value", 11, "a number with its unit"),
    ("4:30  1.450 °F", "quantity-ambiguous", 11, "`1450 °F`"),
    ("4:30  5650 °C", "reading-impossible", 11, "a digit too many"),
    ("4:30  >1000 °C", "reading-value", 11, "`1000 °C`; where the thermometer can show no more"),
    ("4:30  > 1000", "reading-value", 11, "`limit: 1000`"),
    ("4:30  over 1000 °C", "reading-value", 11, "`limit: 1000 °C`"),
    ("- 4:30  565 °C", "reading-time", 5, "Take it away."),
    ("4:30", "reading-columns", 9, "`4:30 -`"),
    ("4:30  565 °C 570 °C", "reading-columns", 18, "Name a probe"),
]


@pytest.mark.parametrize(("row", "code", "column", "help_"), FAULTS)
def test_a_fault_in_a_row_has_its_place_and_a_way_out(row: str, code: str, column: int, help_: str) -> None:
    read = rows("0:00  14 °C  lit", row)
    (found,) = read.problems
    assert (found.code, found.place.line, found.place.column) == (code, 21, column)
    assert help_ in found.help
    assert code in CODES


def test_every_fault_of_every_row_is_found_in_one_run() -> None:
    read = rows(*(row for row, *_ in FAULTS))
    assert sorted(problem.code for problem in read.problems) == sorted(code for _, code, *_ in FAULTS)
    assert [problem.place.line for problem in read.problems] == list(range(20, 20 + len(FAULTS)))


def test_a_row_with_too_few_temperatures_is_given_back_filled() -> None:
    read = rows("2:00 212 °C flames", probes=(Probe("rim"), Probe("foot")))
    (found,) = read.problems
    assert found.code == "reading-columns"
    assert "`2:00 212 °C - flames`" in found.help


def test_a_time_that_could_be_either_asks_which() -> None:
    read = rows("12:30 565 °C", time=None)
    assert [problem.code for problem in read.problems] == ["reading-time"]
    assert "`time: elapsed` or `time: clock`" in read.problems[0].help


# Files

SHAPES: dict[str, str | bytes] = {
    "comma": "time,temp\n0:00,14\n4:30,565.5\n9:10,\n12:00,640\n",
    "comma and space": "0:00, 14\n4:30, 565.5\n9:10, nan\n12:00, 640\n",
    "semicolon and decimal comma": "time;temp\n0:00;14\n4:30;565,5\n9:10;\n12:00;640\n",
    "tab": "time\ttemp\n0:00\t14\n4:30\t565.5\n9:10\t---\n12:00\t640\n",
    "spaces": "0:00   14\n4:30  565.5\n9:10  NaN\n12:00 640\n",
    "spaces and decimal comma": "0:00 14,0\n4:30 565,5\n9:10 OPEN\n12:00 640,0\n",
    "bar": "time|temp\n0:00|14\n4:30|565.5\n9:10|Err\n12:00|640\n",
    "quoted": '"time","temp"\n"0:00","14"\n"4:30","565,5"\n"9:10",""\n"12:00","640"\n',
    "returns": "time,temp\r\n0:00,14\r\n4:30,565.5\r\n9:10,n/a\r\n12:00,640\r\n",
    "old returns": "time,temp\r0:00,14\r4:30,565.5\r9:10,n/a\r12:00,640\r",
    "byte-order mark": codecs.BOM_UTF8 + b"time,temp\n0:00,14\n4:30,565.5\n9:10,\n12:00,640\n",
    "utf-16": "time,temp\n0:00,14\n4:30,565.5\n9:10,\n12:00,640\n".encode("utf-16"),
    "utf-16 big-endian": codecs.BOM_UTF16_BE + "0:00;14\n4:30;565,5\n9:10;\n12:00;640\n".encode("utf-16-be"),
    "windows letters": "time;Temp (\u00b0C)\n0:00;14\n4:30;565,5\n9:10;\n12:00;640\n".encode("cp1252"),
    "preamble": "Logger K-4\nSerial,12345\n\nStarted at noon,,\ntime,temp\n0:00,14\n4:30,565.5\n9:10,\n12:00,640",
    "names above units": "time,temp\nm:ss,deg C\n0:00,14\n4:30,565.5\n9:10,\n12:00,640\n",
    "blank lines": "time,temp\n\n0:00,14\n\n4:30,565.5\n9:10,\n\n\n12:00,640\n\n",
    "trailing commas": "time,temp,\n0:00,14,\n4:30,565.5,\n9:10,,\n12:00,640,\n",
    "units in cells": "0:00,14 °C\n4:30,565.5 °C\n9:10,-\n12:00,640 °C\n",
    "exponents": "0:00,1.4e1\n4:30,5.655E+02\n9:10,nan\n12:00,640\n",
    "hours": "0:00:00,14\n0:04:30,565.5\n0:09:10,\n0:12:00,640\n",
    "minutes": "time (min),temp\n0,14\n4.5,565.5\n9.166667,\n12,640\n",
    "decimal minutes with comma": "minutes;temp\n0;14\n4,5;565,5\n9,166667;\n12;640\n",
    "seconds": "time (s),temp\n0,14\n270,565.5\n550,\n720,640\n",
    "milliseconds": "Time_ms;temp\n0;14\n270000;565.5\n550000;\n720000;640\n",
    "hours as numbers": "hours\ttemp\n0\t14\n0.075\t565.5\n0.15277778\t\n0.2\t640\n",
}


@pytest.mark.parametrize("shape", SHAPES)
def test_a_file_of_any_shape_gives_the_same_readings(shape: str) -> None:
    read = log(SHAPES[shape])
    assert [round(second) for second in seconds(read)] == [0, 270, 550, 720]
    assert values(read) == [14, 565.5, None, 640]


@pytest.mark.parametrize(
    "text",
    [
        "2026-05-02 23:58:00,14\n2026-05-03 00:02:30,565.5\n",
        "2026-05-02T23:58,14\n2026-05-03T00:02:30,565.5\n",
        "Date,Time,Temp\n2026-05-02,23:58:00,14\n2026-05-03,00:02:30,565.5\n",
        "time,temp\n23:58,14\n0:02:30,565.5\n",
        "time,temp\n11:58 PM,14\n12:02:30 AM,565.5\n",
        "2026-05-02 23:58:00 14\n2026-05-03 00:02:30 565.5\n",
    ],
)
def test_a_file_may_cross_midnight(text: str) -> None:
    read = log(text, time="clock")
    first, second = seconds(read)
    assert (second - first) == 270
    assert values(read) == [14, 565.5]
    assert table(read).on_clock


@pytest.mark.parametrize(
    ("text", "probe", "unit"),
    [
        ("time,Temp (°F)\n0:00,57\n", Probe("wall"), "°F"),
        ("time,Temp [C]\n0:00,57\n", Probe("wall"), "°C"),
        ("time,T1 mV\n0:00,5.7\n", Probe("wall"), "mV"),
        ("time,Temperature_F\n0:00,57\n", Probe("wall"), "°F"),
        ("time,temp\n0:00,57\n", F, "°F"),
        ("time,temp\n0:00,57 F\n", C, "°F"),
        ("time,temp\n0:00,5.7\n", MV, "mV"),
    ],
)
def test_the_unit_comes_from_the_cell_the_probe_or_the_heading(text: str, probe: Probe, unit: str) -> None:
    assert table(log(text, probe)).columns[0].unit == unit


def test_columns_are_found_by_number_and_by_words() -> None:
    text = "No,time,Rim (°C),Foot (°C),note\n1,0:00,20,30,lit\n2,1:00,21,31,\n"
    by_number = log(text, Probe("a", column="4"), Probe("b", column="3"))
    by_words = log(text, Probe("a", column="foot (°c)"), Probe("b", column="Rim"))
    by_name = log(text, Probe("foot"), Probe("rim"))
    for read in (by_number, by_words, by_name):
        assert values(read, 0) == [30, 31]
        assert values(read, 1) == [20, 21]
        assert seconds(read) == [0, 60]
        assert table(read).remarks == ("lit", "")


def test_the_time_may_be_named_by_number_or_by_words() -> None:
    text = "elapsed,at,Rim\n0:00,18:05,20\n1:00,18:06,21\n"
    probe = Probe("rim", unit="°C", column="3")
    assert seconds(log(text, probe, time="elapsed", time_column="1")) == [0, 60]
    assert seconds(log(text, probe, time="clock", time_column="at")) == [65_100, 65_160]


def test_a_comma_parts_thousands_where_smaller_numbers_go_without() -> None:
    assert values(log('0:00,815\n1:00,"1,450"\n2:00,"1,452"\n', F)) == [815, 1450, 1452]
    assert values(log("0:00;814,250\n1:00;815,500\n", F)) == [814.25, 815.5]
    assert values(log("0:00;814.5\n1:00;1,450.5\n", F)) == [814.5, 1450.5]
    assert values(log("0:00;814,5\n1:00;1.450,5\n", F)) == [814.5, 1450.5]


def test_a_point_parts_thousands_where_hundreds_go_without() -> None:
    assert values(log("0:00;14\n1:00;950\n2:00;1.050\n")) == [14, 950, 1050]
    assert values(log("0:00;815 °F\n1:00;1.450 °F\n", F)) == [815, 1450]
    assert values(log("0:00;1.125\n1:00;2.250\n", MV)) == [1.125, 2.25]
    assert values(log("0:00;14\n1:00;1.125\n")) == [14, 1.125]
    assert values(log("0:00;950.5\n1:00;1.125\n2:00;100\n")) == [950.5, 1.125, 100]


@pytest.mark.parametrize("sign", [*DEGREE_SIGNS, "° ", " °", "\u00a0°", "\u2009°", "\u202f°", ""])
def test_every_sign_of_degrees_and_every_space_is_read_in_rows_cells_and_headings(sign: str) -> None:
    row = rows(f"0:00 −4{sign}C lit", f"1:00 1 050{sign}C", f"2:00 1\u202f050{sign}F")
    assert values(row) == [-4, 1050, pytest.approx((1050 - 32) / 1.8, abs=1e-6)]
    cells = log(f"0:00;−4{sign}F\n1:00;1\u00a0050{sign}F\n2:00;1 450{sign}F\n")
    assert (values(cells), table(cells).columns[0].unit) == ([-4, 1050, 1450], "°F")
    heading = log(f"time;temp ({sign}F)\n0:00;57\n", Probe("wall"))
    assert table(heading).columns[0].unit == "°F"


def test_what_is_no_number_is_counted_and_listed() -> None:
    read = log("time,temp\n0:00,14\n1:00,\n2:00,OPEN\n3:00,wind\nlater,20\n")
    kinds = {repair.kind: repair.words for repair in table(read).repairs}
    assert kinds["blank"] == "1 of 5 readings of wall is blank."
    assert kinds["not a number"] == "2 of 5 readings of wall are no number (`OPEN`)."
    assert "line 6" in kinds["no time"]
    assert values(read) == [14, None, None, None, 20]


def test_a_logger_s_mark_for_an_open_circuit_is_listed_and_left_out() -> None:
    read = log("0:00,14\n1:00,9999\n2:00,-200\n3:00,20\n")
    assert values(read) == [14, None, None, 20]
    (repair,) = table(read).repairs
    assert repair.kind == "impossible"
    assert repair.as_read == "9999"


FILE_FAULTS = [
    (b"", "reading-file"),
    (b"\n\n", "reading-file"),
    (b"no table here", "reading-file"),
    (b"\xff\xd8\xff\xe0\0\x10JFIF\0\0", "reading-file"),
    (b"0:00,14\n" + b"1" * MAX_BYTES, "reading-file"),
    (b"1,2\n" * (MAX_ROWS + 1), "reading-file"),
    (b"0:00,14\n" + b"x" * 5000, "reading-file"),
    (b"date,temp\n2026-05-02,14\n", "reading-time"),
    (b"n,temp\n1,14\n2,15\n", "reading-time"),
    (b"0:00,14,15\n", "reading-columns"),
]


@pytest.mark.parametrize(("data", "code"), FILE_FAULTS)
def test_a_file_that_cannot_be_used_says_why(data: bytes, code: str) -> None:
    read = log(data)
    assert [problem.code for problem in read.problems] == [code]
    assert all(problem.help for problem in read.problems)


def test_a_column_that_is_not_there_offers_those_that_are() -> None:
    read = log("time,Rim,Foot\n0:00,14,15\n", Probe("a", column="Rym", unit="°C"))
    (found,) = read.problems
    assert (found.code, found.field) == ("reading-column-missing", "readings.probes[1].column")
    assert "`Rim`" in found.help and "`Foot`" in found.help
    read = log("time,Rim,Foot\n0:00,14,15\n", Probe("a", column="9", unit="°C"))
    assert [problem.code for problem in read.problems] == ["reading-column-missing"]


def test_bare_numbers_without_a_unit_anywhere_are_refused() -> None:
    read = log("time,temp\n0:00,14\n", Probe("wall"))
    assert [problem.code for problem in read.problems] == ["quantity-unit"]
    assert "`unit: °C`" in read.problems[0].help


def test_a_unit_that_contradicts_the_heading_is_refused() -> None:
    read = log("time,Temp (°F)\n0:00,14\n", C)
    assert [problem.code for problem in read.problems] == ["reading-unit"]
    assert "`unit: °F`" in read.problems[0].help


_LOGLIKE = st.text(st.sampled_from("0123456789:.,;\t \n\"'-+eEnaN°CFtime()/Tr|\r"), max_size=400)


@settings(max_examples=300)
@given(st.one_of(st.binary(max_size=400), _LOGLIKE.map(str.encode)), st.sampled_from(["elapsed", "clock", None]))
def test_any_bytes_give_a_table_or_a_problem(data: bytes, mode: str | None) -> None:
    read = log(data, C, Probe("foot"), time=mode)
    assert read.table is not None or read.problems
    assert all(problem.code in CODES for problem in read.problems)
    if read.table is not None:
        lengths = {column.values.size for column in read.table.columns} | {len(read.table.remarks)}
        assert lengths == {read.table.seconds.size}


@settings(max_examples=300)
@given(
    st.lists(st.one_of(st.text(max_size=60), _LOGLIKE), max_size=8),
    st.sampled_from(["elapsed", "clock", None]),
    st.integers(1, 3),
)
def test_any_rows_give_a_table_and_faults_with_places(texts: list[str], mode: str | None, count: int) -> None:
    read = rows(*texts, probes=tuple(Probe(f"p{number}") for number in range(count)), time=mode)
    assert read.table is not None
    for problem in read.problems:
        assert problem.code in CODES
        assert problem.place.line is not None and 20 <= problem.place.line < 20 + len(texts)
        assert problem.place.column is not None and problem.place.column >= 5


@pytest.mark.parametrize("piece", [b"9", b" ", b"1 ", b",", b"1,", b'"', b"-", b":", b"1:", b"a ", b";\n", b"1e", b"."])
def test_a_hostile_file_costs_no_more_than_its_length(piece: bytes) -> None:
    started = time.perf_counter()
    for unit in (piece * 1_000_000, b"0:00," + piece * 3_000 + b"\n", (b"0:00," + piece * 900 + b"\n") * 500):
        log(unit[:MAX_BYTES])
    # A slow pattern would take minutes on these; the bound is only there to tell the two apart.
    assert time.perf_counter() - started < 30


def test_a_hostile_row_costs_no_more_than_its_length() -> None:
    started = time.perf_counter()
    for piece in ("9", " ", "1 ", "1,", "1 000 ", "-", "1:", "about ", "to ", "h ", "1 h ", ".", "°", "1°"):
        rows("0:00 " + piece * 20_000, piece * 20_000)
        rows("0:00 1 °C a" + piece * 20_000 + "1")
    assert time.perf_counter() - started < 30


_USUAL_PARTS = st.sampled_from(
    [
        "0:00",
        "1:05",
        "12:60",
        "3:7",
        " ",
        "  ",
        "\t",
        ",",
        "20 °C",
        "-4°C",
        "1450 °F",
        "812.5 °C",
        "9999 °C",
        "lit",
        "to ",
        "over 600 °C",
        "F",
        "²",
        "565",
        "5.",
    ]
)


_USUAL_ROWS = st.sampled_from(["0:00 20 °C", "1:05  812.5 °C", "12:50 1450 °F", "13:00 9999 °C", "2:10\t-4°C lid on  "])


@given(st.lists(_USUAL_ROWS | st.lists(_USUAL_PARTS, max_size=6).map("".join), min_size=1, max_size=4))
def test_a_usual_row_is_read_as_the_long_way_reads_it(texts: list[str]) -> None:
    """Rows of times and degrees are taken apart in one look; here the same rows go the long way as well."""
    read = rows(*texts)
    with patch.object(readings_rows, "_usual_row", lambda probes: re.compile(r"(?!)")):
        long_way = rows(*texts)
    assert read.problems == long_way.problems
    assert repr(read.table) == repr(long_way.table)
