"""libyaml's complaints in plain words, each at the line where the mend belongs, with the mend in the writer's words."""

from __future__ import annotations

import re
from dataclasses import dataclass

import yaml


@dataclass(frozen=True, slots=True)
class YamlFault:
    """Why a text cannot be read as YAML. Line and column are counted from 0."""

    line: int
    column: int
    message: str
    help: str


def plain_fault(error: yaml.MarkedYAMLError, lines: list[str]) -> YamlFault:
    """Put one complaint in plain words."""
    mark = error.problem_mark or error.context_mark
    if mark is None:
        return YamlFault(0, 0, "YAML cannot read this.", "Compare it with the example in the README.")
    complaint = _Complaint(str(error.problem or error.context or ""), mark.line, mark.column, lines)
    start = error.context_mark
    if start is not None:
        complaint.start_line, complaint.start_column = start.line, start.column
    fault = next((say(complaint) for fragment, say in _SAYINGS if fragment in complaint.what), None)
    if fault is None:
        message = f"YAML cannot read this line ({complaint.what})."
        fault = complaint.here(message, "Compare the line with the example in the README.")
    return fault if fault.line < len(lines) and lines[fault.line].strip() else _unfinished(complaint)


@dataclass(slots=True)
class _Complaint:
    """What libyaml said, where it gave up, and where it had begun the thing it was reading."""

    what: str
    line: int
    column: int
    lines: list[str]
    start_line: int = 0
    start_column: int = 0

    @property
    def text(self) -> str:
        return self.lines[self.line] if self.line < len(self.lines) else ""

    @property
    def start_text(self) -> str:
        return self.lines[self.start_line] if self.start_line < len(self.lines) else ""

    @property
    def before(self) -> str:
        """The line above with anything in it."""
        return next((line for line in reversed(self.lines[: self.line]) if line.strip()), "")

    def here(self, message: str, help_: str) -> YamlFault:
        return YamlFault(self.line, self.column, message, help_)

    def at_start(self, message: str, help_: str) -> YamlFault:
        return YamlFault(self.start_line, self.start_column, message, help_)


def quoted(line: str) -> str:
    """Return a line with its value in quotes.

    >>> quoted("title: Third attempt: the jar")
    'title: "Third attempt: the jar"'
    """
    dash, _, rest = line.strip().rpartition("- ") if line.strip().startswith("- ") else ("", "", line.strip())
    key, colon, value = rest.partition(":")
    inner = (value if colon else rest).strip()
    mark = "'" if '"' in inner or "\\" in inner else '"'
    inner = inner.replace("'", "''") if mark == "'" else inner
    return f"{dash}{key}: {mark}{inner}{mark}" if colon else f"{mark}{inner}{mark}"


_TAB = ("A tab stands where YAML wants spaces.", "Indent with spaces, two for each step.")
_NOT_LEVEL = "This line is not level with its neighbours."
_LEVEL = "Begin it in the same column as the other keys of its group."
_SIGN = "The value begins with a sign that YAML keeps for itself."


def _colon(complaint: _Complaint) -> YamlFault:
    """A colon where no key can be: a second one in the line, or the first in a line that continues another."""
    text = complaint.text
    keys = re.match(r"\s*(?:- +)*[^\s:]+ *", text)
    if keys is None or complaint.column > keys.end():
        message = "A colon followed by a space stands inside a value, so this reads as two keys in one line."
        return complaint.here(message, f"Put the value in quotes: `{quoted(text)}`.")
    if re.match(r"\s*-[^\s-]", complaint.before) and complaint.before.strip()[1:].partition(":")[1]:
        return _no_space_after_dash(complaint)
    if ":" not in complaint.before:
        name, _, rest = complaint.before.strip().partition(" ")
        line = complaint.lines.index(complaint.before)
        message = "A key stands here without its colon."
        return YamlFault(line, 0, message, f"Write `{name}: {rest}`." if rest else f"Write `{name}:`.")
    if not text.startswith((" ", "-")):
        return _no_space(complaint.lines.index(complaint.before), complaint.before)
    column = len(complaint.before) - len(complaint.before.lstrip(" -"))
    message = "This line stands further in than the one above, so YAML takes it for more of that value."
    key = text.strip().partition(":")[0]
    return YamlFault(complaint.line, len(text) - len(text.lstrip()), message, f"Begin `{key}` in column {column + 1}.")


def _no_space(number: int, line: str) -> YamlFault:
    key, _, value = line.strip().partition(":")
    column = len(line) - len(line.lstrip())
    message = f"No space follows the colon of `{key}`, so YAML takes all of the line for one value."
    return YamlFault(number, column, message, f"Write `{key}: {value.strip()}`.")


def _no_space_after_dash(complaint: _Complaint) -> YamlFault:
    line = complaint.lines.index(complaint.before)
    mended = complaint.before.strip().replace("-", "- ", 1)
    column = len(complaint.before) - len(complaint.before.lstrip())
    return YamlFault(line, column, "No space follows the hyphen, so it begins no item of a list.", f"Write `{mended}`.")


