"""Firth's regression meets the published fit of the endometrial data and what can be worked out by hand."""

from __future__ import annotations

from math import log

import numpy as np
import pytest

from builder.archive.firth import crossing, firth, profile_limits
from tests.archive.published import ENDOMETRIAL
from tests.archive.window_check import DESTROYED, NEEDS, PEAKS, counts

DESIGN = np.array([[1.0, nv, pi, eh] for nv, pi, eh, _ in ENDOMETRIAL])
HIGH_GRADE = np.array([float(hg) for *_, hg in ENDOMETRIAL])
ONE = np.ones(len(ENDOMETRIAL))


def test_the_endometrial_data_have_the_published_fit() -> None:
    """Heinze and Schemper 2002, Statistics in Medicine 21:2409; digits by R's brglm2 0.9 and a second program
    (check value regression-004, -010)."""
    fit = firth(DESIGN, HIGH_GRADE, ONE)
    assert fit.coefficients == pytest.approx([3.7745597, 2.9292734, -0.0347518, -2.6041639], abs=1e-5)
    assert fit.standard_errors == pytest.approx([1.488692, 1.550764, 0.039578, 0.776018], abs=1e-5)
    assert fit.log_likelihood == pytest.approx(-24.037268, abs=1e-5)


@pytest.mark.parametrize(
    ("which", "published"),
    [(0, (1.0825, 7.2093)), (1, (0.6097, 7.8546)), (2, (-0.1245, 0.0405)), (3, (-4.3652, -1.2327))],
)
def test_the_endometrial_data_have_the_published_profile_limits(which: int, published: tuple[float, float]) -> None:
    fit = firth(DESIGN, HIGH_GRADE, ONE)
    assert profile_limits(DESIGN, HIGH_GRADE, ONE, fit, which) == pytest.approx(published, abs=2e-4)


@pytest.mark.parametrize(("a", "b", "c", "d"), [(7, 0, 5, 8), (3, 1, 1, 3), (10, 0, 10, 0), (0, 4, 4, 0)])
def test_a_table_of_two_by_two_has_half_a_piece_added_to_each_cell(a: int, b: int, c: int, d: int) -> None:
    """Worked by hand: log((a+½)(d+½)/((b+½)(c+½))); 3.143368, 1.694596 and 0 are check value regression-006 to -008."""
    fit = firth(np.array([[1.0, 0.0], [1.0, 1.0]]), np.array([float(c), float(a)]), np.array([float(c + d), a + b]))
    assert fit.coefficients[1] == pytest.approx(log((a + 0.5) * (d + 0.5) / ((b + 0.5) * (c + 0.5))), abs=1e-6)


@pytest.mark.parametrize(("text", "coefficients"), [(NEEDS, (2.524281, 2.793414)), (DESTROYED, (2.084102, -2.691792))])
def test_the_fits_of_the_fixed_check_agree_with_other_programs(text: str, coefficients: tuple[float, float]) -> None:
    """On z = (peak − 770)/100; computed with two other libraries (firthmodels, R's brglm2)."""
    good, recorded = np.array(counts(text), dtype=float).T
    design = np.array([[1.0, (peak - 770) / 100] for peak in PEAKS])
    assert firth(design, good, recorded).coefficients == pytest.approx(coefficients, abs=1e-4)


def test_pieces_one_by_one_and_pieces_counted_together_give_the_same_fit() -> None:
    together = firth(np.array([[1.0, 0.0], [1.0, 1.0]]), np.array([1.0, 3.0]), np.array([3.0, 4.0]))
    alone = np.array([[1.0, 0.0]] * 3 + [[1.0, 1.0]] * 4)
    apart = firth(alone, np.array([1.0, 0, 0, 1, 1, 1, 0]), np.ones(7))
    assert apart.coefficients == pytest.approx(together.coefficients, abs=1e-8)


def test_a_curve_passes_one_half_where_its_logit_is_nought() -> None:
    fit = firth(np.array([[1.0, -1.0], [1.0, 3.0]]), np.array([1.0, 3.0]), np.array([4.0, 4.0]))
    assert crossing(fit) == pytest.approx(1.0)  # worked by hand: 1/4 and 3/4 mirror each other about the middle
