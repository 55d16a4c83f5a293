"""The commands, as a person or a program calls them."""

from __future__ import annotations

import json
import subprocess
import sys
import urllib.request
from pathlib import Path

import pytest

from builder.base.codes import CODES
from builder.commands.cli import COMMANDS, main
from builder.commands.preview import ASK_PATH
from builder.entries.find import find_entries
from builder.examine import examine
from builder.settings_file import load_settings
from tests.commands.archives import write_archive, write_entry


def test_without_a_command_all_commands_are_listed(capsys: pytest.CaptureFixture[str]) -> None:
    assert main([]) == 2
    told = capsys.readouterr().out
    assert all(name in told for name in COMMANDS)


@pytest.mark.parametrize("name", COMMANDS)
def test_every_command_explains_its_options(name: str, capsys: pytest.CaptureFixture[str]) -> None:
    with pytest.raises(SystemExit) as leaving:
        main([name, "--help"])
    assert leaving.value.code == 0
    assert f"ashbook {name}" in capsys.readouterr().out


@pytest.mark.parametrize(
    "words", [["bild"], ["check", "--format", "xml"], ["build", "--jobs", "none"], ["--project", "/nowhere", "check"]]
)
def test_a_wrong_call_exits_with_two(words: list[str]) -> None:
    try:
        code: object = main(words)
    except SystemExit as leaving:
        code = leaving.code
    assert code == 2


def test_check_is_silent_on_standard_output_when_all_is_well(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["--project", str(write_archive(tmp_path)), "check"]) == 0
    told = capsys.readouterr()
    assert told.out == ""
    assert "3 entries: no problem found." in told.err


