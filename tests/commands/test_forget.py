"""A potter who leaves is gone from all that is built next; what only a person can judge is listed; never half done."""

from __future__ import annotations

import os
import signal
import subprocess
import sys
from pathlib import Path

import pytest

from builder.commands.all_or_nothing import JOURNAL, is_unfinished
from builder.commands.cli import main
from builder.settings_file import load_settings
from tests.commands.archives import write_archive, write_entry

SETTINGS = """\
# Our settings
group: {name: Reedmere potters, title: Reedmere fires}
potters:
  # the first of us
  wren:
    name: Wren Oddie
    about: >-
      Makes jars,
      mostly.

  # joined later
  tam: {name: Tam Quillet}
  ode:
    name: Ode Marrish
methods:
  open-fire: {name: Open fire, success: {survival: [sound]}}
"""


@pytest.fixture
def project(tmp_path: Path) -> Path:
    """Two firings of Wren's, the second with a story about her, and one of Tam's at which she helped."""
    project = write_archive(tmp_path / "archive", 2)
    (project / "site_config.yml").write_text(SETTINGS, encoding="utf-8")
    other = write_entry(project, "2026-06-01-bowl", "Bowl")
    text = other.read_text(encoding="utf-8")
    other.write_text(
        text.replace("potter: wren", 'potter: tam\nhelpers: [ode, "Wren"]'), encoding="utf-8", newline="\r\n"
    )
    second = project / "content/firings/2026-05-02-fire-2/entry.md"
    second.write_text(second.read_text(encoding="utf-8") + "Wren's jar again.\nThe wrens sang.\n", encoding="utf-8")
    (project / "content/pages").mkdir()
    (project / "content/pages/about.md").write_text("Begun by Ms Oddie.\n", encoding="utf-8")
    return project


def forget(project: Path, *words: str | Path) -> int:
    return main(["--project", str(project), "forget", *map(str, words)])


def contents(project: Path) -> dict[str, bytes]:
    """Return every file of the archive."""
    kept = (path for path in project.rglob("*") if path.is_file() and ".ashbook" not in path.parts)
    return {path.relative_to(project).as_posix(): path.read_bytes() for path in kept}


def test_a_name_leaves_settings_and_entries_and_helpers(project: Path) -> None:
    assert forget(project, "wren", "--yes") == 0
    assert (project / "site_config.yml").read_text(encoding="utf-8") == SETTINGS.replace(
        "  wren:\n    name: Wren Oddie\n    about: >-\n      Makes jars,\n      mostly.\n",
        "  a-potter-of-the-group:\n    name: a potter of the group\n",
    )
    first = (project / "content/firings/2026-05-01-fire-1/entry.md").read_text(encoding="utf-8")
    assert "potter: a-potter-of-the-group\n" in first
    helped = (project / "content/firings/2026-06-01-bowl/entry.md").read_bytes()
    assert b'potter: tam\r\nhelpers: [ode, "a-potter-of-the-group"]\r\n' in helped
    assert main(["--project", str(project), "check"]) == 0


