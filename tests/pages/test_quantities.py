"""How recorded quantities are written: the potter's own words kept, converted only where that helps."""

from __future__ import annotations

import pytest

from builder.heat.figures import Figure
from builder.pages.marked_numbers import marked_figure, marked_quantity, temperature, window
from builder.pages.quantities import quantity_words
from tests.pages.invented import quantity
from tests.pages.reading_html import read

NB = "\u00a0"


@pytest.mark.parametrize(
    ("written", "kind", "words"),
    [
        ("1450 °F", "temperature", "788 °C (written 1450 °F)"),  # (1450 − 32)·5/9 = 787.8
        ("14 °C", "temperature", "14 °C"),
        ("about 14 kg", "mass", "about 14 kg"),
        ("2 lb 3 oz", "mass", "992 g (written 2 lb 3 oz)"),  # 35 oz · 28.3495 g = 992.2
        ("1/4 in", "length", "6.3 mm (written 1/4 in)"),  # 6.35 mm, a half rounded to even
        ("12 cm", "length", "12 cm"),
        ("7 to 9 mm", "length", "7 to 9 mm"),
        ("1 h 20 min", "time", "1 h 20 min"),
        ("9 days", "time", "9 days"),
        ("5 mph", "speed", "8 km/h (written 5 mph)"),  # 5 · 1.609 = 8.05
        ("55 %", "share", "55 %"),
    ],
)
def test_metric_stays_as_written_and_the_rest_is_converted_beside_it(written: str, kind: str, words: str) -> None:
    assert quantity_words(quantity(written, kind)).replace(NB, " ") == words


def test_a_temperature_is_marked_for_another_unit() -> None:
    tag = read(temperature(742.3)).all("span", "t")[0]
    assert (tag.attributes["data-c"], tag.words) == ("742.3", f"742{NB}°C")


def test_differences_and_rates_are_marked_apart_because_32_does_not_belong_to_them() -> None:
    assert read(temperature(18, "temperature_step")).all("span", "step")
    assert read(temperature(12.94, "rate", 1)).all("span", "rate")[0].words == f"12.9{NB}°C/min"


def test_every_end_of_an_interval_is_marked_too() -> None:
    tags = read(marked_figure(Figure(742.3, 719.2, 765.1), "temperature")).all("span", "t")
    assert [tag.attributes["data-c"] for tag in tags] == ["742.3", "719.2", "765.1"]
    assert ["bare" in tag.classes for tag in tags] == [False, True, True]


def test_a_fahrenheit_reading_keeps_what_was_written() -> None:
    html = marked_quantity(quantity("1450 °F", "temperature"))
    found = read(html)
    assert found.all("span", "t")[0].attributes["data-c"] == "787.78"
    assert found.all("span", "written")[0].words == f"(written 1450{NB}°F)"


def test_windows_with_one_edge_say_which() -> None:
    assert read(window(660, 800)).words == f"660 to 800{NB}°C"
    assert read(window(660, None)).words == f"from 660{NB}°C up"
    assert read(window(None, 800)).words == f"up to 800{NB}°C"
    assert window(None, None) == ""
