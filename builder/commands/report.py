"""Problems drawn for people, for programs and for a code host's annotations."""

from __future__ import annotations

import json
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from pathlib import Path

from builder.base.problem import Problem, Severity

FORMATS = ("text", "json", "github")
_GITHUB = {Severity.ERROR: "error", Severity.WARNING: "warning", Severity.NOTE: "notice"}


@dataclass(slots=True)
class Lines:
    """Reads single lines of the project's files, each file once."""

    project: Path
    _file: str = ""
    _lines: Sequence[str] = ()

    def line(self, file: str, number: int | None) -> str | None:
        """Return one line of a file, or None where there is none to show."""
        if number is None:
            return None
        if file != self._file:
            self._file, self._lines = file, self._read(file)
        return self._lines[number - 1] if 0 < number <= len(self._lines) else None

    def _read(self, file: str) -> Sequence[str]:
        try:
            text = (self.project / file).read_bytes()[:2_000_000].decode("utf-8-sig", "replace")
        except OSError:
            return ()
        return text.replace("\r\n", "\n").replace("\r", "\n").split("\n")


def report(problems: Iterable[Problem], project: Path, form: str) -> str:
    """Draw problems in one of FORMATS, ordered by file and place."""
    ordered = sorted(problems, key=lambda found: found.sort_key)
    if form == "json":
        return json.dumps([as_dict(found) for found in ordered], ensure_ascii=False, indent=2)
    lines = Lines(project)
    draw: Callable[[Problem], str] = github_line if form == "github" else lambda found: as_text(found, lines)
    return "\n".join(draw(found) for found in ordered)


def as_dict(found: Problem) -> dict[str, str | int | None]:
    """Return a problem as the JSON form writes it."""
    return {
        "file": found.place.file,
        "line": found.place.line,
        "column": found.place.column,
        "field": found.field,
        "code": found.code,
        "severity": str(found.severity),
        "message": found.message,
        "help": found.help,
    }


def as_text(found: Problem, lines: Lines) -> str:
    """Draw a problem as one line, then the entry's line with a mark under the place, then the way out."""
    place = ":".join(str(part) for part in (found.place.file, found.place.line, found.place.column) if part is not None)
    named = f"{found.field}: " if found.field else ""
    drawn = [f"{place}: {found.severity} [{found.code}] {named}{found.message}"]
    line = lines.line(found.place.file, found.place.line)
    if line is not None and line.strip():
        shown, mark = _cut(line, found.place.column or 1)
        drawn.append(f"    {shown}")
        if found.place.column is not None:
            drawn.append(f"    {' ' * mark}^")
    drawn.append(f"    {found.help}")
    return "\n".join(plain(part) for part in drawn) + "\n"


def _cut(line: str, column: int, width: int = 100) -> tuple[str, int]:
    """Return at most `width` characters of a line around a column, and where the column is in them."""
    start = max(0, column - 1 - width // 2) if len(line) > width else 0
    return line[start : start + width].rstrip(), column - 1 - start


def plain(text: str) -> str:
    """Show text without control characters, which could move a terminal's cursor or hide words."""
    return "".join(letter if letter.isprintable() else " " if letter == "\t" else "�" for letter in text)


def github_line(found: Problem) -> str:
    """Draw a problem as a workflow command that annotates the entry's line."""
    properties = {
        "file": found.place.file,
        "line": found.place.line,
        "col": found.place.column,
        "title": found.code,
    }
    told = ",".join(f"{key}={_escape(str(value), True)}" for key, value in properties.items() if value is not None)
    named = f"{found.field}: " if found.field else ""
    return f"::{_GITHUB[found.severity]} {told}::{_escape(f'{named}{found.message} {found.help}', False)}"


def _escape(text: str, in_property: bool) -> str:
    text = text.replace("%", "%25").replace("\r", "%0D").replace("\n", "%0A")
    return text.replace(":", "%3A").replace(",", "%2C") if in_property else text


def summary(problems: Sequence[Problem], entries: int) -> str:
    """Say in one sentence what a check found."""
    counts = [
        _counted(sum(found.severity is severity for found in problems), str(severity))
        for severity in Severity
        if any(found.severity is severity for found in problems)
    ]
    looked = _counted(entries, "entry", "entries")
    return f"{looked}: {', '.join(counts)}." if counts else f"{looked}: no problem found."


def _counted(number: int, one: str, many: str = "") -> str:
    return f"{number} {one if number == 1 else many or one + 's'}"
