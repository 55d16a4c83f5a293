"""Linear shrinkage against ASTM's definitions."""

from __future__ import annotations

from typing import Any

import pytest

from builder.base.quantity import Quantity, parse_quantity
from builder.checks.firing import Marks, Piece
from builder.ware.measures import piece_measures
from builder.ware.shrinkage import shrinkage_pct
from tests.check_values import cases


def _length(text: str) -> Quantity:
    found = parse_quantity(text, "length")
    assert isinstance(found, Quantity), found
    return found


@pytest.mark.parametrize("case", cases(__file__, "ware_checks.json", "linear_shrinkage_percent"))
def test_each_step_shrinks_by_its_share_of_the_length_before(case: dict[str, Any]) -> None:
    wet, dry, fired = (case["inputs"][f"{name}_mm"] for name in ("wet", "dry", "fired"))
    expected = case["expected"]
    assert shrinkage_pct(wet, dry) == pytest.approx(expected["drying"], abs=1e-5)
    assert shrinkage_pct(dry, fired) == pytest.approx(expected["firing_on_dry"], abs=1e-5)
    assert shrinkage_pct(wet, fired) == pytest.approx(expected["total_on_wet"], abs=1e-5)


def test_a_piece_tells_only_the_steps_that_were_marked() -> None:
    found = piece_measures(Piece("tile", "sound", marks=Marks(wet=_length("100 mm"), fired=_length("93 mm"))))
    assert found.drying_pct is None
    assert found.firing_pct is None
    assert found.shrinkage_pct is not None
    assert found.shrinkage_pct.value == pytest.approx(7.0)


def test_the_interval_is_that_of_a_rule_read_to_the_millimetre() -> None:
    """u² = (0.93² + 1²) · (0.2887/100)² in parts: u = 0.39422 %, times 1.959964 (worked by hand)."""
    figure = piece_measures(
        Piece("tile", "sound", marks=Marks(_length("100 mm"), None, _length("93 mm")))
    ).shrinkage_pct
    assert figure is not None and figure.low is not None and figure.high is not None
    assert (figure.high - figure.low) / 2.0 == pytest.approx(1.959964 * 0.39422, abs=1e-3)
