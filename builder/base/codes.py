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

_ALL: tuple[Code, ...] = (
    # entries: the folder, the file, the front matter
    Code("entry-empty", _E, "The entry's file has nothing in it.", "Write the entry, or take its folder away."),
    Code(
        "entry-missing",
        _E,
        "A firing's folder has no entry.md.",
        "Write `entry.md`, or rename the file that is the entry.",
    ),
    Code("file-encoding", _E, "A text file is not UTF-8, so some letters cannot be read.", "Save it again as UTF-8."),
    Code(
        "file-link",
        _E,
        "A folder or a file is a link to somewhere else; links could publish what nobody meant to.",
        "Copy the file itself.",
    ),
    Code("file-too-large", _E, "A file is larger than any entry needs.", "Split it, or make the picture smaller."),
    Code("file-unreadable", _E, "The system does not let the file be read.", "Look at its permissions."),
    Code(
        "folder-name",
        _E,
        "A firing's folder is also its address on the web, so its name is a date and plain words.",
        "Name it like `2026-05-02-pale-jar`.",
        "content/firings/Pale Jar (3)/",
        "content/firings/2026-05-02-pale-jar-3/",
    ),
    Code(
        "front-matter-dash",
        _E,
        "The lines around the front matter must be three plain hyphens; a phone often joins them.",
        "Write `---`.",
        "—",
        "---",
    ),
    Code(
        "front-matter-empty",
        _E,
        "Between the two lines of `---` stands nothing that could be read as fields.",
        "Write the required fields.",
        "---\n---",
        "---\ntitle: First pit\n---",
    ),
    Code(
        "front-matter-missing",
        _E,
        "An entry begins with its front matter between two lines of `---`.",
        "Put a line of `---` before the first field.",
        "title: First pit",
        "---\ntitle: First pit\n---",
    ),
    Code(
        "front-matter-open",
        _E,
        "The second line of `---` is missing, so the story would be read as fields.",
        "Put `---` after the last field.",
        "---\ntitle: First pit\n\nWe lit it at nine.",
        "---\ntitle: First pit\n---\n\nWe lit it at nine.",
    ),
    Code(
        "key-twice",
        _E,
        "A key stands twice in one group; only one of them could count.",
        "Keep one.",
        "date: 2026-05-02\ndate: 2026-05-03",
        "date: 2026-05-02",
    ),
    Code(
        "stray-file",
        _W,
        "A file lies among the firings' folders and is not read.",
        "Give it a folder, or take it away.",
    ),
    Code(
        "yaml-anchor",
        _E,
        "YAML's anchors and aliases (`&` and `*`) are refused: they hide one value inside another.",
        "Put the value in quotes.",
        "title: *Best pot",
        'title: "*Best pot"',
    ),
    Code("yaml-key", _E, "A key is more than a word.", "Write `key: value`."),
    Code(
        "yaml-syntax",
        _E,
        "The front matter cannot be read as YAML.",
        "Often a colon inside a value: put it in quotes.",
        "title: Third try: the jar",
        'title: "Third try: the jar"',
    ),
    Code(
        "yaml-tag",
        _E,
        "YAML's tags (`!word`) are refused: they could make a value something other than words.",
        "Put the value in quotes.",
        "title: !wow",
        'title: "!wow"',
    ),
    Code(
        "yaml-too-large",
        _E,
        "The front matter is longer or nested deeper than any entry needs.",
        "Put long readings in a file beside the entry.",
    ),
    # settings
    Code(
        "settings-missing",
        _E,
        "The project has no site_config.yml, so nobody knows its potters and methods.",
        "Run the command in the archive's folder, or name it with `--project`.",
    ),
    Code("settings-required", _E, "site_config.yml lacks something that every archive needs.", "Add it."),
    Code(
        "settings-unknown",
        _E,
        "site_config.yml has a key that nothing reads; a misspelt one would be ignored silently.",
        "Correct it, or take it away.",
    ),
    Code("settings-value", _E, "A value in site_config.yml cannot be used.", "Write it as the help says."),
)

CODES: dict[str, Code] = {code.name: code for code in _ALL}
"""Every code by its name."""


def problem(code: str, place: Place, field: str, message: str, help: str) -> Problem:
    """Make a Problem with its severity from the list of codes. Raises KeyError for an unknown code (a bug)."""
    return Problem(place, field, code, CODES[code].severity, message, help)
