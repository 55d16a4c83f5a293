"""site_config.yml is read whole, and every fault in it has a place and a way out."""

from __future__ import annotations

from pathlib import Path

import pytest

from builder.base.problem import Problem
from builder.settings import Settings, SourcePlace, without_unnamed
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


@pytest.mark.parametrize(
    ("shown", "name"),
    [("full", "Wren Ó Dónaill"), ("first", "Wren"), ("initials", "W. Ó. D."), ("key", "wren")],
)
def test_as_much_of_a_name_is_kept_as_its_potter_wants_published(tmp_path: Path, shown: str, name: str) -> None:
    told = SOUND.replace("{name: Wren Oddie}", f"{{name: Wren Ó Dónaill, shown: {shown}}}")
    settings, problems = _load(tmp_path, told)
    assert problems == ()
    assert settings is not None
    assert settings.potters["wren"].name == name
    assert ("Dónaill" in repr(settings)) is (shown == "full")


def test_an_unknown_way_to_show_a_name_is_refused_and_keeps_the_name_meanwhile(tmp_path: Path) -> None:
    settings, problems = _load(tmp_path, SOUND.replace("{name: Wren Oddie}", "{name: Wren Oddie, shown: no}"))
    assert settings is None
    assert [(found.field, found.place.line) for found in problems] == [("potters.wren.shown", 3)]


def test_those_who_are_shown_as_nobody_stand_together_under_one_key(tmp_path: Path) -> None:
    settings, problems = _load(
        tmp_path,
        SOUND.replace(
            "{name: Wren Oddie}",
            "{name: Wren Oddie, about: Makes jars, shown: nobody}\n  ode: {shown: nobody}",
        ),
    )
    assert problems == ()
    assert settings is not None
    assert {key: one.name for key, one in settings.potters.items()} == {
        "tam": "Tam",
        "nobody": "a potter of the group",
    }
    assert settings.unnamed == {"wren": "Wren Oddie", "ode": ""}
    after = repr(without_unnamed(settings))
    assert not [word for word in ("wren", "Wren", "Oddie", "ode:", "'ode'", "jars") if word in after]


@pytest.mark.parametrize("written", ["{name: No Body}", "No Body", "{name: No Body, shown: key}"])
def test_the_key_of_those_without_a_name_is_nobody_s_own(tmp_path: Path, written: str) -> None:
    problems = _load(tmp_path, SOUND.replace("{name: Wren Oddie}", f"{{name: Wren Oddie}}\n  nobody: {written}"))[1]
    assert [(found.field, found.place.line) for found in problems] == [("potters.nobody", 4)]


@pytest.mark.parametrize(
    ("more", "field"),
    [
        (("about: Every Oddie makes jars", "kind: ground"), "potters.wren.about"),
        (("about: Makes jars", "kind: ground, summary: As wren  oddie does it"), "methods.open-fire.summary"),
    ],
)
def test_words_of_the_settings_that_tell_a_withheld_name_are_refused(
    tmp_path: Path, more: tuple[str, str], field: str
) -> None:
    text = SOUND.replace("Wren Oddie}", f"Wren Oddie, shown: first, {more[0]}}}")
    text = text.replace("    kind: ground\n", "".join(f"    {part}\n" for part in more[1].split(", ")))
    problems = _load(tmp_path, text)[1]
    assert [(found.code, found.field) for found in problems] == [("settings-value", field)]


@pytest.mark.parametrize(("written", "decimals"), [("refuse", None), ("1 decimal", 1), ("0 decimals", 0)])
def test_the_group_says_what_becomes_of_coordinates(tmp_path: Path, written: str, decimals: int | None) -> None:
    settings, problems = _load(tmp_path, f"{SOUND}places: {{rule: The parish., coordinates: {written}}}\n")
    assert problems == ()
    assert settings is not None
    assert (settings.place_rule, settings.place_decimals) == ("The parish.", decimals)


def test_another_word_about_coordinates_is_refused(tmp_path: Path) -> None:
    problems = _load(tmp_path, f"{SOUND}places: {{coordinates: exact}}\n")[1]
    assert [found.field for found in problems] == ["places.coordinates"]


def test_sources_are_folders_or_zips_by_a_short_key(tmp_path: Path) -> None:
    sources = "sources:\n  hill: ../hill/site\n  dale: {from: ../dale.zip, address: https://dale.example/fires}\n"
    settings, problems = _load(tmp_path, SOUND + sources)
    assert problems == ()
    assert settings is not None
    assert settings.asked == (
        SourcePlace("hill", "../hill/site"),
        SourcePlace("dale", "../dale.zip", "https://dale.example/fires/"),
    )


def test_an_archive_with_sources_needs_no_potter_of_its_own(tmp_path: Path) -> None:
    bare = SOUND.replace("potters:\n  wren: {name: Wren Oddie}\n  tam: Tam\n", "")
    assert [found.code for found in _load(tmp_path, bare)[1]] == ["settings-required"]
    settings, problems = _load(tmp_path, bare + "sources: {hill: ../hill/site}\n")
    assert problems == ()
    assert settings is not None
    assert settings.potters == {}


@pytest.mark.parametrize(
    ("source", "field", "words"),
    [
        ("hill: https://hill.example/", "sources.hill.from", "asks nothing of other hosts"),
        ("hill: ", "sources.hill.from", "No place is named"),
        ("hill: {address: https://hill.example/}", "sources.hill.from", "No place is named"),
        ("hill: {from: ../hill, address: hill.example}", "sources.hill.address", "no address of a site"),
        ("Hill Group: ../hill", "sources.Hill Group", "short plain word"),
        ("a--b: ../hill", "sources.a--b", "short plain word"),
        (f"{'h' * 31}: ../hill", f"sources.{'h' * 31}", "short plain word"),
    ],
)
def test_a_source_that_is_none_is_told_with_a_way_out(tmp_path: Path, source: str, field: str, words: str) -> None:
    settings, problems = _load(tmp_path, f"{SOUND}sources:\n  {source}\n")
    assert settings is None
    (found,) = problems
    assert (found.code, found.field, found.place.line) == ("settings-value", field, SOUND.count("\n") + 2)
    assert words in found.message
    assert "`" in found.help
