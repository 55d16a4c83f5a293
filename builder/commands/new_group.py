"""`ashbook new-group`: an archive of one's own in an empty folder, which passes `check` and `build` at once."""

from __future__ import annotations

import argparse
import sys
from pathlib import Path

from builder.commands.build_command import shown
from builder.commands.workplace import clear, emptied
from builder.entries.compose import yaml_words
from builder.entries.find import ENTRY, FIRINGS

FILES = {
    "site_config.yml": Path("site_config.yml"),
    "about.md": Path("content") / "pages" / "about.md",
    "cautions.md": Path("content") / "pages" / "cautions.md",
    "example.md": FIRINGS / "2026-05-02-an-example" / ENTRY,
    "gitignore": Path(".gitignore"),
    "editor.json": Path(".vscode") / "settings.json",
    "archive.yml": Path(".github") / "workflows" / "archive.yml",
    "README.md": Path("README.md"),
}
"""Each file of `new_group_files/` with its place in the new archive."""
UNFINISHED = ".ashbook-new"
"""Ends the name of the hidden folder in which the archive is made ready."""
_TEMPLATES = Path(__file__).parent / "new_group_files"
_NAMED = ("site_config.yml", "README.md")
"""Files that hold the group's name."""


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Say what the command can be told."""
    parser.add_argument("folder", type=Path, metavar="DIR", help="an empty folder, or one that is not there yet")
    parser.add_argument("--name", default="Our fire group", help="the group's name (default: Our fire group)")
    parser.add_argument("--title", default="", help="the title of its site (default: the name)")


def run(args: argparse.Namespace) -> int:
    """Write the new archive, or refuse a folder that has something in it."""
    folder = args.folder.absolute()
    name, title = _one_line(args.name), _one_line(args.title or args.name)
    if not name:
        print("The group needs a name of words.", file=sys.stderr)
        return 2
    beside = folder.with_name(f".{folder.name}{UNFINISHED}")
    clear(beside)
    if not _free(folder):
        print(
            f"{shown(folder)} is not an empty folder; name one that is, or one that is not there yet.", file=sys.stderr
        )
        return 2
    folder.parent.mkdir(parents=True, exist_ok=True)
    if folder.exists():
        with emptied(folder / UNFINISHED) as aside:
            _write(aside, name, title)
            _move_in(aside, folder)
    else:
        with emptied(beside) as aside:
            _write(aside / "new", name, title)
            (aside / "new").rename(folder)
    print(f"Written: an archive in {shown(folder)}.")
    print(f"Begin with {shown(folder / 'site_config.yml')}; its README.md says the rest. To see it now:")
    print(f"  ashbook --project {shown(folder)} build")
    return 0


def _one_line(text: str) -> str:
    return " ".join("".join(letter if letter.isprintable() else " " for letter in text).split())


def _write(new: Path, name: str, title: str) -> None:
    for template, place in FILES.items():
        text = (_TEMPLATES / template).read_text(encoding="utf-8")
        if template in _NAMED:
            write = yaml_words if template.endswith(".yml") else str
            text = text.replace("{group}", write(name)).replace("{title}", write(title))
        target = new / place
        target.parent.mkdir(parents=True, exist_ok=True)
        target.write_text(text, encoding="utf-8", newline="\n")


def _free(folder: Path) -> bool:
    """Tell whether a folder is not there yet, or empty, or holds nothing but what a killed run began to put there."""
    if not folder.exists() and not folder.is_symlink():
        return True
    if folder.is_symlink() or not folder.is_dir():
        return False
    inside = {path for path in folder.rglob("*") if not path.is_dir() or path.is_symlink()}
    if not (folder / UNFINISHED).is_dir():
        return not any(folder.iterdir())
    begun = {path for path in inside if UNFINISHED not in path.relative_to(folder).parts}
    return begun <= {folder / place for place in FILES.values()}


def _move_in(new: Path, folder: Path) -> None:
    """Put the finished archive into a folder that is there, file by file; while `new` lies in it, this is not done."""
    for place in FILES.values():
        (folder / place).parent.mkdir(parents=True, exist_ok=True)
        (new / place).replace(folder / place)
