"""The command line: which command, in which project; what it exits with."""

from __future__ import annotations

import argparse
import importlib
import sys
from collections.abc import Sequence
from pathlib import Path

from builder.commands.all_or_nothing import clear_done, is_unfinished
from builder.commands.troubles import in_words

GOOD, PROBLEMS, MISUSE = 0, 1, 2
"""Exit codes: all good; problems found; called wrongly."""

COMMANDS = {
    "start": ("start", "a new entry, asked for or from options"),
    "check": ("check", "find every problem of every entry in one run"),
    "build": ("build_command", "build the site"),
    "accept": ("accept", "take in submissions from the write-up page"),
    "import-table": ("import_table", "write entries from a table of old notes"),
    "preview": ("preview", "build, show in a browser on this machine, build again on save"),
    "pack": ("pack", "the site as one zip file, for a memory stick"),
    "new-group": ("new_group", "begin an archive of your own in an empty folder"),
    "forget": ("forget", "take a potter's name, or name and entries, out of the archive"),
    "explain": ("explain", "what a problem means and how to mend it"),
}
"""Each command with its file in this folder, which is read only when it is called, and what it does."""


def main(argv: Sequence[str] | None = None) -> int:
    """Run one command and return its exit code."""
    _speak_utf8()
    parser = _parser()
    called = parser.parse_args(argv)
    if called.version:
        print(f"ashbook {_version()}")
        return GOOD
    if called.command is None:
        parser.print_help()
        return MISUSE
    file, does = COMMANDS[called.command]
    command = importlib.import_module(f"builder.commands.{file}")
    own = argparse.ArgumentParser(prog=f"ashbook {called.command}", description=f"{does[0].upper()}{does[1:]}.")
    own.add_argument("--project", type=Path, default=called.project, metavar="DIR", help="the archive's folder")
    command.add_arguments(own)
    args = own.parse_args(called.rest)
    if not args.project.is_dir():
        print(f"There is no folder {args.project}.", file=sys.stderr)
        return MISUSE
    args.project = args.project.resolve()
    if is_unfinished(args.project) and called.command != "forget":
        print("A `forget` was cut off in this archive. Call it again first: it finishes by itself.", file=sys.stderr)
        return PROBLEMS
    try:
        clear_done(args.project)
        return int(command.run(args))
    except (KeyboardInterrupt, EOFError):
        print("\nStopped.", file=sys.stderr)
        return 130
    except BrokenPipeError:
        sys.stderr.close()
        return PROBLEMS
    except OSError as error:
        print(f"Stopped: {in_words(error)}", file=sys.stderr)
        return PROBLEMS


def _speak_utf8() -> None:
    """Write degree signs on every terminal, or a stand-in where the terminal cannot."""
    for stream in (sys.stdout, sys.stderr):
        if hasattr(stream, "reconfigure"):
            stream.reconfigure(encoding="utf-8", errors="replace")


def _version() -> str:
    from importlib.metadata import version  # a tenth of the time that a build of nothing takes

    return version("ashbook")


def _parser() -> argparse.ArgumentParser:
    listed = "\n".join(f"  {name:<12} {does}" for name, (_, does) in COMMANDS.items())
    parser = argparse.ArgumentParser(
        prog="ashbook",
        description="Write up, check, measure, compare and publish a study group's wood firings.",
        epilog=f"commands:\n{listed}\n\n`ashbook COMMAND --help` says what a command can be told.",
        formatter_class=argparse.RawDescriptionHelpFormatter,
    )
    parser.add_argument("--version", action="store_true", help="say which version this is")
    parser.add_argument(
        "--project", type=Path, default=Path(), metavar="DIR", help="the archive's folder (default: here)"
    )
    parser.add_argument("command", nargs="?", choices=tuple(COMMANDS), metavar="COMMAND")
    parser.add_argument("rest", nargs=argparse.REMAINDER, help=argparse.SUPPRESS)
    return parser
