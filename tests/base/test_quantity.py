"""Quantities are read as potters write them, and refused where they can be read in two ways."""

from __future__ import annotations

import time

import pytest
from hypothesis import given
from hypothesis import strategies as st

from builder.base.codes import CODES
from builder.base.quantity import MAX_LENGTH, Quantity, QuantityFault, parse_quantity
from builder.base.units import KINDS

# Expected values are worked by hand from the definitions in test_units.py.

WRITTEN = [
    # as written, kind, value, unit, canonical
    ("785 °C", "temperature", 785, "°C", 785),
    ("785C", "temperature", 785, "°C", 785),
    ("785 C", "temperature", 785, "°C", 785),
    ("785c", "temperature", 785, "°C", 785),
    ("785 \u00ba C", "temperature", 785, "°C", 785),  # masculine ordinal
    ("785\u02daC", "temperature", 785, "°C", 785),  # ring above
    ("785 \u2103", "temperature", 785, "°C", 785),  # one-sign °C
    ("785 deg C", "temperature", 785, "°C", 785),
    ("785 degrees Celsius", "temperature", 785, "°C", 785),
    ("785 °C.", "temperature", 785, "°C", 785),
    ("  785\u00a0°C ", "temperature", 785, "°C", 785),  # no-break space
    ("1450F", "temperature", 1450, "°F", 787.7777777777778),
    ("1,450 °F", "temperature", 1450, "°F", 787.7777777777778),
    ("1450\u2109", "temperature", 1450, "°F", 787.7777777777778),
    ("1073 K", "temperature", 1073, "K", 799.85),
    ("1 450 °C", "temperature", 1450, "°C", 1450),
    ("1\u202f450 °C", "temperature", 1450, "°C", 1450),  # narrow no-break space
    ("1\u2009450 °C", "temperature", 1450, "°C", 1450),  # thin space
    ("1'450 °C", "temperature", 1450, "°C", 1450),
    ("\u22125 °C", "temperature", -5, "°C", -5),  # minus sign
    ("\u20135 °C", "temperature", -5, "°C", -5),  # en dash
    ("-5 °C", "temperature", -5, "°C", -5),
    ("785.5 °C", "temperature", 785.5, "°C", 785.5),
    ("785,5 °C", "temperature", 785.5, "°C", 785.5),
    ("1.234,5 °C", "temperature", 1234.5, "°C", 1234.5),
    ("1,234.5 °C", "temperature", 1234.5, "°C", 1234.5),
    ("1.234.567 g", "mass", 1_234_567, "g", 1234.567),
    ("1/4 in", "length", 0.25, "in", 6.35),
    ("1\u20444 in", "length", 0.25, "in", 6.35),  # fraction slash
    ("¼ in", "length", 0.25, "in", 6.35),
    ("1 1/2 in", "length", 1.5, "in", 38.1),
    ("1-1/2 in", "length", 1.5, "in", 38.1),
    ("1½ in", "length", 1.5, "in", 38.1),
    ('1/4"', "length", 0.25, "in", 6.35),
    ("5 ft 2 in", "length", 62 / 12, "ft", 1574.8),
    ("5'2\"", "length", 62 / 12, "ft", 1574.8),
    ("2 lb 3 oz", "mass", 35 / 16, "lb", 0.992233309375),
    ("2lbs 3oz", "mass", 35 / 16, "lb", 0.992233309375),
    ("2 lb, 3 oz", "mass", 35 / 16, "lb", 0.992233309375),
    ("1.2 kg", "mass", 1.2, "kg", 1.2),
    ("0,5 kg", "mass", 0.5, "kg", 0.5),
    ("0,500 kg", "mass", 0.5, "kg", 0.5),
    ("12,75 kg", "mass", 12.75, "kg", 12.75),
    (".5 kg", "mass", 0.5, "kg", 0.5),
    ("1 h 20 min", "time", 4 / 3, "h", 80),
    ("1h20", "time", 4 / 3, "h", 80),
    ("1 h and 20 min", "time", 4 / 3, "h", 80),
    ("1:20 h", "time", 4 / 3, "h", 80),
    ("12:30 min", "time", 12.5, "min", 12.5),
    ("45 min", "time", 45, "min", 45),
    ("9 days", "time", 9, "d", 12_960),
    ("2 weeks", "time", 2, "week", 20_160),
    ("14 %", "share", 14, "%", 14),
    ("14%", "share", 14, "%", 14),
    ("14 percent", "share", 14, "%", 14),
    ("14 per cent", "share", 14, "%", 14),
    ("8 km/h", "speed", 8, "km/h", 8),
    ("8 km per hour", "speed", 8, "km/h", 8),
    ("5 mph", "speed", 5, "mph", 8.04672),
    ("3 m/s", "speed", 3, "m/s", 10.8),
    ("10 °C/min", "rate", 10, "°C/min", 10),
    ("18 °F/min", "rate", 18, "°F/min", 10),
    ("300 °C/h", "rate", 300, "°C/h", 5),
    ("300 degrees C an hour", "rate", 300, "°C/h", 5),
    ("9 °F", "temperature_step", 9, "°F", 5),
    ("31.205 mV", "voltage", 31.205, "mV", 31.205),
    ("0.95", "emissivity", 0.95, "", 0.95),
    ("95 %", "emissivity", 95, "%", 0.95),
]


