"""`ashbook check`: every problem of every entry in one run."""

from __future__ import annotations

import argparse
import sys
import tempfile
from pathlib import Path

from builder.base.problem import Problem, has_errors
from builder.checks.check import check_all_addresses
from builder.checks.unnamed import unnamed_in_pages
from builder.commands.progress import Progress
from builder.commands.report import FORMATS, report, summary
from builder.entries.find import FIRINGS, EntryFile, entry_at, find_entries
from builder.examine import check_all
from builder.settings_file import load_settings
from builder.sources.joining import join
from builder.whole import read_prose


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Say what the command can be told."""
    parser.add_argument("paths", nargs="*", type=Path, metavar="PATH", help="entries or folders (default: all)")
    parser.add_argument("--format", choices=FORMATS, default="text", help="how problems are drawn (default: text)")


def run(args: argparse.Namespace) -> int:
    """Check entries and print their problems."""
    settings, problems = load_settings(args.project)
    entries: tuple[EntryFile, ...] = ()
    if settings is not None:
        entries, found = _entries(args.paths, args.project)
        with tempfile.TemporaryDirectory(prefix="ashbook-check-") as aside:
            if not args.paths:
                joined = join(settings, args.project, Path(aside) / "sources")
                settings, entries = joined.settings, (*entries, *joined.entries)
                found = (*found, *joined.problems, *unnamed_in_pages(read_prose(args.project), settings))
            problems += (*found, *check_all_addresses(entries))
            with Progress("Checking", len(entries)) as progress:
                for several in check_all(entries, settings):
                    problems += several
                    progress.step()
    drawn = report(problems, args.project, args.format)
    if drawn:
        print(drawn)
    print(summary(problems, len(entries)), file=sys.stderr)
    return 1 if has_errors(problems) else 0


def _entries(paths: list[Path], project: Path) -> tuple[tuple[EntryFile, ...], tuple[Problem, ...]]:
    """Find the entries that were asked for: an entry's file, its folder, or a folder of such folders."""
    if not paths:
        return find_entries(project)
    entries: dict[str, EntryFile] = {}
    problems: list[Problem] = []
    for path in paths:
        for folder in _folders(path, project):
            found = entry_at(folder, project)
            if isinstance(found, Problem):
                problems.append(found)
            else:
                entries[found.file] = found
    return tuple(entries.values()), tuple(problems)


def _folders(path: Path, project: Path) -> list[Path]:
    """Return the firings' folders that a path stands for; a path is looked for here, then in the project."""
    here = path if path.exists() else project / path
    here = here.absolute()
    if here.name == "entry.md":
        return [here.parent]
    if here in (project, project / FIRINGS.parent):
        here = project / FIRINGS
    if here.is_dir() and not (here / "entry.md").is_file():
        return sorted(item for item in here.iterdir() if not item.name.startswith("."))
    return [here]
