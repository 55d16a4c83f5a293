"""Every picture of the demo is one that the project's own drawing program draws."""

from __future__ import annotations

import importlib
from collections.abc import Iterator
from pathlib import Path
from types import ModuleType

import numpy as np
import pytest
from PIL import Image

PROJECT = Path(__file__).resolve().parents[2]
FIRINGS = PROJECT / "content" / "firings"
SAMPLES = ("2024-06-22-the-kiln-lit-once/kiln-in-section.jpg", "2026-04-18-ladder-upper-rungs/upper-rungs.png")


@pytest.fixture(scope="module")
def draw() -> Iterator[ModuleType]:
    with pytest.MonkeyPatch.context() as patch:
        patch.syspath_prepend(str(PROJECT / "content" / "drawings"))
        yield importlib.import_module("draw")


def test_the_pictures_beside_the_entries_are_exactly_those_that_the_program_draws(draw: ModuleType) -> None:
    beside = {f"{path.parent.name}/{path.name}" for path in FIRINGS.glob("*/*") if path.suffix in {".jpg", ".png"}}
    assert beside == set(draw.DRAWINGS)


@pytest.mark.parametrize("name", SAMPLES)
def test_drawing_twice_gives_the_same_bytes(draw: ModuleType, tmp_path: Path, name: str) -> None:
    first = draw.draw(name, tmp_path / "first").read_bytes()
    second = draw.draw(name, tmp_path / "second").read_bytes()
    assert first == second


@pytest.mark.parametrize("name", SAMPLES)
def test_the_picture_in_the_archive_is_the_one_that_the_program_draws(
    draw: ModuleType, tmp_path: Path, name: str
) -> None:
    """Another version of the libraries may shade a pixel otherwise, so the pictures are held to 2 levels of 255."""
    drawn = np.asarray(Image.open(draw.draw(name, tmp_path)).convert("RGB"), dtype=float)
    kept = np.asarray(Image.open(FIRINGS / name).convert("RGB"), dtype=float)
    assert drawn.shape == kept.shape
    assert np.abs(drawn - kept).mean() < 2
    assert np.abs(drawn - 244).max() > 100, "something is drawn"
