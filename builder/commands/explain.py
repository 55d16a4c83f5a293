"""`ashbook explain CODE`: what a problem means and how to mend it."""

from __future__ import annotations

import argparse
import difflib
import sys
import textwrap

from builder.base.codes import CODES, Code


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Say what the command can be told."""
    parser.add_argument("code", nargs="?", help="the code in brackets after `error`; none lists all codes")


def run(args: argparse.Namespace) -> int:
    """Print one code's meaning, or the list of codes."""
    if args.code is None:
        width = max(map(len, CODES))
        for code in sorted(CODES.values(), key=lambda code: code.name):
            print(f"{code.name:<{width}}  {code.severity:<7}  {code.meaning}")
        return 0
    found = CODES.get(args.code.strip("[]").lower())
    if found is None:
        close = difflib.get_close_matches(args.code, CODES, 1)
        hint = f"Did you mean `{close[0]}`?" if close else "`ashbook explain` lists all codes."
        print(f"There is no code `{args.code}`. {hint}", file=sys.stderr)
        return 2
    print(_explained(found))
    return 0


def _explained(code: Code) -> str:
    parts = [f"{code.name} ({code.severity})", textwrap.fill(code.meaning, 90), textwrap.fill(code.mend, 90)]
    if code.wrong:
        parts.append("Not so:\n" + textwrap.indent(code.wrong, "    "))
    if code.right:
        parts.append("But so:\n" + textwrap.indent(code.right, "    "))
    return "\n\n".join(parts)
