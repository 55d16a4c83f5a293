"""Munsell colours against the renotation, ASTM D1535 and colour-science."""

from __future__ import annotations

import csv
from typing import Any

import pytest

from builder.ware.munsell import RENOTATION, WHITE_C, chromaticity, luminance, read_notation, swatch
from tests.check_values import cases

FILE = "ware_checks.json"


@pytest.mark.parametrize("case", cases(__file__, FILE, "munsell_to_srgb8"))
def test_a_swatch_is_the_colour_on_the_screen(case: dict[str, Any]) -> None:
    found = swatch(case["inputs"]["munsell"])
    assert found is not None
    assert found.rgb == pytest.approx(case["expected"], abs=case["tolerance"])
    assert found.within_screen


@pytest.mark.parametrize("case", cases(__file__, FILE, "munsell_to_xyY_illuminantC"))
def test_a_notation_has_its_chromaticity_and_reflectance(case: dict[str, Any]) -> None:
    notation = read_notation(case["inputs"]["munsell"])
    assert notation is not None
    found = chromaticity(notation)
    assert found is not None
    assert (*found, luminance(notation.value) / 100.0) == pytest.approx(case["expected"], abs=case["tolerance"])


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("7.5YR 5.5/5", (0.41385, 0.38012)),
        ("3YR 6/4", (0.38137, 0.34857)),
        ("8.75YR 4/3", (0.39315, 0.37123)),
        ("5YR 2.5/1", (0.34667, 0.33188)),
    ],
)
def test_between_the_table_s_steps_it_agrees_with_colour_science(text: str, expected: tuple[float, float]) -> None:
    """Computed with colour-science 0.4.7, munsell_colour_to_xyY, which bends between hues where this goes straight."""
    notation = read_notation(text)
    assert notation is not None
    assert chromaticity(notation) == pytest.approx(expected, abs=3e-4)


@pytest.mark.parametrize("case", cases(__file__, FILE, "munsell_value_to_Y_ASTMD1535"))
def test_the_reflectance_of_a_value_is_that_of_astm(case: dict[str, Any]) -> None:
    assert luminance(case["inputs"]["V"]) == pytest.approx(case["expected"], abs=case["tolerance"])


@pytest.mark.parametrize("case", cases(__file__, FILE, "renotation_table_xyY"))
def test_the_table_is_the_renotation_and_its_reflectance_differs_by_the_known_factor(case: dict[str, Any]) -> None:
    given = case["inputs"]
    notation = read_notation(f"{given['hue']} {given['value']}/{given['chroma']}")
    assert notation is not None
    x, y, tabulated = case["expected"]
    assert chromaticity(notation) == pytest.approx((x, y), abs=1e-9)
    # The renotation counts against magnesium oxide: ASTM D1535 is lower by the factor 0.975.
    assert luminance(given["value"]) == pytest.approx(0.975 * tabulated, rel=1e-3)


def test_the_table_is_whole() -> None:
    """2,734 real colours, 40 hues, values 1 to 9: the size of the published table."""
    with RENOTATION.open(encoding="utf-8") as table:
        rows = list(csv.DictReader(table))
    assert len(rows) == len({(row["hue"], row["value"], row["chroma"]) for row in rows}) == 2734
    assert len({row["hue"] for row in rows}) == 40
    assert {row["value"] for row in rows} == set("123456789")


@pytest.mark.parametrize(
    ("text", "parts"),
    [
        ("10YR 8/2", (20.0, 8.0, 2.0)),
        ("10yr8/2", (20.0, 8.0, 2.0)),
        ("2.5 YR 5 / 6", (12.5, 5.0, 6.0)),
        ("10RP 4/4", (0.0, 4.0, 4.0)),
        ("N 4/", (0.0, 4.0, 0.0)),
        ("N4/0", (0.0, 4.0, 0.0)),
    ],
)
def test_a_notation_is_read_as_people_write_it(text: str, parts: tuple[float, float, float]) -> None:
    assert read_notation(text) == parts


@pytest.mark.parametrize("text", ["", "brown", "10YR", "11YR 5/4", "10YR 11/4", "10XR 5/4", "N 11", "10YR 5/4/3"])
def test_what_is_no_notation_has_no_swatch(text: str) -> None:
    assert read_notation(text) is None
    assert swatch(text) is None


def test_a_colour_beyond_the_renotation_has_no_swatch() -> None:
    assert swatch("5R 5/40") is None


def test_a_colour_stronger_than_the_screen_says_so() -> None:
    """5G 5/18 lies outside sRGB: its red comes out below nothing."""
    found = swatch("5G 5/18")
    assert found is not None
    assert found.rgb[0] == 0
    assert not found.within_screen


def test_greys_are_grey_on_the_screen_from_black_to_white() -> None:
    """Illuminant C is adapted to the screen's white, so a neutral has three equal parts. N4 is 96 (colour-science)."""
    found = {text: swatch(text) for text in ("N0", "N4", "N10")}
    assert {text: one.hex if one else None for text, one in found.items()} == {
        "N0": "#000000",
        "N4": "#606060",
        "N10": "#ffffff",
    }
    assert chromaticity(read_notation("N4") or pytest.fail("unread")) == WHITE_C
