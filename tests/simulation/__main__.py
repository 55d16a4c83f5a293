"""`python -m tests.simulation archive|coverage [words]`: the long form of a simulation, printed. Never fails."""

from __future__ import annotations

import sys
from collections.abc import Callable, Mapping, Sequence

from tests.simulation import archive_simulation
from tests.simulation.coverage import counted, in_words, pooled

DEFAULT_FIRINGS = 2000
USAGE = """\
Write `python -m tests.simulation coverage`, and after it how many firings of each kind; or
`python -m tests.simulation archive`, and after it `short` for a quick one."""


def _coverage(words: Sequence[str]) -> None:
    firings = int(words[0]) if words else DEFAULT_FIRINGS
    counts = counted(firings)
    for name, of_figures in counts.items():
        print(in_words(name, of_figures))
    print(in_words("all thermometers together", pooled(counts)))


SIMULATIONS: Mapping[str, Callable[[Sequence[str]], None]] = {
    "archive": archive_simulation.main,
    "coverage": _coverage,
}
"""By the word that asks for it."""


def main(words: list[str]) -> int:
    """Run the simulation that the first word names; further words go to it."""
    if not words or words[0] not in SIMULATIONS:
        print(USAGE)
        return 2
    SIMULATIONS[words[0]](words[1:])
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
