"""`ashbook forget`: a potter's name, or the name and its entries, leave what is built next."""

from __future__ import annotations

import argparse
import filecmp
import shutil
import sys
from collections.abc import Iterable
from pathlib import Path

from builder.asked import WORK
from builder.checks.words import nearest
from builder.commands.all_or_nothing import carry_out, finish, is_unfinished
from builder.commands.build_command import shown
from builder.commands.forgetting import CannotForget, Plan, plan
from builder.commands.report import plain, report
from builder.commands.workplace import emptied
from builder.entries.find import EntryFile
from builder.publish.errors import OutputRefused
from builder.publish.swap import locked
from builder.settings import NOBODY, Potter, Settings
from builder.settings_file import SETTINGS_FILE, load_settings

AS = "a potter of the group"


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Say what the command can be told."""
    parser.add_argument("potter", help="the word under `potters` in site_config.yml, or the name")
    parser.add_argument("--as", dest="name", default=AS, metavar="NAME", help=f"what stands instead (default: {AS})")
    parser.add_argument("--entries", action="store_true", help="the potter's entries leave too")
    parser.add_argument("--to", type=Path, metavar="DIR", help="where the entries go, outside the archive")
    parser.add_argument("--yes", action="store_true", help="do not ask; with --entries and no --to, delete them")


def run(args: argparse.Namespace) -> int:
    """Show what would change, ask, and change all of it or nothing."""
    if is_unfinished(args.project):
        finish(args.project)
        print("An earlier `forget` had been cut off; it is finished now.")
    settings, problems = load_settings(args.project)
    if settings is None:
        print(report(problems, args.project, "text"))
        return 1
    potter = _potter(args.potter, settings)
    refused = potter if isinstance(potter, str) else _refusal(args)
    if isinstance(potter, str) or refused:
        print(refused, file=sys.stderr)
        return 2
    try:
        planned = plan(args.project, settings, potter, " ".join(args.name.split()), args.entries)
        _refuse_taken(planned.gone, args.to)
    except CannotForget as error:
        print(error, file=sys.stderr)
        return 1
    _show(planned, potter, args)
    if not args.yes and not _agreed():
        print("Nothing was changed.", file=sys.stderr)
        return 2
    return _do(planned, args)


def _potter(word: str, settings: Settings) -> Potter | str:
    """Find the potter who is meant, by word or by name, or say that there is none."""
    for potter in settings.potters.values():
        if word.casefold() in (potter.key.casefold(), potter.name.casefold()):
            return potter
    for key, name in settings.unnamed.items():
        if word.casefold() in (key.casefold(), name.casefold()):
            return Potter(key, name or key, shown=NOBODY)
    near = nearest(word, settings.potters)
    hint = f"Did you mean `{near}`?" if near else f"There are: {', '.join(settings.potters)}."
    return f"There is no potter `{plain(word)}` in {SETTINGS_FILE}. {hint}"


def _refusal(args: argparse.Namespace) -> str:
    if not args.name.strip() or not args.name.isprintable():
        return "`--as` needs words."
    if args.to and not args.entries:
        return "`--to` goes with `--entries`."
    if args.entries and not args.to and not args.yes:
        return "Say where the entries go with `--to DIR`, or add `--yes` to delete them."
    if args.to and (args.to.resolve() == args.project or args.project in args.to.resolve().parents):
        return f"{shown(args.to)} lies in the archive; name a folder outside it."
    if args.to and args.to.exists() and not args.to.is_dir():
        return f"{shown(args.to)} is no folder."
    return ""


def _refuse_taken(gone: Iterable[EntryFile], to: Path | None) -> None:
    for entry in gone:
        if to is not None and (to / entry.slug).exists() and not _is_copy(to / entry.slug, entry.folder):
            raise CannotForget(f"There is a folder {shown(to / entry.slug)} already; name another place.")


def _show(planned: Plan, potter: Potter, args: argparse.Namespace) -> None:
    print(f"{potter.name} (`{potter.key}`) leaves the archive:")
    for path in planned.writes:
        print(f"  changes {path.relative_to(args.project).as_posix()}")
    for entry in planned.gone:
        print(f"  {f'moves to {shown(args.to)}:' if args.to else 'deletes'} {entry.file.rpartition('/')[0]}")
    if planned.key:
        print(f"  In place of the name stands `{args.name}`, and `{planned.key}` in entries and addresses.")
    if planned.mentions:
        print("These places speak of the name in somebody's own words. They are not changed; look at each:")
        for mention in planned.mentions:
            place = f"{mention.file}:{mention.line}" if mention.line else mention.file
            print(f"  {plain(place)}: {plain(mention.text)[:100]}")


def _agreed() -> bool:
    return sys.stdin.isatty() and input("Change all this? (yes or no): ").strip().casefold() in ("yes", "y")


def _do(planned: Plan, args: argparse.Namespace) -> int:
    copied: list[Path] = []
    _clear_kept(args.project / WORK)
    try:
        if args.to:
            _copy(planned.gone, args.to, copied)
        carry_out(args.project, planned.writes, [entry.folder for entry in planned.gone])
    except OSError as error:
        if is_unfinished(args.project):
            print(f"Cut off by the disk: {error.strerror or error}. Call `forget` again to finish.", file=sys.stderr)
            return 1
        for folder in copied:
            shutil.rmtree(folder, ignore_errors=True)
        print(f"Nothing was changed: {error.strerror or error}.", file=sys.stderr)
        return 1
    print("Done. `ashbook build` makes the site anew without the name; until then the old site stands as it is.")
    print("What was published or handed on before keeps it: copies, packed sites, search engines, and the history of a")
    print("repository, which only its keeper can rewrite.")
    return 0


def _clear_kept(work: Path) -> None:
    """Throw away what is kept between builds: it holds the name too, and can be made again."""
    try:
        with locked(work):
            pass
    except OutputRefused:
        print(f"A build is at work just now. When it has ended, delete {shown(work)}, which holds the name too.")
    else:
        shutil.rmtree(work, ignore_errors=True)


def _copy(entries: Iterable[EntryFile], to: Path, copied: list[Path]) -> None:
    """Copy the entries out, each whole or not at all, before anything is taken away; a killed call may have begun."""
    to.mkdir(parents=True, exist_ok=True)
    with emptied(to / ".ashbook-leaving") as aside:
        for entry in entries:
            if not (to / entry.slug).exists():
                ready = aside / entry.slug
                shutil.copytree(entry.folder, ready, symlinks=True)
                copied.append(ready.rename(to / entry.slug))


def _is_copy(folder: Path, of: Path) -> bool:
    """Tell whether two folders hold the same files with the same bytes, and nothing else."""
    one, other = (sorted(path.relative_to(root) for path in root.rglob("*")) for root in (folder, of))
    files = [name for name in one if (folder / name).is_file()]
    return one == other and not any(filecmp.cmpfiles(folder, of, files, shallow=False)[1:])
