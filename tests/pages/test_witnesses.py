"""Other witnesses on the page of a firing: what was seen, what the scales say, and what it is worth."""

from __future__ import annotations

from dataclasses import replace

import pytest

from builder.archive.archive import Record
from builder.checks.firing import Witness
from builder.heat.figures import Figure
from builder.pages.entry_page import entry_page
from builder.pages.witnesses import witnesses
from tests.exports.example import NO_URL, archive
from tests.heat.curves import curve, curves


def record(witness: Witness | None, **figures: Figure) -> Record:
    first = archive().records[0]
    probe = first.heat.probes[0]
    heat = replace(first.heat, probes=(replace(probe, figures={**probe.figures, **figures}),))
    return replace(first, firing=replace(first.firing, witness=witness), heat=heat)


def told_of_kiln(witness: Witness, rise_c_per_min: float) -> str:
    """The sentences of a kiln that rises steadily from 20 to 820 °C and falls again."""
    top = 800.0 / rise_c_per_min
    kiln = curve([0.0, top, 2 * top], [20.0, 820.0, 400.0])
    one = replace(record(witness), curves=curves(kiln))
    return " ".join(sentence.striptags() for each in witnesses(one) for sentence in each.sentences)


def told(witness: Witness, **figures: Figure) -> str:
    return " ".join(one.striptags() for each in witnesses(record(witness, **figures)) for one in each.sentences)


def test_a_firing_without_witnesses_has_no_such_part() -> None:
    assert witnesses(record(None)) == ()


def test_cones_in_an_open_fire_tell_an_order_and_no_temperature() -> None:
    """The hand log: 712 °C by 6.2 min, 812 °C at 8 min, 55.6 °C a minute or 3,330 °C an hour (worked by hand)."""
    words = told(Witness(("016",), ("014",)))
    assert "Cone 016 went down: in a kiln at 60 to 300 °C an hour it goes down at 769 to 825 °C." in words
    assert "Cone 014 stood: in a kiln at 60 to 300 °C an hour it goes down at 807 to 870 °C." in words
    assert "(3330 °C an hour against 300 °C an hour)" in words.replace(",", "")
    assert "give it no temperature" in words


def test_cones_in_a_slow_kiln_may_be_held_to_the_columns() -> None:
    assert "slowly enough for the columns" in told_of_kiln(Witness(("016",)), 4.0)
    assert "240" not in told_of_kiln(Witness(("016",)), 4.0)
    assert "360 °C an hour against 300 °C an hour" in told_of_kiln(Witness(("016",)), 6.0)


def test_a_value_from_memory_says_so_and_an_unknown_cone_is_named() -> None:
    words = told(Witness(("05", "22")))
    assert "from memory of the chart" in words
    assert "No published column: 22." in words


@pytest.mark.parametrize(
    ("peak", "verdict"),
    [
        (Figure(760.0, 750.0, 770.0), "agrees"),
        (Figure(300.0, 290.0, 310.0), "lies below that"),
        (Figure(1000.0, 990.0, 1010.0), "lies above that"),
        (Figure(300.0, 290.0, None, at_least=True), "agrees"),
    ],
)
def test_a_glow_is_read_by_both_scales_and_held_against_the_hottest_reading(peak: Figure, verdict: str) -> None:
    """Dark red: Chapman 705 to 814 °C, Stirling's reds 525 to 699 °C; 50 °C more each way: 480 to 860 °C."""
    words = told(Witness(glow="dark red"), peak_c=peak)
    assert "Chapman 1972 has dark red at 705 to 814 °C" in words.replace("\u00a0", " ")
    assert "together they say 480 to 860 °C" in words.replace("\u00a0", " ")
    assert verdict in words


def test_a_colour_of_no_scale_is_said_to_be_none() -> None:
    assert "Neither" in told(Witness(glow="bluish"))


def test_hostile_words_stay_words() -> None:
    hostile = "<script>alert(1)</script>"
    one = record(Witness((hostile,), (), f"dark red {hostile}"))
    page = entry_page(one, archive(), NO_URL, ())
    assert hostile not in page.rest
    assert "&lt;script&gt;" in page.rest
