"""Units convert by their published definitions, both ways."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from builder.base.units import KINDS, find_unit, from_canonical, kinds_of, plain_unit, spellings, to_canonical

SP811 = "NIST SP 811 (2008), appendix B.8"

DEFINITIONS = [
    # kind, value, unit, canonical, where the number comes from
    ("length", 1, "in", 25.4, SP811),
    ("length", 1, "ft", 304.8, SP811),
    ("length", 1, "yd", 914.4, SP811),
    ("length", 12, "cm", 120, "SI Brochure 2019: centi = 10⁻²"),
    ("mass", 1, "lb", 0.45359237, SP811),
    ("mass", 1, "oz", 0.028349523125, SP811 + ": 2.834 952 3 E-02, a sixteenth of a pound"),
    ("mass", 812, "g", 0.812, "SI Brochure 2019: kilo = 10³"),
    ("speed", 1, "mph", 1.609344, SP811),
    ("speed", 1, "kn", 1.852, SP811),
    ("speed", 3, "m/s", 10.8, "worked by hand: 3 · 3600 / 1000"),
    ("time", 1, "h", 60, "SI Brochure 2019, table 8"),
    ("time", 9, "d", 12_960, "SI Brochure 2019, table 8: 86 400 s"),
    ("time", 2, "week", 20_160, "worked by hand: 14 · 1440"),
    ("temperature", 32, "°F", 0, SP811),
    ("temperature", 212, "°F", 100, SP811),
    ("temperature", -40, "°F", -40, "worked by hand: (−40 − 32) · 5/9"),
    ("temperature", 273.15, "K", 0, "SI Brochure 2019, section 2.3.1"),
    ("temperature_step", 9, "°F", 5, "worked by hand: 9 · 5/9, a difference has no 32"),
    ("rate", 18, "°F/min", 10, "worked by hand: 18 · 5/9, a rate has no 32"),
    ("rate", 300, "°C/h", 5, "worked by hand: 300 / 60"),
    ("rate", 1, "K/s", 60, "worked by hand"),
    ("voltage", 1450, "µV", 1.45, "SI Brochure 2019: micro = 10⁻⁶"),
    ("emissivity", 95, "%", 0.95, "worked by hand"),
]


@pytest.mark.parametrize(("kind", "value", "unit", "canonical", "source"), DEFINITIONS)
def test_a_unit_is_what_its_definition_says(kind: str, value: float, unit: str, canonical: float, source: str) -> None:
    assert to_canonical(value, unit, kind) == pytest.approx(canonical, rel=1e-14, abs=1e-12), source


@pytest.mark.parametrize("kind", KINDS)
@given(value=st.floats(-1e6, 1e6))
def test_every_unit_converts_there_and_back(kind: str, value: float) -> None:
    for unit in KINDS[kind].units:
        there = to_canonical(value, unit.symbol, kind)
        assert from_canonical(there, unit.symbol, kind) == pytest.approx(value, rel=1e-12, abs=1e-9)


@pytest.mark.parametrize("kind", KINDS)
def test_no_two_units_of_a_kind_are_written_alike(kind: str) -> None:
    written = [plain_unit(word) for unit in KINDS[kind].units for word in {unit.symbol, *unit.words}]
    by_unit = [{plain_unit(word) for word in (unit.symbol, *unit.words)} for unit in KINDS[kind].units]
    assert sum(map(len, by_unit)) == len(set(written))


@pytest.mark.parametrize("kind", KINDS)
def test_every_spelling_finds_its_unit_in_any_case(kind: str) -> None:
    for word in spellings(kind):
        assert find_unit(word, kind) is not None
        assert find_unit(word.upper(), kind) is find_unit(word, kind)


def test_the_canonical_unit_of_a_kind_converts_to_itself() -> None:
    for kind in KINDS.values():
        assert to_canonical(7.25, kind.canonical, kind.name) == 7.25


def test_a_word_tells_which_kinds_it_measures() -> None:
    assert [kind.name for kind in kinds_of("mm")] == ["length"]
    assert [kind.name for kind in kinds_of("furlong")] == []


def test_a_unit_that_the_kind_lacks_is_a_mistake_of_the_program() -> None:
    with pytest.raises(ValueError, match="'mm' is not a unit of temperature"):
        to_canonical(1, "mm", "temperature")
