"""Bare temperatures are read in the unit that the group declared, and refused where it declared none."""

from __future__ import annotations

from pathlib import Path

import pytest

from builder.checks.check import check_entry
from builder.entries.find import entry_at
from builder.readings.read import read_curves
from builder.settings_file import load_settings
from tests.commands.archives import SETTINGS

ROWS = "  time: elapsed\n  rows: |\n    0:00 57 lit\n    5:00 1000\n    9:00 500 °C\n"
FILE = "  time: elapsed\n  file: log.csv\n  probes: [{name: wall, column: 2}]\n"


@pytest.mark.parametrize("readings", [ROWS, FILE], ids=["rows", "file"])
@pytest.mark.parametrize("declared", [True, False])
def test_a_bare_reading_takes_the_unit_that_the_group_declared(tmp_path: Path, readings: str, declared: bool) -> None:
    settings_text = SETTINGS + ("units: {temperature: F}\n" if declared else "")
    (tmp_path / "site_config.yml").write_text(settings_text, encoding="utf-8")
    folder = tmp_path / "content" / "firings" / "2026-05-02-jar"
    folder.mkdir(parents=True)
    (folder / "log.csv").write_text("0:00,57\n5:00,1000\n9:00,932\n", encoding="utf-8")
    (folder / "entry.md").write_text(
        f"---\ntitle: Jar\ndate: 2026-05-02\npotter: wren\nmethod: open-fire\nreadings:\n{readings}"
        "pieces:\n  - {name: jar, survival: sound}\n---\n",
        encoding="utf-8",
    )
    entry = entry_at(folder, tmp_path)
    settings, _ = load_settings(tmp_path)
    assert settings is not None and not hasattr(entry, "code")
    firing = check_entry(entry, settings).firing
    assert firing is not None
    curves, problems = read_curves(firing, folder)
    if declared:
        assert problems == ()
        # 1000 °F is 537.8 °C, 932 °F is 500 °C (defining equation of the scale).
        assert list(curves.curves[0].celsius) == pytest.approx([13.889, 537.778, 500.0], abs=1e-3)
    else:
        assert {found.code for found in problems} == {"quantity-unit"}
