"""An entry's file to its front matter, with places, and its story.

Splitting is strict: whatever a phone does to the two lines of `---` is either read through or a problem with a
place; it never ends in "no front matter" without a word. The rest goes through python-frontmatter with a handler
of our own, which hands the YAML to `located_yaml` so that every value keeps its line and column.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from pathlib import Path

import frontmatter
from frontmatter.default_handlers import BaseHandler

from builder.base.codes import problem
from builder.base.located_yaml import Mapping, Node, compose
from builder.base.own_file import open_own
from builder.base.problem import Place, Problem
from builder.entries.fields import FIELDS
from builder.entries.find import EntryFile

MAX_BYTES = 1_000_000
"""Largest entry file: a story of 150,000 words. Photos and long logs have files of their own."""

_FENCE = re.compile(r"---\s*\Z")
_BLANK = r"\s\u00ad\u200b-\u200f\u2060-\u2064\ufeff"
"""Blanks of every kind, and characters that cannot be seen at all."""
_LIKE_A_FENCE = re.compile(rf"[{_BLANK}]*[\"'`]?(?:[-‐-―−⸺⸻﹘﹣－][{_BLANK}]*)+[\"'`]?\Z")
"""A line of nothing but dashes of any kind: what a phone makes of `---`."""
_LIKE_A_FIELD = re.compile(r"[ \t]|#|-[ \t]|[\w-]+[ \t]*:|[\]}]|\Z")
"""How a line of front matter begins: indented, a comment, a list's item, or a key."""
_SENTENCE = re.compile(r"(?:\S+\s+){4}|.*[.!?…][\"'”)]*\s*\Z")
"""A line of a story: more than four words, or an end that a key without its colon would not have."""
_FIELD_NAMES = frozenset(field.name for field in FIELDS)


@dataclass(frozen=True, slots=True)
class ParsedEntry:
    """An entry's file taken apart."""

    root: Mapping | None
    """The front matter; None where it could not be read (then `problems` says why)."""
    story: str
    """The Markdown after it."""
    problems: tuple[Problem, ...]
    text: str
    """The whole text with line ends made plain, for showing a problem's line."""


@dataclass(frozen=True, slots=True)
class _Fences:
    """Where the front matter lies, as indexes of lines."""

    opening: int
    closing: int
    """One past the last line where there is no closing line."""
    resume: int
    """Where the story begins."""


class _LocatedHandler(BaseHandler):
    """Hands front matter whose place is known already to the YAML reader that keeps places."""

    FM_BOUNDARY = re.compile(r"^---$", re.MULTILINE)

    def __init__(self, file: str, lines: list[str], fences: _Fences) -> None:
        super().__init__()
        self.file = file
        self.lines = lines
        self.fences = fences
        self.problems: tuple[Problem, ...] = ()

    def split(self, text: str) -> tuple[str, str]:
        """Return the front matter and the story; the fences are known, so `text` need not be searched again."""
        inside = self.lines[self.fences.opening + 1 : self.fences.closing]
        return "\n".join(inside) + "\n", "\n".join(self.lines[self.fences.resume :])

    def load(self, fm: str) -> dict[str, Node | None]:
        """Compose the YAML to nodes with places."""
        node, self.problems = compose(fm, self.file, self.fences.opening + 1, mend=True)
        return {"root": node}


def read_entry(entry: EntryFile) -> ParsedEntry:
    """Read one entry's file to located values and its story, collecting every problem on the way."""
    text, refused = read_text(entry.path, entry.file)
    if refused:
        return ParsedEntry(None, "", (refused,), "")
    return parse_entry(text, entry.file)


def parse_entry(text: str, file: str) -> ParsedEntry:
    """Take an entry's text apart."""
    lines = text.split("\n")
    fences, problems = _find_fences(lines, file)
    if fences is None:
        return ParsedEntry(None, "", problems, text)
    handler = _LocatedHandler(file, lines, fences)
    metadata, story = frontmatter.parse(text, handler=handler)
    problems += handler.problems
    root = metadata["root"]
    if isinstance(root, Mapping):
        return ParsedEntry(root, story, problems, text)
    if not any(found.severity == "error" for found in problems):
        problems += (_not_fields(Place(file, fences.opening + 1, 1)),)
    return ParsedEntry(None, story, problems, text)


