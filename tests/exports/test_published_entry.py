"""A published entry is read back as the firing that it was written from, and holds nothing that was not shown."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest

from builder.base.problem import Problem
from builder.checks.check import check_entry
from builder.checks.firing import Firing
from builder.entries.find import EntryFile, find_entries
from builder.exports.published_entry import PUBLISHED_ENTRY, PUBLISHED_READINGS, published_entry
from builder.exports.published_settings import published_settings
from builder.kept.packed import packed
from builder.readings.curve import FiringCurves
from builder.readings.read import read_curves
from builder.settings import Settings
from builder.settings_file import load_settings
from builder.sources.published import read_published
from tests.checks.examples import GOOD, example_settings

PROJECT = Path(__file__).parents[2]
REAL = Path(__file__).parents[1] / "readings" / "real"


def read(entry: EntryFile, settings: Settings) -> tuple[Firing | None, FiringCurves, tuple[Problem, ...]]:
    checked = check_entry(entry, settings)
    assert checked.firing is not None, checked.problems
    curves, problems = read_curves(checked.firing, entry.folder)
    return checked.firing, curves, (*checked.problems, *problems)


def published(firing: Firing, folder: Path, into: Path) -> EntryFile:
    """Publish a firing into a folder, and return it as an entry."""
    home = into / firing.slug
    home.mkdir()
    for name, content in published_entry(firing, folder).items():
        (home / name).write_bytes(content)
    return EntryFile(firing.slug, home, home / PUBLISHED_ENTRY, firing.file)


def assert_read_back_the_same(entry: EntryFile, settings: Settings, into: Path) -> None:
    firing, curves, problems = read(entry, settings)
    assert firing is not None
    again, read_again, more = read(published(firing, entry.folder, into), settings)
    assert again is not None
    assert replace(again, story="", readings=None) == replace(firing, story="", readings=None, photos=())
    assert [(one.code, one.field, one.message) for one in more] == [
        (one.code, one.field, one.message) for one in problems if not one.field.startswith("photos")
    ]
    assert read_again.ware == curves.ware
    assert read_again.repairs == curves.repairs
    assert [event.words for event in read_again.events] == [event.words for event in curves.events]
    for one, other in zip(curves.curves, read_again.curves, strict=True):
        assert (one.unit, one.as_read, one.remarks, one.notes) == (
            other.unit,
            other.as_read,
            other.remarks,
            other.notes,
        )
        assert packed(one.common) == packed(other.common)
        for name in ("minutes", "celsius", "own_sd_c"):
            assert np.array_equal(getattr(one, name), getattr(other, name)), name


def entries_of(project: Path) -> list[EntryFile]:
    return list(find_entries(project)[0])


@pytest.mark.parametrize("entry", entries_of(PROJECT), ids=lambda entry: entry.slug)
def test_every_firing_of_the_archive_is_read_back_the_same(entry: EntryFile, tmp_path: Path) -> None:
    settings, _ = load_settings(PROJECT)
    assert settings is not None
    assert_read_back_the_same(entry, settings, tmp_path)


@pytest.mark.parametrize(
    "folder", sorted(folder for folder in GOOD.iterdir() if folder.is_dir()), ids=lambda folder: folder.name
)
def test_every_good_example_is_read_back_the_same(folder: Path, tmp_path: Path) -> None:
    entry = EntryFile(folder.name, folder, folder / "entry.md", "entry.md")
    assert_read_back_the_same(entry, example_settings(), tmp_path)


LOG = """\
---
title: "null"
date: 2026-05-02
potter: wren
method: open-fire
readings:
  time: clock
  lit: "10:42"
  file: log.csv
  probes: [{name: wall, column: Temp (°F)}, {name: "=air", column: 3, unit: °C}]
pieces:
  - {name: jar, survival: sound}
---
We lit it.

[//]: # (a note to myself)

[unused]: https://example.org/private "a hidden title"

![the jar](IMG_private.jpg) and [a way](../../private/notes.md) <!-- shown as it is typed -->
"""
ROWS = """\
Logger of Zephyrine Quarrington
Clock;Temp (°F);Air;Where;Notes
10:40:00;57,5;14,5;52.41237;
10:42:00;61,0;14,5;52.41237;lit
10:44:30;410,0;abc secret;52.41237;flames; over the "rim"
nonsense secret;500,0;15,0;52.41237;left out
10:50:00;1400,0;nan;52.41237;
"""


def test_of_a_log_only_the_columns_of_its_probes_are_published(tmp_path: Path) -> None:
    folder = tmp_path / "2026-05-02-jar"
    folder.mkdir()
    (folder / "entry.md").write_text(LOG, encoding="utf-8")
    (folder / "log.csv").write_text(ROWS, encoding="utf-8")
    entry = EntryFile(folder.name, folder, folder / "entry.md", "entry.md")
    firing, curves, _ = read(entry, example_settings())
    assert firing is not None
    (tmp_path / "out").mkdir()
    copy = published(firing, folder, tmp_path / "out")
    again, read_again, _ = read(copy, example_settings())
    assert again is not None
    assert again.title == "null"
    for one, other in zip(curves.curves, read_again.curves, strict=True):
        assert np.array_equal(one.minutes, other.minutes)
        assert np.array_equal(one.celsius, other.celsius)
    log = (copy.folder / PUBLISHED_READINGS).read_text(encoding="utf-8")
    assert log == (
        "seconds\tprobe_1\tprobe_2\tremark\n-120\t57,5\t14,5\t\n0\t61,0\t14,5\tlit\n"
        '150\t410,0\t?\t"flames over the ""rim"""\n?\t500,0\t15,0\t\n480\t1400,0\tnan\t\n'
    )
    written = log + copy.path.read_text(encoding="utf-8")
    for secret in ("Quarrington", "52.41", "secret", "log.csv", "10:4"):
        assert secret not in written, secret


