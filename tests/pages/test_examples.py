"""The examples in the docstrings of the pages run and hold."""

from __future__ import annotations

import doctest
from importlib import import_module

import pytest

MODULES = ("addresses", "fragments", "marked_numbers", "numbers", "quantities", "readings_table", "rules")


@pytest.mark.parametrize("name", MODULES)
def test_every_example_in_the_docstrings_holds(name: str) -> None:
    outcome = doctest.testmod(import_module(f"builder.pages.{name}"))
    assert outcome.failed == 0
