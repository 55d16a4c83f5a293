"""`ashbook import-table`: entries from a table of old notes, one row a firing or a piece."""

from __future__ import annotations

import argparse
import sys
from dataclasses import dataclass, field
from pathlib import Path

from builder.base.codes import problem
from builder.base.problem import Place, Problem, has_errors
from builder.commands.report import plain, report, summary
from builder.commands.workplace import write_whole
from builder.entries.compose import nested_text
from builder.entries.find import ENTRY, FIRINGS, suggest_slug
from builder.intake.laying import aside, examine_aside, lay, taken
from builder.intake.mapping_file import TableMapping, draft, read_mapping
from builder.intake.old_notes import OldFiring, draft_columns, placed, read_firings, undecided
from builder.intake.old_table import SPREADSHEETS, NotATable, OldTable, read_table
from builder.publish.errors import OutputRefused
from builder.settings import Settings
from builder.settings_file import load_settings


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Say what the command can be told."""
    parser.add_argument("table", type=Path, metavar="TABLE.csv", help="CSV, or a spreadsheet as .xlsx")
    parser.add_argument(
        "--mapping", type=Path, metavar="FILE", help="which column is which field (default: TABLE.mapping.yml)"
    )
    parser.add_argument("--sheet", metavar="NAME", help="the sheet of a spreadsheet (default: the first)")
    parser.add_argument("--dry-run", action="store_true", help="tell every row's problems, and write no entry")


@dataclass(slots=True)
class _Run:
    """One call of the command, and what came of its firings."""

    project: Path
    settings: Settings
    mapping: TableMapping
    file: str
    dry: bool
    problems: list[Problem] = field(default_factory=list)
    written: list[str] = field(default_factory=list)
    same: int = 0
    """Firings that are there already, word for word."""
    slugs: set[str] = field(default_factory=set)

    def take(self, firing: OldFiring, folder: Path) -> None:
        """Write one firing aside, check it, and lay it in where it is sound."""
        slug = self.slug(firing)
        new = folder / slug
        new.mkdir()
        text = nested_text(firing.nested(), "\n\n".join(firing.story), _comment(firing, self.file))
        (new / ENTRY).write_text(text, encoding="utf-8")
        ready = examine_aside(new, self.file, self.settings)
        found = (*firing.problems, *placed(ready.problems, firing, self.mapping, self.file))
        there = self.project / FIRINGS / slug / ENTRY
        if there.is_file() and there.read_text(encoding="utf-8", errors="replace") == text:
            self.same += 1
            return
        known = taken(slug, self.project, self.file)
        if known is not None:
            place = Place(self.file, firing.first)
            found = (*found, problem(known.code, place, known.field, known.message, known.help))
        self.problems += found
        if ready.firing is None or has_errors(found):
            return
        if not self.dry:
            lay(ready, self.project)
        self.written.append(slug)

    def slug(self, firing: OldFiring) -> str:
        """Name the firing's folder; a second one of a day with the same title gets a number."""
        first = suggest_slug(firing.name or f"{self.file} {firing.first}")
        slug, number = first, 1
        while slug in self.slugs:
            number += 1
            slug = f"{first[:76]}-{number}"
        self.slugs.add(slug)
        return slug


def _comment(firing: OldFiring, file: str) -> str:
    rows = ", ".join(map(str, firing.rows))
    return plain(f"From {file}, row{'' if len(firing.rows) == 1 else 's'} {rows}.")


def run(args: argparse.Namespace) -> int:
    """Write the mapping file where there is none yet; else follow it."""
    settings, problems = load_settings(args.project)
    if settings is None:
        print(report(problems, args.project, "text"))
        return 1
    if not args.table.is_file():
        print(f"There is no file {args.table}.", file=sys.stderr)
        return 2
    try:
        table = read_table(args.table, args.sheet)
    except NotATable as refused:
        place = Place(args.table.name, refused.line)
        found = problem("table-file", place, "", refused.message, refused.help)
        print(report([found], args.table.parent, "text"))
        return 1
    mapping = args.mapping or args.table.with_name(f"{args.table.stem}.mapping.yml")
    if not mapping.exists():
        return _write_draft(table, mapping, args.table.name, settings)
    return _follow(table, mapping, args, settings)


def _write_draft(table: OldTable, mapping: Path, name: str, settings: Settings) -> int:
    columns, firing = draft_columns(table, settings)
    write_whole(mapping, draft(name, columns, firing).encode())
    for column in columns:
        sure = "" if column.sure else "  (only like it)"
        print(f"  {plain(column.heading)}  ->  {column.meaning.path}{sure}")
    print(f"Written: {mapping}. No entry was written yet.")
    print("Read it through, correct it, and run the same command again, first with --dry-run.")
    return 0


def _follow(table: OldTable, path: Path, args: argparse.Namespace, settings: Settings) -> int:
    mapping, problems = read_mapping(path, table.headings)
    if mapping is None:
        print(report(problems, path.parent, "text"))
        return 1
    run_ = _Run(args.project, settings, mapping, args.table.name, args.dry_run)
    run_.problems += [*problems, *undecided(table, mapping, args.table.name)]
    firings = read_firings(table, mapping, settings, args.table.name)
    try:
        with aside(args.project) as folder:
            for firing in firings:
                run_.take(firing, folder)
    except OutputRefused:
        print("Another `accept`, `import-table` or `start` is at work here; wait until it is done.", file=sys.stderr)
        return 1
    except OSError as error:
        print(f"Stopped by the disk: {error.strerror or error}. No firing was left half written.", file=sys.stderr)
        return 1
    return _tell(run_, len(firings), args.table)


def _tell(run_: _Run, of: int, table: Path) -> int:
    shown_lines = table.parent / "no-lines" if table.suffix.lower() in SPREADSHEETS else table.parent
    if run_.problems:
        print(report(run_.problems, shown_lines, "text"))
        print(summary(run_.problems, of), file=sys.stderr)
    verb = "could be" if run_.dry else "was" if len(run_.written) == 1 else "were"
    same = f" {run_.same} {'was' if run_.same == 1 else 'were'} there already, word for word." if run_.same else ""
    print(f"{len(run_.written)} of {of} firings {verb} written into {FIRINGS.as_posix()}/.{same}", file=sys.stderr)
    return 1 if has_errors(run_.problems) else 0
