"""The example entries under tests/: each folder one case; the bad ones beside what is told of them.

`python -m tests.checks.examples` writes the snapshots of the bad entries anew; look at every change before keeping it.
"""

from __future__ import annotations

from functools import cache
from pathlib import Path

from builder.base.problem import Problem
from builder.commands.report import report
from builder.entries.find import entry_at
from builder.examine import examine
from builder.settings import Settings
from builder.settings_file import load_settings

TESTS = Path(__file__).parent.parent
GOOD = TESTS / "entries_good"
BAD = TESTS / "entries_bad"
SNAPSHOT = "expected.problems"


@cache
def example_settings() -> Settings:
    """Return the settings of the invented group in tests/site_config.yml."""
    settings, problems = load_settings(TESTS)
    if settings is None or problems:
        raise ValueError(f"tests/site_config.yml is not sound: {problems}")
    return settings


def cases(root: Path) -> list[Path]:
    """Return the folders of the good or of the bad entries, by name."""
    return sorted(folder for folder in root.iterdir() if folder.is_dir())


def problems_of(folder: Path) -> tuple[Problem, ...]:
    """Return all that is wrong with one example, from its folder's name to its last reading."""
    entry = entry_at(folder, TESTS)
    return (entry,) if isinstance(entry, Problem) else examine(entry, example_settings()).problems


def drawn(folder: Path) -> str:
    """Return an example's problems as `ashbook check` prints them."""
    return report(problems_of(folder), TESTS, "text")


if __name__ == "__main__":
    for case in cases(BAD):
        (case / SNAPSHOT).write_text(drawn(case), encoding="utf-8", newline="\n")
