"""Sites full of attacks, and their tame twin, built once for all tests here."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.trust.built_bytes import Seen, look_through
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


@pytest.fixture(scope="session")
def hostile_bytes(hostile_site: Path) -> Seen:
    """What is seen in the bytes of the one."""
    return look_through(hostile_site)


@pytest.fixture(scope="session")
def tame_bytes(tame_site: Path) -> Seen:
    """What is seen in the bytes of the other."""
    return look_through(tame_site)