def _no_key(complaint: _Complaint) -> YamlFault:
    """Something where the next key should begin: words after a closed quote or bracket, or a line out of level."""
    before = complaint.text[: complaint.column].rstrip()
    if before.endswith(('"', "'")):
        message = "The quotation marks close before the value ends."
        if complaint.text.count("'") > complaint.text.count('"'):
            message = "An apostrophe closes the quotation before the value ends."
        return complaint.here(message, f"Put all of it in quotes: `{quoted(_unquoted(complaint.text))}`.")
    if before.endswith(("]", "}")):
        return complaint.here("Words follow a closed bracket.", f"Put all of it in quotes: `{quoted(complaint.text)}`.")
    return _not_level(complaint)


def _not_level(complaint: _Complaint) -> YamlFault:
    return _reading_out(complaint, complaint.line) or complaint.here(_NOT_LEVEL, _LEVEL)


def _reading_out(complaint: _Complaint, line: int) -> YamlFault | None:
    """Tell of a line of readings that stands too far left for its block."""
    text = complaint.lines[line] if line < len(complaint.lines) else ""
    if not re.match(r"\s*[0-9]{1,3}:[0-9]{2}", text):
        return None
    message = "This reading stands too far left for the block under `rows: |`."
    column = len(text) - len(text.lstrip())
    return YamlFault(line, column, message, "Begin it in the same column as the readings above it.")


def _unquoted(line: str) -> str:
    """Take the marks away that begin and end a value, where they enclose all of it."""
    key, colon, value = line.partition(":")
    value = value.strip()
    if len(value) > 1 and value[0] == value[-1] == "'":
        value = value[1:-1]
    return f"{key}{colon} {value}"


def _open_bracket(complaint: _Complaint) -> YamlFault:
    opened = complaint.start_text[complaint.start_column : complaint.start_column + 1]
    closing = {"[": "]", "{": "}"}.get(opened, "]")
    value = complaint.text[: complaint.column].rstrip()
    if complaint.line == complaint.start_line and value.endswith(('"', "'")):
        return complaint.here(
            "The quotation marks close before the value ends.", "Put the whole value in one pair of quotes."
        )
    if complaint.line == complaint.start_line and complaint.text[complaint.column : complaint.column + 1] == ":":
        message = "A colon followed by a space stands inside a value, so this reads as two keys in one."
        return complaint.here(message, "Put that value in quotes.")
    message = f"The `{opened}` that opens here is not closed, or a comma is missing after it."
    if complaint.line > complaint.start_line:
        mended = complaint.start_text.strip().rstrip(",") + closing
        return complaint.at_start(message, f"Close it: `{mended}`, with a comma between each two.")
    return complaint.at_start(message, f"Put a comma between each two and `{closing}` after the last.")


def _no_colon(complaint: _Complaint) -> YamlFault:
    name, _, rest = complaint.start_text.strip().partition(" ")
    reading = _reading_out(complaint, complaint.start_line)
    if reading is not None:
        return reading
    if ":" in name:
        return _no_space(complaint.start_line, complaint.start_text)
    message = "A key stands here without its colon."
    return complaint.at_start(message, f"Write `{name}: {rest}`." if rest else f"Write `{name}:` with its value.")


def _open_quote(complaint: _Complaint) -> YamlFault:
    mark = complaint.start_text[complaint.start_column : complaint.start_column + 1]
    message = f"The quotation mark `{mark}` that opens here is never closed."
    return complaint.at_start(message, f"Close it: `{complaint.start_text.strip()}{mark}`.")


def _unfinished(complaint: _Complaint) -> YamlFault:
    """The text ends inside something: a bracket that opens in its last line, say."""
    numbers = [number for number, line in enumerate(complaint.lines) if line.strip()]
    last = numbers[-1] if numbers else 0
    message = "Something that begins here is not finished when the front matter ends."
    return YamlFault(last, 0, message, "Close every bracket and quotation mark, or take the line away.")


def _sign(complaint: _Complaint) -> YamlFault:
    text = complaint.text
    if "\t" in text[: complaint.column + 1]:
        return complaint.here(*_TAB)
    return complaint.here(_SIGN, f"Put the value in quotes: `{quoted(text)}`.")


def _anchor(complaint: _Complaint) -> YamlFault:
    return complaint.at_start(_SIGN, f"Put the value in quotes: `{quoted(complaint.start_text)}`.")


def _document(complaint: _Complaint) -> YamlFault:
    for number in range(min(complaint.line, len(complaint.lines) - 1), -1, -1):
        if complaint.lines[number].startswith("..."):
            return YamlFault(number, 0, "A line of `...` ends the front matter before its end.", "Take it away.")
    line = next((number for number, text in enumerate(complaint.lines) if text.startswith("%")), complaint.line)
    return YamlFault(line, 0, "A line that begins with `%` is a command to YAML.", "Take the line away.")


_SAYINGS = (
    ("tab character", lambda complaint: complaint.here(*_TAB)),
    ("mapping values are not allowed", _colon),
    ("could not find expected ':'", _no_colon),
    ("end of stream", _open_quote),
    ("cannot start any token", _sign),
    ("did not find expected ',' or", _open_bracket),
    ("expected comment or line break", _anchor),
    ("expected alphabetic or numeric", _anchor),
    ("did not find expected node content", _sign),
    ("are not allowed in this context", _sign),
    ("document start", _document),
    ("did not find expected key", _no_key),
    ("'-' indicator", _not_level),
    ("unknown escape", lambda complaint: complaint.here(
        "A backslash in quotes begins a code, and this is none.", "Take the quotes away, or use single ones.")),
)  # fmt: skip
"""What to say by a fragment of libyaml's words; the first that fits."""
