"""A sound group's published site, and a copy of it to be spoilt."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest

from tests.sources.groups import published


@pytest.fixture(scope="module")
def site(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return published(tmp_path_factory.mktemp("source"))


@pytest.fixture
def copy(site: Path, tmp_path: Path) -> Path:
    """The published site of a sound group, to be spoilt."""
    found = tmp_path / "hill" / "site"
    shutil.copytree(site, found)
    return found
