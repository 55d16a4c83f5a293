"""An entry written for one test: sound but for the fields that the test is about."""

from __future__ import annotations

from pathlib import Path

from builder.checks.check import Checked, check_parsed
from builder.entries.find import EntryFile
from builder.entries.front_matter import parse_entry
from builder.settings import Settings
from tests.checks.examples import example_settings

REQUIRED = {
    "title": "title: Pale-slipped jar",
    "date": "date: 2026-05-02",
    "potter": "potter: wren",
    "method": "method: open-fire",
    "pieces": "pieces:\n  - {name: jar, survival: sound}",
}


def text_with(*fields: str, story: str = "We lit it at nine.") -> str:
    """Return an entry's text in which the named fields are written so."""
    parts = {**REQUIRED, **{field.split(":", 1)[0]: field for field in fields}}
    return "\n".join(["---", *parts.values(), "---", story, ""])


def checked(*fields: str, settings: Settings | None = None, story: str = "We lit it at nine.") -> Checked:
    """Return what the check says of an entry in which the named fields are written so."""
    entry = EntryFile("jar", Path("nowhere"), Path("nowhere/entry.md"), "entry.md")
    return check_parsed(entry, parse_entry(text_with(*fields, story=story), entry.file), settings or example_settings())


def found(*fields: str) -> list[tuple[str, str]]:
    """Return field and code of each problem."""
    return [(problem.field, problem.code) for problem in checked(*fields).problems]
