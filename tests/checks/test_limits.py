"""Limits: every number has one, errors lie outside what can be, questions outside what is usual."""

from __future__ import annotations

import pytest

from builder.base.quantity import Quantity, parse_quantity
from builder.checks.limits import BOUNDS, LIMITS
from builder.entries.fields import walk

NUMBERS = {path: field for path, field in walk() if field.kind in ("quantity", "count")}


def quantity(text: str, kind: str) -> Quantity:
    read = parse_quantity(text, kind)
    assert isinstance(read, Quantity)
    return read


def test_every_number_has_a_limit_and_every_limit_a_number() -> None:
    assert set(LIMITS) == set(NUMBERS)


@pytest.mark.parametrize("path", sorted(LIMITS))
def test_a_limit_has_a_reason_and_a_source_and_its_ends_in_order(path: str) -> None:
    bounds, limit = BOUNDS[path], LIMITS[path]
    assert bounds.low <= bounds.usual_low < bounds.usual_high <= bounds.high
    assert limit.reason
    assert limit.source


@pytest.mark.parametrize("path", sorted(LIMITS))
def test_the_example_of_every_number_is_usual(path: str) -> None:
    field = NUMBERS[path]
    value = quantity(field.example, field.quantity) if field.quantity else int(field.example)
    assert BOUNDS[path].judge(value) is None


@pytest.mark.parametrize(
    ("path", "text", "code"),
    [
        ("weather.air", "57 °C", "impossible"),
        ("weather.air", "45 °C", "unlikely"),
        ("weather.air", "-40 °C", "unlikely"),
        ("weather.air", "-41 °C", "impossible"),
        ("weather.humidity", "100 %", ""),
        ("weather.humidity", "101 %", "impossible"),
        ("clay.wall", "0.9 mm", "impossible"),
        ("clay.wall", "1.5 mm", "unlikely"),
        ("clay.wall", "40 mm", ""),
        ("clay.wall", "5 cm", "unlikely"),
        ("clay.wall", "61 mm", "impossible"),
        ("clay.wall", "5 to 70 mm", "impossible"),
        ("readings.probes.emissivity", "1", ""),
        ("readings.probes.emissivity", "1.01", "impossible"),
        ("readings.probes.emissivity", "0.2", "unlikely"),
        ("fuel.moisture", "90 %", "unlikely"),
        ("fuel.moisture", "260 %", "impossible"),
        ("fuel.mass", "0 kg", "impossible"),
    ],
)
def test_a_value_is_judged_by_both_ends_of_its_range(path: str, text: str, code: str) -> None:
    found = BOUNDS[path].judge(quantity(text, NUMBERS[path].quantity))
    assert (found.code if found else "") == code


@pytest.mark.parametrize(
    ("path", "text", "meant"),
    [
        ("weather.air", "57 °C", "57 °F"),  # 57 °F = 13.9 °C
        ("clay.wall", "6 m", "6 mm"),
        ("clay.wall", "0.25 mm", "0.25 in"),  # 0.25 in = 6.35 mm
        ("pieces.weighed.dry", "812 kg", "812 g"),
        ("clay.dried", "9 min", "9 d"),
        ("readings.probes.emissivity", "95", "95 %"),
    ],
)
def test_the_unit_that_was_meant_is_suggested_with_the_same_number(path: str, text: str, meant: str) -> None:
    found = BOUNDS[path].judge(quantity(text, NUMBERS[path].quantity))
    assert found is not None
    assert f"`{meant}`" in found.help


def test_less_than_nothing_is_told_as_such() -> None:
    found = BOUNDS["fuel.mass"].judge(quantity("-14 kg", "mass"))
    assert found is not None
    assert "less than nothing cannot be" in found.message


def test_a_converted_value_stands_beside_the_one_written() -> None:
    found = BOUNDS["clay.wall"].judge(quantity("10 in", "length"))
    assert found is not None
    assert "`10 in` (254 mm)" in found.message
