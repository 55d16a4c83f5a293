"""The page for another group's keeper: what it says to type can be typed."""

from __future__ import annotations

import html
import re
import shlex
from pathlib import Path

import pytest

from builder.commands.cli import COMMANDS, main
from builder.pages.run_your_own_page import run_your_own_page
from builder.settings_file import load_settings
from tests.commands.archives import SETTINGS
from tests.pages.reading_html import read_page

PAGE = run_your_own_page()


def test_the_page_is_sound() -> None:
    found = read_page(PAGE)
    assert found.faults == []
    assert len(found.all("h1")) == 1


def test_every_command_that_it_names_is_one() -> None:
    named = set(re.findall(r"<code>(?:ashbook|new-group)[ ]?([a-z-]*)", PAGE.lead)) - {""}
    assert {"accept", "start", "import-table", "check", "build", "pack", "forget"} <= named
    assert named <= set(COMMANDS)


def test_what_it_says_to_type_makes_a_site_from_an_empty_folder(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Each line of the example from `new-group` on is called as it stands; the lines before it install the program."""
    typed = html.unescape(re.findall(r"<pre[^>]*><code>(.*?)</code>", PAGE.lead, re.DOTALL)[0]).splitlines()
    begin = next(number for number, line in enumerate(typed) if "new-group" in line)
    assert [line.split()[0] for line in typed[:begin]] == ["python3", "own/bin/pip"]
    monkeypatch.chdir(tmp_path)
    for line in typed[begin:]:
        words = shlex.split(line)
        if words[0] == "cd":
            monkeypatch.chdir(words[1])
        else:
            assert words[0].endswith("own/bin/ashbook")
            assert main(words[1:]) == 0, line
    assert (tmp_path / "fires/site/index.html").is_file()


def test_the_sources_that_it_shows_are_settings_that_can_be_read(tmp_path: Path) -> None:
    shown = html.unescape(re.findall(r"<pre[^>]*><code>(sources:.*?)</code>", PAGE.lead, re.DOTALL)[0])
    (tmp_path / "site_config.yml").write_text(f"{SETTINGS}{shown}\n", encoding="utf-8")
    settings, problems = load_settings(tmp_path)
    assert problems == ()
    assert settings is not None
    assert [place.key for place in settings.asked] == ["hill-potters", "river-kilns"]


def test_it_leaves_safety_to_those_who_answer_for_it() -> None:
    assert "fire service and licensed practice come first" in PAGE.lead
    assert " is safe" not in PAGE.lead