@pytest.mark.parametrize(("text", "kind", "value", "unit", "canonical"), WRITTEN)
def test_a_quantity_is_read_as_potters_write_it(
    text: str, kind: str, value: float, unit: str, canonical: float
) -> None:
    quantity = parse_quantity(text, kind)
    assert isinstance(quantity, Quantity), quantity
    assert (quantity.raw, quantity.kind, quantity.unit) == (text, kind, unit)
    assert quantity.value == pytest.approx(value, rel=1e-13)
    assert quantity.canonical == pytest.approx(canonical, rel=1e-13)
    assert quantity.low == quantity.high == quantity.canonical


RANGES = [
    ("650–700 °C", "temperature", 650, 700),
    ("650-700 °C", "temperature", 650, 700),
    ("650 - 700 °C", "temperature", 650, 700),
    ("650 to 700 °C", "temperature", 650, 700),
    ("between 650 and 700 °C", "temperature", 650, 700),
    ("from 650 °C to 700 °C", "temperature", 650, 700),
    ("700 to 650 °C", "temperature", 650, 700),
    ("650…700 °C", "temperature", 650, 700),
    ("-5 to -2 °C", "temperature", -5, -2),
    ("675 ± 25 °C", "temperature", 650, 700),
    ("675 °C ± 25 °C", "temperature", 650, 700),
    ("212 ± 18 °F", "temperature", 90, 110),
    ("6 to 8 mm", "length", 6, 8),
    ("6 mm to 8 mm", "length", 6, 8),
    ("6 mm to 8", "length", 6, 8),
    ("1/4 to 3/8 in", "length", 6.35, 9.525),
    ("45 min to 1 h", "time", 45, 60),
    ("between 1 h and 2 h", "time", 60, 120),
    ("1 h to 1 h 30 min", "time", 60, 90),
    ("0.85 to 0.95", "emissivity", 0.85, 0.95),
    ("10-15%", "share", 10, 15),
]


@pytest.mark.parametrize(("text", "kind", "low", "high"), RANGES)
def test_a_range_keeps_both_ends_and_stands_for_its_middle(text: str, kind: str, low: float, high: float) -> None:
    quantity = parse_quantity(text, kind)
    assert isinstance(quantity, Quantity), quantity
    assert quantity.low == pytest.approx(low)
    assert quantity.high == pytest.approx(high)
    assert quantity.canonical == pytest.approx((low + high) / 2)


@pytest.mark.parametrize(
    "text",
    ["about 700 °C", "ca. 700 °C", "c. 700 °C", "~700 °C", "≈ 700 °C", "700 °C or so", "approx. 700 °C",
     "700 °C (approx.)", "about 680 to 720 °C", "Around 700 C", "680 to about 720 °C"],
)  # fmt: skip
def test_a_quantity_that_is_only_about_so_is_marked(text: str) -> None:
    quantity = parse_quantity(text, "temperature")
    assert isinstance(quantity, Quantity), quantity
    assert quantity.approximate
    assert quantity.canonical == 700


