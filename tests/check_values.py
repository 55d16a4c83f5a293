"""Check values kept beside the tests, each with where it comes from and what it is worth."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest


def cases(beside: str, file: str, *functions: str) -> list[Any]:
    """Give the cases of some functions in a file beside a test module, for parametrize, with their own ids."""
    found = json.loads(Path(beside).with_name(file).read_text(encoding="utf-8"))["cases"]
    return [pytest.param(case, id=case["id"]) for case in found if case["function"] in functions]
