"""Every code a problem can carry: what it means and how to mend it.

Codes are words and permanent. `ashbook explain CODE`, the site's page of problems and the tests all read
this one list; `problem()` is the only way to make a Problem, so that no code outside the list can appear.
"""

from __future__ import annotations

from dataclasses import dataclass

from builder.base.problem import Place, Problem, Severity


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


_E, _W, _N = Severity.ERROR, Severity.WARNING, Severity.NOTE

_ALL: tuple[Code, ...] = ()

CODES: dict[str, Code] = {code.name: code for code in _ALL}
"""Every code by its name."""


def problem(code: str, place: Place, field: str, message: str, help: str) -> Problem:
    """Make a Problem with its severity from the list of codes. Raises KeyError for an unknown code (a bug)."""
    return Problem(place, field, code, CODES[code].severity, message, help)
