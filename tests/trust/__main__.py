"""`python -m tests.trust [minutes]` tries at length what CI tries briefly; `python -m tests.trust report` notes it.

The time is shared out between entries, logs and quantities spoilt at random, the schema against the checks, and kills.
Beside them, in a process of its own, every attack is opened in every place; that takes as long as it takes, five
minutes of two free cores. `report` also writes its table into DEVELOPERS.md.
"""

from __future__ import annotations

import re
import sys
import tempfile
from pathlib import Path

from tests.trust.trials import tried

PROJECT = Path(__file__).parents[2]
_TABLE = re.compile(r"(<!-- trust: begin -->\n).*?(<!-- trust: end -->)", re.DOTALL)


def main(words: list[str]) -> int:
    """Try for so many minutes, print what was tried, and write the table where a report is wanted."""
    report = words[:1] == ["report"]
    minutes = 5.0 if report or not words else float(words[0])
    with tempfile.TemporaryDirectory() as made:
        rows = tried(minutes * 60, Path(made))
    table = "\n".join(["| what was tried | how many | found |", "|---|---|---|", *map(str, rows), ""])
    print(table)
    if report:
        developers = PROJECT / "DEVELOPERS.md"
        text = developers.read_text(encoding="utf-8")
        developers.write_text(_TABLE.sub(lambda found: found[1] + table + found[2], text), encoding="utf-8")
    return 1 if any(row.faults for row in rows) else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
