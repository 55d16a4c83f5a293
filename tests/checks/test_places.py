"""Places told more exactly than the group publishes are refused or rounded; words are left alone."""

from __future__ import annotations

import pytest

from builder.checks.fault import Fault
from builder.checks.places import read_place

EXACT = (
    "52.41237, 0.11984",
    "52,41237; 0,11984",
    "N 52.41237° E 0.11984°",
    "Alder Fen (52.41, -0.12)",
    "52.41237",
    "52.4°N",
    "52°24'44\" N 0°7'11\" E",
    "52° 24.742′ N",
    "TL 123 456",
    "TL12345678",
    "31U CT 12345 67890",
    "31U 302000 5810000",
    "9F42C4J2+8Q Alder Fen",
    "geo:52.4,0.1",
    "https://maps.example/?q=fen",
    "///pale.jar.fire",
)
WORDS = (
    "Alder Fen",
    "The long field, 3.5 km north of the mill",
    "Pit no 1234 on the common",
    "In 2024 at Thornlode",
    "葦の沼",
    "Field 7, plot 12",
    "Upper Fen / Lower Fen",
)


@pytest.mark.parametrize("text", EXACT)
def test_an_exact_place_is_refused_and_not_repeated(text: str) -> None:
    fault = read_place(text, None)
    assert isinstance(fault, Fault)
    assert fault.code == "place-exact"
    assert not [
        part for part in ("41237", "24'44", "123 456", "9F42", "pale.jar") if part in fault.message + fault.help
    ]


@pytest.mark.parametrize("text", WORDS)
def test_words_are_a_place_whatever_figures_stand_in_them(text: str) -> None:
    assert read_place(text, None) == text
    assert read_place(text, 2) == text


# Worked by hand: half a unit of the first decimal is 5 km or so.
@pytest.mark.parametrize(
    ("text", "rounded"),
    [
        ("52.41237, 0.11984", "52.4, 0.1"),
        ("Alder Fen, 52,46 N; 0,16 E", "Alder Fen, 52.5 N; 0.2 E"),
        ("-33.8688, 151.2093", "-33.9, 151.2"),
    ],
)
def test_coordinates_are_rounded_where_the_group_takes_them(text: str, rounded: str) -> None:
    assert read_place(text, 1) == rounded


@pytest.mark.parametrize("text", ["52°24'44\" N 0°7'11\" E", "TL 123 456", "9F42C4J2+8Q"])
def test_what_cannot_be_rounded_is_refused_even_then(text: str) -> None:
    assert isinstance(read_place(text, 1), Fault)