def test_a_quantity_written_plainly_is_not_marked_as_about_so() -> None:
    quantity = parse_quantity("650 to 700 °C", "temperature")
    assert isinstance(quantity, Quantity)
    assert not quantity.approximate


FAULTS = [
    # as written, kind, code, offset, words of the help
    ("785", "temperature", "quantity-unit", 0, "`785 °C`, `785 °F` or `785 K`"),
    ("785°", "temperature", "quantity-unit", 3, "`785 °C` or `785 °F`"),
    ("785 degrees", "temperature", "quantity-unit", 4, "`785 °C` or `785 °F`"),
    ("1,5 kg", "mass", "quantity-ambiguous", 0, "`1.5 kg` or `1 to 5 kg`"),
    ("1.450 °F", "temperature", "quantity-ambiguous", 0, "`1.45 °F` or `1450 °F`"),
    ("812.455 g", "mass", "quantity-ambiguous", 0, "`812.4550 g` or `812455 g`"),
    ("about 1.450 °F", "temperature", "quantity-ambiguous", 6, "`1450 °F`"),
    ("6 mm", "temperature", "quantity-kind", 2, "`785 °C`"),
    ("14 °C", "length", "quantity-kind", 3, "`6 mm`"),
    ("10 °C", "rate", "quantity-kind", 3, "`40 °C/min`"),
    ("14 kgg", "mass", "quantity-unit-unknown", 3, "Did you mean `14 kg`?"),
    ("785 Celcius", "temperature", "quantity-unit-unknown", 4, "Did you mean `785 °C`?"),
    ("3 months", "time", "quantity-unit-unknown", 2, "min, s, h, d or week"),
    ("hot", "temperature", "quantity-none", 0, "`785 °C`"),
    ("", "temperature", "quantity-none", 0, "leave the field out"),
    ("  ", "temperature", "quantity-none", 0, "leave the field out"),
    ("°C", "temperature", "quantity-none", 0, "`785 °C`"),
    ("nan", "temperature", "quantity-none", 0, "`785 °C`"),
    ("inf °C", "temperature", "quantity-none", 0, "`785 °C`"),
    ("1/0 in", "length", "quantity-none", 0, "`6 mm`"),
    ("1.2.3 kg", "mass", "quantity-none", 0, "`14 kg`"),
    ("12:30", "time", "quantity-clock", 0, "`12 min 30 s` or `12 h 30 min`"),
    ("12:30", "temperature", "quantity-clock", 0, "`785 °C`"),
    ("1:75 h", "time", "quantity-clock", 0, "`1 h 75 min`"),
    ("785 °C 790 °C", "temperature", "quantity-extra", 7, "Write `785 °C`"),
    ("785 °C and 790 °C", "temperature", "quantity-extra", 7, "Write `785 °C`"),
    ("785 °C at the rim", "temperature", "quantity-extra", 7, "Write `785 °C`"),
    ("14 kg and 3 bales", "mass", "quantity-extra", 6, "Write `14 kg`"),
    ("over 785 °C", "temperature", "quantity-extra", 0, "Write `785 °C`"),
    (">785 °C", "temperature", "quantity-extra", 0, "Write `785 °C`"),
    ("about max. 785 °C or so", "temperature", "quantity-extra", 6, "Write `785 °C`"),
    ("7 85 °C", "temperature", "quantity-none", 0, "`785 °C`"),
    ("0.2", "share", "quantity-unit", 0, "Write `20 %` or `0.2 %`"),
    ("1/3", "share", "quantity-unit", 0, "Write `33.3 %` or `1/3 %`"),
    ("20", "share", "quantity-unit", 0, "Write `20 %`."),
    ("0.1-0.2", "share", "quantity-unit", 0, "Write `0.1-0.2 %`."),
    ("20 min 1 h", "time", "quantity-extra", 7, "Write `20 min`"),
    ("\uff17\uff18\uff15 °C", "temperature", "quantity-digits", 0, "Write `785 °C`."),  # full-width
    ("\u0667\u0668\u0665 °C", "temperature", "quantity-digits", 0, "Write `785 °C`."),  # Arabic-Indic
    ("99999999999999 °C", "temperature", "quantity-too-large", 0, "a digit too many"),
    ("9" * 60 + " °C", "temperature", "quantity-too-large", 0, "a digit too many"),
    ("9" * 5000, "temperature", "quantity-too-large", 0, "`785 °C`"),
]