def test_of_a_story_only_what_its_page_shows_is_published(tmp_path: Path) -> None:
    folder = tmp_path / "2026-05-02-jar"
    folder.mkdir()
    (folder / "entry.md").write_text(LOG, encoding="utf-8")
    (folder / "log.csv").write_text(ROWS, encoding="utf-8")
    firing, _, _ = read(EntryFile(folder.name, folder, folder / "entry.md", "entry.md"), example_settings())
    assert firing is not None
    text = published_entry(firing, folder)[PUBLISHED_ENTRY].decode()
    assert text.endswith(
        '---\n<p>We lit it.</p>\n<p><em>the jar</em> and <a rel="nofollow noopener noreferrer ugc">a way</a> '
        "&lt;!-- shown as it is typed --&gt;</p>\n"
    )
    for secret in ("note to myself", "private", "hidden title"):
        assert secret not in text, secret


@pytest.mark.parametrize("name", sorted(path.name for path in REAL.glob("*.txt")))
def test_a_real_logger_s_file_is_published_so_that_its_curves_stay_what_they_are(name: str, tmp_path: Path) -> None:
    """The logs of `tests/readings/real`, each of its columns that are temperatures as a probe."""
    folder = tmp_path / "2026-05-02-real"
    folder.mkdir()
    (folder / name).write_bytes((REAL / name).read_bytes())
    probes = "[" + ", ".join(f"{{name: p{column}, column: {column}, unit: °C}}" for column in range(3, 8)) + "]"
    text = LOG[: LOG.index("readings:")] + f"readings: {{time: clock, file: {name}, probes: {probes}}}\n"
    (folder / "entry.md").write_text(text + LOG[LOG.index("pieces:") :], encoding="utf-8")
    firing, curves, _ = read(EntryFile(folder.name, folder, folder / "entry.md", "entry.md"), example_settings())
    assert firing is not None
    (tmp_path / "out").mkdir()
    again, read_again, _ = read(published(firing, folder, tmp_path / "out"), example_settings())
    assert again is not None
    assert len(curves.curves) > 0
    kinds = [repair.kind for repair in curves.repairs if repair.kind != "half seconds"]  # told in full seconds now
    assert [repair.kind for repair in read_again.repairs] == kinds
    for one, other in zip(curves.curves, read_again.curves, strict=True):
        assert np.allclose(one.minutes, other.minutes, rtol=0, atol=1e-9)
        assert np.array_equal(one.celsius, other.celsius)


def test_what_a_group_decided_is_read_back_the_same(tmp_path: Path) -> None:
    settings, _ = load_settings(PROJECT)
    assert settings is not None
    (tmp_path / "settings.json").write_bytes(published_settings(settings))
    again, problems = read_published(tmp_path / "settings.json", "hill/data/settings.json")
    assert problems == ()
    assert again == replace(settings, group=replace(settings.group, contact=""))


def test_of_a_name_only_what_its_potter_shows_is_published(tmp_path: Path) -> None:
    (tmp_path / "site_config.yml").write_text(
        "group: {name: Reedmere}\n"
        "potters: {w: {name: Wren Oddie, shown: first}, z: {name: Zephyrine Quarrington, shown: nobody}}\n"
        "methods: {pit: {window: 1220 °F to 1472 °F, success: {survival: [sound]}}}\n"
        "places: {coordinates: 2 decimals}\nunits: {temperature: °F}\n",
        encoding="utf-8",
    )
    settings, _ = load_settings(tmp_path)
    assert settings is not None
    written = published_settings(settings)
    assert b"Oddie" not in written
    assert b"Zephyrine" not in written
    assert b'"z"' not in written
    (tmp_path / "settings.json").write_bytes(written)
    again, problems = read_published(tmp_path / "settings.json", "hill/data/settings.json")
    assert problems == ()
    assert again is not None
    assert again.potters["w"].name == "Wren"
    assert "nobody" in again.potters
    assert again.place_decimals == 2
    assert again.methods["pit"].window_low_c == pytest.approx(660, abs=1e-8)