def test_words_that_speak_of_the_name_are_listed_and_not_changed(
    project: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert forget(project, "Wren Oddie", "--as", "somebody", "--yes") == 0
    told = capsys.readouterr().out
    assert "content/pages/about.md:1: Begun by Ms Oddie." in told
    assert "content/firings/2026-05-02-fire-2/entry.md:19: Wren's jar again." in told
    assert "The wrens sang" not in told
    assert (project / "content/pages/about.md").read_text(encoding="utf-8") == "Begun by Ms Oddie.\n"
    assert "history of a" in told


def test_what_is_built_next_does_not_hold_the_name(project: Path) -> None:
    """The potter is called Wanda here: the program's own examples speak of a wren."""
    for path in (project / "site_config.yml", *project.rglob("entry.md")):
        text = path.read_text(encoding="utf-8").replace("wren", "wanda").replace("Wren", "Wanda")
        path.write_text(text.replace("Wanda's jar again.\nThe wandas sang.\n", ""), encoding="utf-8")
    (project / "content/pages/about.md").unlink()
    assert main(["--project", str(project), "build"]) == 0
    assert b"Oddie" in (project / "site/potters/index.html").read_bytes()
    assert forget(project, "wanda", "--yes") == 0
    assert main(["--project", str(project), "build"]) == 0
    for path in (*(project / "site").rglob("*"), *(project / ".ashbook").rglob("*")):
        assert "wanda" not in path.name.lower()
        if path.is_file():
            data = path.read_bytes().lower()
            assert b"oddie" not in data, path
            assert b"wanda" not in data, path


@pytest.mark.parametrize("word", ["wren", "Wren Oddie"])
def test_somebody_who_is_shown_as_nobody_can_be_forgotten_too(project: Path, word: str) -> None:
    settings = project / "site_config.yml"
    settings.write_text(SETTINGS.replace("name: Wren Oddie", "name: Wren Oddie\n    shown: nobody"), encoding="utf-8")
    assert forget(project, word, "--yes") == 0
    told = settings.read_text(encoding="utf-8")
    assert "wren" not in told
    assert "Oddie" not in told
    entry = (project / "content/firings/2026-05-01-fire-1/entry.md").read_text(encoding="utf-8")
    assert "potter: a-potter-of-the-group\n" in entry
    loaded, problems = load_settings(project)
    assert loaded is not None
    assert problems == ()


def test_entries_move_out_of_the_archive(project: Path, tmp_path: Path) -> None:
    entry = (project / "content/firings/2026-05-01-fire-1/entry.md").read_bytes()
    assert forget(project, "wren", "--entries", "--to", tmp_path / "hers", "--yes") == 0
    assert [path.name for path in (project / "content/firings").iterdir()] == ["2026-06-01-bowl"]
    assert sorted(path.name for path in (tmp_path / "hers").iterdir()) == ["2026-05-01-fire-1", "2026-05-02-fire-2"]
    assert (tmp_path / "hers/2026-05-01-fire-1/entry.md").read_bytes() == entry
    assert main(["--project", str(project), "check"]) == 0


def test_where_nothing_else_names_the_potter_the_settings_forget_altogether(project: Path) -> None:
    (project / "content/firings/2026-06-01-bowl/entry.md").write_text(
        (project / "content/firings/2026-06-01-bowl/entry.md").read_text(encoding="utf-8").replace(', "Wren"', "")
    )
    assert forget(project, "wren", "--entries", "--yes") == 0
    settings, problems = load_settings(project)
    assert problems == ()
    assert settings is not None
    assert list(settings.potters) == ["tam", "ode"]


def test_the_only_potter_s_place_is_kept_for_words(tmp_path: Path) -> None:
    project = write_archive(tmp_path / "archive", 1)
    text = SETTINGS[: SETTINGS.index("\n  # joined")] + SETTINGS[SETTINGS.index("methods") - 1 :]
    (project / "site_config.yml").write_text(text, encoding="utf-8")
    assert forget(project, "wren", "--entries", "--yes") == 0
    assert main(["--project", str(project), "check"]) == 0


def test_a_second_potter_gets_a_word_of_their_own(project: Path) -> None:
    assert forget(project, "wren", "--yes") == 0
    assert forget(project, "tam", "--yes") == 0
    settings, _ = load_settings(project)
    assert settings is not None
    assert list(settings.potters) == ["a-potter-of-the-group", "a-potter-of-the-group-2", "ode"]
    assert main(["--project", str(project), "check"]) == 0


@pytest.mark.parametrize(
    "words",
    [
        ["nobody"],
        ["wren"],
        ["wren", "--entries"],
        ["wren", "--to", "elsewhere", "--yes"],
        ["wren", "--as", " ", "--yes"],
    ],
)
def test_without_a_clear_word_nothing_changes(project: Path, words: list[str]) -> None:
    before = contents(project)
    assert forget(project, *words) == 2
    assert contents(project) == before


def test_entries_never_move_to_a_place_inside_the_archive_or_over_another_folder(project: Path, tmp_path: Path) -> None:
    before = contents(project)
    assert forget(project, "wren", "--entries", "--to", project / "content" / "old", "--yes") == 2
    (tmp_path / "hers/2026-05-01-fire-1").mkdir(parents=True)
    assert forget(project, "wren", "--entries", "--to", tmp_path / "hers", "--yes") == 1
    assert contents(project) == before


def test_it_asks_where_somebody_is_there(project: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("sys.stdin.isatty", lambda: True)
    monkeypatch.setattr("builtins.input", lambda question: "no")
    before = contents(project)
    assert forget(project, "wren") == 2
    assert contents(project) == before
    monkeypatch.setattr("builtins.input", lambda question: "yes")
    assert forget(project, "wren") == 0


def test_settings_that_a_program_cannot_change_are_left_alone(
    project: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    text = "potters: {wren: {name: Wren Oddie}, tam: {name: T}, ode: {name: O}}\nmethods"
    config = SETTINGS[: SETTINGS.index("potters:")] + text + SETTINGS[SETTINGS.index("methods") + 7 :]
    (project / "site_config.yml").write_text(config, encoding="utf-8")
    before = contents(project)
    assert forget(project, "wren", "--yes") == 1
    assert "on a line of its own" in capsys.readouterr().err
    assert contents(project) == before


KILLED = """
import os, pathlib, signal, sys
steps = int(sys.argv.pop(1))
def counted(name):
    real = getattr(pathlib.Path, name)
    def step(path, target):
        global steps
        if steps == 0:
            os.kill(os.getpid(), signal.SIGKILL)
        steps -= 1
        return real(path, target)
    setattr(pathlib.Path, name, step)
counted("rename"); counted("replace")
from builder.commands.cli import main
sys.exit(main(sys.argv[1:]))
"""


@pytest.mark.parametrize("steps", range(12))
def test_a_forget_that_is_killed_at_any_step_is_done_wholly_or_not_at_all(
    project: Path, tmp_path: Path, steps: int, capsys: pytest.CaptureFixture[str]
) -> None:
    """Every rename is a step: two of the copies, one of the decision, then settings, helper, two entries, the end."""
    before = contents(project)
    hers = tmp_path / "hers"
    words = ["forget", "wren", "--entries", "--to", str(hers), "--yes"]
    call = [sys.executable, "-c", KILLED, str(steps), "--project", str(project), *words]
    killed = subprocess.run(call, check=False, capture_output=True, env={**os.environ})
    assert killed.returncode in (-signal.SIGKILL, 0)
    if not is_unfinished(project):
        after = {name: data for name, data in contents(project).items() if JOURNAL not in name}
        whole = "content/firings/2026-05-01-fire-1/entry.md" not in after and b"wren:" not in after["site_config.yml"]
        assert after == before or whole
        return
    assert main(["--project", str(project), "build"]) == 1
    assert "was cut off" in capsys.readouterr().err
    assert forget(project, "wren", "--yes") == 2
    assert "finished now" in capsys.readouterr().out
    assert sorted(path.name for path in (project / "content/firings").iterdir()) == ["2026-06-01-bowl"]
    assert (hers / "2026-05-02-fire-2/entry.md").is_file()
    assert main(["--project", str(project), "check"]) == 0