@pytest.mark.parametrize(("text", "kind", "code", "offset", "help_"), FAULTS)
def test_what_is_no_quantity_gets_its_code_its_place_and_a_way_out(
    text: str, kind: str, code: str, offset: int, help_: str
) -> None:
    fault = parse_quantity(text, kind)
    assert isinstance(fault, QuantityFault), fault
    assert (fault.code, fault.offset) == (code, offset)
    assert help_ in fault.help
    assert fault.code in CODES


def test_a_suggestion_is_itself_a_quantity() -> None:
    """What the help puts in backticks after `Write` can be written as it stands."""
    for text, kind, *_ in FAULTS:
        fault = parse_quantity(text, kind)
        assert isinstance(fault, QuantityFault)
        for offered in fault.help.split("`")[1::2]:
            assert isinstance(parse_quantity(offered, kind), Quantity), (text, offered)


@pytest.mark.parametrize("text", ["785 °C,", "785 °C;", "785 °C. ", "785 °C ,"])
def test_a_mark_behind_a_quantity_does_no_harm(text: str) -> None:
    quantity = parse_quantity(text, "temperature")
    assert isinstance(quantity, Quantity)
    assert (quantity.canonical, quantity.raw) == (785.0, text)


def test_a_bare_number_takes_the_unit_that_the_group_declared() -> None:
    assert parse_quantity("212", "temperature", "°F") == Quantity(
        "212", "temperature", 212.0, "°F", 100.0, 100.0, 100.0
    )
    degrees = parse_quantity("212°", "temperature", "°F")
    assert isinstance(degrees, Quantity)
    assert degrees.canonical == 100.0


def test_a_written_unit_goes_before_the_declared_one() -> None:
    quantity = parse_quantity("212 °C", "temperature", "°F")
    assert isinstance(quantity, Quantity)
    assert quantity.canonical == 212.0


@given(
    st.sampled_from(sorted(KINDS)),
    st.integers(-999, 999),
    st.integers(0, 99),
    st.sampled_from([" ", "", "\u00a0", "  "]),
    st.data(),
)
def test_whatever_the_program_writes_it_reads_again(
    kind: str, whole: int, hundredths: int, space: str, data: st.DataObject
) -> None:
    unit = data.draw(st.sampled_from(KINDS[kind].units))
    text = f"{whole}.{hundredths:02d}{space}{unit.symbol}"
    quantity = parse_quantity(text, kind)
    assert isinstance(quantity, Quantity), quantity
    assert quantity.value == float(f"{whole}.{hundredths:02d}")
    assert quantity.canonical == unit.canonical(quantity.value)


_LIKELY = st.text(
    st.sampled_from("0123456789 .,:/-–−+±~°º˚CFKkgmhinlboz%¼½'\"()toandbetweeca\u202f\u2103e\uff11\u0663")
)


@given(st.one_of(st.text(), _LIKELY), st.sampled_from(sorted(KINDS)))
def test_any_text_is_a_quantity_or_a_fault_with_a_place_in_it(text: str, kind: str) -> None:
    outcome = parse_quantity(text, kind)
    if isinstance(outcome, QuantityFault):
        assert outcome.code in CODES
        assert outcome.message and outcome.help
        assert 0 <= outcome.offset <= len(text)
    else:
        assert outcome.raw == text
        assert outcome.low <= outcome.canonical <= outcome.high
        assert abs(outcome.canonical) < 1e15


@pytest.mark.parametrize(
    "piece", ["9", " ", "1 ", "1 000", "1,", "1.", "-", "1-", "a", " to ", "about ", "1/", "½", "1:", ".", "° ", ", "]
)
def test_a_long_text_is_refused_before_it_can_cost_time(piece: str) -> None:
    for text in (piece * 200_000, (piece * MAX_LENGTH)[:MAX_LENGTH]):
        started = time.perf_counter()
        for kind in KINDS:
            parse_quantity(text, kind)
        # A slow pattern would take minutes on these; the bound is only there to tell the two apart.
        assert time.perf_counter() - started < 10
