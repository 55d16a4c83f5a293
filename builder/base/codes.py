"""Every code a problem can carry: what it means and how to mend it.

Codes are words and permanent. `ashbook explain CODE`, the site's page of problems and the tests all read
this one list; `problem()` is the only way to make a Problem, so that no code outside the list can appear.
"""

from __future__ import annotations

from builder.base.check_codes import CHECK_CODES
from builder.base.code import Code
from builder.base.intake_codes import INTAKE_CODES
from builder.base.problem import Place, Problem, Severity
from builder.base.source_codes import SOURCE_CODES

__all__ = ["CODES", "Code", "problem"]

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
    # quantities
    Code(
        "quantity-ambiguous",
        _E,
        "A number can be read in two ways, because its comma or point may part thousands or begin the decimals.",
        "Write it without a separator, or with a decimal point.",
        "mass: 1,5 kg",
        "mass: 1.5 kg",
    ),
    Code(
        "quantity-clock",
        _E,
        "A value with a colon is a time of day or a length of time, and nothing says which.",
        "Write a length of time with its units.",
        "length: 12:30",
        "length: 12 min 30 s",
    ),
    Code(
        "quantity-digits",
        _E,
        "A number is written in digits other than 0 to 9, often wide ones from another keyboard.",
        "Type the digits again.",
        "air: １４ °C",
        "air: 14 °C",
    ),
    Code(
        "quantity-extra",
        _E,
        "After the quantity stand words or a second quantity; only one can be meant.",
        "Keep one quantity, and tell the rest in the story.",
        "mass: 14 kg and 3 bales",
        "mass: 14 kg",
    ),
    Code(
        "quantity-kind",
        _E,
        "The unit measures something else than this field.",
        "Use a unit of the field's kind.",
        "air: 14 mm",
        "air: 14 °C",
    ),
    Code(
        "quantity-none",
        _E,
        "A field that holds a quantity has no number in it.",
        "Write a number with its unit, or leave the field out where it was not recorded.",
        "mass: plenty",
        "mass: 14 kg",
    ),
    Code(
        "quantity-too-large",
        _E,
        "A number or a value is longer than any quantity of a firing.",
        "Look for a digit too many, or a line that belongs elsewhere.",
        "mass: 14000000000 kg",
        "mass: 14 kg",
    ),
    Code(
        "quantity-unit",
        _E,
        "A number has no unit, and the group's settings name none for it; nothing is guessed.",
        "Add the unit.",
        "air: 14",
        "air: 14 °C",
    ),
    Code(
        "quantity-unit-unknown",
        _E,
        "The word after the number is not a unit that the program knows.",
        "Correct it, or convert the value to one of the units that the help names.",
        "mass: 14 kgg",
        "mass: 14 kg",
    ),
    # checks: keys, shapes, values, files, fields against one another
    *CHECK_CODES,
    # readings
    Code(
        "reading-column-missing",
        _E,
        "A probe's column, or the time's, is not in the readings file.",
        "Write the number of the column, counted from 1, or the words at its head.",
        "column: Themp 1",
        "column: Temp 1",
    ),
    Code(
        "reading-columns",
        _E,
        "A row of readings has more or fewer temperatures than the entry has probes.",
        "Write a value for each probe, in their order, and `-` where one was not read.",
        "4:30  565 °C  flames (with two probes)",
        "4:30  565 °C  -  flames",
    ),
    Code(
        "reading-file",
        _E,
        "The readings file cannot be read as a table of times and temperatures.",
        "Save it as CSV or plain text, and keep it below 5 MB.",
    ),
    Code(
        "reading-impossible",
        _E,
        "A temperature that nobody can have read off a wood fire.",
        "Look for a digit too many or another unit.",
        "4:30  5650 °C",
        "4:30  565 °C",
    ),
    Code(
        "reading-lit",
        _E,
        "The moment of lighting cannot be found among the readings, so no time could count from it.",
        "Correct `lit` under `readings`, or mark the row with the word `lit`.",
    ),
    Code(
        "reading-none",
        _E,
        "The readings hold no row with a time and a temperature.",
        "Write at least one row, or leave `readings` out.",
    ),
    Code(
        "reading-refused",
        _W,
        "A reading stands for no temperature by what the entry says of the thermometer: millivolts without the warmth "
        "of the terminals, say, or a spot thermometer that saw less than the surroundings alone would show.",
        "Complete or correct the fields of the probe; the reading is left out until then.",
        "{name: wall, type: K}, 4:30  23.5 mV",
        "{name: wall, type: K, cold_junction: 20 °C}, 4:30  23.5 mV",
    ),
    Code(
        "reading-time",
        _E,
        "A time of the readings cannot be read, or can be read in two ways.",
        "Write minutes and seconds, or a clock time, and say which under `readings`.",
        "4.30  565 °C",
        "4:30  565 °C",
    ),
    Code(
        "reading-unit",
        _E,
        "The unit that the entry gives for a probe is not the one that stands at the head of its column.",
        "Keep the one that is right.",
    ),
    Code(
        "reading-value",
        _E,
        "A reading is not a temperature.",
        "Write a number with its unit, or `-` where there was no reading.",
        "4:30  5b5 °C",
        "4:30  565 °C",
    ),
    # intake: what is handed over as a zip file or a table
    *INTAKE_CODES,
    # sources: other groups' published data
    *SOURCE_CODES,
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
    """Make a Problem with its severity from the list of codes. Raises KeyError for an unknown code (a bug).

    What it repeats of an entry is shown without characters that cannot be seen: they could turn a page's text around.
    """
    return Problem(place, _visible(field), code, CODES[code].severity, _visible(message), _visible(help))


def _visible(text: str) -> str:
    if text.isprintable():
        return text
    return "".join(letter if letter.isprintable() or letter in _JOINERS else "�" for letter in text)


_JOINERS = "\u200c\u200d"
"""Invisible letters that several scripts and emoji need."""
