"""The codes of problems that the checks of an entry's fields find.

`wrong` and `right` are whole fields from the left margin, so that a test can put each into an entry and see that the
first gives the code and the second gives nothing.
"""

from __future__ import annotations

from builder.base.code import Code
from builder.base.problem import Severity

_E, _W = Severity.ERROR, Severity.WARNING

CHECK_CODES: tuple[Code, ...] = (
    # keys
    Code(
        "key-colon", _E,
        "A key and its value run together: YAML wants a colon and then a space between them.",
        "Write `key: value`.",
        "weather: {air:14 °C}", "weather: {air: 14 °C}",
    ),
    Code(
        "misplaced-key", _E,
        "The key is a field of an entry, but it belongs into another group.",
        "Move it to the group that the help names.",
        "wall: 6 mm", "clay: {wall: 6 mm}",
    ),
    Code(
        "required-field", _E,
        "A field that every entry needs is missing or has nothing after its colon.",
        "Write it. Only title, date, potter, method and a piece with its survival are required.",
        "title:", "title: Pale-slipped jar",
    ),
    Code(
        "unknown-key", _E,
        "The key is not a field of an entry. Most often it is misspelt; what it says would be lost.",
        "Correct it, or tell it in the story below the front matter.",
        "wether: {air: 14 °C}", "weather: {air: 14 °C}",
    ),
    # shapes
    Code(
        "group-wanted", _E,
        "The field holds a group of smaller fields, and something else is written there.",
        "Write the fields inside, each with its key.",
        "weather: 14 °C", "weather: {air: 14 °C}",
    ),
    Code(
        "list-wanted", _E,
        "The field holds a list, because there can be several; even a single one begins with a hyphen.",
        "Put `- ` before the first line of each.",
        "pieces: {name: jar, survival: sound}", "pieces:\n  - {name: jar, survival: sound}",
    ),
    Code(
        "one-value-wanted", _E,
        "The field holds one value, and a list or a group is written there.",
        "Write the one value after the colon.",
        "method: [open-fire, trench]", "method: open-fire",
    ),
    Code(
        "rows-block", _E,
        "Readings in the entry are a block: `rows: |`, then a reading a line; without the `|` they run together.",
        "Write `rows: |` and begin each reading on a line of its own.",
        "readings:\n  time: elapsed\n  rows:\n    0:00 14 °C\n    2:00 210 °C",
        "readings:\n  time: elapsed\n  rows: |\n    0:00 14 °C\n    2:00 210 °C",
    ),
    Code(
        "too-many", _E,
        "A list is longer than any firing needs.",
        "Split the entry, or give readings as a file.",
    ),
    # single values
    Code(
        "clock-form", _E,
        "A time of day is written hours:minutes on the 24-hour clock, so that it cannot be misread.",
        "Write it like `16:05`.",
        "lit: 4 pm", "lit: 16:00",
    ),
    Code(
        "count-form", _E,
        "A count is a whole number in figures.",
        "Write the figures alone.",
        "pieces:\n  - {name: tile, count: four, survival: sound}",
        "pieces:\n  - {name: tile, count: 4, survival: sound}",
    ),
    Code(
        "curly-quotes", _E,
        "Curly quotation marks are letters to YAML, and so became part of the value. Phones write them by themselves.",
        "Leave them out, or use straight ones.",
        "clay: {wall: “6 mm”}", "clay: {wall: 6 mm}",
    ),
    Code(
        "date-calendar", _E,
        "The calendar has no such day.",
        "Write the day of the fire.",
        "date: 2024-02-31", "date: 2024-02-29",
    ),
    Code(
        "date-folder", _W,
        "The date in the entry is not the date in its folder's name; one of them was copied from another firing.",
        "Put the right one in both places.",
    ),
    Code(
        "date-form", _E,
        "A date is year-month-day: `02/05/2026` is a day in May to some and in February to others.",
        "Write it like `2026-05-02`.",
        "date: 02/05/2026", "date: 2026-05-02",
    ),
    Code(
        "hidden-character", _E,
        "A character that cannot be seen stands in the text; some turn the text around, others make equal words "
        "unequal. Such characters come along when text is pasted.",
        "Delete the value and type it again.",
        'place: "Alder\\u202eFen"', "place: Alder Fen",
    ),
    Code(
        "impossible", _E,
        "The value lies outside what can be; most often the unit is another, or a figure is missing or doubled.",
        "Look at the number and its unit again.",
        "clay: {wall: 60 cm}", "clay: {wall: 6 mm}",
    ),
    Code(
        "licence", _E,
        "A licence is named by its SPDX id, so that programs and archives know which one it is.",
        "Write the id, or leave it out: the group's own licence then holds.",
        "licence: CC BY", "licence: CC-BY-4.0",
    ),
    Code(
        "munsell", _E,
        "A colour is written in Munsell's notation: hue, value, a slash, chroma; greys are N and a value.",
        "Read it from the chart, or put a colour in words into `remark`.",
        "pieces:\n  - {name: jar, survival: sound, colour: pale buff}",
        "pieces:\n  - {name: jar, survival: sound, colour: 10YR 8/2}",
    ),
    Code(
        "not-listed", _E,
        "The field takes a word from a list, so that firings can be compared; this word is not on it.",
        "Take a word from the list. The group can add words, potters and methods in site_config.yml.",
        "pieces:\n  - {name: jar, survival: souned}",
        "pieces:\n  - {name: jar, survival: sound}",
    ),
    Code(
        "not-recorded", _E,
        "What was not recorded is left out; a word like `unknown` would be counted as a value of its own.",
        "Take the field away.",
        "clay: {wall: unknown}", "clay: {body: red river clay}",
    ),
    Code(
        "too-long", _E,
        "A text is longer than its place on the page allows.",
        "Shorten it, and tell the rest in the story.",
    ),
    Code(
        "unlikely", _W,
        "The value lies outside what is usual. It is published as it stands; somebody should look.",
        "If it is right, leave it.",
        "clay: {wall: 1/16 in}", "clay: {wall: 1/4 in}",
    ),
    # files beside the entry
    Code(
        "file-empty", _E,
        "A file that the entry names has nothing in it; often a copy that did not finish.",
        "Copy it again.",
    ),
    Code(
        "file-kind", _E,
        "A file is of a kind that the archive does not take.",
        "Save pictures as JPEG, PNG or WebP, readings as CSV or text.",
    ),
    Code(
        "file-missing", _E,
        "A file that the entry names does not lie beside it. Capital and small letters count.",
        "Put it into the entry's folder, or correct its name.",
        "photos:\n  - {file: drawn.jpg, alt: The jar just drawn}", "",
    ),
    Code(
        "file-name", _E,
        "A file's name holds signs that not every system takes, or codes that could stand for others.",
        "Rename it with letters, figures and hyphens.",
        "photos:\n  - {file: drawn%20jar.jpg, alt: The jar just drawn}", "",
    ),
    Code(
        "file-outside", _E,
        "The entry names a file that is not in its own folder; an archive must not publish what lies elsewhere.",
        "Copy the file beside the entry and write its name alone.",
        "photos:\n  - {file: ../drawn.jpg, alt: The jar just drawn}", "",
    ),
    Code(
        "file-twice", _E,
        "Two photos have one name, apart from their ending, so one would overwrite the other.",
        "Take one away, or rename it.",
    ),
    Code(
        "picture", _E,
        "A picture cannot be used: it is damaged, too large, or not what its name says.",
        "Save it again as JPEG, PNG or WebP.",
    ),
    Code(
        "place-exact", _E,
        "The place is given by coordinates, a grid, a code or a map's address: nearer than this archive publishes.",
        "Write it in words, as coarse as the group's rule.",
        'place: "Alder Fen, 52.41237 N 0.11984 E"', "place: Alder Fen",
    ),
    # fields against one another
    Code(
        "calibration-points", _E,
        "The points of a calibration do not make a line: they stand too close together, or the line would turn a "
        "thermometer upside down.",
        "Write points that lie far apart, as in melting ice and in boiling water, or one point alone as an offset.",
        "readings:\n  time: elapsed\n  probes:\n    - name: wall\n      calibrated: [{shown: 99 °C, known: 98 °C}, "
        "{shown: 100 °C, known: 97 °C}]\n  rows: |\n    0:00 14 °C",
        "readings:\n  time: elapsed\n  probes:\n    - name: wall\n      calibrated: [{shown: 1 °C, known: 0 °C}, "
        "{shown: 100 °C, known: 98 °C}]\n  rows: |\n    0:00 14 °C",
    ),
    Code(
        "cone-unknown", _W,
        "A witness cone's number is not one of those with a published column.",
        "Correct the number: the soft ones begin with a nought, from 022 to 01, the harder ones do not.",
        "witness: {cones_down: [22]}", "witness: {cones_down: [022]}",
    ),
    Code(
        "cones-contradict", _W,
        "A cone that stood softens before one that went down, or one cone did both; a mix-up, or cones in two places.",
        "Look at both lists again; where the cones stood apart, tell it in the story.",
        "witness: {cones_down: [016], cones_standing: [018]}", "witness: {cones_down: [018], cones_standing: [016]}",
    ),
    Code(
        "address-twice", _E,
        "Two entries have one address on the site; the names of their folders differ at most in capitals or accents.",
        "Rename one of the folders.",
    ),
    Code(
        "name-told", _W,
        "The words of an entry or a page, or a folder's name, tell of a potter who is shown as nobody.",
        "Say it without the name and the word that entries use for them, or let that potter choose another way.",
    ),
    Code(
        "marks-order", _E,
        "Clay shrinks, in drying and in the fire: a later distance between the marks cannot be the greater one.",
        "Look whether two of them changed places.",
        "pieces:\n  - {name: jar, survival: sound, marks: {wet: 93 mm, fired: 100 mm}}",
        "pieces:\n  - {name: jar, survival: sound, marks: {wet: 100 mm, fired: 93 mm}}",
    ),
    Code(
        "paint-none", _W,
        "The entry says that its ware has no paint, and how a paint fared.",
        "Take one of the two away; a piece without paint has `paint: none`.",
        "surface: {paint: none}\npieces:\n  - {name: jar, survival: sound, paint: held}",
        "surface: {paint: plant}\npieces:\n  - {name: jar, survival: sound, paint: held}",
    ),
    Code(
        "probe-column", _E,
        "A readings file with several probes must say which column is whose.",
        "Give each probe its `column`: its number from 1, or the words at its head.",
    ),
    Code(
        "probe-contradiction", _W,
        "A field belongs to another kind of thermometer than the probe's own; it is not used.",
        "Take the field away, or correct the instrument.",
        "readings:\n  time: elapsed\n  probes:\n    - {name: wall, instrument: thermocouple, emissivity: 0.9}\n"
        "  rows: |\n    0:00 14 °C\n    2:00 210 °C",
        "readings:\n  time: elapsed\n  probes:\n    - {name: wall, instrument: spot thermometer, emissivity: 0.9}\n"
        "  rows: |\n    0:00 14 °C\n    2:00 210 °C",
    ),
    Code(
        "probe-twice", _E,
        "Two probes have one name, so nobody could tell their curves apart.",
        "Give each its own name.",
        "readings:\n  time: elapsed\n  probes:\n    - {name: wall}\n    - {name: wall}\n"
        "  rows: |\n    0:00 14 °C 15 °C\n    2:00 210 °C 250 °C",
        "readings:\n  time: elapsed\n  probes:\n    - {name: wall}\n    - {name: ground}\n"
        "  rows: |\n    0:00 14 °C 15 °C\n    2:00 210 °C 250 °C",
    ),
    Code(
        "probe-type", _E,
        "Millivolts become degrees only by the thermocouple's type.",
        "Add the letter of the type: `type: K`.",
    ),
    Code(
        "readings-missing", _E,
        "`readings` names thermometers or times, and no readings.",
        "Add `rows: |` with the readings or `file:` with their file, or take `readings` away.",
        "readings:\n  time: elapsed",
        "readings:\n  time: elapsed\n  rows: |\n    0:00 14 °C\n    2:00 210 °C",
    ),
    Code(
        "rows-and-file", _E,
        "The readings stand in the entry and in a file; only one of them can count.",
        "Keep `rows` or `file`.",
    ),
    Code(
        "time-kind", _E,
        "`12:30` is twelve minutes and a half from the start, or half past twelve; the entry must say which.",
        "Add `time: elapsed` or `time: clock`.",
        "readings:\n  rows: |\n    0:00 14 °C\n    2:00 210 °C",
        "readings:\n  time: elapsed\n  rows: |\n    0:00 14 °C\n    2:00 210 °C",
    ),
    Code(
        "ware-probe", _E,
        "`ware_probe` names a probe that is not among the probes.",
        "Write the name of one of them.",
        "readings:\n  time: elapsed\n  ware_probe: jar\n  probes:\n    - {name: wall}\n"
        "  rows: |\n    0:00 14 °C\n    2:00 210 °C",
        "readings:\n  time: elapsed\n  ware_probe: wall\n  probes:\n    - {name: wall}\n"
        "  rows: |\n    0:00 14 °C\n    2:00 210 °C",
    ),
    Code(
        "weighed-order", _E,
        "A soaked pot weighs at least what it weighs dry, and hung in water less than dry.",
        "Look whether two of the weighings changed places.",
        "pieces:\n  - {name: jar, survival: sound, weighed: {dry: 921 g, soaked: 812 g}}",
        "pieces:\n  - {name: jar, survival: sound, weighed: {dry: 812 g, soaked: 921 g}}",
    ),
)  # fmt: skip
"""In the order of the checks: keys, shapes, single values, files, fields against one another."""