def test_check_tells_every_problem_of_every_entry_in_one_run(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    project = write_archive(tmp_path)
    write_entry(project, "2026-06-01-a", "A", survival="soundish")
    write_entry(project, "2026-06-02-b", "B", survival="craked")
    entry = write_entry(project, "2026-06-03-c", "C")
    entry.write_text(entry.read_text(encoding="utf-8").replace("potter: wren", "potter: wern"), encoding="utf-8")
    assert main(["check", "--project", str(project), "--format", "json"]) == 1
    found = json.loads(capsys.readouterr().out)
    assert [(one["file"].split("/")[2], one["line"], one["field"]) for one in found] == [
        ("2026-06-01-a", 16, "pieces[2].survival"),
        ("2026-06-02-b", 16, "pieces[2].survival"),
        ("2026-06-03-c", 4, "potter"),
    ]
    assert all(one["severity"] == "error" and one["help"] for one in found)


@pytest.mark.parametrize("path", ["content/firings/2026-05-02-fire-2", "content/firings/2026-05-02-fire-2/entry.md"])
def test_check_looks_at_one_entry_when_asked_to(tmp_path: Path, path: str, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["--project", str(write_archive(tmp_path)), "check", path]) == 0
    assert "1 entry: no problem found." in capsys.readouterr().err


def test_check_says_what_is_wrong_with_a_path_that_leads_nowhere(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["--project", str(write_archive(tmp_path)), "check", "content/firings/nothing"]) == 1
    assert "nothing" in capsys.readouterr().out


def test_build_says_what_it_published_and_what_it_left_out(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    project = write_archive(tmp_path)
    assert main(["--project", str(project), "build"]) == 0
    assert "3 firings published" in capsys.readouterr().err
    write_entry(project, "2026-06-01-a", "A", survival="soundish")
    assert main(["--project", str(project), "build"]) == 1
    assert "3 firings published" in (told := capsys.readouterr().err)
    assert "1 left out" in told
    assert main(["--project", str(project), "build", "--strict"]) == 1
    assert "Nothing was published" in capsys.readouterr().err


@pytest.mark.parametrize("code", sorted(CODES))
def test_explain_gives_meaning_and_mend_of_every_code(code: str, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["explain", code]) == 0
    told = " ".join(capsys.readouterr().out.split())
    assert " ".join(CODES[code].meaning.split()) in told
    assert " ".join(CODES[code].mend.split()) in told


def test_explain_suggests_the_code_that_was_meant(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["explain", "yaml-tga"]) == 2
    assert "yaml-tag" in capsys.readouterr().err


def _start(project: Path, *more: str) -> int:
    given = ["--title", "Third try: the jar", "--date", "2026-07-01", "--potter", "wren", "--method", "open-fire"]
    return main(["--project", str(project), "start", *given, "--piece", "jar=sound", *more])


def test_a_started_entry_passes_check_at_once(tmp_path: Path) -> None:
    project = write_archive(tmp_path, 0)
    assert _start(project) == 0
    assert (project / "content/firings/2026-07-01-third-try-the-jar/entry.md").is_file()
    assert main(["--project", str(project), "check"]) == 0


def test_an_entry_is_never_started_over_another(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    project = write_archive(tmp_path, 0)
    _start(project)
    assert _start(project) == 2
    assert "already" in capsys.readouterr().err


def test_a_refused_start_leaves_nothing_behind(tmp_path: Path) -> None:
    project = write_archive(tmp_path, 0)
    assert _start(project, "--ware", "x" * 5000) == 1
    assert _start(project, "--date", "2026-02-31") == 1
    assert list((project / "content" / "firings").iterdir()) == []


def test_a_refused_start_tells_the_problem_by_the_name_that_the_entry_would_have(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert _start(write_archive(tmp_path, 0), "--date", "2026-02-31") == 1
    told = capsys.readouterr().out
    assert told.startswith("2026-02-31-third-try-the-jar/entry.md:3:15: error [date-calendar]")
    assert "    date: 2026-02-31\n" in told


def test_an_entry_started_around_a_log_finds_its_columns(tmp_path: Path) -> None:
    project = write_archive(tmp_path, 0)
    log = tmp_path / "log.csv"
    log.write_text("Time;Wall (°F);Floor (°F)\n0:00;57,2;58\n1:00;400,5;300\n2:00;1400;900\n", encoding="utf-8")
    assert _start(project, "--readings", str(log)) == 0
    entry = (project / "content/firings/2026-07-01-third-try-the-jar/entry.md").read_text(encoding="utf-8")
    assert "    - name: Wall\n      column: 2\n      unit: °F\n" in entry
    assert main(["--project", str(project), "check"]) == 0


def test_a_log_without_a_unit_is_not_guessed_at(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    log = tmp_path / "log.csv"
    log.write_text("0:00,14\n1:00,400\n2:00,700\n", encoding="utf-8")
    project = write_archive(tmp_path / "a", 0)
    assert _start(project, "--readings", str(log)) == 2
    assert "--unit" in capsys.readouterr().err
    assert _start(project, "--readings", str(log), "--unit", "°C") == 0


def test_a_log_in_millivolts_begins_with_its_thermocouple(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    log = tmp_path / "log.csv"
    log.write_text("0:00,0.5\n1:00,8.1\n5:00,26.6\n", encoding="utf-8")
    project = write_archive(tmp_path / "a", 0)
    assert _start(project, "--readings", str(log), "--unit", "mV") == 2
    assert "`--type K --cold-junction '20 °C'`" in capsys.readouterr().err
    wire = ("--type", "K", "--cold-junction", "20 °C")
    assert _start(project, "--readings", str(log), "--unit", "mV", *wire) == 0
    assert main(["--project", str(project), "check"]) == 0


LATE = "Time,Wall (°C)\n9:00,20\n9:30,40\n10:00,60\n10:02,260\n10:05,560\n10:08,800\n10:12,600\n"
"""Warmed for an hour, lit at 10:00, hottest at 10:08."""


def test_start_finds_lighting_and_peak_of_a_log_and_offers_them(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    project = write_archive(tmp_path, 0)
    log = tmp_path / "log.csv"
    log.write_text(LATE, encoding="utf-8")
    assert _start(project, "--readings", str(log)) == 0
    told = capsys.readouterr().out
    assert "highest at 10:08:00, with 800 °C." in told
    assert "add `--lit 10:00:00`" in told
    entry = project / "content/firings/2026-07-01-third-try-the-jar/entry.md"
    assert "lit:" not in entry.read_text(encoding="utf-8").split("pieces:")[0]


@pytest.mark.parametrize(("answer", "minutes"), [("yes", 8.0), ("no", 68.0)])
def test_times_count_from_the_lighting_that_the_potter_agrees_to(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, answer: str, minutes: float
) -> None:
    """Worked by hand: from 10:00 to 10:08, or from 9:00."""
    project = write_archive(tmp_path, 0)
    log = tmp_path / "log.csv"
    log.write_text(LATE, encoding="utf-8")
    monkeypatch.setattr("builtins.input", lambda question: answer)
    monkeypatch.setattr("sys.stdin.isatty", lambda: True)
    assert _start(project, "--readings", str(log)) == 0
    settings, _ = load_settings(project)
    assert settings is not None
    measured = examine(find_entries(project)[0][0], settings).measured
    assert measured is not None
    curve = measured.curves.curves[0]
    assert curve.minutes[curve.celsius.argmax()] == minutes


def test_start_asks_for_what_was_not_given(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    project = write_archive(tmp_path, 0)
    answers = iter(["Pale jar", "wern", "1", "open-fire", "jar", "", "2", ""])
    monkeypatch.setattr("builtins.input", lambda question: next(answers))
    monkeypatch.setattr("sys.stdin.isatty", lambda: True)
    assert main(["--project", str(project), "start", "--date", "2026-07-01"]) == 0
    entry = (project / "content/firings/2026-07-01-pale-jar/entry.md").read_text(encoding="utf-8")
    assert "potter: wren" in entry
    assert "survival: cracked" in entry


def test_start_never_waits_for_an_answer_where_nobody_is(tmp_path: Path) -> None:
    project = write_archive(tmp_path, 0)
    words = [sys.executable, "-m", "builder", "--project", str(project), "start", "--title", "Jar"]
    done = subprocess.run(words, input="", capture_output=True, text=True, check=False)
    assert done.returncode == 2
    assert "--potter" in done.stderr


def test_preview_serves_the_site_and_renews_it_on_save(tmp_path: Path) -> None:
    project = write_archive(tmp_path, 1)
    words = [sys.executable, "-u", "-m", "builder", "--project", str(project), "preview", "--port", "0"]
    with subprocess.Popen(words, stdout=subprocess.PIPE, stderr=subprocess.DEVNULL, text=True) as running:
        try:
            assert running.stdout is not None
            address = running.stdout.readline().split()[2].rstrip("/")
            assert address.startswith("http://127.0.0.1:")
            assert "Fire 1" in _get(f"{address}/firings/2026-05-01-fire-1.html")
            assert _get(address + ASK_PATH) == "1"
            entry = project / "content/firings/2026-05-01-fire-1/entry.md"
            entry.write_text(entry.read_text(encoding="utf-8").replace("Fire 1", "The First Fire"), encoding="utf-8")
            _wait_for(lambda: _get(address + ASK_PATH) == "2")
            assert "The First Fire" in _get(f"{address}/firings/2026-05-01-fire-1.html")
        finally:
            running.terminate()


def _get(address: str) -> str:
    with urllib.request.urlopen(address, timeout=10) as answer:
        return str(answer.read().decode())


def _wait_for(condition: object, seconds: float = 30.0) -> None:
    import time

    assert callable(condition)
    until = time.monotonic() + seconds
    while not condition():
        assert time.monotonic() < until, "it never happened"
        time.sleep(0.2)


def test_all_is_said_before_the_process_ends() -> None:
    told = subprocess.run([sys.executable, "-m", "builder", "explain"], capture_output=True, text=True, check=True)
    assert all(code in told.stdout for code in CODES)


@pytest.mark.skipif(not Path("/dev/full").exists(), reason="only some systems have a disk that is always full")
def test_what_could_not_be_said_is_no_success() -> None:
    with Path("/dev/full").open("w") as full:
        assert subprocess.run([sys.executable, "-m", "builder", "--version"], stdout=full).returncode == 1
