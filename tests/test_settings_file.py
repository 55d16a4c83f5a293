"""site_config.yml is read whole, and every fault in it has a place and a way out."""

from __future__ import annotations

from pathlib import Path

import pytest

from builder.base.problem import Problem
from builder.settings import Settings
from builder.settings_file import load_settings

SOUND = """\
group: {name: Reedmere potters, url: https://example.org/fires}
potters:
  wren: {name: Wren Oddie}
  tam: Tam
methods:
  open-fire:
    kind: ground
    window: 660 °C to 800 °C
    success: {survival: [sound], carbon: cleared}
"""


def _load(folder: Path, text: str) -> tuple[Settings | None, tuple[Problem, ...]]:
    (folder / "site_config.yml").write_text(text, encoding="utf-8")
    return load_settings(folder)


def test_sound_settings_are_read_without_a_problem(tmp_path: Path) -> None:
    settings, problems = _load(tmp_path, SOUND)
    assert problems == ()
    assert settings is not None
    method = settings.methods["open-fire"]
    assert (method.window_low_c, method.window_high_c) == (660, 800)
    assert method.success == {"survival": ("sound",), "carbon": ("cleared",)}
    assert settings.potters["tam"].name == "Tam"
    assert settings.group.url == "https://example.org/fires/"
    assert settings.heat.levels_c[0] == 300


def test_heat_units_and_words_are_the_groups_to_choose(tmp_path: Path) -> None:
    more = "heat: {rise_window: 90 s, levels: [700 °C, 932 °F], soak_within: 40 °C}\nunits: {mass: lb}\n"
    settings, problems = _load(tmp_path, SOUND + more + "words: {pieces.survival: [slumped]}\n")
    assert problems == ()
    assert settings is not None
    assert settings.heat.rise_window_min == pytest.approx(1.5)
    assert settings.heat.levels_c == pytest.approx((500, 700))
    assert settings.units == {"mass": "lb"}
    assert settings.words == {"pieces.survival": ("slumped",)}


def test_a_folder_without_settings_says_what_to_do(tmp_path: Path) -> None:
    settings, problems = load_settings(tmp_path)
    assert settings is None
    assert [found.code for found in problems] == ["settings-missing"]


@pytest.mark.parametrize(
    ("old", "new", "code", "field", "line"),
    [
        ("name: Reedmere potters, ", "", "settings-required", "group.name", 1),
        ("https://example.org/fires", "example", "settings-value", "group.url", 1),
        ("potters:\n  wren: {name: Wren Oddie}\n  tam: Tam\n", "", "settings-required", "potters", None),
        ("wren:", "Wren O:", "settings-value", "potters.Wren O", 3),
        ("kind: ground", "kind: volcano", "settings-value", "methods.open-fire.kind", 7),
        ("660 °C to 800 °C", "800 °C", "settings-value", "methods.open-fire.window", 8),
        ("660 °C to 800 °C", "hot", "settings-value", "methods.open-fire.window", 8),
        ("success:", "sucess:", "settings-unknown", "methods.open-fire.sucess", 9),
        ("carbon: cleared", "carbn: cleared", "settings-unknown", "methods.open-fire.success.carbn", 9),
    ],
)
def test_a_fault_in_the_settings_has_its_place(
    tmp_path: Path, old: str, new: str, code: str, field: str, line: int | None
) -> None:
    assert old in SOUND
    settings, problems = _load(tmp_path, SOUND.replace(old, new))
    assert settings is None
    first = problems[0]
    assert (first.code, first.field, first.place.line) == (code, field, line)
    assert first.help


def test_every_fault_is_told_in_one_run(tmp_path: Path) -> None:
    _, problems = _load(tmp_path, "grup: {}\npotters: {}\nmethods: {}\nwindow: {level: 2}\n")
    assert {found.field for found in problems} >= {"grup", "potters", "methods", "group.name", "window.level"}
