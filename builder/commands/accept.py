"""`ashbook accept`: submissions from the write-up page, checked and then laid into content/firings/."""

from __future__ import annotations

import argparse
import sys
from dataclasses import dataclass, field
from pathlib import Path

from builder.base.codes import problem
from builder.base.problem import Place, Problem, has_errors
from builder.checks.firing import Piece
from builder.commands.report import plain, report
from builder.entries.find import FIRINGS
from builder.intake.laying import Ready, aside, examine_aside, is_there, lay, named_files, taken
from builder.intake.unpacking import unpack
from builder.publish.errors import OutputRefused
from builder.settings import Settings
from builder.settings_file import load_settings


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Say what the command can be told."""
    parser.add_argument("paths", nargs="+", type=Path, metavar="FILE.zip", help="zip files, or folders of such files")
    parser.add_argument("--dry-run", action="store_true", help="say what would be added, and write nothing")


@dataclass(slots=True)
class _Run:
    """One call of the command."""

    project: Path
    settings: Settings
    dry: bool
    added: list[str] = field(default_factory=list)
    """Slugs, in their order."""
    same: int = 0
    """Submissions that had been taken in before, the same to the byte."""

    def accept(self, path: Path, aside_: Path) -> bool:
        """Take in one zip; tell what came of it."""
        print(f"{plain(path.name)}:")
        folder, problems = unpack(path, aside_)
        if folder is None:
            return self.refuse(problems, aside_)
        ready = examine_aside(folder, path.name, self.settings)
        if is_there(ready, self.project):
            print(f"  {(FIRINGS / ready.slug).as_posix()}/ is in the archive already, the same to the byte.")
            self.same += 1
            return True
        there = self.already(ready.slug, path)
        problems = (*ready.problems, *there)
        if ready.firing is None or has_errors(problems):
            return self.refuse(problems, aside_)
        self.tell(problems, aside_)
        self.show(ready)
        if not self.dry:
            lay(ready, self.project)
        self.added.append(ready.slug)
        return True

    def already(self, slug: str, path: Path) -> tuple[Problem, ...]:
        if slug in self.added and self.dry:
            message = f"Another of these submissions would be laid into `{slug}`."
            help_ = f"Rename one of the folders, to `{slug}-2`, say."
            return (problem("firing-exists", Place(path.name), "", message, help_),)
        found = taken(slug, self.project, path.name)
        return () if found is None else (found,)

    def refuse(self, problems: tuple[Problem, ...], aside_: Path) -> bool:
        self.tell(problems, aside_)
        print("  Not taken in; nothing was written.")
        return False

    def tell(self, problems: tuple[Problem, ...], aside_: Path) -> None:
        if problems:
            print(report(problems, aside_.parent, "text"))

    def show(self, ready: Ready) -> None:
        """Say what the archive gains, and leave out what the entry does not name."""
        firing = ready.firing
        if firing is None:
            return
        named = named_files(firing)
        files = sorted(ready.folder.iterdir())
        potter = self.settings.potters[firing.potter].name
        method = self.settings.methods[firing.method].name
        print(f"  {plain(firing.title)}: {firing.date.isoformat()}, {potter}, {method}, {_pieces(firing.pieces)}")
        print(f"  {'would add' if self.dry else 'adds'} {(FIRINGS / ready.slug).as_posix()}/")
        for file in files:
            if file.name in named:
                print(f"    {file.name}  {_size(file.stat().st_size)}")
            else:
                print(f"    (left out: {plain(file.name)}, which the entry does not name)")
                file.unlink()


def run(args: argparse.Namespace) -> int:
    """Take in every zip by itself, then say in one sentence what came of them."""
    settings, problems = load_settings(args.project)
    if settings is None:
        print(report(problems, args.project, "text"))
        return 1
    zips = _zips(args.paths)
    if isinstance(zips, str):
        print(zips, file=sys.stderr)
        return 2
    run_ = _Run(args.project, settings, args.dry_run)
    try:
        good = _all(run_, zips)
    except OutputRefused:
        print("Another `accept`, `import-table` or `start` is at work here; wait until it is done.", file=sys.stderr)
        return 1
    except OSError as error:
        print(f"Stopped by the disk: {error.strerror or error}. No firing was left half written.", file=sys.stderr)
        return 1
    print(_summary(run_, len(zips)), file=sys.stderr)
    return 0 if good == len(zips) else 1


def _all(run_: _Run, zips: list[Path]) -> int:
    good = 0
    with aside(run_.project) as root:
        for number, path in enumerate(zips):
            own = root / str(number) / path.name
            own.mkdir(parents=True)
            good += run_.accept(path, own)
    return good


def _zips(paths: list[Path]) -> list[Path] | str:
    """List the zip files that were named, or say which name leads nowhere."""
    found: list[Path] = []
    for path in paths:
        if path.is_dir():
            inside = sorted(item for item in path.iterdir() if item.suffix.lower() == ".zip" and item.is_file())
            if not inside:
                return f"There is no zip file in {path}."
            found += inside
        elif path.is_file():
            found.append(path)
        else:
            return f"There is no file {path}."
    return found


def _summary(run_: _Run, of: int) -> str:
    good = len(run_.added)
    verb = "could be" if run_.dry else "was" if good == 1 else "were"
    told = f"{good} of {of} {'submission' if of == 1 else 'submissions'} {verb} taken in."
    if run_.same:
        told += f" {run_.same} {'was' if run_.same == 1 else 'were'} there already."
    if run_.dry:
        return f"{told} Nothing was written."
    return f"{told} `ashbook build` publishes {'it' if good == 1 else 'them'}." if good else told


def _pieces(pieces: tuple[Piece, ...]) -> str:
    total = sum(piece.count for piece in pieces)
    return f"{total} {'piece' if total == 1 else 'pieces'}"


def _size(size: int) -> str:
    return f"{size / 1e6:.1f} MB" if size >= 1_000_000 else f"{max(1, round(size / 1000))} kB"