def read_text(path: Path, file: str) -> tuple[str, Problem | None]:
    """Read a text file as UTF-8, without its byte-order mark and with plain line ends; or say why not."""
    try:
        with open_own(path) as stream:
            raw = stream.read(MAX_BYTES + 1)
    except OSError as error:
        return "", problem(
            "file-unreadable",
            Place(file),
            "",
            f"The file cannot be read: {error.strerror or error}.",
            "Look at its permissions, or copy it again.",
        )
    if len(raw) > MAX_BYTES:
        return "", problem(
            "file-too-large",
            Place(file),
            "",
            f"The file is larger than {MAX_BYTES // 1000:,} kB.",
            "Put readings and photos into files of their own beside the entry.",
        )
    try:
        text = raw.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        line = raw.count(b"\n", 0, error.start) + 1
        return "", problem(
            "file-encoding",
            Place(file, line),
            "",
            "The file is not UTF-8 text: a letter here cannot be read.",
            "Save it again as UTF-8 (in most editors: Save as, Encoding, UTF-8).",
        )
    return text.replace("\r\n", "\n").replace("\r", "\n"), None


def _find_fences(lines: list[str], file: str) -> tuple[_Fences | None, tuple[Problem, ...]]:
    opening = next((index for index, line in enumerate(lines) if line.strip()), None)
    if opening is None:
        return None, (
            problem(
                "entry-empty",
                Place(file),
                "",
                "The entry is empty.",
                "Begin with a line of `---`; `ashbook start` writes a first entry to fill in.",
            ),
        )
    problems: list[Problem] = []
    if not _FENCE.match(lines[opening]):
        if not _LIKE_A_FENCE.match(lines[opening]):
            return None, (_no_front_matter(lines[opening], Place(file, opening + 1, 1)),)
        problems.append(_wrong_dash(lines[opening], Place(file, opening + 1, 1), "open"))
    below = range(opening + 1, len(lines))
    # A line that is empty or indented closes nothing, and nothing in it says that the story has begun.
    flush = [index for index in below if lines[index] and lines[index][0] not in " \t"]
    closing = next((index for index in flush if _FENCE.match(lines[index])), None)
    margin = _indent(lines[opening])
    alike = next(
        (
            index
            for index in (below if margin else flush)
            if (closing is None or index < closing)
            and _LIKE_A_FENCE.match(lines[index])
            and _indent(lines[index]) <= margin
        ),
        None,
    )
    end = next((index for index in flush if not _LIKE_A_FIELD.match(lines[index])), len(lines))
    if closing is not None and _is_story(lines[end:closing]):
        closing = None
    elif alike is not None and lines[alike].strip() != "-":
        problems.append(_wrong_dash(lines[alike], Place(file, alike + 1, 1), "close"))
        closing = alike
    if closing is not None:
        return _Fences(opening, closing, closing + 1), tuple(problems)
    while end > opening + 1 and not lines[end - 1].strip():
        end -= 1
    problems.append(
        problem(
            "front-matter-open",
            Place(file, min(end + 1, len(lines)), 1),
            "",
            f"The front matter that begins in line {opening + 1} is never closed.",
            f"Put a line of `---` after line {end}, before the story.",
        )
    )
    return _Fences(opening, end, end), tuple(problems)


def _indent(line: str) -> int:
    return len(line) - len(line.lstrip(" \t"))


def _is_story(lines: list[str]) -> bool:
    """Tell whether lines before a `---` are a story with a rule drawn below it, and not fields that it closes."""
    if not lines or any(line.strip() and _LIKE_A_FIELD.match(line) for line in lines):
        return False
    word = re.match(r"\w*", lines[0])
    return bool(_SENTENCE.match(lines[0])) and (word is None or word.group().casefold() not in _FIELD_NAMES)


def _wrong_dash(line: str, place: Place, role: str) -> Problem:
    if re.sub(f"[{_BLANK}]", "", line) == "---":
        return problem(
            "front-matter-dash",
            place,
            "",
            f"Blanks, or characters that cannot be seen, stand about the hyphens that {role} the front matter.",
            "Delete the line and type `---` anew, at its very beginning.",
        )
    return problem(
        "front-matter-dash",
        place,
        "",
        f"The line that {role}s the front matter is `{line.strip()[:40]}`; it must be three plain hyphens.",
        "Write `---` with nothing else in the line. Phones join hyphens to a long dash: turn off smart punctuation.",
    )


def _no_front_matter(line: str, place: Place) -> Problem:
    start = line.strip()[:40]
    return problem(
        "front-matter-missing",
        place,
        "",
        f"The entry begins with `{start}` and not with its front matter.",
        "Put a line of `---` first, then `title:`, `date:`, `potter:`, `method:` and `pieces:`, then `---` again.",
    )


def _not_fields(place: Place) -> Problem:
    return problem(
        "front-matter-empty",
        place,
        "",
        "There are no fields between the two lines of `---`.",
        "Write `title:`, `date:`, `potter:`, `method:` and `pieces:`, a line each.",
    )
