"""The page of figures is made of the code's own tables, numbers and docstrings, and leaves none of them out."""

from __future__ import annotations

import pytest

from builder.base import constants
from builder.base.cones import CONES
from builder.base.constants import Constant
from builder.checks.limits import LIMITS
from builder.fire.advice import RULES
from builder.heat.equivalent import equivalent_1h_c
from builder.heat.figures import FIGURE_KINDS
from builder.pages.code_words import calculation, held_numbers
from builder.pages.figure_tables import CALCULATIONS, tables
from builder.pages.figures_page import FORMULAS, figures_page
from builder.readings import calibration
from builder.readings.emissivity import EMISSIVITIES
from builder.readings.tolerance import PROMISES
from builder.ware.glow import SCALES
from builder.ware.measures import MEASURES_NOTE
from tests.pages.invented import SETTINGS
from tests.pages.reading_html import read_page

WORDS = " ".join(read_page(figures_page(SETTINGS)).words.split())


def test_every_figure_and_every_constant_of_nature_stands_on_the_page_with_its_source() -> None:
    named = [value for value in vars(constants).values() if isinstance(value, Constant)]
    assert all(one.meaning in WORDS and one.source in WORDS for one in named)
    assert all(kind.meaning in WORDS for kind in FIGURE_KINDS)
    assert set(FORMULAS) <= {kind.name for kind in FIGURE_KINDS}
    assert MEASURES_NOTE in WORDS


def test_every_table_has_all_its_lines() -> None:
    lines = {table.key: len(table.rows) for table in tables()}
    assert lines == {
        "classes": sum(len(promises) for promises in PROMISES.values()),
        "emissivities": len(EMISSIVITIES),
        "cones": len(CONES),
        "glow": sum(len(scale.shades) for scale in SCALES),
        "hardness": 15,
        "advice": len(RULES),
        "limits": len(LIMITS),
    }
    assert all(len(row) == len(table.columns) for table in tables() for row in table.rows)


def test_every_rule_of_advice_and_every_emissivity_names_its_source() -> None:
    assert all(rule.source in WORDS for rule in RULES)
    assert all(one.source in WORDS for one in EMISSIVITIES)


def test_a_calculation_is_told_in_its_own_docstring_without_its_example() -> None:
    told = calculation(equivalent_1h_c)
    assert told.name == "heat.equivalent: equivalent_1h_c"
    assert told.summary == "Return the temperature that, held for one hour, does the same first-order work, °C."
    assert "exp(−E/RTₑ) · 60 = ∫ exp(−E/RT) dt" in told.paragraphs[0]
    assert not any("&gt;&gt;&gt;" in paragraph for paragraph in told.paragraphs)


@pytest.mark.parametrize("function", CALCULATIONS, ids=lambda function: function.__name__)
def test_every_calculation_on_the_page_says_more_than_its_name(function: object) -> None:
    assert callable(function)
    assert calculation(function).summary in figures_page(SETTINGS).rest


def test_a_number_is_told_with_the_sentence_below_it() -> None:
    (unknown,) = [one for one in held_numbers(calibration) if one.name == "readings.calibration: UNKNOWN_SD_C"]
    assert unknown.value == "15"
    assert unknown.meaning.startswith("Standard uncertainty of a thermometer of which nothing is recorded")
