"""Each group's words under a key of their own; methods compared by this archive's rule; one fire counted once."""

from __future__ import annotations

import shutil
from dataclasses import replace
from pathlib import Path

import pytest

from builder.base.problem import Severity
from builder.build import Built, Options, build
from builder.checks.check import check_entry
from builder.examine import Examined, examine_all
from builder.settings import Settings
from builder.settings_file import load_settings
from builder.sources.joining import join, only_those_met
from tests.commands.archives import SETTINGS, write_archive
from tests.sources.groups import JOINED, joined, published

HILL = """\
group: {name: Hill potters, title: Hill fires, url: "https://hill.example", licence: CC-BY-SA-4.0}
potters:
  wren: {name: Wren Fell}
  z: {name: Zephyrine Quarrington, shown: nobody}
methods:
  open-fire: {name: On the ground, window: 600 °C to 700 °C, success: {survival: [sound]}}
  clamp: {name: Clamp, kind: ground, success: {survival: [sound, slumped]}}
words: {pieces.survival: [slumped]}
units: {temperature: °F}
places: {coordinates: 2 decimals}
"""


def published_hill(root: Path, *changes: tuple[str, str]) -> Path:
    """Publish an archive of one firing whose entry is changed in some words; return the site."""
    project = write_archive(root / "hill", 1)
    (project / "site_config.yml").write_text(HILL, encoding="utf-8")
    entry = project / "content/firings/2026-05-01-fire-1/entry.md"
    text = entry.read_text(encoding="utf-8")
    for old, new in changes:
        assert old in text
        text = text.replace(old, new)
    entry.write_text(text, encoding="utf-8")
    built = build(Options(project, project / "site", jobs=1))
    assert built.published == 1, built.problems
    return project / "site"


def examined(root: Path, settings: str = JOINED) -> tuple[Examined, Settings]:
    """Join the source `hill` and examine its one entry."""
    project = joined(root, "  hill: ../hill/site\n", settings)
    own, problems = load_settings(project)
    assert own is not None, problems
    found = join(own, project, root / "aside")
    assert found.problems == ()
    (one,) = examine_all(found.entries, found.settings, 1)
    return one, found.settings


def test_people_and_firings_stand_under_the_key_of_their_source(tmp_path: Path) -> None:
    published_hill(tmp_path)
    one, settings = examined(tmp_path)
    assert one.measured is not None
    firing = one.measured.firing
    assert (firing.slug, firing.source, firing.own_name) == ("hill--2026-05-01-fire-1", "hill", "2026-05-01-fire-1")
    assert (firing.potter, settings.potters[firing.potter].named) == ("hill--wren", "Wren Fell (Hill potters)")
    assert firing.licence == "CC-BY-SA-4.0"
    assert "wren" not in settings.potters
    assert settings.alone.potters == {}


def test_whoever_is_nobody_at_home_is_nobody_here(tmp_path: Path) -> None:
    published_hill(tmp_path, ("potter: wren", "potter: z"))
    one, settings = examined(tmp_path)
    assert one.measured is not None
    assert one.measured.firing.potter == "nobody"
    assert settings.potters["nobody"].name == "a potter of the group"


def test_a_method_that_both_have_is_judged_by_this_archive_s_rule_and_window(tmp_path: Path) -> None:
    published_hill(
        tmp_path, ("name: jar, survival: sound, carbon: cleared", "name: jar, survival: sound, carbon: core")
    )
    one, settings = examined(tmp_path)
    assert one.measured is not None
    method = settings.methods[one.measured.firing.method]
    assert (method.key, method.name, method.window_high_c) == ("open-fire", "Open fire", 800)
    assert [judged.success for judged in one.measured.pieces] == ["no", "no"]


def test_a_method_that_this_archive_has_not_is_taken_over_with_its_own_rule(tmp_path: Path) -> None:
    published_hill(
        tmp_path, ("method: open-fire", "method: clamp"), ("survival: sound, carbon: core", "survival: slumped")
    )
    one, settings = examined(tmp_path)
    assert one.measured is not None
    assert one.measured.firing.method == "hill--clamp"
    assert settings.methods["hill--clamp"].name == "Clamp (Hill potters)"
    assert [judged.success for judged in one.measured.pieces] == ["yes", "yes"]
    assert settings.words["pieces.survival"] == ("slumped",)


def test_bare_numbers_are_read_in_the_unit_that_their_group_declared(tmp_path: Path) -> None:
    """1,310 °F are 710 °C by definition."""
    published_hill(tmp_path, ("710 °C", "1310"))
    one, _ = examined(tmp_path)
    assert one.measured is not None
    peak = one.measured.heat.ware_figures["peak_c"].value
    assert peak == pytest.approx(710)


