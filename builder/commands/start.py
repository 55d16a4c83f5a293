"""`ashbook start`: a new entry's folder, asked for or from options; it passes `check` at once."""

from __future__ import annotations

import argparse
import shutil
import sys
from dataclasses import replace
from datetime import date
from pathlib import Path

from builder.base.problem import Problem
from builder.commands.around_readings import UNITS, Found, Wire, look_into
from builder.commands.asking import Ask, ask_one_of, ask_words
from builder.commands.report import report
from builder.entries.compose import FirstLines, entry_text
from builder.entries.fields import SURVIVAL
from builder.entries.find import FIRINGS, entry_at, suggest_slug
from builder.examine import check_all
from builder.intake.laying import aside
from builder.publish.errors import OutputRefused
from builder.readings.thermocouple_types import REFERENCE_FUNCTIONS
from builder.settings import Settings
from builder.settings_file import load_settings

REQUIRED = ("title", "potter", "method")


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Say what the command can be told."""
    parser.add_argument("--title", help="as you would say it to a friend")
    parser.add_argument("--date", metavar="YYYY-MM-DD", help="the day of the main fire (default: today)")
    parser.add_argument("--potter", help="a name under `potters` in site_config.yml")
    parser.add_argument("--method", help="a method in site_config.yml")
    parser.add_argument("--place", default="", help="in words, as coarse as the group's rule")
    parser.add_argument("--ware", default="", help="in the same words each time")
    parser.add_argument("--piece", action="append", metavar="NAME=SURVIVAL", help="`jar=sound`; once for each piece")
    parser.add_argument("--readings", type=Path, metavar="FILE", help="a log to copy beside the entry")
    parser.add_argument(
        "--lit", metavar="TIME", help="when the main fire was lit, on the log's own clock; `no`: at its first reading"
    )
    parser.add_argument("--unit", choices=UNITS, help="unit of the log's numbers, where the log does not say it")
    parser.add_argument("--type", choices=tuple(REFERENCE_FUNCTIONS), help="the thermocouple, for a log in millivolts")
    parser.add_argument(
        "--cold-junction", metavar="TEMPERATURE", help="how warm the meter's terminals were, for a log in millivolts"
    )


def run(args: argparse.Namespace) -> int:
    """Write a new entry, or say what is missing."""
    settings, problems = load_settings(args.project)
    if settings is None:
        print(report(problems, args.project, "text"))
        return 1
    missing = [f"--{name}" for name in (*REQUIRED, "piece") if not getattr(args, name)]
    if missing and not sys.stdin.isatty():
        print(f"Nobody is here to be asked; give {', '.join(missing)}.", file=sys.stderr)
        return 2
    found = look_into(args.readings, args.unit, Wire(args.type, args.cold_junction)) if args.readings else None
    if isinstance(found, str):
        print(found, file=sys.stderr)
        return 2
    if found:
        print(found.told)
        found = replace(found, lines=_from_lighting(found, args.lit))
    first = _first_lines(args, settings, found, input)
    if isinstance(first, str):
        print(first, file=sys.stderr)
        return 2
    return _write(first, args, settings)


def _from_lighting(found: Found, given: str | None) -> tuple[str, ...]:
    """Let times count from the lighting that was given, or from the one that was found where the potter agrees."""
    if given:
        return found.lines if given == "no" else found.from_lighting(given)
    if found.lit is None:
        return found.lines
    if not sys.stdin.isatty():
        print(f"If the main fire was lit then, add `--lit {found.lit}`; times count from the first reading now.")
        return found.lines
    agreed = ask_one_of(input, f"Was the main fire lit at {found.lit}?", ("yes", "no"))
    return found.from_lighting(found.lit) if agreed == "yes" else found.lines


def _first_lines(args: argparse.Namespace, settings: Settings, found: Found | None, ask: Ask) -> FirstLines | str:
    pieces = _pieces(args.piece or [], settings)
    if isinstance(pieces, str):
        return pieces
    return FirstLines(
        title=args.title or ask_words(ask, "Title"),
        date=args.date or (found.date if found and found.date else date.today().isoformat()),  # noqa: DTZ011
        potter=args.potter or ask_one_of(ask, "Potter", tuple(settings.potters)),
        method=args.method or ask_one_of(ask, "Method", tuple(settings.methods)),
        pieces=pieces or _ask_pieces(ask, settings),
        place=args.place,
        ware=args.ware,
        readings=found.lines if found else (),
    )


def _survivals(settings: Settings) -> tuple[str, ...]:
    return (*SURVIVAL, *settings.words.get("pieces.survival", ()))


def _pieces(given: list[str], settings: Settings) -> tuple[tuple[str, str], ...] | str:
    """Part `jar=sound` into name and survival, or say what is wrong with it."""
    pieces = []
    for text in given:
        name, sign, survival = (part.strip() for part in text.rpartition("="))
        if not (name and sign and survival in _survivals(settings)):
            return f"`--piece {text}` is not of the form NAME=SURVIVAL, with one of: {', '.join(_survivals(settings))}."
        pieces.append((name, survival))
    return tuple(pieces)


def _ask_pieces(ask: Ask, settings: Settings) -> tuple[tuple[str, str], ...]:
    pieces: list[tuple[str, str]] = []
    while True:
        name = (
            ask_words(ask, "Piece, by name")
            if not pieces
            else " ".join(ask("One more piece (Enter for none): ").split())
        )
        if not name:
            return tuple(pieces)
        pieces.append((name, ask_one_of(ask, f"How did {name} come through?", _survivals(settings))))


def _write(first: FirstLines, args: argparse.Namespace, settings: Settings) -> int:
    """Write the entry aside, check it, and move it into place; nothing half written is left behind."""
    root = args.project / FIRINGS
    folder = root / suggest_slug(f"{first.date} {first.title}")
    if folder.exists():
        print(f"There is a firing in {folder.relative_to(args.project)} already; give another title.", file=sys.stderr)
        return 2
    try:
        return _write_aside(first, folder, args, settings)
    except OutputRefused:
        print("Another `start`, `accept` or `import-table` is at work here; wait until it is done.", file=sys.stderr)
        return 1


def _write_aside(first: FirstLines, folder: Path, args: argparse.Namespace, settings: Settings) -> int:
    with aside(args.project) as place:
        new = place / folder.name
        new.mkdir()
        (new / "entry.md").write_text(entry_text(first), encoding="utf-8")
        if args.readings:
            shutil.copyfile(args.readings, new / args.readings.name)
        problems = _problems(new, settings)
        if problems:
            print(report(problems, place, "text"))
            print("Nothing was written.", file=sys.stderr)
            return 1
        new.rename(folder)
    print(f"Written: {(folder / 'entry.md').relative_to(args.project)}")
    print("Open it and fill in what you know; `ashbook check` says whether it is sound.")
    return 0


def _problems(folder: Path, settings: Settings) -> tuple[Problem, ...]:
    """Check an entry that lies aside, by the name that it would have."""
    entry = entry_at(folder, folder.parent)
    if isinstance(entry, Problem):
        return (entry,)
    return next(check_all([entry], settings))
