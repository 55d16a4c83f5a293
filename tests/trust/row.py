"""One line of the table that tells what was tried and what was found."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Row:
    """One line of the table."""

    what: str
    count: int | str
    faults: tuple[str, ...]
    good: str = "nothing"
    """What is said where there are no faults."""

    def __str__(self) -> str:
        found = "; ".join(self.faults)[:2000].replace("\n", " ").replace("|", "/") if self.faults else self.good
        count = f"{self.count:,}" if isinstance(self.count, int) else self.count
        return f"| {self.what} | {count} | {found} |"
