"""One run of the fuzzer in a process of its own, which it ends itself; `coverage.py` starts it.

Nothing of the program is imported up here: what is to be watched must be imported under the fuzzer's eyes.
"""

from __future__ import annotations

import importlib
import shlex
import sys
import tempfile
from pathlib import Path

MOST_SECONDS = 5.0
"""Longest for one input: five times what `judging` allows, since counting what is reached slows everything down."""
MOST_BYTES = 4096


def main(options: list[str]) -> int:
    """Run with the fuzzer's own options; 2 where it is not installed."""
    try:
        atheris = importlib.import_module("atheris")
    except ImportError:
        print("atheris is not installed here; `python -m tests.trust` tries without it.", file=sys.stderr)
        return 2
    with atheris.instrument_imports(include=["builder", "frontmatter"]):
        guided = importlib.import_module("tests.trust.guided")
        judging = importlib.import_module("tests.trust.judging")
        settings = importlib.import_module("tests.checks.examples").example_settings()
    with tempfile.TemporaryDirectory() as made:
        folder = judging.make_folder(Path(made))

        def one(data: bytes) -> None:
            seconds = guided.judge_guided(data, folder, settings)
            assert seconds < MOST_SECONDS, f"{seconds:.1f} s"

        # To choose among inputs it starts itself anew by these words, through a shell.
        again = f"{shlex.quote(sys.executable)} -m tests.trust.coverage_run"
        atheris.Setup([again, f"-max_len={MOST_BYTES}", *options], one)
        atheris.Fuzz()
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
