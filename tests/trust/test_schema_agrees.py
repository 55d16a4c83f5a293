"""The published JSON Schema and our own checks agree on what both can judge."""

from __future__ import annotations

from pathlib import Path

from builder.base.codes import CODES
from tests.checks.examples import example_settings
from tests.trust.judging import make_folder
from tests.trust.schema_against_checks import BEYOND_A_SCHEMA, READ_OTHERWISE, compare


def test_schema_and_checks_agree_on_nine_hundred_spoilt_entries(tmp_path: Path) -> None:
    compared = compare(900, make_folder(tmp_path), example_settings())
    assert compared.unexplained == []
    assert compared.counts["refused by both"] > 200
    assert compared.counts["accepted by both"] > 150


def test_every_difference_is_of_a_code_that_there_is() -> None:
    assert BEYOND_A_SCHEMA.keys() | READ_OTHERWISE.keys() <= CODES.keys()
    assert not BEYOND_A_SCHEMA.keys() & READ_OTHERWISE.keys()
