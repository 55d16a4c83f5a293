"""A new archive is sound at once, says plainly that its firing is an example, and its workflow gives nothing away."""

from __future__ import annotations

import json
import re
from pathlib import Path

import pytest
import yaml

from builder.commands.cli import main
from builder.commands.new_group import FILES
from builder.settings_file import load_settings

PROJECT = Path(__file__).parents[2]


def new_group(folder: Path, *words: str) -> int:
    return main(["new-group", str(folder), *words])


@pytest.mark.parametrize("name", ["Our fire group", 'Potters: "Alder & Fen" {2}', "- 12:30 # NO", "Töpfer 窯"])
def test_a_new_archive_passes_check_at_once_whatever_its_name(tmp_path: Path, name: str) -> None:
    folder = tmp_path / "deep" / "fires"
    assert new_group(folder, "--name", name) == 0
    assert main(["--project", str(folder), "check"]) == 0
    settings, problems = load_settings(folder)
    assert problems == ()
    assert settings is not None
    assert settings.group.name == name
    assert sorted(path.relative_to(folder) for path in folder.rglob("*") if path.is_file()) == sorted(FILES.values())


def test_a_new_archive_builds_at_once_and_says_that_it_holds_an_example(tmp_path: Path) -> None:
    assert new_group(tmp_path / "fires") == 0
    assert main(["--project", str(tmp_path / "fires"), "build", "--strict"]) == 0
    home = (tmp_path / "fires/site/index.html").read_text(encoding="utf-8")
    assert "its readings are invented" in home
    assert (tmp_path / "fires/site/firings/2026-05-02-an-example.html").is_file()
    assert "Who may stop a fire" in (tmp_path / "fires/site/cautions.html").read_text(encoding="utf-8")
    assert (tmp_path / "fires/site/data/entry.schema.json").is_file()


def test_a_folder_with_something_in_it_is_refused_and_left_alone(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    (tmp_path / "mine.txt").write_text("mine", encoding="utf-8")
    assert new_group(tmp_path) == 2
    assert new_group(tmp_path / "mine.txt") == 2
    assert "not an empty folder" in capsys.readouterr().err
    assert [path.name for path in tmp_path.iterdir()] == ["mine.txt"]


def test_an_empty_folder_that_is_there_is_filled(tmp_path: Path) -> None:
    folder = tmp_path / "fires"
    folder.mkdir()
    assert new_group(folder) == 0
    assert main(["--project", str(folder), "check"]) == 0
    assert [path.name for path in tmp_path.iterdir()] == ["fires"]


def test_an_editor_finds_the_schema_that_a_build_writes_and_knows_the_entries(tmp_path: Path) -> None:
    folder = tmp_path / "fires"
    assert new_group(folder) == 0
    assert main(["--project", str(folder), "build"]) == 0
    text = (folder / ".vscode" / "settings.json").read_text(encoding="utf-8")
    wired = json.loads(text)
    for schema, entries in wired["yaml.schemas"].items():
        assert json.loads((folder / schema).read_text(encoding="utf-8"))["properties"]["potter"]
        assert list(folder.glob(entries)) == [folder / "content/firings/2026-05-02-an-example/entry.md"]
    assert list(wired["files.associations"].values()) == ["yaml"]
    assert (PROJECT / ".vscode" / "settings.json").read_text(encoding="utf-8") == text


def _workflow(tmp_path: Path) -> tuple[str, dict[str, object]]:
    new_group(tmp_path / "fires")
    text = (tmp_path / "fires/.github/workflows/archive.yml").read_text(encoding="utf-8")
    return text, yaml.safe_load(text)


def test_a_folder_that_a_killed_run_began_to_fill_is_filled_and_anything_else_in_it_is_left_alone(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    folder = tmp_path / "fires"
    (folder / ".ashbook-new" / "content").mkdir(parents=True)
    (folder / "site_config.yml").write_text("half", encoding="utf-8")
    assert main(["new-group", str(folder), "--name", "Ours"]) == 0
    assert main(["--project", str(folder), "check"]) == 0
    assert not (folder / ".ashbook-new").exists()
    (folder / ".ashbook-new").mkdir()
    (folder / "notes.txt").write_text("mine", encoding="utf-8")
    assert main(["new-group", str(folder)]) == 2
    assert "not an empty folder" in capsys.readouterr().err
    assert (folder / "notes.txt").read_text(encoding="utf-8") == "mine"


def test_the_workflow_pins_every_action_by_its_full_commit(tmp_path: Path) -> None:
    text, _ = _workflow(tmp_path)
    used = re.findall(r"uses: (\S+)(.*)", text)
    assert len(used) == 4
    for action, comment in used:
        assert re.fullmatch(r"actions/[a-z-]+@[0-9a-f]{40}", action)
        assert re.fullmatch(r"  # v\d+\.\d+\.\d+", comment)


def test_the_workflow_builds_submitted_content_without_secrets_or_rights_to_write(tmp_path: Path) -> None:
    text, workflow = _workflow(tmp_path)
    assert "secrets" not in text
    assert "pull_request_target:" not in text
    assert workflow["permissions"] == {}
    jobs = workflow["jobs"]
    assert isinstance(jobs, dict)
    assert jobs["check"]["permissions"] == {"contents": "read"}
    assert jobs["check"]["steps"][0]["with"] == {"persist-credentials": False}
    assert any(step.get("run") == "ashbook check --format github" for step in jobs["check"]["steps"])
    assert jobs["publish"]["permissions"] == {"pages": "write", "id-token": "write"}
    assert jobs["publish"]["if"] == "github.event_name == 'push'"
    assert not any("run" in step for step in jobs["publish"]["steps"])
    assert not re.search(r"run:.*\$\{\{", text)
