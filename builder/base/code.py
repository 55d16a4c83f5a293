"""What one code of a problem is."""

from __future__ import annotations

from dataclasses import dataclass

from builder.base.problem import Severity


@dataclass(frozen=True, slots=True)
class Code:
    """What one code means."""

    name: str
    """The code itself: lower-case words joined by hyphens."""
    severity: Severity
    """How much it matters."""
    meaning: str
    """What is wrong and why it matters, in a sentence or two."""
    mend: str
    """What to do about it."""
    wrong: str = ""
    """A line or two that cause it."""
    right: str = ""
    """The same, mended."""
