"""Find the entries: one folder a firing under content/firings/, with entry.md in it."""

from __future__ import annotations

import os
import re
import stat
import unicodedata
from dataclasses import dataclass
from pathlib import Path

from builder.base.codes import problem
from builder.base.problem import Place, Problem

FIRINGS = Path("content") / "firings"
"""Where the entries lie, from the project's folder."""
ENTRY = "entry.md"
SLUG = re.compile(r"[0-9]{4}-[0-9]{2}-[0-9]{2}-[a-z0-9]+(-[a-z0-9]+)*\Z")
"""The form of a folder's name. It is also an address on the web, so it keeps to plain letters."""
MAX_SLUG = 80
JOINT = "--"
"""Stands between the key of a source and a word of its group: no key and no slug holds two hyphens in a row, so that
words of two groups never meet."""


@dataclass(frozen=True, slots=True)
class EntryFile:
    """Where one entry lies."""

    slug: str
    """Name of the folder."""
    folder: Path
    path: Path
    """The entry's own file."""
    file: str
    """The same as it is told to people: from the project's folder, with forward slashes."""
    source: str = ""
    """Key of the source whose published entry this is; empty for one of the archive's own. The slug then begins so."""

    @property
    def own_name(self) -> str:
        """Name of the folder that the entry has in its own group's archive."""
        return self.slug.partition(JOINT)[2] if self.source else self.slug


def find_entries(project: Path) -> tuple[tuple[EntryFile, ...], tuple[Problem, ...]]:
    """List the entries of an archive in the order of their folders' names, and what is wrong with the folders."""
    root = project / FIRINGS
    if root.is_symlink() or root.parent.is_symlink():
        return (), (_linked(Place(_shown(root, project))),)
    if not root.is_dir():
        return (), ()
    entries: list[EntryFile] = []
    problems: list[Problem] = []
    shown = _shown(root, project)
    for item in sorted(os.scandir(root), key=lambda item: item.name):
        if item.name.startswith("."):
            continue
        folder = root / item.name
        found = _plain_entry(item, folder, shown) or entry_at(folder, project)
        if isinstance(found, Problem):
            problems.append(found)
        else:
            entries.append(found)
    return tuple(entries), tuple(problems)


def _plain_entry(item: os.DirEntry[str], folder: Path, root: str) -> EntryFile | None:
    """Take one folder for an entry by two looks at the disk; None where that does not settle it."""
    if not SLUG.match(item.name) or len(item.name) > MAX_SLUG or not item.is_dir(follow_symlinks=False):
        return None
    path = folder / ENTRY
    try:
        plain = stat.S_ISREG(os.lstat(path).st_mode)
    except OSError:
        return None
    return EntryFile(item.name, folder, path, f"{root}/{item.name}/{ENTRY}") if plain else None


def entry_at(folder: Path, project: Path) -> EntryFile | Problem:
    """Take one folder for an entry, or say why it is none."""
    shown = _shown(folder, project)
    here = Place(shown)
    if folder.is_symlink() or (folder / ENTRY).is_symlink():
        return _linked(here)
    if not folder.exists():
        return problem("entry-missing", here, "", "There is nothing here.", "Look whether the path is right.")
    if not folder.is_dir():
        return problem(
            "stray-file",
            here,
            "",
            f"`{_printable(folder.name)}` lies beside the firings' folders and is not read.",
            f"Put it into a folder of its own as `{suggest_slug(folder.stem)}/{ENTRY}`, or take it away.",
        )
    if not SLUG.match(folder.name) or len(folder.name) > MAX_SLUG:
        return problem(
            "folder-name",
            here,
            "",
            f"`{_printable(folder.name)}` is also the firing's address; it is a date, then plain lower-case words.",
            f"Name the folder `{suggest_slug(folder.name)}`.",
        )
    if not (folder / ENTRY).is_file():
        others = [path.name for path in sorted(folder.iterdir()) if path.suffix.lower() in (".md", ".markdown", ".txt")]
        rename = f"Rename `{_printable(others[0])}` to `{ENTRY}`." if others else f"Write `{ENTRY}` in this folder."
        return problem("entry-missing", here, "", f"This folder has no `{ENTRY}`.", rename)
    return EntryFile(folder.name, folder, folder / ENTRY, f"{shown}/{ENTRY}")


def _linked(place: Place) -> Problem:
    return problem(
        "file-link",
        place,
        "",
        "This is a link to somewhere else; an archive keeps its own copy of everything.",
        "Copy the folder or the file itself here.",
    )


def suggest_slug(name: str) -> str:
    """Make a folder's name out of any words: `2026-05-02 Blasser Krug!` gives `2026-05-02-blasser-krug`."""
    words = suggest_words(name)
    if not re.match(r"\d{4}-\d{2}-\d{2}(-|\Z)", words):
        words = f"2026-01-31-{words}"
    if re.fullmatch(r"\d{4}-\d{2}-\d{2}-?", words):
        words = f"{words.rstrip('-')}-firing"
    return words[:MAX_SLUG].rstrip("-")


def suggest_words(name: str) -> str:
    """Make a word for an address out of any words: `Blasser Krug!` gives `blasser-krug`; empty where none is left."""
    plain = unicodedata.normalize("NFKD", name).encode("ascii", "ignore").decode().lower()
    return re.sub(r"[^a-z0-9]+", "-", plain).strip("-")


def _shown(path: Path, project: Path) -> str:
    try:
        shown = path.relative_to(project)
    except ValueError:
        shown = path
    return _printable(shown.as_posix())


def _printable(name: str) -> str:
    """Show any file name without control characters or broken encodings."""
    return "".join(letter if letter.isprintable() else "�" for letter in name)
