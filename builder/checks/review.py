"""The review of one entry: what it is judged by, and the problems found so far."""

from __future__ import annotations

import os
from collections.abc import Mapping
from dataclasses import dataclass, field

from builder.base.codes import problem
from builder.base.located_yaml import Scalar
from builder.base.problem import Place, Problem
from builder.checks.fault import Fault
from builder.entries.find import EntryFile
from builder.settings import Settings


@dataclass(slots=True)
class Review:
    """Collects what is wrong with one entry while its fields are walked."""

    entry: EntryFile
    settings: Settings
    lines: list[str]
    """The entry's lines, for what the places of values do not tell."""
    problems: list[Problem] = field(default_factory=list)
    _listing: dict[str, os.DirEntry[str]] | None = None

    def report(self, fault: Fault, place: Place, path: str) -> None:
        """Keep one fault with its place and its field's dotted path."""
        self.problems.append(problem(fault.code, place, path, fault.message, fault.help))

    def report_at(self, fault: Fault, node: Scalar, path: str) -> None:
        """Keep a fault of one value, at the character where it stands."""
        place = node.place
        if fault.offset and place.column is not None and not node.block and "\n" not in node.text:
            column = place.column + fault.offset + (1 if node.quoted else 0)
            place = Place(place.file, place.line, min(column, len(self.line(place)) or 1))
        self.report(fault, place, path)

    def line(self, place: Place) -> str:
        """Return the entry's line of a place."""
        number = place.line or 0
        return self.lines[number - 1] if 0 < number <= len(self.lines) else ""

    def listing(self) -> Mapping[str, os.DirEntry[str]]:
        """Return what lies in the entry's folder, by name, read once."""
        if self._listing is None:
            try:
                with os.scandir(self.entry.folder) as found:
                    self._listing = {item.name: item for item in found}
            except OSError:
                self._listing = {}
        return self._listing
