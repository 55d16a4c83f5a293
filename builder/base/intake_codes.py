"""The codes of problems with what is handed over: zip files of single firings, and tables of old notes."""

from __future__ import annotations

from builder.base.code import Code
from builder.base.problem import Severity

_E, _W = Severity.ERROR, Severity.WARNING

INTAKE_CODES: tuple[Code, ...] = (
    # a zip file with one firing
    Code(
        "firing-exists", _E,
        "The archive has a firing of this name already, and nothing is ever written over one.",
        "If it is the same fire, change the entry that is there; if it is another one, rename the folder.",
    ),
    Code(
        "zip-encrypted", _E,
        "A file in the zip is locked with a password, so nobody can see what would be published.",
        "Zip the folder again without a password.",
    ),
    Code(
        "zip-kind", _E,
        "The zip holds a file of a kind that an entry does not have.",
        "Keep `entry.md`, readings as CSV or text, and pictures as JPEG, PNG or WebP.",
        "2026-05-02-pale-jar/readings.xlsx", "2026-05-02-pale-jar/readings.csv",
    ),
    Code(
        "zip-name-twice", _E,
        "Two files in the zip have one name, at most with other capitals or accents; one would overwrite the other.",
        "Rename one of them.",
        "drawn.jpg\nDrawn.jpg", "drawn.jpg\ndrawn-2.jpg",
    ),
    Code(
        "zip-path", _E,
        "A file in the zip would be written somewhere else than into the firing's folder.",
        "Zip the firing's folder again, with plain names.",
        "../../site_config.yml", "2026-05-02-pale-jar/entry.md",
    ),
    Code(
        "zip-shape", _E,
        "The zip is not one firing: it needs one `entry.md`, at its top or in one folder, and its files beside it.",
        "Zip each firing's folder by itself.",
        "may/2026-05-02-pale-jar/entry.md", "2026-05-02-pale-jar/entry.md",
    ),
    Code(
        "zip-special", _E,
        "The zip holds a link, a device or something else that is no plain file.",
        "Put the file itself into the folder, and zip it again.",
    ),
    Code(
        "zip-too-large", _E,
        "The zip holds more files or more bytes than a firing needs, or grows out of all measure when it is unpacked.",
        "Make the pictures smaller, and zip the one firing alone.",
    ),
    Code(
        "zip-unreadable", _E,
        "The file is not a zip, or it is damaged.",
        "Save it from the write-up page again, or zip the folder again.",
    ),
    # a table of old notes
    Code(
        "table-column", _W,
        "A column of the table has no field, so what stands in it is left out.",
        "Give it a field in the mapping file, or `story`, or `leave out`.",
        '"Kiln temp": {field: "?"}', '"Kiln temp": {field: leave out}',
    ),
    Code(
        "table-conflict", _E,
        "Rows of one firing say different things about it.",
        "Correct one of the rows, or name other columns under `firing` in the mapping file.",
    ),
    Code(
        "table-file", _E,
        "The table cannot be read.",
        "Save it as CSV in UTF-8, with the names of the columns in its first row.",
    ),
    Code(
        "table-mapping", _E,
        "The mapping file says something that cannot be followed.",
        "Correct it, or take it away and have it written anew.",
        '"Wind": {field: wether.wind}', '"Wind": {field: weather.wind}',
    ),
)  # fmt: skip