@pytest.mark.parametrize(
    ("places", "told"),
    [("", None), ("places: {coordinates: 1 decimal}\n", "Alder Fen 52.4 N 0.1 E")],
)
def test_a_place_is_told_no_nearer_than_this_archive_tells_places(
    tmp_path: Path, places: str, told: str | None
) -> None:
    published_hill(tmp_path, ("method:", "place: Alder Fen 52.4123 N 0.1198 E\nmethod:"))
    one, _ = examined(tmp_path, JOINED + places)
    assert one.measured is not None
    assert one.measured.firing.place == told
    assert [found.code for found in one.problems] == ([] if told else ["source-place"])
    assert all(found.severity is Severity.NOTE for found in one.problems)


def test_an_own_entry_may_not_name_another_group_s_potter(tmp_path: Path) -> None:
    published_hill(tmp_path)
    project = joined(tmp_path, "  hill: ../hill/site\n", SETTINGS)
    own, _ = load_settings(project)
    assert own is not None
    settings = join(own, project, tmp_path / "aside").settings
    write_archive(project, 1)
    entry = project / "content/firings/2026-05-01-fire-1/entry.md"
    entry.write_text(entry.read_text(encoding="utf-8").replace("potter: wren", "potter: hill--wren"), encoding="utf-8")
    (project / "site_config.yml").write_text(f"{SETTINGS}sources: {{hill: ../hill/site}}\n", encoding="utf-8")
    built = build(Options(project, project / "site", jobs=1))
    assert [found.code for found in built.problems] == ["not-listed"]
    assert "hill--wren" in settings.potters


def test_potters_and_methods_that_no_firing_names_have_no_page(tmp_path: Path) -> None:
    published_hill(tmp_path)
    one, settings = examined(tmp_path)
    assert one.measured is not None
    assert "hill--clamp" in settings.methods
    met = only_those_met(settings, [one.measured.firing])
    assert list(met.methods) == ["open-fire"]
    assert list(met.potters) == ["hill--wren"]


def twice(root: Path, settings: str, sources: str) -> Built:
    project = joined(root, sources, settings)
    return build(Options(project, project / "site", jobs=1))


def test_one_fire_from_two_archives_is_counted_once(tmp_path: Path) -> None:
    site = published(tmp_path, "hill", 2)
    shutil.copytree(site, tmp_path / "copy")
    built = twice(tmp_path, JOINED, "  hill: ../hill/site\n  copy: ../copy\n")
    assert (built.entries, built.published) == (4, 2)
    assert [(found.code, found.place.file) for found in built.problems] == [
        ("source-firing-twice", "copy/data/entries/2026-05-01-fire-1/entry.txt"),
        ("source-firing-twice", "copy/data/entries/2026-05-02-fire-2/entry.txt"),
    ]


def test_a_group_s_own_firing_stands_before_the_same_from_a_source(tmp_path: Path) -> None:
    published(tmp_path, "hill", 1)
    write_archive(tmp_path / "joined", 1)
    built = twice(tmp_path, SETTINGS, "  hill: ../hill/site\n")
    assert [found.code for found in built.problems] == ["source-firing-twice"]
    assert (tmp_path / "joined/site/firings/2026-05-01-fire-1.html").is_file()
    assert not (tmp_path / "joined/site/firings/hill--2026-05-01-fire-1.html").exists()


def test_two_fires_of_one_name_and_day_that_differ_are_two(tmp_path: Path) -> None:
    published_hill(tmp_path)
    write_archive(tmp_path / "joined", 1)
    entry = tmp_path / "joined/content/firings/2026-05-01-fire-1/entry.md"
    entry.write_text(entry.read_text(encoding="utf-8").replace("710 °C", "711 °C"), encoding="utf-8")
    built = twice(tmp_path, SETTINGS, "  hill: ../hill/site\n")
    assert (built.problems, built.published) == ((), 2)


def test_settings_without_sources_are_left_as_they_are(tmp_path: Path) -> None:
    project = write_archive(tmp_path / "a", 0)
    settings, _ = load_settings(project)
    assert settings is not None
    found = join(settings, project, tmp_path / "aside")
    assert (found.settings, found.entries, found.problems) == (settings, (), ())


def test_a_site_that_has_an_address_tells_it_in_a_pack_too(tmp_path: Path) -> None:
    """`pack` builds without full addresses on its pages, and another archive still finds the way back."""
    project = write_archive(tmp_path / "hill", 1)
    (project / "site_config.yml").write_text(HILL, encoding="utf-8")
    build(Options(project, project / "site", offline=True, jobs=1))
    _, settings = examined(tmp_path)
    assert settings.group_of("hill").address == "https://hill.example/"


def test_an_entry_is_checked_under_the_name_that_it_has_at_home(tmp_path: Path) -> None:
    site = published_hill(tmp_path)
    folder = site / "data/entries/2026-05-01-fire-1"
    folder.rename(folder.with_name("2026-06-09-fire-1"))
    project = joined(tmp_path, "  hill: ../hill/site\n")
    own, _ = load_settings(project)
    assert own is not None
    found = join(own, project, tmp_path / "aside")
    checked = check_entry(replace(found.entries[0], slug="2026-06-09-fire-1"), found.settings.rules_of("hill"))
    (one,) = examine_all(found.entries, found.settings, 1)
    assert [each.code for each in one.problems] == [each.code for each in checked.problems] == ["date-folder"]
