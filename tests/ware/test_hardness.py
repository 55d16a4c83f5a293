"""Scratch hardness: a potter's words as a band on Mohs' scale, where they tell one."""

from __future__ import annotations

import pytest

from builder.ware.hardness import SCRATCHERS, Band, band_words, mohs_band


@pytest.mark.parametrize(
    ("name", "hardness"),
    [
        ("talc", 1), ("calcite", 3), ("fluorite", 4), ("quartz", 7), ("topaz", 8), ("diamond", 10),
        ("fingernail", 2.5), ("copper", 3), ("window glass", 5.5), ("steel file", 6.5),
    ],
)  # fmt: skip
def test_each_scratcher_has_its_hardness_to_half_a_step(name: str, hardness: float) -> None:
    """ceramics-038 to -052, the tools from memory."""
    tool = next(one for one in SCRATCHERS if one.name == name)
    assert tool.low - 0.5 <= hardness <= tool.high + 0.5
    assert abs((tool.low + tool.high) / 2 - hardness) <= 0.5


@pytest.mark.parametrize(
    ("words", "low", "high"),
    [
        ("fingernail no, copper yes", 2.0, 3.0),
        ("not scratched by a fingernail; a copper coin scratches it", 2.0, 3.0),
        ("fingernail doesn't, knife does", 2.0, 5.5),
        ("a knife won't", 5.0, 10.0),
        ("fingernail", 1.0, 2.5),
        ("copper no but glass yes", 3.0, 5.5),
        ("steel file yes and glass no", 5.0, 7.0),
        ("Mohs 3", 3.0, 3.0),
        ("about Mohs hardness 3.5 to 4", 3.5, 4.0),
        ("quartz scratches it, feldspar does not", 6.0, 7.0),
    ],
)
def test_what_scratches_it_and_what_does_not_bound_the_band(words: str, low: float, high: float) -> None:
    """Worked by hand: the hardest that did not, at its softest, to the softest that did, at its hardest."""
    assert mohs_band(words) == Band(low, high)


@pytest.mark.parametrize("words", ["", "very hard", "rings like a bell", "Mohs 12", "steel"])
def test_words_that_name_no_known_scratcher_tell_no_band(words: str) -> None:
    assert mohs_band(words) is None


def test_scratches_that_contradict_are_told_so() -> None:
    band = mohs_band("fingernail yes, knife no")
    assert band is not None
    assert band.contradicts
    assert band_words(band) == "the scratches contradict one another"
