"""`ashbook build`: the site, from the archive in this folder."""

from __future__ import annotations

import argparse
import sys
from pathlib import Path

from builder.asked import Built, Options
from builder.base.problem import has_errors
from builder.commands.progress import StagedProgress
from builder.commands.report import report, summary
from builder.commands.troubles import in_words
from builder.publish.errors import PublishError
from builder.renew import renew

OUT = Path("site")


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Say what the command can be told."""
    parser.add_argument("--out", type=Path, metavar="DIR", help="where the site goes (default: site, in the project)")
    parser.add_argument("--offline", action="store_true", help="for a folder or a memory stick, without a web host")
    parser.add_argument("--strict", action="store_true", help="publish nothing while an entry has an error")
    parser.add_argument("--jobs", type=_jobs, metavar="N", help="how many processes (default: all cores)")


def _jobs(text: str) -> int:
    if not text.isdecimal() or not 1 <= int(text) <= 256:
        raise argparse.ArgumentTypeError(f"`{text}` is not a number from 1 to 256")
    return int(text)


def run(args: argparse.Namespace) -> int:
    """Build the site and say what came of it."""
    out = args.out or args.project / OUT
    options = Options(args.project, out.absolute(), args.offline, args.strict, args.jobs)
    progress = StagedProgress()
    try:
        built = renew(options, progress)
    except PublishError as error:
        progress.close()
        print(f"The site was not published: {error}", file=sys.stderr)
        return 1
    except OSError as error:
        progress.close()
        print(f"The site was not published; the last good one is as it was. {in_words(error)}", file=sys.stderr)
        return 1
    progress.close()
    return tell(built, options)


def tell(built: Built, options: Options) -> int:
    """Print the problems, then one sentence; return the exit code."""
    drawn = report(built.problems, options.project, "text")
    if drawn:
        print(drawn)
    print(summary(built.problems, built.entries), file=sys.stderr)
    if built.published is None:
        print("Nothing was published; the last good site is as it was.", file=sys.stderr)
        return 1
    left = built.entries - built.published
    left_words = f" {left} left out; the site's About page names them." if left else ""
    print(f"{counted(built.published)} published in {shown(options.out)}.{left_words}", file=sys.stderr)
    print(f"Open {shown(options.out / 'index.html')} in a browser.", file=sys.stderr)
    return 1 if has_errors(built.problems) else 0


def counted(firings: int) -> str:
    """Say a number of firings."""
    return "1 firing" if firings == 1 else f"{firings} firings"


def shown(path: Path) -> str:
    """Show a path as short as can be from here."""
    try:
        return str(path.relative_to(Path.cwd()))
    except ValueError:
        return str(path)
