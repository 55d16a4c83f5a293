"""Sites full of attacks, and their tame twin, built once for all tests here."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.trust.hostile_archive import tame
from tests.trust.rotation import SMALL, built, round_of_today, turning


@pytest.fixture(scope="session")
def hostile_site(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The site of a small archive with every attack in each kind of place, as this day's run has it."""
    return built(tmp_path_factory.mktemp("hostile") / "archive", SMALL, turning(SMALL, round_of_today()))


@pytest.fixture(scope="session")
def tame_site(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The same archive with harmless words."""
    return built(tmp_path_factory.mktemp("tame") / "archive", SMALL, tame)
