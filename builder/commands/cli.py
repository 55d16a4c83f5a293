"""The command line: which command, in which project; what it exits with."""

from __future__ import annotations

import argparse
import sys
from collections.abc import Sequence
from importlib.metadata import version
from pathlib import Path

from builder.commands import build_command, check, explain, preview, start

GOOD, PROBLEMS, MISUSE = 0, 1, 2
"""Exit codes: all good; problems found; called wrongly."""


def main(argv: Sequence[str] | None = None) -> int:
    """Run one command and return its exit code."""
    _speak_utf8()
    parser = _parser()
    args = parser.parse_args(argv)
    if not hasattr(args, "run"):
        parser.print_help()
        return MISUSE
    if not args.project.is_dir():
        print(f"There is no folder {args.project}.", file=sys.stderr)
        return MISUSE
    args.project = args.project.resolve()
    try:
        return int(args.run(args))
    except KeyboardInterrupt:
        print("\nStopped.", file=sys.stderr)
        return 130
    except BrokenPipeError:
        sys.stderr.close()
        return PROBLEMS


def _speak_utf8() -> None:
    """Write degree signs on every terminal, or a stand-in where the terminal cannot."""
    for stream in (sys.stdout, sys.stderr):
        if hasattr(stream, "reconfigure"):
            stream.reconfigure(encoding="utf-8", errors="replace")


def _parser() -> argparse.ArgumentParser:
    parser = argparse.ArgumentParser(
        prog="ashbook",
        description="Write up, check, measure, compare and publish a study group's wood firings.",
    )
    parser.add_argument("--version", action="version", version=f"ashbook {version('ashbook')}")
    parser.add_argument(
        "--project", type=Path, default=Path(), metavar="DIR", help="the archive's folder (default: here)"
    )
    commands = parser.add_subparsers(title="commands", metavar="COMMAND")
    for command in (start, check, build_command, preview, explain):
        command.add_to(commands)
    for name in commands.choices:
        # `ashbook check --project DIR` works as well as `ashbook --project DIR check`.
        commands.choices[name].add_argument(
            "--project", type=Path, default=argparse.SUPPRESS, metavar="DIR", help=argparse.SUPPRESS
        )
    return parser
