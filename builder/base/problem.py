"""A problem is a value: what is wrong, where, and what to write instead.

Nothing here prints or raises. An entry's faults are collected as `Problem`s; drawing them for a terminal,
a program or a page is the business of `commands/report.py` and `pages/`.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum


class Severity(StrEnum):
    """How much a problem matters."""

    ERROR = "error"
    """The entry is left out of the site until it is mended."""
    WARNING = "warning"
    """The entry is published; somebody should look."""
    NOTE = "note"
    """Worth knowing; nothing need be done."""


@dataclass(frozen=True, slots=True)
class Place:
    """Where something was written: a file, and a line and a column in it, both counted from 1."""

    file: str
    """Path from the project's folder, with forward slashes."""
    line: int | None = None
    """Line, from 1; None where the file as a whole is meant."""
    column: int | None = None
    """Column in characters, from 1; None where the whole line is meant."""


@dataclass(frozen=True, slots=True)
class Problem:
    """One fault of one file, with the way out of it."""

    place: Place
    """Where it is."""
    field: str
    """The field it concerns, as a dotted path (`weather.wind`, `pieces[2].survival` of the second piece); empty for a
    whole file. Items of a list are counted from 1, as lines and columns are."""
    code: str
    """A permanent word from `codes.CODES`."""
    severity: Severity
    """Error, warning or note."""
    message: str
    """What is wrong and why, one sentence in plain words."""
    help: str
    """What to write instead, in the potter's own value where that is possible."""

    @property
    def sort_key(self) -> tuple[str, int, int, str]:
        """Order by file, then line, then column, then code."""
        return (self.place.file, self.place.line or 0, self.place.column or 0, self.code)


def has_errors(problems: tuple[Problem, ...] | list[Problem]) -> bool:
    """Tell whether any of the problems keeps its entry off the site."""
    return any(problem.severity is Severity.ERROR for problem in problems)
