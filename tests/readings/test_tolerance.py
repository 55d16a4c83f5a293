"""Tolerance classes against the printed standards, and silence outside their ranges."""

from __future__ import annotations

from typing import Any

import numpy as np
import pytest

from builder.entries.fields import TOLERANCES
from builder.readings.tolerance import CLASS_NAMES, PROMISES, tolerance_c
from tests.check_values import cases

FILE = "thermometer_checks.json"


@pytest.mark.parametrize("case", cases(__file__, FILE, "iec_tolerance_C", "astm_e230_tolerance_C"))
def test_a_class_promises_what_is_printed_and_nothing_outside_its_range(case: dict[str, Any]) -> None:
    given = case["inputs"]
    tolerance = f"IEC {given['class']}" if "class" in given else f"ASTM {given['grade']}"
    found = float(tolerance_c(given["t_C"], given["type"], tolerance))
    if case["expected"] is None:
        assert np.isnan(found)
    else:
        assert found == pytest.approx(case["expected"], abs=case["tolerance"])


def test_the_share_takes_over_from_the_step_where_they_meet() -> None:
    """1.5 = 0.004 t at 375 °C (class 1), 2.5 = 0.0075 t at 333.3 °C (class 2): worked by hand."""
    assert float(tolerance_c(375.0, "K", "IEC 1")) == pytest.approx(1.5)
    assert float(tolerance_c(376.0, "K", "IEC 1")) == pytest.approx(1.504)
    assert float(tolerance_c(1000.0 / 3.0, "K", "IEC 2")) == pytest.approx(2.5)


def test_class_1_of_the_noble_types_grows_only_above_1100_degrees() -> None:
    """1 + 0.003 (1300 − 1100) = 1.6 °C: worked by hand from IEC 60584-1:2013."""
    assert tolerance_c(np.array([1100.0, 1300.0]), "S", "IEC 1").tolist() == pytest.approx([1.0, 1.6])


def test_a_type_that_a_class_does_not_name_is_promised_nothing() -> None:
    assert np.isnan(tolerance_c(20.0, "J", "IEC 3"))


def test_every_class_that_an_entry_may_name_has_its_promises_and_its_name() -> None:
    assert set(TOLERANCES) == set(PROMISES) == set(CLASS_NAMES)


def test_what_was_not_seen_in_print_is_marked_so() -> None:
    """Seen: the steps and shares of every class, the ranges of types K, N and B of IEC, and of R, S and B of ASTM."""
    marked = {(name, one.types): one.from_memory for name, promises in PROMISES.items() for one in promises}
    assert marked["IEC 3", "T"] == "all"
    assert marked["ASTM standard", "KN"] == "range"
    assert marked["IEC 1", "RS"] == marked["ASTM special", "RS"] == "lower end"
    assert marked["IEC 2", "KN"] == marked["IEC 2", "B"] == ""
    assert set(marked.values()) == {"", "lower end", "range", "all"}
